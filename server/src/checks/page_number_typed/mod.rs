//! `page-number-typed`: a page is named by its number, which changes when the book is set.

use super::{Check, Finding, Severity, View};
use crate::{
    recipe::language::token::{Token, TokenKind, tokens},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "page-number-typed", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if !may_name_a_page(&recipe.text) {
        return;
    }
    let tokens = tokens(&recipe.text, Span::new(0, recipe.text.len()), &[]);
    for at in 0..tokens.len() {
        let Some(span) = page(tokens.get(at..).unwrap_or_default()) else { continue };
        // A query is never printed, and is told as one.
        if recipe.queries.iter().any(|query| query.contains(span)) {
            continue;
        }
        let message = format!(
            "“{}” will be wrong when the book is set. Name the recipe instead, as [[its title]]: the page follows it.",
            recipe.at(span)
        );
        out.push(Finding::new(CHECK.code, CHECK.severity, span, message));
    }
}

/// Whether a word begins like one for a page. Nearly no recipe has any, and then its words need not be told apart.
fn may_name_a_page(text: &str) -> bool {
    let letters = text.bytes().enumerate().filter(|(_, byte)| byte.eq_ignore_ascii_case(&b'p'));
    let mut words = letters.filter_map(|(at, _)| {
        let first = !text.get(..at)?.ends_with(char::is_alphanumeric);
        text.get(at + 1..).filter(|_| first)
    });
    words.any(|behind| {
        let next = behind.chars().next().unwrap_or(' ');
        !next.is_alphanumeric() || matches!(next, 'p' | 'P' | 'a' | 'A') && is_page(behind)
    })
}

/// Whether what follows a `p` makes the word `page`, `pages` or `pp` of it.
fn is_page(behind: &str) -> bool {
    ["age", "ages", "p"].iter().any(|end| {
        let ends = behind.get(end.len()..).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric));
        ends && behind.get(..end.len()).is_some_and(|own| own.eq_ignore_ascii_case(end))
    })
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
