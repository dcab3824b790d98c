//! A word for a kind of food ("the vegetables"): which of those that the list has it means at this point of the method.

use rustc_hash::{FxHashMap, FxHashSet};

use super::{Link, Mention, Target, find::Kitchen};
use crate::{
    measure::Unit,
    recipe::{
        language::{
            clause::Sense,
            lexicon::Roles,
            token::{Token, TokenKind},
        },
        model::Ingredient,
    },
};

/// Settles the mentions of `kinds`, given as indices, in the order of the text.
pub fn settle(kitchen: &Kitchen<'_>, mentions: &mut [Mention], kinds: &FxHashSet<usize>) {
    if kinds.is_empty() {
        return;
    }
    let mut named_last: FxHashMap<usize, usize> = FxHashMap::default();
    let puts_in =
        |(at, mention): &(usize, &Mention)| names(mention) && !kinds.contains(at) && !is_taken_out(kitchen, mention);
    for (at, mention) in mentions.iter().enumerate().filter(puts_in) {
        named_last.extend(mention.targets.iter().filter_map(|target| Some((target.ingredient()?, at))));
    }
    // The step that first names each.
    let mut seen: FxHashMap<usize, usize> = FxHashMap::default();
    for at in 0..mentions.len() {
        let Some(mention) = mentions.get(at) else { continue };
        if kinds.contains(&at) && mention.targets.len() > 1 {
            let herbs = says_herbs(kitchen, mention);
            let point = Point { kitchen, seen: &seen, named_last: &named_last, at, step: mention.step, herbs };
            let kept = point.meant(&mention.targets);
            mentions.get_mut(at).into_iter().for_each(|mention| mention.targets = kept.clone());
        }
        if let Some(mention) = mentions.get(at).filter(|mention| names(mention)) {
            for index in mention.targets.iter().filter_map(|target| target.ingredient()) {
                seen.entry(index).or_insert(mention.step);
            }
        }
    }
}

/// "Discard the thyme", "fish out the spice bag": the order that a mention is the object of takes it out again.
pub fn is_taken_out(kitchen: &Kitchen<'_>, mention: &Mention) -> bool {
    let tokens = kitchen.steps.get(mention.step).map(|step| step.tokens.as_slice()).unwrap_or_default();
    let before =
        tokens.get(..tokens.partition_point(|token| token.span.start < mention.span.start)).unwrap_or_default();
    let clause =
        before.iter().rev().take(8).take_while(|token| !matches!(token.kind, TokenKind::Stop | TokenKind::Pause));
    let order = clause.take_while(|token| !token.one_of(&["with", "in", "into", "to", "from", "of"]));
    let verb = order.into_iter().find(|token| (token.is(Roles::VERB) || token.word("fish")) && !token.inflected);
    verb.is_some_and(|verb| {
        let out = |token: &Token| token.span.start > verb.span.start && token.word("out");
        verb.one_of(&["discard", "remove"])
            || verb.one_of(&["fish", "take", "lift", "pick"]) && before.iter().rev().take(8).any(out)
    })
}

/// Whether the last word of a mention is "herbs".
fn says_herbs(kitchen: &Kitchen<'_>, mention: &Mention) -> bool {
    let tokens = kitchen.steps.get(mention.step).map(|step| step.tokens.as_slice()).unwrap_or_default();
    let last = tokens.partition_point(|token| token.span.end <= mention.span.end);
    last.checked_sub(1).and_then(|last| tokens.get(last)).is_some_and(|last| last.word("herb"))
}

fn names(mention: &Mention) -> bool {
    mention.sense == Sense::Use && mention.link < Link::Act
}

/// Whether one of several can be meant.
type Rule<'p> = dyn Fn(&Target, &[Target]) -> bool + 'p;

/// A place in the method, and what has been said before it and will be said behind it.
struct Point<'p, 'r> {
    kitchen: &'p Kitchen<'r>,
    seen: &'p FxHashMap<usize, usize>,
    named_last: &'p FxHashMap<usize, usize>,
    at: usize,
    step: usize,
    /// Whether it speaks of herbs.
    herbs: bool,
}

impl Point<'_, '_> {
    /// Those of `targets` that the word can mean here; all of them where nothing tells.
    fn meant(&self, targets: &[Target]) -> Vec<Target> {
        let rules: [&Rule<'_>; 5] = [
            // What comes out of a tin goes into the sauce, and is no piece that anyone could pick out.
            &|target, _| !self.line(target).is_some_and(|line| is_tinned(self.kitchen, line)),
            // A bunch of parsley is none of the spices; a spoonful of oregano may be.
            &|target, all| {
                !(!self.herbs && self.is_fresh_herb(target) && all.iter().any(|other| self.is_a(other, &["spice"])))
            },
            // Some have been named before: those that are named only later are not at hand yet.
            &|target, all| {
                !(all.iter().any(|other| self.is_seen(other)) && !self.is_seen(target) && self.comes_later(target))
            },
            // Onion and garlic that went in first have become the base of what the others cook in.
            &|target, all| !(self.is_base(target) && all.iter().any(|other| self.follows(other, target))),
            // A liquid or a spice that has been put in cannot be put in again; those that no word names can.
            &|target, all| !(self.is_gone(target) && all.iter().any(|other| !self.is_seen(other))),
        ];
        let mut kept = targets.to_vec();
        for rule in rules {
            let left: Vec<Target> = kept.iter().filter(|target| rule(target, &kept)).copied().collect();
            if !left.is_empty() {
                kept = left;
            }
        }
        kept
    }

    fn line(&self, target: &Target) -> Option<&Ingredient> {
        self.kitchen.ingredients.get(target.ingredient()?)
    }

    fn is_seen(&self, target: &Target) -> bool {
        target.ingredient().is_some_and(|index| self.seen.contains_key(&index))
    }

    fn comes_later(&self, target: &Target) -> bool {
        target.ingredient().and_then(|index| self.named_last.get(&index)).is_some_and(|last| *last > self.at)
    }

    fn first_step(&self, target: &Target) -> usize {
        target.ingredient().and_then(|index| self.seen.get(&index)).copied().unwrap_or(self.step)
    }

    /// Whether one is no base and comes in behind the other.
    fn follows(&self, one: &Target, other: &Target) -> bool {
        !self.is_base(one) && self.first_step(one) > self.first_step(other)
    }

    fn is_base(&self, target: &Target) -> bool {
        self.is_a(target, &["allium", "ginger"]) && !self.is_a(target, &["leek"])
    }

    fn is_gone(&self, target: &Target) -> bool {
        self.is_seen(target) && self.is_a(target, &["oil", "sauce", "spice", "sugar", "vinegar", "liquid"])
    }

    fn is_fresh_herb(&self, target: &Target) -> bool {
        let amount = self.line(target).and_then(|line| self.kitchen.measures.get(line.amount?)?.stated.unit());
        let spooned = amount.is_none_or(|unit| matches!(unit, Unit::Teaspoon | Unit::Tablespoon | Unit::Pinch));
        self.is_a(target, &["herb"]) && !self.is_a(target, &["spice"]) && !spooned
    }

    fn is_a(&self, target: &Target, kinds: &[&str]) -> bool {
        let foods = self.line(target).into_iter().flat_map(|line| &line.names).filter_map(|name| name.food);
        let mut foods = foods.peekable();
        foods.any(|food| kinds.iter().any(|kind| food.is(kind) || food.name == *kind))
    }
}

fn is_tinned(kitchen: &Kitchen<'_>, line: &Ingredient) -> bool {
    let measures = line.measures.iter().filter_map(|index| kitchen.measures.get(*index));
    let stated = measures.flat_map(|measure| measure.statements().chain(&measure.each));
    let mut units = stated.flat_map(|stated| &stated.terms).filter_map(|term| term.amount()?.unit);
    let said = |word: &str| ["tin", "can", "tinned", "canned"].contains(&word);
    units.any(|unit| matches!(unit, Unit::Can | Unit::Tin))
        || line.names.iter().flat_map(|name| &name.all_words).any(|word| said(word))
        || line
            .names
            .iter()
            .filter_map(|name| name.food)
            .any(|food| food.is("sauce") || food.is("paste") || food.name.starts_with("canned"))
}
