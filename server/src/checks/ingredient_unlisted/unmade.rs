//! Things that a kitchen makes, which a step takes as made, and which nothing in the recipe can have become.

use super::CHECK;
use crate::{
    checks::{Certainty, Finding, Severity, support::words},
    larder::words::fold,
    recipe::{Recipe, SectionKind, language::token::Token},
    text::Span,
};

/// Things that are made of certain foods and of no others, and the kinds of which one each goes into them; folded. Common
/// practice, no source.
const MADE_OF: &[(&str, &[&[&str]])] = &[
    ("buttercream", &[&["butter"], &["sugar"]]),
    ("frosting", &[&["sugar"]]),
    ("ganache", &[&["chocolate"]]),
    ("meringue", &[&["egg"], &["sugar"]]),
    ("custard", &[&["egg", "starch"], &["milk", "cream"]]),
    ("hollandaise", &[&["egg"], &["butter"]]),
    ("mayonnaise", &[&["egg"], &["oil"]]),
    ("vinaigrette", &[&["oil"], &["vinegar", "citrus", "juice"]]),
    ("caramel", &[&["sugar", "syrup"]]),
    ("streusel", &[&["flour", "oat", "nut", "grain"], &["butter", "fat", "oil"]]),
    ("pesto", &[&["herb", "greens"], &["oil"]]),
];

/// "Spread with the buttercream", where the list has no sugar and no step has spoken of buttercream.
pub fn findings(recipe: &Recipe) -> Vec<Finding> {
    let mut out = Vec::new();
    let taken = taken_as_made(recipe);
    for (thing, foods) in MADE_OF.iter().filter(|(thing, _)| taken.contains(thing)) {
        let lacks = foods.iter().any(|kinds| {
            !recipe.ingredients.iter().any(|line| {
                line.reference.is_some()
                    || line.names.iter().any(|name| {
                        name.food.is_none_or(|food| kinds.iter().any(|kind| food.is(kind) || food.name == *kind))
                    })
            })
        });
        if lacks
            && let Some((step, span)) = first(recipe, thing)
            && !is_spoken_of(recipe, thing)
        {
            let message = format!(
                "{} uses {thing}, and neither the list nor an earlier step has what it is made of. A cook cannot make it: say how, \
                 or list it.",
                words::sentence(&words::step(recipe, step)),
            );
            out.push(Finding::new(CHECK.code, Severity::Warning, span, message).certainty(Certainty::Likely));
        }
    }
    out
}

/// Those of the things that some step takes as made.
fn taken_as_made(recipe: &Recipe) -> Vec<&str> {
    let pairs = recipe.steps.iter().flat_map(|step| step.tokens.windows(2));
    let behind = pairs.filter_map(|pair| match pair {
        [before, thing] if takes_as_made(before) => Some(&*thing.fold),
        _ => None,
    });
    behind.filter(|word| MADE_OF.iter().any(|(thing, _)| thing == word)).collect()
}

/// Whether the next word is something that is there already: behind an article, or straight behind "with".
fn takes_as_made(before: &Token) -> bool {
    before.one_of(&["the", "with", "your"])
}

/// Where a step first takes it as made.
fn first(recipe: &Recipe, thing: &str) -> Option<(usize, Span)> {
    recipe.steps.iter().enumerate().find_map(|(index, step)| {
        let at = step.tokens.iter().position(|token| token.word(thing))?;
        let before = at.checked_sub(1).and_then(|before| step.tokens.get(before))?;
        takes_as_made(before).then(|| Some((index, step.tokens.get(at)?.span)))?
    })
}

/// Whether the title, the list, a heading, a result or a note names it: then it comes from there.
fn is_spoken_of(recipe: &Recipe, thing: &str) -> bool {
    let lines = recipe.ingredients.iter().map(|line| line.span);
    let notes = recipe.sections.iter().filter(|section| section.kind == SectionKind::Prose).map(|section| section.span);
    let results = recipe.steps.iter().flat_map(|step| &step.results).map(|result| result.span);
    let headings = recipe.groups.iter().map(|group| group.name);
    let spans = recipe.title.into_iter().chain(lines).chain(notes).chain(results).chain(headings);
    let mut words = spans
        .chain(recipe.headnotes.iter().copied())
        .flat_map(|span| recipe.at(span).split(|c: char| !c.is_alphabetic()));
    words.any(|word| fold(word) == thing)
}
