//! What a mention takes of a thing, and what it leaves.

use crate::{
    measure::Interval,
    recipe::{
        Recipe,
        flow::{Balance, NEARLY, Taken},
        mentions::Target,
    },
};

/// One line of the account of a thing: what a mention takes, and what is left behind it. Shares are fractions of the whole;
/// `None` where nobody can say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// What it takes, as the flow has it.
    pub taken: Taken,
    /// How much of the whole that is.
    pub share: Option<Interval>,
    /// How much of the whole is left for later.
    pub left: Option<Interval>,
}

/// The line for the mention of this index; nothing where the thing is not in the account.
pub fn entry(recipe: &Recipe, target: Target, mention: usize) -> Option<Entry> {
    let balance = recipe.flow.balances.iter().find(|balance| balance.target == target)?;
    let mut left = Some(Interval::exactly(1.0));
    for claim in &balance.claims {
        let share = share(balance, claim.taken, left);
        left = match claim.taken {
            Taken::Rest => Some(Interval::exactly(0.0)),
            _ => left.zip(share).map(|(left, share)| settled(left.minus(&share))),
        };
        if claim.mention == mention {
            return Some(Entry { taken: claim.taken, share, left });
        }
    }
    None
}

fn share(balance: &Balance, taken: Taken, left: Option<Interval>) -> Option<Interval> {
    let others = |wanted: fn(&Taken) -> bool| balance.claims.iter().any(|claim| wanted(&claim.taken));
    match taken {
        Taken::Nothing => Some(Interval::exactly(0.0)),
        Taken::Fraction(least, most) => Some(Interval::between(least, most)),
        Taken::Amount(_, fraction) => fraction.map(|(least, most)| Interval::between(least, most)),
        Taken::Rest => left,
        Taken::Some => None,
        // "Add the sugar. … Add the remaining sugar.": the first takes a part that nobody tells.
        Taken::Whole if others(|taken| matches!(taken, Taken::Rest | Taken::Some | Taken::Amount(_, None))) => None,
        Taken::Whole => {
            let shares = balance.shared.unwrap_or(Interval::exactly(0.0));
            Some(settled(Interval::exactly(1.0).minus(&shares)))
        }
    }
}

/// Three thirds written as 0.33 leave nothing.
fn settled(left: Interval) -> Interval {
    left.map(|end| if end < NEARLY { 0.0 } else { end })
}
