//! What is taken of each thing, and what is left: shares first, then the rest, as the format has it.

use std::cell::LazyCell;

use rustc_hash::{FxBuildHasher, FxHashMap};

use super::is_definite;
use crate::{
    larder::Food,
    measure::{Interval, Measures, Quantity},
    recipe::{
        language::clause::Sense,
        measures::open,
        mentions::{Kitchen, Link, Mention, Reading, Share, Target},
    },
};

/// What happens to one thing in the course of the method.
#[derive(Debug, Clone)]
pub struct Balance {
    /// The thing: an ingredient, a part of it, or a result.
    pub target: Target,
    /// Who takes of it, in the order of the text.
    pub claims: Vec<Claim>,
    /// What the shares that say how much add up to, as fractions of the whole; `None` where nobody can say.
    pub shared: Option<Interval>,
    /// Whether a claim without a share, a rest, or a share nobody can measure takes what the others leave.
    pub open: bool,
}

/// One mention's claim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Claim {
    /// The mention, as an index.
    pub mention: usize,
    /// What it takes.
    pub taken: Taken,
}

/// What a claim takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Taken {
    /// Nothing: it only handles or names the thing.
    Nothing,
    /// All that no share claims.
    Whole,
    /// A fraction of the whole, least and most.
    Fraction(f64, f64),
    /// The amount of a measure, as an index, and the fraction of the whole that it is, where that can be told.
    Amount(usize, Option<(f64, f64)>),
    /// What is left.
    Rest,
    /// Some of it.
    Some,
}

/// The balance of every ingredient, part and result that is mentioned.
pub fn balances(kitchen: &Kitchen<'_>, reading: &Reading) -> Vec<Balance> {
    let mut out: Vec<Balance> = Vec::new();
    // Most things are mentioned once.
    let mut places: FxHashMap<Target, usize> =
        FxHashMap::with_capacity_and_hasher(reading.mentions.len(), FxBuildHasher);
    for (index, mention) in reading.mentions.iter().enumerate() {
        for target in mention.targets.iter().copied() {
            let place = *places.entry(target).or_insert(out.len());
            if place == out.len() {
                out.push(Balance { target, claims: Vec::new(), shared: None, open: false });
            }
            let claims = out.get_mut(place).map(|balance| &mut balance.claims);
            claims.into_iter().for_each(|claims| claims.push(Claim { mention: index, taken: Taken::Nothing }));
        }
    }
    for balance in &mut out {
        allot(kitchen, reading, balance);
    }
    out
}

fn allot(kitchen: &Kitchen<'_>, reading: &Reading, balance: &mut Balance) {
    let whole = LazyCell::new(|| whole(kitchen, reading, balance.target));
    let mut shared = Some(Interval::exactly(0.0));
    let mut any = false;
    // First the shares.
    for claim in &mut balance.claims {
        let Some(mention) = reading.mentions.get(claim.mention).filter(|mention| mention.sense == Sense::Use) else {
            continue;
        };
        claim.taken = match mention.share {
            Share::Fraction(least, most) => Taken::Fraction(least, most),
            Share::Amount(measure) => amount(kitchen, &whole, measure),
            Share::AllBut(measure) => all_but(amount(kitchen, &whole, measure)),
            Share::Rest => Taken::Rest,
            Share::RestAmount(measure) => match amount(kitchen, &whole, measure) {
                known @ Taken::Amount(_, Some(_)) => known,
                _ => Taken::Rest,
            },
            Share::RestAgain => Taken::Rest,
            Share::Some => Taken::Some,
            Share::Whole => Taken::Nothing,
        };
        let fraction = match claim.taken {
            Taken::Fraction(least, most) => Some((least, most)),
            Taken::Amount(_, fraction) => fraction,
            _ => continue,
        };
        any = true;
        shared = shared.zip(fraction).map(|(sum, (least, most))| sum.plus(&Interval::between(least, most)));
    }
    // Then the first mention without a share takes what is left, unless the shares claim all of it.
    let claimed = any && shared.as_ref().is_some_and(|sum| sum.least >= 1.0 - NEARLY);
    let rest = balance.claims.iter().any(|claim| claim.taken == Taken::Rest);
    let first = balance.claims.iter_mut().find(|claim| {
        let mention = reading.mentions.get(claim.mention);
        mention.is_some_and(|mention| {
            mention.sense == Sense::Use && mention.share == Share::Whole && mention.link < Link::Loose
        })
    });
    if let Some(first) = first.filter(|_| !(claimed || any && rest)) {
        first.taken = Taken::Whole;
    }
    balance.open = balance.claims.iter().any(|claim| matches!(claim.taken, Taken::Whole | Taken::Rest | Taken::Some));
    balance.shared = shared.filter(|_| any);
}

/// How far shares may miss the whole and still make it: three thirds written as 0.33.
pub const NEARLY: f64 = 0.02;

/// How much of the thing there is, in every way that the manuscript states it.
struct Whole {
    statements: Vec<Quantity>,
    food: Option<&'static Food>,
}

fn whole(kitchen: &Kitchen<'_>, reading: &Reading, target: Target) -> Whole {
    let house = Measures::default();
    let quantities = |measure: usize, of_part: bool| -> Vec<Quantity> {
        let Some(measure) = kitchen.measures.get(measure) else { return Vec::new() };
        let all = measure.statements().filter_map(|stated| stated.quantity(&house));
        let opened = all.map(|quantity| if measure.open { open(quantity) } else { quantity });
        opened.filter(|quantity| !of_part || matches!(quantity, Quantity::Count { .. })).collect()
    };
    let none = Whole { statements: Vec::new(), food: None };
    match target {
        Target::Ingredient(index, part) => {
            let Some(ingredient) = kitchen.ingredients.get(index) else { return none };
            let single = ingredient.names.iter().filter(|name| !name.aside).count() == 1;
            let known = single && !ingredient.tags.taste && ingredient.reference.is_none();
            let Some(amount) = ingredient.amount.filter(|_| known) else { return none };
            let own = ingredient.names.first().and_then(|name| name.part);
            let of_part = part.is_some() && part != own;
            let mut statements = quantities(amount, of_part);
            if ingredient.tags.more {
                statements = statements.into_iter().map(open).collect();
            }
            Whole { statements, food: ingredient.names.first().and_then(|name| name.food) }
        }
        Target::Result(index) => {
            let step = reading.results.get(index).map(|result| (result.step, &result.words));
            let result = step.and_then(|(step, words)| {
                kitchen.steps.get(step)?.results.iter().find(|result| &result.words == words)
            });
            let statements = result.and_then(|result| result.amount).map(|measure| quantities(measure, false));
            Whole { statements: statements.unwrap_or_default(), food: None }
        }
        Target::Group(_) => none,
    }
}

/// An amount as a fraction of the whole, where one statement of each has the same dimension.
fn amount(kitchen: &Kitchen<'_>, whole: &Whole, index: usize) -> Taken {
    let Some(measure) = kitchen.measures.get(index) else { return Taken::Some };
    let house = Measures::default();
    let taken: Vec<Quantity> = measure.statements().filter_map(|stated| stated.quantity(&house)).collect();
    if taken.iter().any(|quantity| matches!(quantity, Quantity::Loose { .. })) {
        return Taken::Some;
    }
    let pairs = taken.iter().flat_map(|one| whole.statements.iter().map(move |all| (one, all)));
    let fraction = pairs
        .clone()
        .find_map(|(one, all)| ratio(one, all))
        .or_else(|| pairs.clone().find_map(|(one, all)| by_density(one, all, whole.food)));
    if fraction.is_none()
        && !matches!(taken.first(), Some(Quantity::Volume(_) | Quantity::Weight(_) | Quantity::Count { .. }))
    {
        return Taken::Some;
    }
    Taken::Amount(index, fraction)
}

/// What is left when an amount is kept back.
fn all_but(kept: Taken) -> Taken {
    match kept {
        Taken::Amount(_, Some((least, most))) => Taken::Fraction((1.0 - most).max(0.0), (1.0 - least).max(0.0)),
        _ => Taken::Some,
    }
}

fn ratio(one: &Quantity, all: &Quantity) -> Option<(f64, f64)> {
    match (one, all) {
        (Quantity::Volume(one), Quantity::Volume(all)) => fraction(&one.map(|v| v.value), &all.map(|v| v.value)),
        (Quantity::Weight(one), Quantity::Weight(all)) => fraction(&one.map(|v| v.value), &all.map(|v| v.value)),
        (Quantity::Count { count: one, unit: a }, Quantity::Count { count: all, unit: b }) if a == b => {
            fraction(one, all)
        }
        _ => None,
    }
}

/// Least taken of the most there is, most taken of the least there is. Nothing is a fraction of an open end but "some".
fn fraction(one: &Interval, all: &Interval) -> Option<(f64, f64)> {
    let most_taken = one.most?;
    let least = all.most.map_or(0.0, |most| if most > 0.0 { one.least / most } else { 0.0 });
    (all.least > 0.0).then(|| (least, most_taken / all.least))
}

fn by_density(one: &Quantity, all: &Quantity, food: Option<&'static Food>) -> Option<(f64, f64)> {
    let density = food?.density?;
    let range = Interval::between(density.low, density.high);
    let weight = |quantity: &Quantity| match quantity {
        Quantity::Volume(_) => quantity.weight(&range),
        Quantity::Weight(weight) => Some(*weight),
        _ => None,
    };
    let (one, all) = (weight(one)?, weight(all)?);
    fraction(&one.map(|mass| mass.value), &all.map(|mass| mass.value))
}

impl Balance {
    /// Whether the shares that say how much are more than there is, even read kindly.
    pub fn exceeds(&self) -> bool {
        self.shared.as_ref().is_some_and(|sum| sum.least > 1.0 + NEARLY)
    }

    /// Whether the shares that say how much leave something over that nobody takes.
    pub fn left_over(&self) -> bool {
        !self.open && self.shared.as_ref().and_then(|sum| sum.most).is_some_and(|most| most < 1.0 - NEARLY)
    }

    /// The mentions that say a share.
    pub fn sharers<'m>(&'m self, mentions: &'m [Mention]) -> impl Iterator<Item = &'m Mention> {
        self.claims
            .iter()
            .filter_map(|claim| mentions.get(claim.mention))
            .filter(|mention| mention.sense == Sense::Use && is_definite(mention.share))
    }
}
