//! Foods for the list, with the unit that each is usually measured in; what the method speaks of and the list lacks comes first.

use super::super::wording::plural;
use super::{Asked, Proposal, ProposalKind, Proposals, Topic, begun, here::Here, topic::grams_a_cup, units};
use crate::{
    larder::Food,
    measure::{Interval, Unit, UnitKind, print_decimal},
    text::Span,
};

/// As many foods are offered at once.
const MOST: usize = 40;

/// What foods of a kind are usually measured in; the first row that fits counts. Common practice, no source.
const USUAL: &[(&str, Unit)] = &[
    ("leavening", Unit::Teaspoon),
    ("yeast", Unit::Teaspoon),
    ("spice", Unit::Teaspoon),
    ("salt", Unit::Teaspoon),
    ("flavoring", Unit::Teaspoon),
    ("gelling agent", Unit::Teaspoon),
    ("seasoning", Unit::Teaspoon),
    ("herb", Unit::Tablespoon),
    ("butter", Unit::Tablespoon),
    ("oil", Unit::Tablespoon),
    ("vinegar", Unit::Tablespoon),
    ("starch", Unit::Tablespoon),
    ("mustard", Unit::Tablespoon),
    ("condiment", Unit::Tablespoon),
    ("sausage", Unit::Pound),
    ("meat", Unit::Pound),
    ("poultry", Unit::Pound),
    ("fish", Unit::Pound),
    ("seafood", Unit::Pound),
    ("chocolate", Unit::Ounce),
    ("cheese", Unit::Ounce),
    ("pasta", Unit::Ounce),
    ("noodle", Unit::Ounce),
    ("mushroom", Unit::Ounce),
];

/// What stands in a line of the list before the food that is being written.
struct Line<'h> {
    number: Option<Interval>,
    unit: Option<Unit>,
    /// Whether the amount is all there.
    measured: bool,
    /// The beginning of the food.
    food: &'h str,
}

pub fn propose(asked: &Asked<'_>, here: &Here<'_>, out: &mut Proposals) {
    let Some(line) = read(here) else { return };
    if !line.measured {
        out.items.extend(units::propose(asked, here, units::LIST));
    }
    let span = here.typed(line.food);
    let lacking = lacking(asked);
    let lacks = |food: &Food| lacking.contains(&food.name);
    let mut fitting: Vec<(u8, &'static Food, &'static str)> = Vec::new();
    for food in asked.house.larder().foods() {
        if let Some((rank, filter)) = fits(food, line.food, lacks(food)) {
            let unlike = line.unit.is_some_and(|unit| !matches!(usual(food), Usual::Unit(own) if own == unit));
            fitting.push((rank + u8::from(unlike && rank > 0) * 4 + listed(asked, here, food), food, filter));
        }
    }
    fitting.sort_by_key(|(rank, food, filter)| (*rank, filter.len(), food.name));
    out.more |= fitting.len() > MOST || line.food.is_empty();
    for (_, food, filter) in fitting.into_iter().take(MOST) {
        out.items.push(proposal(&line, span, food, filter, lacks(food)));
    }
}

/// Foods that steps use and the list does not have.
fn lacking(asked: &Asked<'_>) -> Vec<&'static str> {
    asked.recipe.flow.unlisted.iter().filter_map(|unlisted| unlisted.food).map(|food| food.name).collect()
}

/// How well a food fits what has been typed, and by which of its names. Where nothing has, only what is lacking is offered.
fn fits(food: &'static Food, typed: &str, lacking: bool) -> Option<(u8, &'static str)> {
    if typed.is_empty() {
        return lacking.then_some((0, food.name));
    }
    let begins = |name: &'static str| begun(name, typed).filter(|filter| filter.len() == name.len());
    // What is called by a single word is what that word usually means: flour.
    let by_word = || food.synonyms.iter().find_map(|name| begins(name).filter(|name| !name.contains(' ')));
    let by_name = begins(food.name).or_else(by_word).map(|name| (1, name));
    let inside = || begun(food.name, typed).map(|rest| (2, rest));
    let other = || food.synonyms.iter().find_map(|name| begins(name)).map(|name| (3, name));
    let (rank, name) = by_name.or_else(inside).or_else(other)?;
    Some((if lacking { 0 } else { rank }, name))
}

/// What is on the list already comes last.
fn listed(asked: &Asked<'_>, here: &Here<'_>, food: &Food) -> u8 {
    let mut others = asked.recipe.ingredients.iter().filter(|line| !line.span.touches(here.offset));
    let same = |own: &Food| own.name == food.name;
    u8::from(others.any(|line| line.names.iter().any(|name| name.food.is_some_and(same)))) * 16
}

/// The line of the list as far as it is written: its number, its unit, its food. Nothing behind a comma or in a note.
fn read<'h>(here: &Here<'h>) -> Option<Line<'h>> {
    let line = here.before.trim_start().trim_start_matches(['-', '•', '*']).trim_start();
    let marked = line.len() < here.before.len();
    // A line without a mark may be a label or a heading; it is an item once something has been typed.
    if !marked && here.word().is_empty() || line.starts_with("stet") {
        return None;
    }
    let behind = line.rfind([')', ']']).map_or(0, |at| at + 1);
    let rest = line.get(behind..)?;
    let amount = rest.char_indices().rev().find(|(_, c)| c.is_numeric()).map(|(at, c)| at + c.len_utf8());
    let words = rest.get(amount.unwrap_or(0)..)?.trim_start();
    if rest.contains([',', ';']) && amount.is_none() || words.contains([',', '(', '[', ';']) || line.contains("[[") {
        return None;
    }
    let unit = words.split_once(' ').filter(|_| amount.is_some());
    let unit = unit.and_then(|(unit, food)| Some((Unit::find(unit)?, food)));
    let food = unit.map_or(words, |(_, food)| food).trim_start();
    let food = food.strip_prefix("of ").unwrap_or(food).trim_start();
    let measured = unit.is_some() || behind > 0;
    let number =
        if amount.is_some() && !measured { Some(here.number().or_else(|| number_before(here, words))?) } else { None };
    Some(Line { number, unit: unit.map(|(unit, _)| unit), measured, food })
}

/// The number before the words of a food: the 2 of `2 brown su`.
fn number_before(here: &Here<'_>, words: &str) -> Option<Interval> {
    let before = here.before.strip_suffix(words)?.trim_end();
    crate::measure::read_number(before.rsplit([' ', '-']).next()?).ok()
}

fn proposal(line: &Line<'_>, span: Span, food: &'static Food, filter: &str, lacking: bool) -> Proposal {
    let usual = usual(food);
    let (text, snippet) = match (&line.number, usual) {
        (None, Usual::Unit(unit)) if !line.measured => {
            (food.name.to_owned(), Some(format!("${{1:1}} {} {}", unit.symbol(), food.name)))
        }
        (None, Usual::Piece) if !line.measured => (food.name.to_owned(), Some(format!("${{1:1}} {}", food.name))),
        (Some(number), Usual::Unit(unit)) => {
            (format!("{} {}", unit.symbol_for(number.most.unwrap_or(2.0)), food.name), None)
        }
        (Some(number), Usual::Piece) if number.most.is_none_or(|most| most > 1.0) => (plural(food.name), None),
        _ => (food.name.to_owned(), None),
    };
    let detail = [lacking.then(|| "the method has it".to_owned()), Some(weight(food, usual))];
    let detail: Vec<String> = detail.into_iter().flatten().filter(|words| !words.is_empty()).collect();
    Proposal {
        label: food.name.to_owned(),
        detail: detail.join(" · "),
        snippet,
        filter: filter.to_owned(),
        topic: Some(Topic::Food(food.name.to_owned())),
        ..Proposal::new(ProposalKind::Food, span, text)
    }
}

/// What a food is usually measured in.
#[derive(Debug, Clone, Copy)]
enum Usual {
    Unit(Unit),
    Piece,
    Unknown,
}

fn usual(food: &Food) -> Usual {
    if food.each("clove").is_some() && food.is("allium") {
        return Usual::Unit(Unit::Clove);
    }
    if food.each("large").is_some() || food.each("medium").is_some() {
        return Usual::Piece;
    }
    match USUAL.iter().find(|(kind, _)| food.is(kind)) {
        Some((_, unit)) => Usual::Unit(*unit),
        None if food.each("one").is_some() && !food.is("dry") && !food.is("wet") => Usual::Piece,
        None if food.density.is_some() => Usual::Unit(Unit::Cup),
        None => Usual::Unknown,
    }
}

/// The usual unit, and what one weighs by the larder: `cup, 120 g`.
fn weight(food: &Food, usual: Usual) -> String {
    let spoons = |unit: Unit| match unit {
        Unit::Cup => Some(1.0),
        Unit::Tablespoon => Some(16.0),
        Unit::Teaspoon => Some(48.0),
        _ => None,
    };
    let grams = |grams: f64| print_decimal(if grams < 10.0 { (grams * 10.0).round() / 10.0 } else { grams.round() });
    match usual {
        Usual::Unit(unit) if unit.kind() == UnitKind::Volume => {
            match grams_a_cup(food).zip(spoons(unit)).map(|(cup, share)| cup / share) {
                Some(each) => format!("{}, {} g", unit.symbol(), grams(each)),
                None => unit.symbol().to_owned(),
            }
        }
        Usual::Unit(unit) => unit.name().to_owned(),
        Usual::Piece => {
            let one = ["one", "large", "medium"].into_iter().find_map(|size| food.each(size));
            one.map(|one| format!("each, {} g", grams(one.typical.get::<uom::si::mass::gram>()))).unwrap_or_default()
        }
        Usual::Unknown => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::larder::larder;

    #[test]
    fn foods_are_measured_as_cooks_measure_them() {
        let table = [
            ("all-purpose flour", "cup"),
            ("milk", "cup"),
            ("baking powder", "tsp"),
            ("butter", "tbsp"),
            ("egg", "each"),
            ("garlic", "clove"),
            ("onion", "each"),
            ("salmon", "pound"),
            ("vanilla extract", "tsp"),
        ];
        for (name, said) in table {
            let food = larder().food(name).unwrap();
            let weight = weight(food, usual(food));
            assert_eq!(weight.split(',').next(), Some(said), "{name}");
        }
    }
}
