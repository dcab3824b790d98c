//! What goes in, step by step: how much of each thing, in both systems where the larder can, and what is left of it.

use uom::si::volume::milliliter;

use super::{hover::target_name, ledger, left::share_of};
use crate::{
    book::House,
    checks::support::words,
    measure::{Interval, Quantity, Unit, UnitKind, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        flow::{Balance, NEARLY, Taken},
        language::clause::Sense,
        mentions::{Link, Target},
        weights,
    },
};

/// Below a tablespoon both systems measure in spoons (common practice, no source).
const SMALLEST_MILLILITRES: f64 = 14.0;

/// What is left of a thing that is used up.
pub const NOTHING: &str = "nothing";

/// What one step takes of one thing.
#[derive(Debug, Clone, PartialEq)]
pub struct GoesIn {
    /// The thing: an ingredient, a part of one, or what another step has made.
    pub target: Target,
    /// By the name that the manuscript gives it.
    pub name: String,
    /// How much, as a kitchen measures it: `1/2 cup (100 g)`; `half`, `some` or `the rest` of what cannot be measured. `None`
    /// where there is nothing to say.
    pub amount: Option<String>,
    /// Whether that is all there is of it, taken at once.
    pub all: bool,
    /// How much is left for later, in the same words, or `nothing`. `None` where nobody can say.
    pub left: Option<String>,
}

/// What goes into the step of this index, in the order in which the step takes it.
pub fn goes_in(recipe: &Recipe, house: &House, step: usize) -> Vec<GoesIn> {
    let of = |balance: &Balance| of_one(recipe, house, balance, step);
    let mut found: Vec<(usize, GoesIn)> = recipe.flow.balances.iter().filter_map(of).collect();
    found.sort_by_key(|(mention, _)| *mention);
    found.into_iter().map(|(_, one)| one).collect()
}

/// How much of an ingredient is left when the method is done: `1/4 cup (50 g)`, or `nothing`. `None` where nobody can say, and
/// where it has been taken apart.
pub fn left_over(recipe: &Recipe, house: &House, ingredient: usize) -> Option<String> {
    let mut balances = recipe.flow.balances.iter().filter(|balance| balance.target.ingredient() == Some(ingredient));
    let (Some(balance), None) = (balances.next(), balances.next()) else { return None };
    let last = balance.claims.iter().rev().find(|claim| claim.taken != Taken::Nothing)?;
    let left = ledger::entry(recipe, balance.target, last.mention)?.left?;
    in_words(recipe, house, balance.target, &left)
}

/// What the step takes of one thing, and the mention that takes it first.
fn of_one(recipe: &Recipe, house: &House, balance: &Balance, step: usize) -> Option<(usize, GoesIn)> {
    let target = balance.target;
    if matches!(target, Target::Group(_)) {
        // Its lines are told one by one.
        return None;
    }
    let here = |mention: usize| {
        let mention = recipe.flow.mentions.get(mention);
        mention.is_some_and(|own| own.step == step && own.sense == Sense::Use && own.link != Link::Loose)
    };
    let takes = balance.claims.iter().filter(|claim| claim.taken != Taken::Nothing && here(claim.mention));
    let entries: Vec<(usize, ledger::Entry)> =
        takes.filter_map(|claim| Some((claim.mention, ledger::entry(recipe, target, claim.mention)?))).collect();
    let (mention, first) = *entries.first()?;
    let (_, last) = *entries.last()?;
    let nothing = Some(Interval::exactly(0.0));
    let share = entries.iter().fold(nothing, |sum, (_, entry)| Some(sum?.plus(&entry.share?)));
    let amount = match (entries.as_slice(), first.taken) {
        // What the step says in so many words stands as it says it.
        ([_], Taken::Amount(own, _)) => in_both(recipe, house, own, &Interval::exactly(1.0)),
        (_, taken) => share.and_then(|share| amount(recipe, house, target, &share)).or_else(|| match taken {
            Taken::Some => Some("some".to_owned()),
            Taken::Rest => Some("the rest".to_owned()),
            _ => None,
        }),
    };
    let left = last.left.and_then(|left| in_words(recipe, house, target, &left));
    let name = target_name(recipe, target);
    Some((mention, GoesIn { target, name, amount, all: share.is_some_and(|share| is_all(&share)), left }))
}

/// A share of what there is of a thing. Of what has no amount it is the share itself, unless it is all.
fn amount(recipe: &Recipe, house: &House, target: Target, share: &Interval) -> Option<String> {
    let known = known_amount(recipe, target);
    let of_known = known.and_then(|known| in_both(recipe, house, known, share));
    of_known.or_else(|| (share.is_exact() && !is_all(share)).then(|| words::fraction(share.least)))
}

fn in_words(recipe: &Recipe, house: &House, target: Target, left: &Interval) -> Option<String> {
    if left.most.is_some_and(|most| most < NEARLY) {
        return Some(NOTHING.to_owned());
    }
    let about = if left.is_exact() { "" } else { "about " };
    amount(recipe, house, target, left).map(|amount| format!("{about}{amount}"))
}

/// The measure that says how much there is of a thing; a part has none of its own.
fn known_amount(recipe: &Recipe, target: Target) -> Option<usize> {
    match target {
        Target::Ingredient(index, part) => {
            let line = recipe.ingredient(index)?;
            let own = line.names.first().and_then(|name| name.part);
            line.amount.filter(|_| part.is_none() || part == own)
        }
        Target::Result(index) => {
            let known = recipe.flow.results.get(index)?;
            recipe.steps.get(known.step)?.results.iter().find(|result| result.words == known.words)?.amount
        }
        _ => None,
    }
}

fn is_all(share: &Interval) -> bool {
    share.is_exact() && share.least > 1.0 - NEARLY
}

/// A share of a measure, with the other system behind it where it is stated in one only: `2 tbsp (16 g)`. All of it stands as
/// the author wrote it.
fn in_both(recipe: &Recipe, house: &House, index: usize, share: &Interval) -> Option<String> {
    let stated = match recipe.measures.get(index) {
        Some(measure) if is_all(share) => words::plain(recipe.at(measure.span)),
        _ => share_of(recipe, house, index, share)?,
    };
    Some(match other_system(recipe, house, index, share) {
        None => stated,
        Some(other) => match stated.strip_suffix(')') {
            Some(open) => format!("{open}, {other})"),
            None => format!("{stated} ({other})"),
        },
    })
}

/// The share in the system that the measure is not stated in. What is poured is measured, what is not is weighed, where the
/// larder knows how heavy it is.
fn other_system(recipe: &Recipe, house: &House, index: usize, share: &Interval) -> Option<String> {
    let measure = recipe.measures.get(index).filter(|measure| measure.each.is_empty() && !measure.open)?;
    let measured = |unit: &Unit| matches!(unit.kind(), UnitKind::Volume | UnitKind::Weight);
    let mut systems = measure.statements().filter_map(|stated| stated.unit().filter(measured)?.system());
    let system = systems.next()?;
    if systems.any(|other| other != system) {
        return None;
    }
    let quantity = match measure.stated.quantity(&house.measures)?.scaled(share) {
        Quantity::Volume(volume) if volume.least.get::<milliliter>() < SMALLEST_MILLILITRES => return None,
        Quantity::Volume(volume) => {
            let is_poured = weights::food_of(recipe, index).is_none_or(|food| food.is("liquid"));
            let density = weights::range_of(recipe, index).and(weights::density_of(recipe, index));
            match density.filter(|_| !is_poured) {
                Some(density) => Quantity::Weight(volume.map(|volume| volume * density.typical)),
                None => Quantity::Volume(volume),
            }
        }
        weight @ Quantity::Weight(_) => weight,
        _ => return None,
    };
    let amounts = kitchen_amounts(&quantity, system.other(), &house.measures);
    (!amounts.is_empty()).then(|| print_amounts(&amounts, &house.style()))
}
