//! The flow: who uses how much of what, in which step, and what is left of it.

mod balance;

pub use balance::{Balance, Claim, NEARLY, Taken};

use super::{
    language::clause::Sense,
    mentions::{self, Kitchen, Known, KnownResult, Link, Mention, Noted, Share, Target, Unlisted},
};

/// Who uses how much of what, where.
#[derive(Debug, Clone, Default)]
pub struct Flow {
    /// Every mention, in the order of the text.
    pub mentions: Vec<Mention>,
    /// What steps use and the list does not have.
    pub unlisted: Vec<Unlisted>,
    /// The named results.
    pub results: Vec<KnownResult>,
    /// What happens to each ingredient, to each part that is followed on its own, and to each result.
    pub balances: Vec<Balance>,
    /// Equipment mentioned: the equipment line and the step, as indices.
    pub equipment: Vec<(usize, usize)>,
    /// What was noted on the way: an edit goes on from there.
    noted: Noted,
}

/// One use of an ingredient by a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use {
    /// The step, as an index.
    pub step: usize,
    /// The mention, as an index into [`Flow::mentions`].
    pub mention: usize,
    /// The part that is used, where not the whole.
    pub part: Option<&'static str>,
    /// What it takes.
    pub taken: Taken,
    /// How sure the link is.
    pub link: Link,
    /// Whether it stands in brackets.
    pub marked: bool,
}

impl Flow {
    /// Reads the method against the list.
    pub fn of(kitchen: &Kitchen<'_>) -> Flow {
        Flow::again(kitchen, &Flow::default(), Known::default())
    }

    /// The same of a recipe that has been edited, and of which the first steps are `known`.
    pub fn again(kitchen: &Kitchen<'_>, before: &Flow, known: Known) -> Flow {
        let noted = mentions::read(kitchen, before.noted.of(known), known.steps);
        let reading = mentions::settled(kitchen, noted.clone());
        let balances = balance::balances(kitchen, &reading);
        Flow {
            mentions: reading.mentions,
            unlisted: reading.unlisted,
            results: reading.results,
            balances,
            equipment: reading.equipment,
            noted,
        }
    }

    /// The uses of an ingredient, in the order of the method: where it, or a part of it, is put in, prepared or handled
    /// under a name of its own. One for each step and part. Loose collectives are left out.
    pub fn uses(&self, ingredient: usize) -> Vec<Use> {
        let mut out: Vec<Use> = Vec::new();
        for (balance, claim, mention) in self.used_by(ingredient) {
            let part = match balance.target {
                Target::Ingredient(_, part) => part,
                _ => None,
            };
            let new = Use {
                step: mention.step,
                mention: claim.mention,
                part,
                taken: claim.taken,
                link: mention.link,
                marked: mention.marked,
            };
            // The claims on each part stand together, in the order of the method.
            match out.last_mut().filter(|held| (held.step, held.part) == (new.step, new.part)) {
                Some(held) => held.stronger(new),
                None => out.push(new),
            }
        }
        out.sort_by_key(|found| (found.step, found.mention));
        out
    }

    /// Whether any step uses the ingredient, a part of it, or a group or collective that holds it.
    pub fn is_used(&self, ingredient: usize) -> bool {
        self.used_by(ingredient).next().is_some()
    }

    /// Whether a loose collective ("mix everything") may mean the ingredient.
    pub fn loosely_used(&self, ingredient: usize) -> bool {
        self.mentions.iter().any(|mention| {
            mention.link == Link::Loose && mention.targets.iter().any(|target| target.ingredient() == Some(ingredient))
        })
    }

    /// The first step that uses the ingredient, as an index.
    pub fn first_use(&self, ingredient: usize) -> Option<usize> {
        self.used_by(ingredient).map(|(_, _, mention)| mention.step).min()
    }

    /// What takes the ingredient or a part of it, claim by claim; loose collectives are left out.
    fn used_by(&self, ingredient: usize) -> impl Iterator<Item = (&Balance, &Claim, &Mention)> {
        let balances = self.balances.iter().filter(move |balance| balance.target.ingredient() == Some(ingredient));
        let claims = balances.flat_map(|balance| balance.claims.iter().map(move |claim| (balance, claim)));
        let mentioned = claims.filter_map(|(balance, claim)| Some((balance, claim, self.mentions.get(claim.mention)?)));
        mentioned.filter(|(.., mention)| mention.sense == Sense::Use && mention.link != Link::Loose)
    }

    /// The mention that `offset` touches, as an index.
    pub fn mention_at(&self, offset: usize) -> Option<usize> {
        self.mentions.iter().position(|mention| mention.span.touches(offset))
    }
}

impl Use {
    /// Of two uses in one step, the surer link and the one that takes something stand for both.
    fn stronger(&mut self, other: Use) {
        if self.taken == Taken::Nothing {
            self.taken = other.taken;
        }
        if other.link < self.link {
            self.link = other.link;
        }
        self.marked |= other.marked;
    }
}

impl Target {
    /// The ingredient, where the target is one.
    pub fn ingredient(self) -> Option<usize> {
        match self {
            Target::Ingredient(index, _) => Some(index),
            _ => None,
        }
    }
}

/// Whether a share says how much of its target it takes.
pub fn is_definite(share: Share) -> bool {
    matches!(share, Share::Fraction(..) | Share::Amount(_))
}
