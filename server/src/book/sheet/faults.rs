//! What can be wrong with a style sheet, in the words of whoever keeps it.

use toml::de::Error;

use super::value::{Misread, Wrong};
use crate::book::near::nearest;
use crate::text::Span;

/// Something in a style sheet that was not taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StyleFault {
    /// What to mark, in bytes of the sheet.
    pub span: Span,
    /// What is wrong, and what to do.
    pub message: String,
}

impl StyleFault {
    pub(super) fn new(span: Span, message: impl Into<String>) -> Self {
        StyleFault { span, message: message.into() }
    }
}

/// A line that is no TOML.
pub(super) fn not_toml(error: &Error, text: &str) -> StyleFault {
    let span = error.span().map_or(Span::at(0), |range| Span::new(range.start, range.end.min(text.len())));
    let message = format!(
        "The style sheet cannot be read here: {}. A line is a name, `=` and a value: words in quotation marks, numbers bare, lists \
         in square brackets (TOML). What stands below may not count until this is mended.",
        error.message()
    );
    StyleFault::new(span, message)
}

/// A key that is not known, or a value that is not of its kind.
pub(super) fn misread(misread: Misread) -> StyleFault {
    let span = misread.span.unwrap_or_default();
    let key = misread.path.last().map_or("", String::as_str);
    let table = misread.path.split_last().map(|(_, tables)| tables.join(".")).filter(|tables| !tables.is_empty());
    StyleFault::new(
        span,
        match misread.wrong {
            Wrong::Key { expected } => unknown_key(key, table.as_deref(), expected),
            Wrong::Word { word, expected } => unknown_word(key, &word, expected),
            Wrong::Kind { expected } => format!("`{key}` needs {expected} behind its `=`."),
            Wrong::Other(what) => format!("`{key}` cannot be read: {what}."),
        },
    )
}

fn unknown_key(key: &str, table: Option<&str>, expected: &[&str]) -> String {
    let place = table.map_or("The style sheet".to_owned(), |table| format!("`[{table}]`"));
    match nearest(key, expected.iter().copied()) {
        Some(near) => format!("{place} has nothing called `{key}`. Did you mean `{near}`?"),
        None => format!("{place} has nothing called `{key}`. It can have {}.", listed(expected, "and")),
    }
}

fn unknown_word(key: &str, word: &str, expected: &[&str]) -> String {
    let choice = listed(expected, "or");
    match nearest(word, expected.iter().copied()) {
        _ if word.is_empty() => format!("`{key}` needs one of these words, in quotation marks: {choice}."),
        Some(near) => format!("`{key}` cannot be “{word}”. Did you mean “{near}”? It can be {choice}."),
        None => format!("`{key}` cannot be “{word}”. It can be {choice}."),
    }
}

/// `a, b and c`
pub(super) fn listed(names: &[&str], last: &str) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [others @ .., end] => format!("{} {last} {end}", others.join(", ")),
    }
}

/// `There is no check `x`.` and the near one, or what to do instead.
pub(super) fn unknown(what: &str, name: &str, near: Option<&str>, instead: &str) -> String {
    match near {
        Some(near) => format!("There is no {what} “{name}”. Did you mean “{near}”?"),
        None => format!("There is no {what} “{name}”. {instead}"),
    }
}
