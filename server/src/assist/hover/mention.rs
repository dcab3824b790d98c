//! A mention in a step: what it takes, and what it leaves.

use uom::si::mass::gram;

use super::{
    amount::{Measured, way},
    figures, item, naming,
};
use crate::{
    assist::{
        ledger::{self, Entry},
        left::share_of,
    },
    book::House,
    checks::support::words,
    measure::{Interval, Quantity, System, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        flow::Taken,
        mentions::{Mention, Target},
    },
};

/// As many things are named of a mention that means many.
const NAMED: usize = 12;

/// What is said of the mention of this index.
pub fn answer(recipe: &Recipe, house: &House, index: usize) -> Vec<String> {
    let Some(mention) = recipe.flow.mentions.get(index) else { return Vec::new() };
    match mention.targets.as_slice() {
        [Target::Ingredient(line, part)] => ingredient(recipe, house, index, *line, *part),
        [Target::Result(result)] => result_used(recipe, index, *result),
        targets => many(recipe, mention, targets),
    }
}

/// The lines of an answer below another: without its bold type.
pub fn below(lines: Vec<String>) -> Vec<String> {
    lines.into_iter().map(|line| line.replace("**", "")).collect()
}

fn ingredient(recipe: &Recipe, house: &House, mention: usize, line: usize, part: Option<&'static str>) -> Vec<String> {
    let target = Target::Ingredient(line, part);
    let Some(listed) = recipe.ingredient(line) else { return Vec::new() };
    let entry = ledger::entry(recipe, target, mention);
    let own = listed.names.first().and_then(|name| name.part);
    let name = naming::target(recipe, target);
    let amount = listed.amount.filter(|_| part.is_none() || part == own);
    let mut lines = vec![title(recipe, house, &name, amount, entry.as_ref())];
    lines.extend(amount.into_iter().flat_map(|index| converted(recipe, house, index, entry.as_ref())));
    let taking = entry.is_none_or(|entry| entry.taken != Taken::Nothing);
    lines.extend(part.filter(|_| part != own && taking).and_then(|part| weight_of_part(recipe, house, line, part)));
    lines.extend(entry.and_then(|entry| leaves(recipe, house, amount, &entry)));
    lines.extend(item::facts(recipe, house, line));
    lines
}

/// `**1/2 cup (100 g) sugar**, half of 1 cup (200 g)`
fn title(recipe: &Recipe, house: &House, name: &str, amount: Option<usize>, entry: Option<&Entry>) -> String {
    let listed =
        amount.and_then(|index| recipe.measures.get(index)).map(|measure| words::plain(recipe.at(measure.span)));
    let Some(entry) = entry else { return format!("**{name}**") };
    let taken = amount.zip(entry.share).and_then(|(amount, share)| taken(recipe, house, amount, entry, &share));
    match (entry.taken, listed) {
        (Taken::Nothing, Some(listed)) => format!("**{listed} {name}**: nothing more is taken here"),
        (Taken::Nothing, None) => format!("**{name}**: nothing more is taken here"),
        (Taken::Whole | Taken::Rest, Some(listed)) if is_all(entry.share) => format!("**{listed} {name}**, all of it"),
        (Taken::Whole | Taken::Rest, None) if is_all(entry.share) => format!("**{name}**, all of it"),
        (of, Some(listed)) => match (taken, said(of)) {
            (Some(taken), Some(said)) => format!("**{taken} {name}**, {said} of {listed}"),
            (Some(taken), None) => format!("**{taken} {name}**, of {listed}"),
            (None, Some(said)) => format!("**{name}**, {said} of {listed}"),
            (None, None) => format!("**{name}**, some of {listed}"),
        },
        (of, None) => said(of).map_or(format!("**{name}**"), |said| format!("**{name}**, {said} of it")),
    }
}

fn is_all(share: Option<Interval>) -> bool {
    share.is_some_and(|share| share.is_exact() && share.least > 0.999)
}

/// A share in a cook's words: `half`, `what is left`; nothing where the amount says it.
fn said(taken: Taken) -> Option<String> {
    match taken {
        Taken::Fraction(least, most) if (least - most).abs() < 1e-9 => Some(words::fraction(least)),
        Taken::Fraction(..) => Some("a part".to_owned()),
        Taken::Rest => Some("what is left".to_owned()),
        Taken::Some => Some("some".to_owned()),
        _ => None,
    }
}

/// The amount that is taken: as the step writes it, else the share of what is listed.
fn taken(recipe: &Recipe, house: &House, listed: usize, entry: &Entry, share: &Interval) -> Option<String> {
    match entry.taken {
        Taken::Amount(index, _) => {
            let written = recipe.measures.get(index)?;
            Some(words::plain(recipe.at(written.span)))
        }
        _ => share_of(recipe, house, listed, share),
    }
}

/// What is taken in other measures than the line has, and what that rests on.
fn converted(recipe: &Recipe, house: &House, index: usize, entry: Option<&Entry>) -> Vec<String> {
    let (from, share) = match entry {
        Some(Entry { taken: Taken::Amount(own, _), .. }) => (*own, Interval::exactly(1.0)),
        Some(Entry { taken: Taken::Nothing, .. }) | None => return Vec::new(),
        Some(Entry { share: Some(share), .. }) => (index, *share),
        Some(_) => return Vec::new(),
    };
    let Some(stated) = recipe.measures.get(from) else { return Vec::new() };
    let Some(mut measured) = Measured::whole(recipe, house, from) else { return Vec::new() };
    measured.quantity = measured.quantity.scaled(&share);
    let statements = stated.statements().filter_map(|stated| stated.terms.first()?.amount());
    measured.said = statements.filter_map(|amount| way(&amount)).collect();
    below(measured.answer(house))
}

/// `Left after this: 1/2 cup (100 g).` or `Nothing is left.`
fn leaves(recipe: &Recipe, house: &House, listed: Option<usize>, entry: &Entry) -> Option<String> {
    let left = entry.left.filter(|_| entry.taken != Taken::Nothing)?;
    if left.most == Some(0.0) {
        return (!is_all(entry.share)).then(|| "Nothing is left.".to_owned());
    }
    let amount = listed.and_then(|listed| share_of(recipe, house, listed, &left));
    let about = if left.is_exact() { "" } else { "about " };
    Some(match amount {
        Some(amount) => format!("Left after this: {about}{amount}."),
        None if left.is_exact() => format!("Left after this: {} of it.", words::fraction(left.least)),
        None => return None,
    })
}

/// What the zest or the juice of that many weighs.
fn weight_of_part(recipe: &Recipe, house: &House, line: usize, part: &str) -> Option<String> {
    let listed = recipe.ingredient(line)?;
    let food = listed.names.iter().find(|name| !name.aside)?.food?;
    let weight = food.part(part)?.weight?;
    let count = recipe.measures.get(listed.amount?)?.count()?;
    let grams = Quantity::grams(count.times(weight.typical.get::<gram>()));
    let weights = kitchen_amounts(&grams, System::Metric, &house.measures);
    let one = format!("the {part} of one");
    Some(format!("About {} · {}", print_amounts(&weights, &house.style()), figures::of_one(food, &one, &weight)))
}

fn result_used(recipe: &Recipe, mention: usize, result: usize) -> Vec<String> {
    let target = Target::Result(result);
    let Some(made) = recipe.flow.results.get(result) else { return Vec::new() };
    let name = naming::target(recipe, target);
    let entry = ledger::entry(recipe, target, mention);
    let share = entry.and_then(|entry| said(entry.taken)).map(|share| format!("{share} of the ")).unwrap_or_default();
    let mut lines = vec![format!("**{share}{name}**, made in {}", words::step(recipe, made.step))];
    if let Some(left) = entry.filter(|entry| entry.taken != Taken::Nothing).and_then(|entry| entry.left) {
        match left.most {
            Some(0.0) if share.is_empty() => {}
            Some(0.0) => lines.push("Nothing is left.".to_owned()),
            _ if left.is_exact() => lines.push(format!("Left after this: {} of it.", words::fraction(left.least))),
            _ => {}
        }
    }
    let went_in = super::result::went_in(recipe, made.step).filter(|_| !super::result::drawn_off(&made.words));
    lines.extend(went_in.map(|went_in| format!("In it: {went_in}.")));
    lines
}

fn many(recipe: &Recipe, mention: &Mention, targets: &[Target]) -> Vec<String> {
    let written = words::plain(recipe.at(mention.span).trim_matches(['[', ']']));
    let all = naming::expanded(recipe, targets);
    let named: Vec<String> = all.iter().take(NAMED).map(|target| naming::with_amount(recipe, *target)).collect();
    let more = all.len().saturating_sub(NAMED);
    let more = if more > 0 { format!(", and {more} more") } else { String::new() };
    let list = if more.is_empty() { words::and(&named) } else { named.join(", ") };
    vec![format!("**{written}**: {list}{more}")]
}
