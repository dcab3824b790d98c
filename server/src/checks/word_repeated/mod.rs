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

/// The places where a word in lower case stands right behind itself, with nothing but white space between.
fn twice(text: &str) -> impl Iterator<Item = (Span, Span)> {
    let mut before = Span::at(0);
    words(text).filter_map(move |word| {
        let first = std::mem::replace(&mut before, word);
        // The lengths tell nearly all of them apart.
        let same = first.len() == word.len() && first.of(text) == word.of(text);
        let lower = || word.of(text).chars().all(char::is_lowercase);
        let near = || Span::new(first.end, word.start).of(text).chars().all(char::is_whitespace);
        (same && lower() && near()).then_some((first, word))
    })
}

/// The words of a text, and its numbers, without what stands between.
fn words(text: &str) -> impl Iterator<Item = Span> {
    let mut at = 0;
    std::iter::from_fn(move || {
        let start = run(text, at, false);
        at = run(text, start, true);
        (start < at).then(|| Span::new(start, at))
    })
}

/// Where a run of letters and figures ends, or one of anything else. Most are ASCII, of which a byte is one.
fn run(text: &str, from: usize, of_words: bool) -> usize {
    let mut at = from;
    while let Some(byte) = text.as_bytes().get(at) {
        if byte.is_ascii() {
            if byte.is_ascii_alphanumeric() != of_words {
                break;
            }
            at += 1;
        } else {
            let next = text.get(at..).and_then(|rest| rest.chars().next());
            let Some(next) = next.filter(|next| next.is_alphanumeric() == of_words) else { break };
            at += next.len_utf8();
        }
    }
    at
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
