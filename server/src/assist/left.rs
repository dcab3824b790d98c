//! What is left of a thing at some place of the method, and how much a share of an amount is.

use super::ledger;
use crate::{
    book::House,
    measure::{Interval, Quantity, Style, System, Unit, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        flow::{Balance, Claim},
        measures::Stated,
        mentions::Target,
    },
    text::Span,
};

/// What is left of a thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Left {
    /// All of it: nothing has taken any yet.
    All,
    /// This share of the whole.
    Share(Interval),
    /// Some, and nobody can say how much.
    Some,
    /// Nothing.
    Nothing,
}

/// What is left of a thing for what stands at a place, by what is taken before it; what stands there itself takes nothing.
pub fn left(recipe: &Recipe, target: Target, here: Span) -> Left {
    let balance = recipe.flow.balances.iter().find(|balance| balance.target == target);
    let before = |claim: &&Claim| recipe.flow.mentions.get(claim.mention).is_some_and(|own| own.span.end <= here.start);
    let last = balance.and_then(|balance| balance.claims.iter().rev().find(before));
    match last.and_then(|claim| ledger::entry(recipe, target, claim.mention)).map(|entry| entry.left) {
        None => all_but_parts(recipe, target, here),
        Some(None) => Left::Some,
        Some(Some(left)) if left == Interval::exactly(1.0) => all_but_parts(recipe, target, here),
        Some(Some(left)) if left == Interval::exactly(0.0) => Left::Nothing,
        Some(Some(left)) => Left::Share(left),
    }
}

/// Of eggs whose yolks have gone somewhere, some are left.
fn all_but_parts(recipe: &Recipe, target: Target, here: Span) -> Left {
    let Target::Ingredient(index, None) = target else { return Left::All };
    let of_part = |other: &&Balance| matches!(other.target, Target::Ingredient(own, Some(_)) if own == index);
    let used = recipe.flow.balances.iter().filter(of_part).any(|other| left(recipe, other.target, here) != Left::All);
    if used { Left::Some } else { Left::All }
}

/// A share of the amount of this index, rounded as a kitchen measures, with its restatements: `1/4 cup (50 g)`. Nothing where
/// the amount cannot be read or is open.
pub fn share_of(recipe: &Recipe, house: &House, measure: usize, share: &Interval) -> Option<String> {
    let measure = recipe.measures.get(measure).filter(|measure| !measure.open)?;
    let mut said: Vec<String> = Vec::new();
    for stated in measure.statements() {
        said.extend(printed(house, stated, share).filter(|amount| !said.contains(amount)));
    }
    let (first, others) = said.split_first()?;
    Some(if others.is_empty() { first.clone() } else { format!("{first} ({})", others.join(", ")) })
}

fn printed(house: &House, stated: &Stated, share: &Interval) -> Option<String> {
    let quantity = stated.quantity(&house.measures)?.scaled(share);
    if matches!(quantity, Quantity::Loose { .. }) {
        return None;
    }
    let system = stated.unit().and_then(Unit::system).unwrap_or(System::Customary);
    let amounts = kitchen_amounts(&quantity, system, &house.measures);
    (!amounts.is_empty()).then(|| print_amounts(&amounts, &Style::default()))
}
