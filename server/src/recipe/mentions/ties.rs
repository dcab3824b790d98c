//! A plain mention that fits several things equally: which of them it means.

use std::borrow::Cow;

use rustc_hash::{FxHashMap, FxHashSet};

use super::{Mention, Target, find::Kitchen, gather::has_gone};
use crate::recipe::language::clause::Sense;

/// Settles the mentions of `tied`, in the order of the text: by the amount that stands with it, by the heading, by what was
/// mentioned just before, by what nothing else names. Where nothing tells, all of them are meant. What a part of the dish has
/// taken as a whole (`parts`: its heading, and the first mention behind that) is not meant any more, while there is another.
pub fn settle(
    kitchen: &Kitchen<'_>,
    mentions: &mut [Mention],
    tied: &FxHashSet<usize>,
    parts: &FxHashMap<usize, usize>,
) {
    if tied.is_empty() {
        return;
    }
    let mut so_far = SoFar::default();
    let mut later: FxHashMap<Vec<Target>, usize> = FxHashMap::default();
    for (index, mention) in mentions.iter().enumerate().filter(|(_, mention)| mention.sense == Sense::Use) {
        if tied.contains(&index) {
            *later.entry(mention.targets.clone()).or_default() += 1;
        } else {
            so_far.claimed.extend(ingredients(mention));
        }
    }
    for index in 0..mentions.len() {
        let Some(mention) = mentions.get(index) else { continue };
        if tied.contains(&index) {
            let left = later.get_mut(&mention.targets);
            let left = left.map_or(0, |left| {
                *left = left.saturating_sub(usize::from(mention.sense == Sense::Use));
                *left
            });
            let kept = so_far.choose(kitchen, &still_there(kitchen, mention, index, parts), left);
            if let Some(mention) = mentions.get_mut(index).filter(|_| !kept.is_empty()) {
                mention.targets = kept;
                if mention.targets.len() == 1 && mention.sense == Sense::Use {
                    so_far.claimed.extend(ingredients(mention));
                }
            }
        }
        if let Some(mention) = mentions.get(index) {
            so_far.read(index, mention);
        }
    }
}

/// The mention of this index without the targets that are gone by then; as it is where none is left.
fn still_there<'m>(
    kitchen: &Kitchen<'_>,
    mention: &'m Mention,
    index: usize,
    parts: &FxHashMap<usize, usize>,
) -> Cow<'m, Mention> {
    let gone = |target: &Target| target.ingredient().is_some_and(|line| has_gone(kitchen, parts, line, index));
    let left: Vec<Target> = mention.targets.iter().filter(|target| !gone(target)).copied().collect();
    if left.is_empty() || left.len() == mention.targets.len() {
        return Cow::Borrowed(mention);
    }
    Cow::Owned(Mention { targets: left, ..mention.clone() })
}

/// What the method has said up to a mention.
#[derive(Default)]
struct SoFar {
    /// Ingredients that a mention means without a doubt, wherever it stands.
    claimed: FxHashSet<usize>,
    /// For each thing that a mention used and meant alone: the last of these mentions, as an index, and its step.
    used: FxHashMap<Target, (usize, usize)>,
}

impl SoFar {
    fn read(&mut self, index: usize, mention: &Mention) {
        if let ([target], Sense::Use) = (mention.targets.as_slice(), mention.sense) {
            self.used.insert(*target, (index, mention.step));
        }
    }

    fn choose(&self, kitchen: &Kitchen<'_>, mention: &Mention, later: usize) -> Vec<Target> {
        if let [only] = mention.targets.as_slice() {
            return vec![*only];
        }
        by_amount(kitchen, mention)
            .or_else(|| by_heading(kitchen, mention))
            .or_else(|| self.twins(kitchen, mention, later))
            .or_else(|| self.just_before(kitchen, mention))
            .unwrap_or_else(|| {
                let free = |target: &&Target| target.ingredient().is_some_and(|index| !self.claimed.contains(&index));
                mention.targets.iter().filter(free).copied().collect()
            })
    }

    /// The same food listed twice without a heading: the first line until as many mentions are left as lines.
    fn twins(&self, kitchen: &Kitchen<'_>, mention: &Mention, later: usize) -> Option<Vec<Target>> {
        let words = |target: &Target| {
            target
                .ingredient()
                .and_then(|index| kitchen.ingredients.get(index))
                .and_then(|found| found.names.first())
                .map(|name| &name.words)
        };
        let first = mention.targets.first()?;
        let same = mention.targets.iter().all(|target| words(target).is_some() && words(target) == words(first));
        if !same {
            return None;
        }
        let unused: Vec<&Target> = mention.targets.iter().filter(|target| !self.used.contains_key(*target)).collect();
        let started = mention.targets.iter().rev().find(|target| self.used.contains_key(*target));
        Some(vec![match started {
            Some(started) if later + 1 > unused.len() => *started,
            _ => **unused.first().or(mention.targets.last().as_ref())?,
        }])
    }

    /// What the same step, or the step before, has named last; "the oil" goes back as far as it must.
    fn just_before(&self, kitchen: &Kitchen<'_>, mention: &Mention) -> Option<Vec<Target>> {
        let definite = is_definite(kitchen, mention);
        let near = mention.targets.iter().filter_map(|target| Some((self.used.get(target)?, target)));
        let near = near.filter(|((_, step), _)| definite || step + 1 >= mention.step);
        near.max_by_key(|((index, _), _)| *index).map(|(_, target)| vec![*target])
    }
}

fn ingredients(mention: &Mention) -> Vec<usize> {
    mention.targets.iter().filter_map(|target| target.ingredient()).collect()
}

/// The step gives the very amount of one of them: "5 cups of water".
fn by_amount(kitchen: &Kitchen<'_>, mention: &Mention) -> Option<Vec<Target>> {
    let amount = kitchen.measures.get(mention.measure?)?;
    let same = |target: &&Target| {
        let own = target.ingredient().and_then(|index| kitchen.ingredients.get(index)).and_then(|found| found.amount);
        own.and_then(|index| kitchen.measures.get(index)).is_some_and(|own| own.same_amount(amount))
    };
    let kept: Vec<Target> = mention.targets.iter().filter(same).copied().collect();
    (kept.len() == 1).then_some(kept)
}

/// The step stands under the heading of one of them.
fn by_heading(kitchen: &Kitchen<'_>, mention: &Mention) -> Option<Vec<Target>> {
    let group = kitchen.steps.get(mention.step)?.group.and_then(|group| kitchen.groups.get(group))?;
    let same = |target: &&Target| {
        let own = target
            .ingredient()
            .and_then(|index| kitchen.ingredients.get(index))
            .and_then(|found| found.group)
            .and_then(|group| kitchen.groups.get(group));
        own.is_some_and(|own| own.words == group.words)
    };
    let kept: Vec<Target> = mention.targets.iter().filter(same).copied().collect();
    (!kept.is_empty()).then_some(kept)
}

/// Whether "the" stands right before the mention.
fn is_definite(kitchen: &Kitchen<'_>, mention: &Mention) -> bool {
    let tokens = kitchen.steps.get(mention.step).map(|step| &*step.tokens).unwrap_or_default();
    let at = tokens.partition_point(|token| token.span.start < mention.span.start);
    at.checked_sub(1).and_then(|before| tokens.get(before)).is_some_and(|before| before.word("the"))
}
