//! `pronoun-unclear`: the method begins with an "it" that nothing has named.

use super::{Check, Finding, Severity, View, finding::Certainty};
use crate::recipe::language::{
    lexicon::Roles,
    token::{Token, TokenKind},
};

/// The check.
pub const CHECK: Check =
    Check { code: "pronoun-unclear", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    // A single thing is meant without being named.
    let Some(first) = recipe.steps.first().filter(|_| recipe.ingredients.len() > 1) else { return };
    // Everything before it has to be an order: a noun, known or not, could be what it means.
    let empty = |token: &Token| {
        token.is(Roles::VERB.and(Roles::ADDING)) && !token.inflected
            || token.one_of(&["first", "then", "and", "now", "to", "start", "begin"])
            || token.kind == TokenKind::Comma
    };
    let Some(at) = first.tokens.iter().position(|token| !empty(token)) else { return };
    // "Put it all in a pan" means what the list has.
    let all = first.tokens.get(at + 1).is_some_and(|next| next.one_of(&["all", "together"]));
    let pronoun = first.tokens.get(at).filter(|token| at > 0 && !all && token.one_of(&["it", "them"]));
    // What the title names is meant without being named again.
    let is_clear = |pronoun: &&Token| recipe.flow.mentions.iter().any(|mention| mention.span == pronoun.span);
    let Some(pronoun) = pronoun.filter(|pronoun| !is_clear(pronoun)) else { return };
    let message = format!(
        "The method begins with “{}”, and nothing before it says what that is. A cook has to guess: name it.",
        recipe.at(pronoun.span)
    );
    out.push(Finding::new(CHECK.code, CHECK.severity, pronoun.span, message).certainty(Certainty::Likely));
}
