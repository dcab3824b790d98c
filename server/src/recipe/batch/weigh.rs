//! What an ingredient line weighs, from the least to the most that its words leave open.

use std::cell::OnceCell;

use uom::si::{
    f64::{Mass, Volume},
    mass::gram,
};

use crate::{
    larder::{Food, Weight, words::fold},
    measure::{Hedge, Interval, Measures, Quantity, Unit},
    recipe::{
        Ingredient, Name, Recipe,
        measures::{Measure, Stated},
        portions::weight_of,
        weights,
    },
    text::Words,
};

/// A pinch, a dash, salt to taste: what a line without an amount of a seasoning comes to at most (common practice, no source).
const SEASONING_GRAMS: f64 = 30.0;

/// What of a drained can may be liquid: the drained weight of a 15-oz can of beans is some 60 % of it
/// (SR26 16358 and 16359: 253 g of 425 g).
const DRAINED: f64 = 0.55;

/// What "plus more" is for where it is not much: grease for a pan, flour for a board; and what it comes to with the rest (common
/// practice, no source).
const FOR_A_LITTLE: Words = Words::new(
    "pan pans tin tins dish bowl greasing dusting brushing rolling kneading surface board work sprinkling \
    serving serve garnish",
);
const A_LITTLE_MORE: f64 = 1.25;

/// How much of one ingredient there is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stock {
    /// Its weight as it goes in. Nothing at least, and no upper end, where nobody can say.
    pub weight: Interval<Mass>,
    /// The volume that it takes up as it is measured, with the air between its pieces, where that can be told.
    pub volume: Option<Interval<Volume>>,
}

impl Stock {
    /// Some, and nobody can say how much.
    pub fn unknown() -> Self {
        Stock { weight: Interval::at_least(Mass::default()), volume: None }
    }
}

/// The stock of each line of a recipe, worked out when it is first asked for.
#[derive(Debug)]
pub struct Stocks<'r> {
    recipe: &'r Recipe,
    pub(super) measures: &'r Measures,
    lines: Vec<OnceCell<Stock>>,
}

impl<'r> Stocks<'r> {
    /// Of a recipe, by the measures of its house.
    pub fn new(recipe: &'r Recipe, measures: &'r Measures) -> Self {
        Stocks { recipe, measures, lines: vec![OnceCell::new(); recipe.ingredients.len()] }
    }

    /// How much there is of the food of a line, or of a part of it.
    pub fn of(&self, line: usize, part: Option<&str>) -> Stock {
        let anew = || stock(self.recipe, self.measures, line, part);
        match self.lines.get(line).filter(|_| part.is_none()) {
            Some(whole) => *whole.get_or_init(anew),
            None => anew(),
        }
    }
}

/// How much the line says there is of its food, or of a part of it.
fn stock(recipe: &Recipe, measures: &Measures, index: usize, part: Option<&str>) -> Stock {
    let Some(line) = recipe.ingredient(index) else { return Stock::unknown() };
    let weighed = weigh(recipe, measures, index, part);
    let mut stock = weighed.unwrap_or_else(|| if is_seasoning(line) { seasoning() } else { Stock::unknown() });
    if line.tags.optional {
        stock.weight.least = Mass::default();
        stock.volume = stock.volume.map(|volume| Interval { least: Volume::default(), ..volume });
    }
    match () {
        () if line.tags.more && has_word(recipe, line, &FOR_A_LITTLE) => {
            stock.weight.most = stock.weight.most.map(|most| most * A_LITTLE_MORE + Mass::new::<gram>(SEASONING_GRAMS));
            stock.volume =
                stock.volume.map(|volume| Interval { most: volume.most.map(|most| most * A_LITTLE_MORE), ..volume });
        }
        () if line.tags.more || line.tags.taste && !is_seasoning(line) => {
            stock.weight.most = None;
            stock.volume = stock.volume.map(|volume| Interval { most: None, ..volume });
        }
        () => {}
    }
    stock
}

/// The one food of a line, where it names one.
pub fn name(line: &Ingredient) -> Option<&Name> {
    let mut names = line.names.iter().filter(|name| !name.aside);
    names.next().filter(|_| names.next().is_none())
}

/// Whether a line is one of those that season: salt, spices, herbs, extracts.
pub fn is_seasoning(line: &Ingredient) -> bool {
    const KINDS: &[&str] = &["salt", "spice", "seasoning", "herb", "flavoring", "coloring", "zest", "decoration"];
    let mut foods = line.names.iter().filter(|name| !name.aside).map(|name| name.food);
    line.names.iter().any(|name| !name.aside)
        && foods.all(|food| food.is_some_and(|food| KINDS.iter().any(|kind| food.is(kind))))
}

fn seasoning() -> Stock {
    Stock { weight: Interval::between(Mass::default(), Mass::new::<gram>(SEASONING_GRAMS)), volume: None }
}

fn weigh(recipe: &Recipe, measures: &Measures, ingredient: usize, part: Option<&str>) -> Option<Stock> {
    let line = recipe.ingredient(ingredient)?;
    let name = name(line).filter(|_| line.reference.is_none());
    let index = line.amount?;
    let measure = recipe.measures.get(index)?;
    let of_part = part.filter(|part| name.is_some_and(|name| name.part != Some(*part)));
    if let Some(part) = of_part {
        return part_weight(name?.food?, part, &measure.count()?);
    }
    let hedge = measure.hedge.and_then(|hedge| Hedge::find(recipe.at(hedge)));
    let by = hedge.map_or(Interval::exactly(1.0), |hedge| hedge.apply(&Interval::exactly(1.0), measure.stated.unit()));
    let quantities: Vec<Quantity> = match behind_name(recipe, measures, line, measure) {
        Some(weight) => vec![weight],
        None => statements(measure, measures).collect(),
    };
    let said = |quantity: &Quantity| match quantity {
        Quantity::Weight(weight) => Some(*weight),
        _ => None,
    };
    let reckoned = |quantity: &Quantity| match quantity {
        Quantity::Volume(_) => quantity.weight(&weights::range_of(recipe, index)?),
        Quantity::Count { count, .. } => counted(recipe, ingredient, count, measures),
        _ => None,
    };
    let weight = settled(quantities.iter().filter_map(said).reduce(spanning), quantities.iter().find_map(reckoned));
    let kept = if is_drained(recipe, line, measure) { DRAINED } else { edible(recipe, line, name) };
    let weight =
        weight.map(|weight| weight.scaled(&by)).map(|weight| Interval { least: weight.least * kept, ..weight });
    let stated = quantities.iter().find_map(|quantity| match quantity {
        Quantity::Volume(volume) => Some(volume.scaled(&by)),
        _ => None,
    });
    let volume = stated.or_else(|| {
        let (density, weight) = (name?.food?.density?, weight?);
        Some(Interval { least: weight.least / density.high, most: weight.most.map(|most| most / density.low) })
    });
    let nothing_known = weight.is_none() && volume.is_none();
    (!nothing_known).then(|| Stock { weight: weight.unwrap_or(Stock::unknown().weight), volume })
}

/// `2 chicken breasts (400 g)`, `1 small onion (about 70 g)`: the weight of them all, in a parenthesis behind the name; of each,
/// where it says so.
fn behind_name(recipe: &Recipe, measures: &Measures, line: &Ingredient, amount: &Measure) -> Option<Quantity> {
    let counts = matches!(amount.stated.quantity(measures)?, Quantity::Count { .. }) && amount.each.is_empty();
    let behind = line.measures.iter().filter_map(|index| recipe.measures.get(*index));
    let mut behind = behind.filter(|measure| counts && measure.span.start >= amount.span.end);
    let (found, weight) = behind.find_map(|measure| match measure.quantity(measures)? {
        Quantity::Weight(weight) => Some((measure, weight)),
        _ => None,
    })?;
    let before = recipe.text.get(amount.span.end..found.span.start)?;
    let rest = recipe.text.get(found.span.end..line.span.end)?;
    let inside = rest.get(..rest.find([')', ']'])?)?.to_lowercase();
    let opened =
        before.rfind(['(', '[']).is_some_and(|open| !before.get(open..).unwrap_or_default().contains([')', ']']));
    let hedge = found.hedge.and_then(|hedge| Hedge::find(recipe.at(hedge)));
    let weight = hedge.map_or(weight, |hedge| weight.scaled(&hedge.apply(&Interval::exactly(1.0), None)));
    let each = inside.contains("each") || inside.contains("apiece");
    let weight = if each { weight.scaled(&amount.count()?) } else { weight };
    opened.then_some(Quantity::Weight(weight))
}

/// The amount in every way that a measure states it; for packs, so many times one.
fn statements<'m>(measure: &'m Measure, measures: &'m Measures) -> impl Iterator<Item = Quantity> + 'm {
    let count = measure.count_of_packs().unwrap_or(Interval::exactly(1.0));
    let quantity = |stated: &Stated| stated.quantity(measures).map(|quantity| opened(measure, quantity));
    let packs = measure.each.iter().filter_map(quantity).map(move |one| one.scaled(&count));
    let whole = measure.statements().filter_map(quantity);
    let sized = !measure.each.is_empty();
    let counts = |quantity: &Quantity| matches!(quantity, Quantity::Count { .. });
    // Of "2 (14-oz) cans" the size is what weighs; of "3 apples (450 g)" the weight, and of "3 apples" the apples.
    let weighs = measure.statements().chain(&measure.each).any(|stated| {
        stated.quantity(measures).is_some_and(|quantity| matches!(quantity, Quantity::Weight(_) | Quantity::Volume(_)))
    });
    whole.filter(move |quantity| !(counts(quantity) && (weighs || sized))).chain(packs)
}

fn opened(measure: &Measure, quantity: Quantity) -> Quantity {
    if measure.open { crate::recipe::measures::open(quantity) } else { quantity }
}

/// What so many of a food weigh, as the larder has it: `2 large eggs`, `3 garlic cloves`, `1 stick butter`.
fn counted(recipe: &Recipe, line: usize, count: &Interval, measures: &Measures) -> Option<Interval<Mass>> {
    let weight = weight_of(recipe, line, measures)?;
    // The larder weighs the middle of a range.
    let range = count.map(|end| end / count.middle());
    Some(Interval::between(weight.low, weight.high).scaled(&range))
}

fn part_weight(food: &Food, part: &str, count: &Interval) -> Option<Stock> {
    let one: Weight = food.part(part)?.weight?;
    // What one gives of a part varies with its size by half (common practice, no source).
    let one = Interval::between(one.low * 0.75, one.high * 1.5);
    Some(Stock { weight: one.scaled(count), volume: None })
}

fn is_drained(recipe: &Recipe, line: &Ingredient, measure: &Measure) -> bool {
    let packed = !measure.each.is_empty() || matches!(measure.stated.unit(), Some(Unit::Can | Unit::Tin | Unit::Jar));
    packed && has_word(recipe, line, &DRAINS)
}

/// Words of a line by which the liquid of a can is poured off.
const DRAINS: Words = Words::new("drained rinsed");

/// The share of what was weighed that is left when it has been peeled and trimmed; all of it where it was weighed cut.
fn edible(recipe: &Recipe, line: &Ingredient, name: Option<&Name>) -> f64 {
    const CUT: &[&str] = &["grated", "chopped", "diced", "sliced", "shredded", "mashed", "minced", "cubed", "pureed"];
    let known = name.and_then(|name| Some((name, name.food.filter(|food| !food.is("egg"))?.edible?)));
    let Some((name, edible)) = known else { return 1.0 };
    let by_weight = line.amount.and_then(|index| recipe.measures.get(index)).is_some_and(|measure| {
        measure.statements().any(|stated| stated.kind() == Some(crate::measure::UnitKind::Weight))
    });
    let before = recipe.text.get(line.span.start..name.span.start).unwrap_or_default();
    let cut = |word: &str| CUT.contains(&&*fold(word));
    if by_weight && !before.split(|c: char| !c.is_alphabetic()).any(cut) { edible.share } else { 1.0 }
}

fn has_word(recipe: &Recipe, line: &Ingredient, words: &Words) -> bool {
    recipe.at(line.span).split(|c: char| !c.is_alphabetic()).any(|own| words.contains_in_any_case(own))
}

/// The weight that is stated; with what another statement comes to, where the two are far apart and nobody knows which is meant.
fn settled(said: Option<Interval<Mass>>, reckoned: Option<Interval<Mass>>) -> Option<Interval<Mass>> {
    let (Some(said), Some(reckoned)) = (said, reckoned) else { return said.or(reckoned) };
    let near = Interval { least: reckoned.least * 0.8, most: reckoned.most.map(|most| most * 1.25) };
    Some(if near.overlaps(&said) { said } else { spanning(said, reckoned) })
}

fn spanning(one: Interval<Mass>, other: Interval<Mass>) -> Interval<Mass> {
    let least = if other.least < one.least { other.least } else { one.least };
    let most = one.most.zip(other.most).map(|(one, other)| if one < other { other } else { one });
    Interval { least, most }
}
