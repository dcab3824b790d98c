//! What the lines of the tests say: when, and of which amounts and steps.

use super::{Recipe, fingerprint::fingerprint};
use crate::text::Span;

/// A test with its day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Test {
    /// The whole line.
    pub span: Span,
    /// The day, as `2026-04-21`.
    pub day: Span,
    /// The fingerprint of what was cooked, where one was written down.
    pub fingerprint: Option<Span>,
}

/// The tests that say their day, in the order of the text.
pub fn tests(recipe: &Recipe) -> Vec<Test> {
    recipe.tests.iter().filter_map(|span| test(recipe, *span)).collect()
}

/// The latest of them; of several on one day the last.
pub fn latest(recipe: &Recipe) -> Option<Test> {
    tests(recipe).into_iter().max_by_key(|test| (recipe.at(test.day).to_owned(), test.span.start))
}

/// Whether anything has been written down as a test.
pub fn is_tried(recipe: &Recipe) -> bool {
    recipe.tests.iter().any(|test| !recipe.at(*test).trim().is_empty())
}

/// Whether the amounts or the steps are no longer those of any test. Unknown, and so not said, where none wrote down what was cooked.
pub fn is_outdated(recipe: &Recipe) -> bool {
    let mut signs = tests(recipe).into_iter().filter_map(|test| test.fingerprint).peekable();
    if signs.peek().is_none() {
        return false;
    }
    let now = fingerprint(recipe);
    !signs.any(|sign| recipe.at(sign).eq_ignore_ascii_case(&now))
}

fn test(recipe: &Recipe, span: Span) -> Option<Test> {
    let text = recipe.at(span);
    let bare = text.trim_start_matches(['-', '•', ' ', '\t']);
    let start = span.start + text.len() - bare.len();
    let day = Span::new(start, start + bare.get(..10).filter(|day| is_day(day))?.len());
    let behind = bare.get(10..).unwrap_or_default();
    let opened = behind.trim_start();
    let inside = opened.strip_prefix('(').and_then(|inside| inside.split_once(')')).map(|(inside, _)| inside);
    let fingerprint = inside.filter(|inside| !inside.is_empty() && inside.bytes().all(|sign| sign.is_ascii_hexdigit()));
    let fingerprint = fingerprint.map(|digits| {
        let start = day.end + behind.len() - opened.len() + 1;
        Span::new(start, start + digits.len())
    });
    Some(Test { span, day, fingerprint })
}

/// Whether it is written as ISO 8601 writes a day: `2026-04-21`.
fn is_day(text: &str) -> bool {
    text.bytes().enumerate().all(|(at, sign)| if matches!(at, 4 | 7) { sign == b'-' } else { sign.is_ascii_digit() })
}
