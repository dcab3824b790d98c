//! Positions, line breaks and edits as the Language Server Protocol 3.17 counts them
//! (specification, "Text Documents" and "Position": line breaks are `\n`, `\r\n` and `\r`; a column past the end of a line is its end).

use proptest::prelude::*;
use tamis::text::{Backlog, Document, Edit, Encoding, LineEnding, LineIndex, Position, Span};

const ENCODINGS: [Encoding; 3] = [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32];

/// The slow and plain way: the lines of a text, each with its byte offset and without its break.
fn naive_lines(text: &str) -> Vec<(usize, String)> {
    let mut lines = vec![(0, String::new())];
    let characters: Vec<(usize, char)> = text.char_indices().collect();
    let mut i = 0;
    while i < characters.len() {
        let (at, character) = characters[i];
        let pair = character == '\r' && characters.get(i + 1).is_some_and(|(_, next)| *next == '\n');
        if pair {
            lines.push((at + 2, String::new()));
            i += 1;
        } else if character == '\r' || character == '\n' {
            lines.push((at + 1, String::new()));
        } else {
            lines.last_mut().unwrap().1.push(character);
        }
        i += 1;
    }
    lines
}

fn units(character: char, encoding: Encoding) -> usize {
    match encoding {
        Encoding::Utf8 => character.len_utf8(),
        Encoding::Utf16 => character.len_utf16(),
        Encoding::Utf32 => 1,
    }
}

fn naive_offset(text: &str, line: usize, column: usize, encoding: Encoding) -> usize {
    let lines = naive_lines(text);
    let Some((start, content)) = lines.get(line) else { return text.len() };
    let mut seen = 0;
    let mut offset = *start;
    for character in content.chars() {
        seen += units(character, encoding);
        if seen > column {
            break;
        }
        offset += character.len_utf8();
    }
    offset
}

fn naive_position(text: &str, offset: usize, encoding: Encoding) -> Position {
    let lines = naive_lines(text);
    let line = lines.iter().rposition(|(start, _)| *start <= offset).unwrap();
    let (start, content) = &lines[line];
    let whole = content.char_indices().filter(|(at, character)| start + at + character.len_utf8() <= offset);
    let column: usize = whole.map(|(_, character)| units(character, encoding)).sum();
    Position::new(line as u32, column as u32)
}

/// Line, column under each encoding, and the byte offset they all mean.
#[test]
fn columns_count_what_the_encoding_says() {
    let text = "2 eggs 🥚 beaten\r\n卵を割る\rcre\u{301}me fraîche\nAdd\u{2028}salt\0!\u{85}\u{b}end";
    let table = [
        // what stands there, line, utf-8, utf-16, utf-32
        ("🥚", 0, 7, 7, 7),
        (" beaten", 0, 11, 9, 8),
        ("を", 1, 3, 1, 1),
        ("\u{301}", 2, 3, 3, 3),
        ("me fra", 2, 5, 4, 4),
        ("che", 2, 13, 11, 11),
        ("\u{2028}", 3, 3, 3, 3),
        ("salt", 3, 6, 4, 4),
        ("\0", 3, 10, 8, 8),
        ("!", 3, 11, 9, 9),
        ("end", 3, 15, 12, 12),
    ];
    let document = Document::new(text);
    let index = LineIndex::new(text);
    assert_eq!((document.line_count(), index.line_count()), (4, 4), "U+2028, U+0085 and U+000B end no line");
    for (word, line, utf8, utf16, utf32) in table {
        let offset = text.find(word).unwrap();
        for (encoding, column) in ENCODINGS.into_iter().zip([utf8, utf16, utf32]) {
            let position = Position::new(line, column);
            assert_eq!(document.position(offset, encoding), position, "{word:?} {encoding:?}");
            assert_eq!(document.offset(position, encoding), offset, "{word:?} {encoding:?}");
            assert_eq!(index.position(offset, encoding), position, "{word:?} {encoding:?}");
            assert_eq!(index.offset(position, encoding), offset, "{word:?} {encoding:?}");
        }
    }
}

#[test]
fn what_lies_outside_is_moved_inside() {
    let text = "🥚x\r\nab";
    let table = [
        // why, line, column, encoding, offset
        ("half a surrogate pair", 0, 1, Encoding::Utf16, 0),
        ("second byte of a character", 0, 2, Encoding::Utf8, 0),
        ("past the end of the line", 0, 40, Encoding::Utf16, 5),
        ("on the line feed", 0, 4, Encoding::Utf16, 5),
        ("past the end of the last line", 1, 3, Encoding::Utf32, 9),
        ("past the last line", 2, 0, Encoding::Utf16, 9),
        ("past everything", u32::MAX, u32::MAX, Encoding::Utf16, 9),
        ("a column of any size", 0, u32::MAX, Encoding::Utf8, 5),
    ];
    for (why, line, column, encoding, offset) in table {
        let position = Position::new(line, column);
        assert_eq!(Document::new(text).offset(position, encoding), offset, "{why}");
        assert_eq!(LineIndex::new(text).offset(position, encoding), offset, "{why}");
    }
    assert_eq!(
        Document::new(text).position(6, Encoding::Utf16),
        Position::new(0, 3),
        "between CR and LF: the line's end"
    );
    assert_eq!(Document::new(text).position(99, Encoding::Utf16), Position::new(1, 2), "past the end: the end");
    assert_eq!(Document::new("").offset(Position::new(3, 3), Encoding::Utf16), 0);
    assert_eq!(Document::new("").position(7, Encoding::Utf16), Position::new(0, 0));
}

#[test]
fn lines_stand_without_their_breaks() {
    for (text, expected) in [
        ("", vec![""]),
        ("one", vec!["one"]),
        ("one\n", vec!["one", ""]),
        ("a\r\nb\rc\nd", vec!["a", "b", "c", "d"]),
        ("\r\r\n\n", vec!["", "", "", ""]),
        ("\n\r", vec!["", "", ""]),
    ] {
        let document = Document::new(text);
        let lines: Vec<_> = (0..document.line_count()).map(|line| document.slice(document.line(line))).collect();
        assert_eq!(lines, expected, "{text:?}");
        let index = LineIndex::new(text);
        let lines: Vec<_> = (0..index.line_count()).map(|line| index.line(line).of(text)).collect();
        assert_eq!(lines, expected, "{text:?}");
    }
}

#[test]
fn only_near_edits_are_joined() {
    let mut backlog = Backlog::default();
    assert!(backlog.is_near(Span::at(1_000_000)), "there are none");
    backlog.add(Span::new(10_000, 10_005), 3);
    for (at, near) in [(10_001, true), (14_000, true), (6_000, true), (20_000, false), (1_000, false)] {
        assert_eq!(backlog.is_near(Span::at(at)), near, "{at}");
    }
}

#[test]
fn an_edit_of_ours_ends_its_lines_as_the_document_does() {
    for (text, ending, edited) in [
        ("", LineEnding::Lf, "a\nb"),
        ("one line", LineEnding::Lf, "a\nb"),
        ("one\ntwo\r\n", LineEnding::Lf, "a\nb"),
        ("one\r\ntwo\n", LineEnding::CrLf, "a\r\nb"),
        ("one\rtwo", LineEnding::Cr, "a\rb"),
        ("one\r🥚", LineEnding::Cr, "a\rb"),
    ] {
        assert_eq!(Document::new(text).line_ending(), ending, "{text:?}");
        assert_eq!(LineEnding::of(text).unwrap_or_default(), ending, "{text:?}");
        assert_eq!(ending.put_into("a\nb"), edited, "{text:?}");
    }
}

#[test]
fn a_span_is_fitted_before_it_is_replaced() {
    for (text, span, with, replaced, after) in [
        ("1 egg", Span::new(2, 5), "onion", Span::new(2, 5), "1 onion"),
        ("1 egg", Span::new(5, 90), "s", Span::new(5, 5), "1 eggs"),
        ("🥚🥛", Span::new(2, 6), "x", Span::new(0, 4), "x🥛"),
        ("a\r\nb", Span::new(2, 3), "", Span::new(2, 3), "a\rb"),
        ("", Span::new(7, 9), "new", Span::new(0, 0), "new"),
    ] {
        let mut document = Document::new(text);
        assert_eq!(document.apply(&Edit::replace(span, with)), replaced, "{text:?}");
        assert_eq!(document.to_string(), after);
    }
    let backwards = Position::new(0, 5)..Position::new(0, 2);
    assert_eq!(Document::new("1 egg").span(backwards, Encoding::Utf16), Span::new(2, 5), "a range in either order");
}

/// Texts made of what breaks naive counting.
fn texts() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "a",
        "1/2 cup",
        " ",
        "\n",
        "\r\n",
        "\r",
        "é",
        "e\u{301}",
        "卵",
        "🥚",
        "👩🏽\u{200d}🍳",
        "\u{2028}",
        "\u{85}",
        "\0",
        "\u{feff}",
        "°F",
    ]);
    prop::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat())
}

proptest! {
    #[test]
    fn positions_agree_with_the_naive_count(text in texts(), line in 0u32..30, column in 0u32..30, at in 0usize..120) {
        let (document, index) = (Document::new(&text), LineIndex::new(&text));
        for encoding in ENCODINGS {
            let position = Position::new(line, column);
            let expected = naive_offset(&text, line as usize, column as usize, encoding);
            prop_assert_eq!(document.offset(position, encoding), expected);
            prop_assert_eq!(index.offset(position, encoding), expected);
            let expected = naive_position(&text, at.min(text.len()), encoding);
            prop_assert_eq!(document.position(at, encoding), expected);
            prop_assert_eq!(index.position(at, encoding), expected);
        }
    }

    /// A reader that follows the joined edits now and then knows the same text in the end.
    #[test]
    fn joined_edits_lead_to_the_same_text(text in texts(), edits in prop::collection::vec((0usize..90, 0usize..9, texts(), prop::bool::weighted(0.2)), 1..20)) {
        let (mut document, mut reader, mut backlog) = (Document::new(&text), Document::new(&text), Backlog::default());
        for (start, length, with, follow) in edits {
            let edit = Edit::replace(Span::new(start, start + length), with);
            let replaced = document.apply(&edit);
            backlog.add(replaced, edit.text.len());
            if follow && let Some(joined) = backlog.take(&document) {
                reader.apply(&joined);
                prop_assert_eq!(reader.to_string(), document.to_string());
            }
        }
        if let Some(joined) = backlog.take(&document) {
            reader.apply(&joined);
        }
        prop_assert_eq!(reader.to_string(), document.to_string());
    }

    #[test]
    fn edits_agree_with_a_plain_string(text in texts(), edits in prop::collection::vec(((0u32..20, 0u32..12), (0u32..20, 0u32..12), texts()), 1..8)) {
        for encoding in ENCODINGS {
            let (mut document, mut plain) = (Document::new(&text), text.clone());
            for ((line, column), (end_line, end_column), with) in &edits {
                let range = Position::new(*line, *column)..Position::new(*end_line, *end_column);
                let span = document.span(range, encoding);
                document.apply(&Edit::replace(span, with.as_str()));
                let one = naive_offset(&plain, *line as usize, *column as usize, encoding);
                let other = naive_offset(&plain, *end_line as usize, *end_column as usize, encoding);
                plain.replace_range(one.min(other)..one.max(other), with);
                prop_assert_eq!(document.to_string(), plain.as_str());
                prop_assert_eq!(document.line_count(), naive_lines(&plain).len());
            }
        }
    }
}
