//! `word-repeated`: a word stands twice in a row.

use super::{Check, Finding, Fix, Severity, View};
use crate::text::{Edit, Span};

/// The check.
pub const CHECK: Check =
    Check { code: "word-repeated", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Words that stand twice on purpose.
const TWICE: &[&str] = &[
    "couscous", "very", "tom", "agar", "bon", "pili", "peri", "piri", "had", "that", "cha", "dan", "moo", "yum", "no",
    "chow",
];

/// The places where a word in lower case stands right behind itself.
fn twice(text: &str) -> impl Iterator<Item = (Span, Span)> {
    let mark = |c: char| !c.is_alphanumeric();
    let mut before = Span::at(0);
    text.split_whitespace().filter_map(move |piece| {
        let start = piece.as_ptr().addr() - text.as_ptr().addr();
        let end = start + piece.len();
        let first = Span::new(start, start + piece.find(mark).unwrap_or(piece.len()));
        let last = Span::new(piece.rsplit(mark).next().map_or(end, |word| end - word.len()), end);
        let word = first.of(text);
        let lower = word.starts_with(char::is_lowercase) && word.chars().all(char::is_lowercase);
        Some((std::mem::replace(&mut before, last), first)).filter(|(before, _)| lower && before.of(text) == word)
    })
}

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (first, second) in twice(&recipe.text) {
        let between = Span::new(first.end, second.start);
        // A blank line between them parts two sentences.
        let near = recipe.at(between).matches('\n').count() <= 1;
        // Nor does one line of a list go on in the next.
        let lines =
            recipe.ingredients.iter().map(|line| line.span).chain(recipe.equipment.iter().map(|line| line.span));
        let parted = || lines.map(|line| line.start).any(|start| between.start < start && start <= between.end);
        let word = recipe.at(second);
        if !near || parted() || TWICE.contains(&word) {
            continue;
        }
        let message = format!("“{word}” stands here twice.");
        let gone = Span::new(first.end, second.end);
        let found = Finding::new(CHECK.code, CHECK.severity, second, message).related(first, "the first time");
        out.push(found.fix(Fix::safe(format!("Take one “{word}” out"), vec![Edit::delete(gone)])));
    }
}
