//! `reserved-missing`: a step uses the reserved water, and nobody has reserved any.

use super::{Check, Finding, Severity, View, finding::Certainty, support::words};
use crate::{
    larder::words::fold,
    recipe::{
        Recipe,
        language::{
            lexicon::Roles,
            token::{Token, TokenKind},
        },
    },
    text::{Span, Words},
};

/// The check.
pub const CHECK: Check =
    Check { code: "reserved-missing", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Words with which something is kept in any way, folded: where one stands before, something may have been reserved.
const KEEPS: Words = Words::new(
    "reserve reserving reserved save saving keep keeping kept retain hold aside divide half most some but except \
    into lift remove scoop ladle spoon strain drain third quarter pour set transfer drip back leave squeeze pick",
);
/// Those of them with which it may also be thrown away.
const GOES_AWAY: Words = Words::new("drain pour set leave");
/// What comes off other things while they cook.
const BY_PRODUCTS: Words = Words::new("water liquid juice liquor broth stock syrup brine marinade fat dripping");

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, step) in recipe.steps.iter().enumerate() {
        for (at, token) in step.tokens.iter().enumerate() {
            if let Some(span) = reaches(&step.tokens, at) {
                out.extend((!is_listed(recipe)).then(|| finding(recipe, index, span)));
                return;
            }
            // "Drain" alone pours the water away; "drain into" keeps it.
            if token.one_among(&KEEPS) && (!token.one_among(&GOES_AWAY) || keeps_here(&step.tokens, at)) {
                return;
            }
        }
        if !step.results.is_empty() {
            return;
        }
    }
}

/// Whether a line of the list is reserved or divided.
fn is_listed(recipe: &Recipe) -> bool {
    let mut words = recipe.ingredients.iter().flat_map(|line| recipe.at(line.span).split(|c: char| !c.is_alphabetic()));
    words.any(|word| matches!(&*fold(word), "reserved" | "reserve" | "divided"))
}

/// "The reserved pasta water", at the article.
fn reaches(tokens: &[Token], at: usize) -> Option<Span> {
    let [the, reserved, rest @ ..] = tokens.get(at..)? else { return None };
    if !the.one_of(&["the", "your"]) || !reserved.one_of(&["reserved", "saved"]) {
        return None;
    }
    let name = rest.iter().take(3).take_while(|token| token.kind == TokenKind::Word && !token.is(Roles::SMALL));
    let last = name.into_iter().find(|token| token.one_among(&BY_PRODUCTS))?;
    Some(reserved.span.joined(last.span))
}

/// Whether the verb is followed by a word that says where it is kept.
fn keeps_here(tokens: &[Token], at: usize) -> bool {
    tokens
        .iter()
        .skip(at + 1)
        .take(6)
        .any(|token| token.one_of(&["into", "over", "aside", "bowl", "jug", "off", "cup"]))
}

fn finding(recipe: &Recipe, step: usize, span: Span) -> Finding {
    let name = words::plain(recipe.at(span));
    let bare = name.split_once(' ').map_or(&*name, |(_, bare)| bare);
    let message = format!(
        "{} wants the {name}, and no step before keeps any. By then a cook has poured the {bare} away: say where to keep some.",
        words::sentence(&words::step(recipe, step)),
    );
    Finding::new(CHECK.code, CHECK.severity, span, message).certainty(Certainty::Likely)
}
