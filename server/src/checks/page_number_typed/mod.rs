//! `page-number-typed`: a page is named by its number, which changes when the book is set.

use super::{Check, Finding, Severity, View};
use crate::{
    recipe::language::token::{Token, TokenKind},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "page-number-typed", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let tokens = view.words();
    for at in 0..tokens.len() {
        let Some(span) = page(tokens.get(at..).unwrap_or_default()) else { continue };
        let message = format!(
            "“{}” will be wrong when the book is set. Name the recipe instead, as [[its title]]: the page follows it.",
            recipe.at(span)
        );
        out.push(Finding::new(CHECK.code, CHECK.severity, span, message));
    }
}

/// `page 212`, `p. 31`, `pages 4`: the word and the number.
fn page(tokens: &[Token]) -> Option<Span> {
    let [word, rest @ ..] = tokens else { return None };
    let short = word.one_of(&["p", "pp"]);
    if !(short || word.one_of(&["page"])) {
        return None;
    }
    let number = match rest {
        [stop, number, ..] if short && stop.kind == TokenKind::Stop => number,
        [number, ..] => number,
        [] => return None,
    };
    (number.kind == TokenKind::Number).then(|| word.span.joined(number.span))
}
