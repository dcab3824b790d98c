//! What a collective takes: all of its scope that nothing else claims by name.

use std::collections::HashSet;

use super::{
    Link, Mention, Share, Target,
    collectives::Scope,
    find::{Gathering, Kitchen, Reading},
};
use crate::recipe::{
    language::clause::Sense,
    model::{Group, Ingredient, SectionKind},
};

/// Puts the collectives among the mentions, in the order of the text.
pub fn settle(kitchen: &Kitchen<'_>, gatherings: Vec<Gathering>, out: &mut Reading) {
    let mut added: Vec<(usize, Mention)> = Vec::new();
    let mut gathered: HashSet<usize> = HashSet::new();
    for gathering in gatherings {
        let taken = targets(kitchen, &gathering, &out.mentions, &gathered);
        gathered.extend(taken.iter().copied());
        added.push((
            gathering.before,
            Mention {
                span: gathering.span,
                step: gathering.step,
                marked: gathering.marked,
                link: if gathering.what.loose { Link::Loose } else { Link::Collective },
                targets: taken.into_iter().map(|index| Target::Ingredient(index, None)).collect(),
                share: if gathering.what.scope == Scope::Remaining { Share::Rest } else { Share::Whole },
                sense: gathering.sense,
                measure: None,
            },
        ));
    }
    groups(kitchen, out);
    for (before, mention) in added.into_iter().rev() {
        out.mentions.insert(before.min(out.mentions.len()), mention);
    }
}

/// A mention of a group stands for those of its ingredients that no mention names.
fn groups(kitchen: &Kitchen<'_>, out: &mut Reading) {
    let claimed = named(&out.mentions);
    for mention in &mut out.mentions {
        let Some(Target::Group(group)) = mention.targets.first().copied() else { continue };
        let own = kitchen
            .ingredients
            .iter()
            .enumerate()
            .filter(|(_, ingredient)| ingredient.group == Some(group) && !ingredient.tags.remark);
        mention.targets.extend(
            own.map(|(index, _)| index)
                .filter(|index| !claimed.contains(index))
                .map(|index| Target::Ingredient(index, None)),
        );
        mention.link = Link::Collective;
    }
}

fn named(mentions: &[Mention]) -> HashSet<usize> {
    let uses = mentions.iter().filter(|mention| mention.sense == Sense::Use && mention.link < Link::Act);
    uses.flat_map(|mention| &mention.targets)
        .filter_map(|target| if let Target::Ingredient(index, _) = target { Some(*index) } else { None })
        .collect()
}

fn targets(
    kitchen: &Kitchen<'_>,
    gathering: &Gathering,
    mentions: &[Mention],
    gathered: &HashSet<usize>,
) -> Vec<usize> {
    let (earlier, later) = mentions.split_at(gathering.before.min(mentions.len()));
    let earlier = named(earlier);
    let later = named(later);
    let ingredient = |index: usize| kitchen.ingredients.get(index);
    let at_table = |index: usize| {
        ingredient(index).is_some_and(|ingredient| {
            ingredient.tags.serving
                || ingredient.tags.pan
                || ingredient.group.and_then(|group| kitchen.groups.get(group)).is_some_and(|group| group.at_table)
        })
    };
    let group = own_group(kitchen, gathering.step);
    members(&gathering.what.scope, kitchen.ingredients, kitchen.groups)
        .into_iter()
        .filter(|index| !gathering.except.contains(index))
        .filter(|index| {
            group.is_none_or(|group| ingredient(*index).is_some_and(|ingredient| ingredient.group == Some(group)))
        })
        .filter(|index| {
            !at_table(*index)
                || matches!(gathering.what.scope, Scope::Named(_) | Scope::First(_) | Scope::Last(_) | Scope::Remaining)
        })
        .filter(|index| match gathering.what.scope {
            Scope::First(_) | Scope::Last(_) => true,
            Scope::Remaining => {
                // What an earlier mention took only a share of goes on; what a later one names waits for it.
                let started = mentions.iter().any(|mention| {
                    mention.share != Share::Whole
                        && mention.sense == Sense::Use
                        && mention.targets.contains(&Target::Ingredient(*index, None))
                });
                !later.contains(index)
                    && (!earlier.contains(index) && !gathered.contains(index)
                        || started && !gathered.contains(index) && amounts_left(kitchen, mentions, *index))
            }
            _ if gathering.what.loose => !earlier.contains(index) && !later.contains(index),
            _ => earlier.contains(index) || !later.contains(index),
        })
        .collect()
}

/// Whether the amounts and fractions taken of an ingredient leave something over.
fn amounts_left(kitchen: &Kitchen<'_>, mentions: &[Mention], index: usize) -> bool {
    let taken = mentions
        .iter()
        .filter(|mention| mention.sense == Sense::Use && mention.targets.contains(&Target::Ingredient(index, None)));
    let listed = kitchen
        .ingredients
        .get(index)
        .and_then(|ingredient| ingredient.amount)
        .and_then(|amount| kitchen.measures.get(amount));
    let mut fraction = 0.0;
    for mention in taken {
        match mention.share {
            Share::Fraction(least, _) => fraction += least,
            Share::Amount(measure) => match (kitchen.measures.get(measure), listed) {
                (Some(amount), Some(listed)) if amount.same_amount(listed) => return false,
                _ => {}
            },
            Share::Whole | Share::Rest | Share::RestAgain => return false,
            Share::Some => {}
        }
    }
    fraction < 0.999
}

/// The group of the list that belongs to the step's heading in the method.
fn own_group(kitchen: &Kitchen<'_>, step: usize) -> Option<usize> {
    let heading = kitchen.steps.get(step).and_then(|step| step.group).and_then(|group| kitchen.groups.get(group))?;
    let same = |group: &Group| {
        !group.words.is_empty() && group.words == heading.words && group.section == SectionKind::Ingredients
    };
    kitchen.groups.iter().position(same)
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
            let query_words: Vec<&str> = words.iter().map(|word| &**word).collect();
            let named = groups.iter().position(|group| {
                !group.words.is_empty() && query_words.iter().all(|word| group.words.iter().any(|own| &**own == *word))
            });
            if let Some(group) = named {
                return all()
                    .filter(|index| ingredients.get(*index).is_some_and(|ingredient| ingredient.group == Some(group)))
                    .collect();
            }
            let kind = query_words.join(" ");
            let kinds = of_kinds(&[&kind]);
            if kinds.is_empty() { all().collect() } else { kinds }
        }
    }
}
