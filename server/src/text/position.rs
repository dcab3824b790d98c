/// What a column counts, as the Language Server Protocol 3.17 names it (`PositionEncodingKind`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// 16-bit units: two for each character above U+FFFF. What every client understands.
    #[default]
    Utf16,
    /// Unicode scalar values.
    Utf32,
}

impl Encoding {
    /// How many columns `text` takes.
    pub fn width(self, text: &str) -> usize {
        match self {
            Encoding::Utf8 => text.len(),
            Encoding::Utf16 => text.chars().map(char::len_utf16).sum(),
            Encoding::Utf32 => text.chars().count(),
        }
    }

    /// The byte offset of `column` in one line of text: its end when the column lies past it, and the start of the
    /// character when the column lies inside one.
    pub fn offset(self, line: &str, column: usize) -> usize {
        let mut left = column;
        for (offset, character) in line.char_indices() {
            let width = match self {
                Encoding::Utf8 => character.len_utf8(),
                Encoding::Utf16 => character.len_utf16(),
                Encoding::Utf32 => 1,
            };
            if left < width {
                return offset;
            }
            left -= width;
        }
        line.len()
    }
}

/// A place in a text, as editors count it. What a column counts is said by the [`Encoding`] that goes with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Position {
    /// The line, from 0.
    pub line: u32,
    /// The column, from 0.
    pub column: u32,
}

impl Position {
    /// The place at `line` and `column`, both from 0.
    pub fn new(line: u32, column: u32) -> Self {
        Position { line, column }
    }

    /// The same from counts; what does not fit 32 bits is cut to the greatest number that does.
    pub(super) fn counted(line: usize, column: usize) -> Self {
        let cut = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        Position { line: cut(line), column: cut(column) }
    }
}
