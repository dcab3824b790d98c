//! A plain mention that fits several things equally: which of them it means.

use std::collections::HashSet;

use super::{Mention, Target, find::Kitchen};
use crate::recipe::language::clause::Sense;

/// Settles the mentions of `tied`, in the order of the text: by the amount that stands with it, by the heading, by what was
/// mentioned just before, by what nothing else names. Where nothing tells, all of them are meant.
pub fn settle(kitchen: &Kitchen<'_>, mentions: &mut [Mention], tied: &HashSet<usize>) {
    let mut claimed: HashSet<usize> = HashSet::new();
    for (index, mention) in mentions.iter().enumerate() {
        if !tied.contains(&index) && mention.sense == Sense::Use {
            claimed.extend(ingredients(mention));
        }
    }
    let mut order: Vec<usize> = tied.iter().copied().collect();
    order.sort_unstable();
    for (place, &index) in order.iter().enumerate() {
        let Some(mention) = mentions.get(index) else { continue };
        let later = order
            .get(place + 1..)
            .unwrap_or_default()
            .iter()
            .filter_map(|later| mentions.get(*later))
            .filter(|later| later.targets == mention.targets && later.sense == Sense::Use)
            .count();
        let kept = by_amount(kitchen, mention)
            .or_else(|| by_heading(kitchen, mention))
            .or_else(|| twins(kitchen, mention, mentions.get(..index).unwrap_or_default(), later))
            .or_else(|| just_before(kitchen, mention, mentions.get(..index).unwrap_or_default()))
            .unwrap_or_else(|| {
                mention
                    .targets
                    .iter()
                    .filter(|target| target.ingredient().is_some_and(|own| !claimed.contains(&own)))
                    .copied()
                    .collect()
            });
        if let Some(mention) = mentions.get_mut(index).filter(|_| !kept.is_empty()) {
            mention.targets = kept;
            if mention.targets.len() == 1 && mention.sense == Sense::Use {
                claimed.extend(ingredients(mention));
            }
        }
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

/// The same food listed twice without a heading: the first line until as many mentions are left as lines.
fn twins(kitchen: &Kitchen<'_>, mention: &Mention, earlier: &[Mention], later: usize) -> Option<Vec<Target>> {
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
    let used = |target: &Target| {
        earlier.iter().any(|mention| mention.sense == Sense::Use && mention.targets.as_slice() == [*target])
    };
    let unused: Vec<&Target> = mention.targets.iter().filter(|target| !used(target)).collect();
    let started = mention.targets.iter().rev().find(|target| used(target));
    Some(vec![match started {
        Some(started) if later + 1 > unused.len() => *started,
        _ => **unused.first().or(mention.targets.last().as_ref())?,
    }])
}

/// What the same step, or the step before, has just named; "the oil" goes back as far as it must.
fn just_before(kitchen: &Kitchen<'_>, mention: &Mention, earlier: &[Mention]) -> Option<Vec<Target>> {
    let tokens = kitchen.steps.get(mention.step).map(|step| &*step.tokens).unwrap_or_default();
    let definite = tokens
        .windows(2)
        .any(|pair| matches!(pair, [first, second] if first.word("the") && second.span.start == mention.span.start));
    let near = earlier.iter().rev().take_while(|other| definite || other.step + 1 >= mention.step);
    let kept = near
        .filter(|other| other.sense == Sense::Use && other.targets.len() == 1)
        .flat_map(|other| &other.targets)
        .find(|target| mention.targets.contains(target));
    kept.map(|target| vec![*target])
}
