//! Small things about words that several answers share.

use crate::{recipe::Recipe, text::Span};

/// A text on one line: every run of space and line breaks is one space.
pub fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The first words of a text, up to about `most` characters, with an ellipsis where some are left out.
pub fn first_words(text: &str, most: usize) -> String {
    let mut out = String::new();
    for word in text.split_whitespace() {
        if !out.is_empty() && out.chars().count() + 1 + word.chars().count() > most {
            return out.trim_end_matches([',', ';', ':', '.']).to_owned() + "…";
        }
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    out
}

/// A text whose first letter is a small one: `Flour` as it stands in a sentence.
pub fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

/// `span` without the space at its ends.
pub fn trimmed(text: &str, span: Span) -> Span {
    let inside = span.of(text);
    let start = span.start + inside.len() - inside.trim_start().len();
    Span::new(start, start + inside.trim().len())
}

/// What stands behind a label above the sections: `Serves`, `Time`. Nothing where it stands there without a value.
pub fn header<'r>(recipe: &'r Recipe, label: &str) -> Option<&'r str> {
    let headers = recipe.headers.iter().filter(|header| recipe.at(header.label).eq_ignore_ascii_case(label));
    headers.map(|header| recipe.at(header.value).trim()).find(|value| !value.is_empty())
}
