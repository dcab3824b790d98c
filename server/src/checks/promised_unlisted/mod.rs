//! `promised-unlisted`: the headnote or the picture has an ingredient that the list has not.

use std::borrow::Cow;

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{around, words},
};
use crate::{
    recipe::{Name, NamedFood, Recipe},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "promised-unlisted", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.ingredients.is_empty() {
        return;
    }
    for headnote in recipe.headnotes.iter().filter(|headnote| may_promise(recipe, **headnote)) {
        let promised = recipe.foods_named(*headnote).into_iter();
        let promised = promised.filter(|named| is_promised(recipe, named) && is_missing(recipe, named));
        out.extend(promised.map(|named| finding(recipe, named.span, "headnote", "It says what matters")));
    }
    for (_, photo) in recipe.headers_called("photo") {
        let seen = recipe.foods_named(photo.value).into_iter();
        let seen = seen.filter(|named| is_missing(recipe, named) && is_on_the_dish(recipe, named));
        out.extend(seen.map(|named| finding(recipe, named.span, "picture", "Readers cook what they see")));
    }
}

/// Whether it has to be bought, and the list has nothing of it: not the bread that the recipe is for, the sauce that it makes,
/// the cheese that the list calls cheddar, or a pinch of salt.
fn is_missing(recipe: &Recipe, named: &NamedFood) -> bool {
    const AT_HAND: &[&str] = &["water", "salt", "sauce", "dressing", "dough", "pastry", "stock", "icing"];
    let own = |span: Span| recipe.foods_named(span).iter().any(|other| other.food.name == named.food.name);
    let at_hand = AT_HAND.iter().any(|kind| named.food.is(kind) || named.food.name == *kind);
    let of_kind = |name: &Name| name.food.is_some_and(|food| food.is(named.food.name) || named.food.is(food.name));
    let listed = || recipe.ingredients.iter().flat_map(|line| &line.names).any(of_kind);
    let made = || recipe.steps.iter().flat_map(|step| &step.results).any(|result| own(result.span));
    let called = || recipe.title.is_some_and(own) || recipe.groups.iter().any(|group| own(group.name));
    !(named.known || at_hand || listed() || made() || called())
}

/// Verbs of which the dish is the object, words behind an "is", and verbs before the food. Folded.
const MAKES: &[&str] = &["make", "give", "bring", "lend"];
const HANGS: &[&str] = &["secret", "key", "what", "essential", "star", "point"];
const SKIPS: &[&str] = &["skip", "omit", "forget"];

/// Whether a headnote has a word with which it may promise something. Most have none, and then their foods need not be looked for.
fn may_promise(recipe: &Recipe, headnote: Span) -> bool {
    let promises = |word: &str| [MAKES, HANGS, SKIPS].iter().any(|words| words.contains(&word));
    around::clauses_have(recipe, headnote, promises)
}

/// "The cardamom makes it", "do not skip the dill": prose that says the dish hangs on it. Prose that only mentions a food promises
/// nothing.
fn is_promised(recipe: &Recipe, named: &NamedFood) -> bool {
    let before = around::before(recipe, named.span.start, 3);
    let behind = around::behind(recipe, named.span.end, 3);
    let word = |words: &[Cow<'_, str>], at: usize, wanted: &[&str]| {
        words.get(at).is_some_and(|word| wanted.contains(&&**word))
    };
    let definite = word(&before, 0, &["the"]);
    let makes = word(&behind, 0, MAKES) && word(&behind, 1, &["it", "thi", "this", "the"])
        || word(&behind, 0, &["i", "is"]) && (word(&behind, 1, HANGS) || word(&behind, 2, HANGS));
    let skip = word(&before, 1, SKIPS);
    definite && (makes || skip)
}

/// What a picture shows on the dish: not what stands beside it, nor the file that it is in.
fn is_on_the_dish(recipe: &Recipe, named: &NamedFood) -> bool {
    const ON: &[&str] = &["topped", "top", "under", "sprinkled", "strewn", "scattered", "garnished"];
    let before = around::before(recipe, named.span.start, 6);
    let behind = around::behind(recipe, named.span.end, 3);
    let file = recipe.text.get(named.span.end..).is_some_and(|rest| rest.starts_with(['.', '-', '_', '/']));
    !file && (before.iter().any(|word| ON.contains(&&**word)) || behind.iter().any(|word| word == "top"))
}

fn finding(recipe: &Recipe, span: Span, place: &str, why: &str) -> Finding {
    let name = words::plain(recipe.at(span));
    let message = format!(
        "The {place} has {name}, and the list has none. {why}: add {} to the list, or change the words.",
        words::it(&name)
    );
    Finding::new(CHECK.code, CHECK.severity, span, message).certainty(Certainty::Guess)
}
