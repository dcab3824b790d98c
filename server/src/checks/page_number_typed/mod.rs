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
    for start in words_for_pages(&recipe.text) {
        let Some(span) = with_number(&recipe.text, start).and_then(|tokens| page(&tokens)) else { continue };
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

/// Where the words begin that may mean a page: `p`, `pp`, `page` and `pages`.
fn words_for_pages(text: &str) -> impl Iterator<Item = usize> {
    memchr::memchr2_iter(b'p', b'P', text.as_bytes()).filter(|at| {
        let begins = text.get(..*at).is_some_and(|before| !before.ends_with(char::is_alphanumeric));
        begins && text.get(*at..).is_some_and(is_page)
    })
}

fn is_page(text: &str) -> bool {
    let word = text.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
    ["p", "pp", "page", "pages"].iter().any(|page| word.eq_ignore_ascii_case(page))
}

/// The word that begins at `start` with all that stands up to the number behind it, where the next thing that can be read is one.
fn with_number(text: &str, start: usize) -> Option<Vec<Token>> {
    let behind = start + text.get(start..)?.find(|c: char| !c.is_alphanumeric())?;
    let number = behind + text.get(behind..)?.find(char::is_alphanumeric)?;
    let rest = text.get(number..).filter(|rest| rest.starts_with(char::is_numeric))?;
    let end = rest.find(char::is_whitespace).map_or(text.len(), |length| number + length);
    Some(tokens(text, Span::new(start, end), &[]))
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
