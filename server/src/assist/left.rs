//! What is left of a thing at some place of the method, and how much a share of an amount is.

use crate::{
    book::House,
    measure::{Interval, Quantity, Style, System, Unit, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        flow::{Balance, Claim, NEARLY, Taken},
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
    let Some(balance) = recipe.flow.balances.iter().find(|balance| balance.target == target) else {
        return all_but_parts(recipe, target, here);
    };
    let place = |claim: &Claim| recipe.flow.mentions.get(claim.mention).map(|mention| mention.span);
    let before = || balance.claims.iter().filter(|claim| place(claim).is_some_and(|span| span.end <= here.start));
    let behind = balance.claims.iter().filter(|claim| place(claim).is_some_and(|span| span.start > here.end));
    if before().any(takes_rest) {
        // What takes the whole leaves what later shares claim.
        let later = shares(behind).unwrap_or(Interval::exactly(0.0));
        return if later.least > 0.0 { Left::Share(later) } else { Left::Nothing };
    }
    match shares(before()) {
        None => Left::Some,
        Some(taken) if taken.least >= 1.0 - NEARLY => Left::Nothing,
        Some(taken) if taken == Interval::exactly(0.0) => all_but_parts(recipe, target, here),
        Some(taken) => Left::Share(Interval::exactly(1.0).minus(&taken)),
    }
}

fn takes_rest(claim: &Claim) -> bool {
    matches!(claim.taken, Taken::Whole | Taken::Rest)
}

/// What the claims that say a share add up to; nothing where one of them takes an amount that nobody can tell.
fn shares<'c>(claims: impl Iterator<Item = &'c Claim>) -> Option<Interval> {
    let mut sum = Interval::exactly(0.0);
    for claim in claims {
        let (least, most) = match claim.taken {
            Taken::Nothing | Taken::Whole | Taken::Rest => continue,
            Taken::Fraction(least, most) | Taken::Amount(_, Some((least, most))) => (least, most),
            Taken::Amount(_, None) | Taken::Some => return None,
        };
        sum = sum.plus(&Interval::between(least, most));
    }
    Some(sum)
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
