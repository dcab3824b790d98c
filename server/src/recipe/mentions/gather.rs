//! What a collective takes: all of its scope that nothing else claims by name.

use std::collections::hash_map::Entry;

use rustc_hash::{FxHashMap, FxHashSet};
use smol_str::SmolStr;

use super::{
    Link, Mention, Share, Target,
    collectives::Scope,
    find::{Gathering, Kitchen, Reading},
    kinds::is_taken_out,
};
use crate::recipe::{
    language::clause::Sense,
    model::{Group, Ingredient, SectionKind},
};

/// Puts the collectives among the mentions, in the order of the text.
pub fn settle(kitchen: &Kitchen<'_>, gatherings: Vec<Gathering>, out: &mut Reading) {
    let takes_group = |mention: &Mention| matches!(mention.targets.first(), Some(Target::Group(_)));
    if gatherings.is_empty() && !out.mentions.iter().any(takes_group) {
        return;
    }
    let claims = Claims::of(kitchen, &out.mentions);
    groups(kitchen, &claims, &parts_gathered(kitchen, &gatherings), out);
    if gatherings.is_empty() {
        return;
    }
    let mut gathered: FxHashSet<usize> = FxHashSet::default();
    let mut own = std::mem::take(&mut out.mentions).into_iter().enumerate().peekable();
    for gathering in gatherings {
        while let Some((_, mention)) = own.next_if(|(index, _)| *index < gathering.before) {
            out.mentions.push(mention);
        }
        let loose = is_loose(kitchen, &gathering) && claims.has_begun(gathering.before);
        let taken = targets(kitchen, &gathering, &claims, &gathered);
        gathered.extend(taken.iter().copied());
        out.mentions.push(Mention {
            span: gathering.span,
            step: gathering.step,
            marked: gathering.marked,
            link: if loose { Link::Loose } else { Link::Collective },
            targets: taken.into_iter().map(|index| Target::Ingredient(index, None)).collect(),
            share: if gathering.what.scope == Scope::Remaining { Share::Rest } else { Share::Whole },
            sense: gathering.sense,
            measure: None,
        });
    }
    out.mentions.extend(own.map(|(_, mention)| mention));
}

/// Puts in those mentions of mixtures that are all that uses what they are named after: the first of each, and the others too
/// where that takes a share of it and leaves the rest for them.
pub fn fall_back(fallbacks: Vec<Mention>, mentions: &mut Vec<Mention>) {
    if fallbacks.is_empty() {
        return;
    }
    // "The rest of" it says that it has been used before, and a fallback may be what used it.
    let certain = |mention: &&Mention| mention.sense == Sense::Use && mention.link != Link::Loose;
    let first_uses = mentions.iter().filter(certain).filter(|mention| !takes_the_rest(mention));
    let used: FxHashSet<usize> =
        first_uses.flat_map(|mention| &mention.targets).filter_map(|target| target.ingredient()).collect();
    let mut shared: FxHashMap<usize, bool> = FxHashMap::default();
    for mut mention in fallbacks.into_iter().filter(|mention| mention.sense == Sense::Use) {
        let takes_share = !matches!(mention.share, Share::Whole | Share::Some);
        mention.targets.retain(|target| {
            target.ingredient().is_some_and(|index| match shared.entry(index) {
                _ if used.contains(&index) => false,
                Entry::Occupied(entry) => *entry.get(),
                Entry::Vacant(entry) => {
                    entry.insert(takes_share);
                    true
                }
            })
        });
        if !mention.targets.is_empty() {
            let place =
                mentions.partition_point(|other| (other.step, other.span.start) < (mention.step, mention.span.start));
            mentions.insert(place, mention);
        }
    }
}

fn takes_the_rest(mention: &Mention) -> bool {
    matches!(mention.share, Share::Rest | Share::RestAmount(_) | Share::RestAgain)
}

/// A mention of a group stands for those of its ingredients that no mention names, and that have not been put together before.
fn groups(kitchen: &Kitchen<'_>, claims: &Claims, parts: &FxHashMap<usize, usize>, out: &mut Reading) {
    for (at, mention) in out.mentions.iter_mut().enumerate() {
        let Some(Target::Group(group)) = mention.targets.first().copied() else { continue };
        let own = kitchen
            .ingredients
            .iter()
            .enumerate()
            .filter(|(_, ingredient)| ingredient.group == Some(group) && !ingredient.tags.remark);
        mention.targets.extend(
            own.map(|(index, _)| index)
                .filter(|index| !claims.named.contains_key(index) && !has_gone(kitchen, parts, *index, at))
                .map(|index| Target::Ingredient(index, None)),
        );
        mention.link = Link::Collective;
    }
}

/// What the mentions claim by name.
#[derive(Default)]
struct Claims {
    /// For each ingredient that a mention uses by name: the first such mention and the last, as indices.
    named: FxHashMap<usize, (usize, usize)>,
    /// The steps of these first mentions.
    steps: FxHashMap<usize, usize>,
    /// The first mention that uses anything by name.
    first: Option<usize>,
    /// The shares that mentions take of the whole of each ingredient, in order.
    shares: FxHashMap<usize, Vec<Share>>,
}

impl Claims {
    fn of(kitchen: &Kitchen<'_>, mentions: &[Mention]) -> Claims {
        let mut claims = Claims::default();
        for (at, mention) in mentions.iter().enumerate().filter(|(_, mention)| mention.sense == Sense::Use) {
            // What is taken out has been put in before, and by no word but the collective.
            let put_in = mention.link < Link::Act && !is_taken_out(kitchen, mention);
            for target in &mention.targets {
                let Target::Ingredient(index, part) = *target else { continue };
                if put_in {
                    claims.named.entry(index).and_modify(|(_, last)| *last = at).or_insert((at, at));
                    claims.steps.entry(index).or_insert(mention.step);
                    claims.first = claims.first.or(Some(at));
                }
                if part.is_none() {
                    claims.shares.entry(index).or_default().push(mention.share);
                }
            }
        }
        claims
    }

    /// Whether anything has been named before the mention `at`.
    fn has_begun(&self, at: usize) -> bool {
        self.first.is_some_and(|first| first < at)
    }

    fn first_step(&self, index: usize) -> Option<usize> {
        self.steps.get(&index).copied()
    }

    fn before(&self, index: usize, at: usize) -> bool {
        self.named.get(&index).is_some_and(|(first, _)| *first < at)
    }

    fn behind(&self, index: usize, at: usize) -> bool {
        self.named.get(&index).is_some_and(|(_, last)| *last >= at)
    }

    /// Whether the amounts and fractions taken of an ingredient, if there are any, leave something over.
    fn started(&self, kitchen: &Kitchen<'_>, index: usize) -> bool {
        let Some(shares) = self.shares.get(&index).filter(|shares| shares.iter().any(|share| *share != Share::Whole))
        else {
            return false;
        };
        let listed = kitchen
            .ingredients
            .get(index)
            .and_then(|ingredient| ingredient.amount)
            .and_then(|amount| kitchen.measures.get(amount));
        let mut fraction = 0.0;
        for share in shares {
            match share {
                Share::Fraction(least, _) => fraction += least,
                Share::Amount(measure) => match (kitchen.measures.get(*measure), listed) {
                    (Some(amount), Some(listed)) if amount.same_amount(listed) => return false,
                    _ => {}
                },
                Share::Whole | Share::Rest | Share::RestAmount(_) | Share::RestAgain => return false,
                Share::Some | Share::AllBut(_) => {}
            }
        }
        fraction < 0.999
    }
}

fn targets(kitchen: &Kitchen<'_>, gathering: &Gathering, claims: &Claims, gathered: &FxHashSet<usize>) -> Vec<usize> {
    let ingredient = |index: usize| kitchen.ingredients.get(index);
    let at_table = |index: usize| {
        ingredient(index).is_some_and(|ingredient| {
            ingredient.tags.serving
                || ingredient.tags.pan
                || ingredient.group.and_then(|group| kitchen.groups.get(group)).is_some_and(|group| group.at_table)
        })
    };
    let group = own_group(kitchen, gathering.step);
    let earlier = |index: usize| claims.before(index, gathering.before);
    let later = |index: usize| claims.behind(index, gathering.before);
    let all = members(&gathering.what.scope, kitchen.ingredients, kitchen.groups);
    let batch = Batch::of(kitchen, claims, gathering, &all);
    let loose = is_loose(kitchen, gathering);
    let every = kitchen.ingredients.iter().filter(|line| !line.tags.remark).count();
    let told_apart = match gathering.what.scope {
        // What neither a heading nor a kind names is the whole list, and that is without what goes on the table.
        Scope::Named(_) => all.len() < every,
        Scope::First(_) | Scope::Last(_) | Scope::Remaining => true,
        Scope::All | Scope::Dry | Scope::Wet => false,
    };
    let within = |index: &usize| {
        group.is_none_or(|group| ingredient(*index).is_some_and(|ingredient| ingredient.group == Some(group)))
    };
    let meant: Vec<usize> = all
        .into_iter()
        .filter(|index| !gathering.except.contains(index) && within(index))
        .filter(|index| told_apart || !at_table(*index))
        .filter(|index| match gathering.what.scope {
            Scope::First(_) | Scope::Last(_) => true,
            // What an earlier mention took only a share of goes on; what a later one names waits for it.
            Scope::Remaining => {
                !later(*index) && !gathered.contains(index) && (!earlier(*index) || claims.started(kitchen, *index))
            }
            Scope::Dry | Scope::Wet => batch.holds(claims, gathering, *index),
            _ if loose && claims.has_begun(gathering.before) => !earlier(*index) && !later(*index),
            _ => earlier(*index) || !later(*index),
        })
        .collect();
    // What is left for the table goes into no bowl, unless nothing else is left.
    let cooked: Vec<usize> = meant.iter().filter(|index| !at_table(**index)).copied().collect();
    if gathering.what.scope == Scope::Remaining && !cooked.is_empty() { cooked } else { meant }
}

/// Powders or liquids that the method has put together by name before it speaks of them as one.
struct Batch {
    /// The step that named the flour among the powders, the milk among the liquids.
    step: Option<usize>,
}

impl Batch {
    fn of(kitchen: &Kitchen<'_>, claims: &Claims, gathering: &Gathering, members: &[usize]) -> Batch {
        let chief = match gathering.what.scope {
            Scope::Dry => &["flour", "starch", "grain", "cocoa"][..],
            _ => &["milk", "liquid", "cream", "yogurt"][..],
        };
        let is_chief = |index: &&usize| {
            let names = kitchen.ingredients.get(**index).map(|line| line.names.as_slice()).unwrap_or_default();
            names.iter().filter_map(|name| name.food).any(|food| chief.iter().any(|kind| food.is(kind)))
        };
        let chiefs = members.iter().filter(is_chief).filter(|index| claims.before(**index, gathering.before));
        Batch { step: chiefs.filter_map(|index| claims.first_step(*index)).max() }
    }

    /// Once the flour has been named, what was named in the same step; before, what nothing names. What no word names at all
    /// goes with either.
    fn holds(&self, claims: &Claims, gathering: &Gathering, index: usize) -> bool {
        match (self.step, claims.first_step(index)) {
            (_, None) => true,
            (Some(batch), Some(first)) => batch == first && claims.before(index, gathering.before),
            (None, Some(_)) => false,
        }
    }
}

/// The group of the list that belongs to the step's heading in the method.
fn own_group(kitchen: &Kitchen<'_>, step: usize) -> Option<usize> {
    let heading = kitchen.steps.get(step).and_then(|step| step.group).and_then(|group| kitchen.groups.get(group))?;
    let same = |group: &Group| {
        !group.words.is_empty() && group.words == heading.words && group.section == SectionKind::Ingredients
    };
    kitchen.groups.iter().position(same)
}

/// The headings whose lines a collective takes as a part of the dish ("the ingredients for the levain"), each with the index of
/// the first mention behind it.
pub fn parts_gathered(kitchen: &Kitchen<'_>, gatherings: &[Gathering]) -> FxHashMap<usize, usize> {
    let mut out = FxHashMap::default();
    for gathering in gatherings.iter().filter(|gathering| gathering.sense == Sense::Use) {
        if let Scope::Named(words) = &gathering.what.scope
            && let Some(group) = part_named(words, kitchen.groups)
        {
            out.entry(group).or_insert(gathering.before);
        }
    }
    out
}

/// Whether a line of the list has gone into its part of the dish before the mention of this index.
pub fn has_gone(kitchen: &Kitchen<'_>, parts: &FxHashMap<usize, usize>, line: usize, mention: usize) -> bool {
    let group = kitchen.ingredients.get(line).and_then(|line| line.group);
    group.and_then(|group| parts.get(&group)).is_some_and(|first| *first <= mention)
}

/// Whether a collective means only what stands about. "Everything for the filling" means what the list has under that heading.
fn is_loose(kitchen: &Kitchen<'_>, gathering: &Gathering) -> bool {
    let part = match &gathering.what.scope {
        Scope::Named(words) => part_named(words, kitchen.groups),
        _ => None,
    };
    gathering.what.loose && part.is_none()
}

/// The heading that has all of these words.
fn part_named(words: &[SmolStr], groups: &[Group]) -> Option<usize> {
    groups.iter().position(|group| !group.words.is_empty() && words.iter().all(|word| group.words.contains(word)))
}

/// Which ingredients a scope means, before exceptions and claims.
fn members(scope: &Scope, ingredients: &[Ingredient], groups: &[Group]) -> Vec<usize> {
    let all = || {
        (0..ingredients.len()).filter(|index| ingredients.get(*index).is_some_and(|ingredient| !ingredient.tags.remark))
    };
    let of_kinds = |kinds: &[&str]| -> Vec<usize> {
        all()
            .filter(|index| {
                ingredients.get(*index).is_some_and(|ingredient| {
                    ingredient
                        .names
                        .iter()
                        .any(|name| name.food.is_some_and(|food| kinds.iter().any(|kind| food.is(kind))))
                })
            })
            .collect()
    };
    match scope {
        Scope::All | Scope::Remaining => all().collect(),
        Scope::First(count) => all().take(*count).collect(),
        Scope::Last(count) => {
            let every: Vec<usize> = all().collect();
            every.iter().rev().take(*count).rev().copied().collect()
        }
        Scope::Dry => {
            of_kinds(&["flour", "starch", "sugar", "leavening", "spice", "salt", "cocoa", "dry", "grain", "yeast"])
        }
        Scope::Wet => of_kinds(&[
            "liquid", "milk", "egg", "oil", "syrup", "juice", "extract", "wet", "cream", "vinegar", "yogurt",
        ]),
        Scope::Named(words) => {
            if let Some(group) = part_named(words, groups) {
                return all()
                    .filter(|index| ingredients.get(*index).is_some_and(|ingredient| ingredient.group == Some(group)))
                    .collect();
            }
            let kind = words.join(" ");
            let kinds = of_kinds(&[&kind]);
            if kinds.is_empty() { all().collect() } else { kinds }
        }
    }
}
