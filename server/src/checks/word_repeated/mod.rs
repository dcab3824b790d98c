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
fn twice(text: &str) -> Vec<(Span, Span)> {
    let (mut before, mut out) = (Span::at(0), Vec::new());
    each_word(text, |word| {
        let first = std::mem::replace(&mut before, word);
        // The lengths tell nearly all of them apart.
        let same = first.len() == word.len() && first.of(text) == word.of(text);
        let lower = || word.of(text).chars().all(char::is_lowercase);
        let near = || Span::new(first.end, word.start).of(text).chars().all(char::is_whitespace);
        if same && lower() && near() {
            out.push((first, word));
        }
    });
    out
}

/// Of each byte of ASCII whether it is one of a word: a look costs less than to compare.
const OF_WORDS: [bool; 128] = {
    let mut table = [false; 128];
    let mut rest: &mut [bool] = &mut table;
    let mut byte = 0_u8;
    while let [first, behind @ ..] = rest {
        *first = byte.is_ascii_alphanumeric();
        byte += 1;
        rest = behind;
    }
    table
};

/// Does something with each word of a text, and each of its numbers, without what stands between.
fn each_word(text: &str, mut with: impl FnMut(Span)) {
    let (mut start, mut inside) = (0, false);
    for (at, byte) in text.bytes().enumerate() {
        let of_word = match OF_WORDS.get(usize::from(byte)) {
            Some(of_word) => *of_word,
            // What goes on a letter of several bytes.
            None if byte < 0xc0 => inside,
            None => text.get(at..).and_then(|rest| rest.chars().next()).is_some_and(char::is_alphanumeric),
        };
        if of_word != inside {
            if inside {
                with(Span::new(start, at));
            }
            (start, inside) = (at, of_word);
        }
    }
    if inside {
        with(Span::new(start, text.len()));
    }
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
