//! Manuscripts with a cursor and places drawn in them, as answers of the server are read best:
//!
//! ```text
//! 1. Whisk the sugar in.
//! //             | cursor
//! //           ^^^^^ what is said of it
//! ```
//!
//! Each mark stands below the line that it speaks of; at the left margin, where `//` would stand in the way, it stands alone.

use std::fmt::Write as _;

use serde_json::{Value, json};
use tamis::text::{Document, Encoding, LineIndex, Position, Span};

/// A manuscript as it was drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drawn {
    /// Without what is drawn in it.
    pub text: String,
    /// Where the cursor stands, in bytes.
    pub cursor: Option<usize>,
}

/// Takes a manuscript and what is drawn in it apart.
pub fn read(drawn: &str) -> Drawn {
    let mut out = Drawn { text: String::new(), cursor: None };
    let mut line_start = 0;
    for line in drawn.lines() {
        let Some((column, sign)) = mark(line) else {
            line_start = out.text.len();
            writeln!(out.text, "{line}").expect("writing to a string");
            continue;
        };
        if sign == '|' {
            let above = &out.text[line_start..];
            let before: usize = above.trim_end_matches('\n').chars().take(column).map(char::len_utf8).sum();
            out.cursor = Some(line_start + before);
        }
    }
    out
}

/// The column of a line of marks, and the sign drawn there.
fn mark(line: &str) -> Option<(usize, char)> {
    let (column, sign) = line.chars().enumerate().find(|(_, sign)| matches!(sign, '^' | '|'))?;
    let lead: String = line.chars().take(column).collect();
    lead.strip_prefix("//").unwrap_or(&lead).chars().all(|c| c == ' ').then_some((column, sign))
}

/// A manuscript with its cursor and `places` drawn in it. A place of several lines is drawn on its first.
pub fn draw(text: &str, cursor: Option<usize>, places: &[(Span, String)]) -> String {
    let lines = LineIndex::new(text);
    let mut marks: Vec<(usize, usize, String, &str)> = Vec::new();
    let column = |offset: usize| {
        let position = lines.position(offset, Encoding::Utf32);
        (position.line as usize, position.column as usize)
    };
    for (span, words) in places {
        let (line, first) = column(span.start);
        let length = Span::new(span.start, span.end.min(lines.line(line).end)).of(text).chars().count();
        marks.push((line, first, "^".repeat(length.max(1)), words));
    }
    marks.sort();
    marks.dedup();
    if let Some(cursor) = cursor {
        let (line, column) = column(cursor);
        marks.insert(0, (line, column, "|".to_owned(), "cursor"));
    }
    let mut out = String::new();
    for (number, line) in text.lines().enumerate() {
        writeln!(out, "{line}").expect("writing to a string");
        for (_, column, sign, words) in marks.iter().filter(|mark| mark.0 == number) {
            let lead = if *column < 2 { " ".repeat(*column) } else { format!("//{}", " ".repeat(column - 2)) };
            writeln!(out, "{}", format!("{lead}{sign} {words}").trim_end()).expect("writing to a string");
        }
    }
    out
}

/// A byte of `text` as an editor that counts in UTF-16 says it.
pub fn position(text: &str, offset: usize) -> Value {
    let position = Document::new(text).position(offset, Encoding::Utf16);
    json!({ "line": position.line, "character": position.column })
}

/// Bytes of `text` as an editor that counts in UTF-16 says them.
pub fn range(text: &str, span: Span) -> Value {
    json!({ "start": position(text, span.start), "end": position(text, span.end) })
}

/// The bytes that a range means to an editor that counts in UTF-16; fails where the range is no range of `text`.
pub fn span(text: &str, value: &Value) -> Span {
    let document = Document::new(text);
    let place = |value: &Value| {
        let number = |name: &str| value[name].as_u64().unwrap_or_else(|| panic!("no position: {value}")) as u32;
        Position::new(number("line"), number("character"))
    };
    let span = document.span(place(&value["start"])..place(&value["end"]), Encoding::Utf16);
    assert_eq!(&range(text, span), value, "a range outside the text");
    span
}

#[cfg(test)]
mod tests {
    use super::*;

    const DRAWN: &str = "\
- 🥚 2 eggs
//    | cursor
//  ^ how many
//    ^^^^ of what
^ here
1. Beat ^ them.
";

    #[test]
    fn what_is_drawn_is_read_and_drawn_again() {
        let drawn = read(DRAWN);
        assert_eq!(drawn.text, "- 🥚 2 eggs\n1. Beat ^ them.\n");
        assert_eq!(drawn.cursor, drawn.text.find("eggs"));
        let place = |words: &str| {
            let start = drawn.text.find(words).unwrap();
            Span::new(start, start + words.len())
        };
        let places = [(place("eggs"), "of what".into()), (place("2"), "how many".into()), (place("-"), "here".into())];
        let again = draw(&drawn.text, drawn.cursor, &places);
        assert_eq!(again.lines().count(), DRAWN.lines().count());
        assert_eq!(read(&again), drawn);
        assert!(again.contains("\n//  ^ how many\n//    ^^^^ of what\n"), "{again}");
        assert_eq!(span(&drawn.text, &range(&drawn.text, place("eggs"))), place("eggs"));
    }
}
