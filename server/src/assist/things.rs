//! What the words under the cursor stand for, and every other place in the recipe that speaks of the same.

use smol_str::SmolStr;

use super::tools;
use crate::{
    book::title_key,
    larder::words,
    recipe::{
        Name, Recipe, StepResult,
        flow::Taken,
        language::lexicon::{Roles, roles},
        mentions::{Link, Mention, Target},
    },
    text::Span,
};

/// What words can stand for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Thing {
    /// An ingredient, a part of one, a result or a group of the list.
    Kitchen(Target),
    /// A line of the equipment, as an index.
    Equipment(usize),
    /// A recipe, by the [key](title_key) of its title.
    Recipe(String),
}

/// Words that stand for something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// The words.
    pub span: Span,
    /// What they stand for: several things for a collective or a kind.
    pub things: Vec<Thing>,
}

/// A place that speaks of a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Occurrence {
    /// Where.
    pub span: Span,
    /// What happens to the thing there.
    pub role: Role,
}

/// What happens to a thing where it is spoken of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// It is listed or made.
    Stated,
    /// Some or all of it is taken.
    Taken,
    /// It is handled or only named.
    Named,
}

/// What the words at `offset` stand for.
pub fn named_at(recipe: &Recipe, offset: usize) -> Option<Named> {
    let named = |span: Span, thing: Thing| span.touches(offset).then(|| Named { span, things: vec![thing] });
    let by_title = || {
        let references = recipe.references.iter().map(|reference| (reference.span, reference.title));
        let own = recipe.title.map(|title| (title, title));
        let found = references.chain(own).find(|(whole, _)| whole.touches(offset));
        found.and_then(|(whole, title)| named(whole, Thing::Recipe(title_key(recipe.at(title)))))
    };
    let mentioned = || {
        let here = recipe.flow.mentions.iter().filter(|mention| mention.span.touches(offset));
        let mention = here.filter(|mention| !mention.targets.is_empty()).min_by_key(|mention| mention.span.len())?;
        let name = place(recipe, mention);
        let span = if name.touches(offset) { name } else { mention.span };
        Some(Named { span, things: mention.targets.iter().copied().map(Thing::Kitchen).collect() })
    };
    let tool = || tools::mentions(recipe).into_iter().find_map(|(span, index)| named(span, Thing::Equipment(index)));
    by_title().or_else(mentioned).or_else(|| listed(recipe, offset)).or_else(tool).or_else(|| {
        let pieces = (0..recipe.equipment.len()).filter_map(|index| Some((tools::name(recipe, index)?, index)));
        pieces.into_iter().find_map(|(span, index)| named(span, Thing::Equipment(index)))
    })
}

/// What is listed, made or set as a heading at `offset`.
fn listed(recipe: &Recipe, offset: usize) -> Option<Named> {
    let one = |span: Span, target: Target| Named { span, things: vec![Thing::Kitchen(target)] };
    let lines = recipe.ingredients.iter().enumerate().filter(|(_, line)| line.span.touches(offset));
    for (index, line) in lines.filter(|(_, line)| !line.tags.remark) {
        if let Some(part) = line.parts.iter().find(|part| part.span.touches(offset)) {
            return Some(one(part.span, Target::Ingredient(index, Some(part.name))));
        }
        if let Some(name) = line.names.iter().find(|name| name.span.touches(offset)) {
            return Some(one(name.span, Target::Ingredient(index, None)));
        }
    }
    let results = recipe.flow.results.iter().enumerate().flat_map(|(index, known)| {
        results_named(recipe, &known.words).filter(|(step, _)| *step == known.step).map(move |(_, span)| (span, index))
    });
    let result = results.into_iter().find(|(span, _)| span.touches(offset));
    if let Some((span, index)) = result {
        return Some(one(span, Target::Result(index)));
    }
    let group = recipe.groups.iter().position(|group| group.name.touches(offset))?;
    Some(one(recipe.groups.get(group)?.name, Target::Group(group)))
}

/// Where steps name a result of these words: the step, as an index, and the name.
pub fn results_named<'r>(recipe: &'r Recipe, words: &'r [SmolStr]) -> impl Iterator<Item = (usize, Span)> {
    recipe.steps.iter().enumerate().flat_map(move |(step, own)| {
        let same = own.results.iter().filter(move |result: &&StepResult| *result.words == *words);
        same.map(move |result| (step, result.span))
    })
}

/// The words of a mention that say what it means: inside its brackets, without its share. All of it where it names nothing.
pub fn place(recipe: &Recipe, mention: &Mention) -> Span {
    let inside = || recipe.mark_name(mention.step, mention.span);
    if mention.link <= Link::Spelling { inside().unwrap_or(mention.span) } else { mention.span }
}

/// Every place in the recipe that speaks of a thing, in the order of the text.
pub fn occurrences(recipe: &Recipe, thing: &Thing) -> Vec<Occurrence> {
    let mut out: Vec<Occurrence> =
        stated(recipe, thing).into_iter().map(|span| Occurrence { span, role: Role::Stated }).collect();
    match thing {
        Thing::Kitchen(target) => {
            for (index, mention) in recipe.flow.mentions.iter().enumerate() {
                let meant = mention.targets.iter().filter(|own| same(recipe, *target, **own));
                if let Some(role) = meant.map(|own| role(recipe, *own, index)).min() {
                    out.push(Occurrence { span: place(recipe, mention), role });
                }
            }
        }
        Thing::Equipment(piece) => {
            let own = tools::mentions(recipe).into_iter().filter(|(_, index)| index == piece);
            out.extend(own.map(|(span, _)| Occurrence { span, role: Role::Taken }));
        }
        Thing::Recipe(key) => {
            let titles = recipe.references.iter().map(|reference| reference.title);
            let own = titles.filter(|title| title_key(recipe.at(*title)) == *key);
            out.extend(own.map(|span| Occurrence { span, role: Role::Taken }));
        }
    }
    out.sort();
    out.dedup_by_key(|occurrence| occurrence.span);
    out
}

/// Whether what is meant is what is looked for. Whoever looks for an ingredient looks for its parts too, and for what a name is
/// given to step after step.
fn same(recipe: &Recipe, wanted: Target, meant: Target) -> bool {
    match (wanted, meant) {
        (Target::Ingredient(wanted, None), Target::Ingredient(meant, _)) => wanted == meant,
        (Target::Result(wanted), Target::Result(meant)) => {
            let words = |index: usize| recipe.flow.results.get(index).map(|result| &result.words);
            words(wanted).is_some() && words(wanted) == words(meant)
        }
        _ => wanted == meant,
    }
}

fn role(recipe: &Recipe, target: Target, mention: usize) -> Role {
    let balance = recipe.flow.balances.iter().find(|balance| balance.target == target);
    let claim = balance.and_then(|balance| balance.claims.iter().find(|claim| claim.mention == mention));
    match claim.map(|claim| claim.taken) {
        None | Some(Taken::Nothing) => Role::Named,
        Some(_) => Role::Taken,
    }
}

/// Where a thing is listed, made or set as a heading; the title, for a recipe.
pub fn stated(recipe: &Recipe, thing: &Thing) -> Vec<Span> {
    match thing {
        Thing::Kitchen(Target::Ingredient(index, part)) => {
            let Some(line) = recipe.ingredients.get(*index) else { return Vec::new() };
            let parts = line.parts.iter().filter(|own| part.is_some_and(|part| part == own.name));
            let parts: Vec<Span> = parts.map(|own| own.span).collect();
            if !parts.is_empty() {
                return parts;
            }
            let names: Vec<Span> = line.names.iter().filter(|name| !name.aside).map(|name| name.span).collect();
            if names.is_empty() { vec![line.mark] } else { names }
        }
        Thing::Kitchen(Target::Result(index)) => {
            let words = recipe.flow.results.get(*index).map(|result| &*result.words).unwrap_or_default();
            results_named(recipe, words).map(|(_, span)| span).collect()
        }
        Thing::Kitchen(Target::Group(index)) => recipe.groups.get(*index).map(|group| group.name).into_iter().collect(),
        Thing::Equipment(index) => tools::name(recipe, *index).into_iter().collect(),
        Thing::Recipe(key) => recipe.title.filter(|title| title_key(recipe.at(*title)) == *key).into_iter().collect(),
    }
}

/// A name without the words of size and state before it: the eggs of *large eggs*.
pub fn bare_name(recipe: &Recipe, name: &Name) -> Span {
    let all = words::split(recipe.at(name.span));
    let counts = |word: &words::Word<'_>| name.words.iter().any(|own| **own == word.folded);
    let passed = |word: &words::Word<'_>| !counts(word) && roles(&word.folded).any(Roles::STATE.and(Roles::SIZE));
    let first = all.iter().find(|word| !passed(word));
    let last = all.iter().rev().find(|word| counts(word)).or(first);
    let ends = first.zip(last).map(|(first, last)| first.span.joined(last.span));
    ends.map_or(name.span, |span| span.shifted(name.span.start))
}
