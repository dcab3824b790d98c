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

/// Of each byte whether it is, in ASCII, one of a word: a look costs less than to compare.
const OF_WORDS: [bool; 256] = {
    let mut table = [false; 256];
    let mut rest: &mut [bool] = &mut table;
    let mut byte = 0_u8;
    while let [first, behind @ ..] = rest {
        *first = byte.is_ascii_alphanumeric();
        byte = byte.wrapping_add(1);
        rest = behind;
    }
    table
};

/// Does something with each word of a text, and each of its numbers, without what stands between.
fn each_word(text: &str, mut with: impl FnMut(Span)) {
    let mut at = 0;
    while let Some(byte) = text.as_bytes().get(at) {
        let end = if *byte < 0x80 && !is_of_word(byte) { at } else { end_of_word(text, at) };
        if end > at {
            with(Span::new(at, end));
        }
        at = end.max(at + width(*byte));
    }
}

/// Where the word ends that starts at a place; the same place where none does.
fn end_of_word(text: &str, mut at: usize) -> usize {
    loop {
        let rest = text.as_bytes().get(at..).unwrap_or_default();
        at += rest.iter().position(|byte| !is_of_word(byte)).unwrap_or(rest.len());
        if text.as_bytes().get(at).is_none_or(u8::is_ascii) {
            return at;
        }
        match text.get(at..).and_then(|rest| rest.chars().next()).filter(|letter| letter.is_alphanumeric()) {
            Some(letter) => at += letter.len_utf8(),
            None => return at,
        }
    }
}

/// Whether a byte is one of a word, in ASCII.
fn is_of_word(byte: &u8) -> bool {
    OF_WORDS.get(usize::from(*byte)).is_some_and(|of_word| *of_word)
}

/// How many bytes the letter has that begins with this one.
fn width(first: u8) -> usize {
    match first {
        0..0xc0 => 1,
        0xc0..0xe0 => 2,
        0xe0..0xf0 => 3,
        _ => 4,
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
