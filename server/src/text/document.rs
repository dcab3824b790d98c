use std::borrow::Cow;
use std::fmt;
use std::ops::Range;

use ropey::Rope;

use super::{Edit, Encoding, LineEnding, Position, Span};

/// A text that is being written. Edits and look-ups cost the logarithm of its length, a clone costs nothing.
///
/// No offset and no position is wrong: what lies past an end means that end, what lies inside a character means its start.
#[derive(Debug, Clone, Default)]
pub struct Document {
    rope: Rope,
}

impl Document {
    /// A document that holds `text`.
    pub fn new(text: &str) -> Self {
        Document { rope: Rope::from_str(text) }
    }

    /// Its length in bytes.
    pub fn len(&self) -> usize {
        self.rope.len_bytes()
    }

    /// Whether it holds no byte.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// How many lines there are: one more than line breaks.
    pub fn line_count(&self) -> usize {
        self.rope.len_lines()
    }

    /// The line that holds `offset`, from 0. A line break belongs to the line that it ends.
    pub fn line_of(&self, offset: usize) -> usize {
        self.rope.try_byte_to_line(offset.min(self.len())).unwrap_or_default()
    }

    /// The place of a line without its line break; empty at the end of the text for a line that it does not have.
    pub fn line(&self, line: usize) -> Span {
        let Ok(start) = self.rope.try_line_to_byte(line) else { return Span::at(self.len()) };
        if line + 1 >= self.line_count() {
            return Span::new(start, self.len());
        }
        let mut end = self.rope.try_line_to_byte(line + 1).unwrap_or(self.len());
        let ends_with = |end: usize, byte: u8| end > start && self.rope.get_byte(end - 1) == Some(byte);
        if ends_with(end, b'\n') {
            end -= 1;
            if ends_with(end, b'\r') {
                end -= 1;
            }
        } else if ends_with(end, b'\r') {
            end -= 1;
        }
        Span::new(start, end)
    }

    /// What stands in `span`, without a copy where the rope holds it in one place.
    pub fn slice(&self, span: Span) -> Cow<'_, str> {
        let span = self.fitted(span);
        self.rope.get_byte_slice(span.start..span.end).map(Cow::from).unwrap_or_default()
    }

    /// Line and column of a byte offset. One past the end is the end, one inside a character is its start, one inside a
    /// line break is the end of the line.
    pub fn position(&self, offset: usize, encoding: Encoding) -> Position {
        let offset = self.boundary(offset);
        let line = self.line_of(offset);
        let content = self.line(line);
        let offset = offset.min(content.end);
        let column = self.units_before(offset, encoding) - self.units_before(content.start, encoding);
        Position::counted(line, column)
    }

    /// The byte offset of a line and column. A column past the end of its line is that end, a line past the end of the
    /// text is the end of the text, a column inside a character (half a surrogate pair) is its start.
    pub fn offset(&self, position: Position, encoding: Encoding) -> usize {
        let content = self.line(position.line as usize);
        let wanted = self.units_before(content.start, encoding) + position.column as usize;
        if wanted >= self.units_before(content.end, encoding) {
            return content.end;
        }
        let character = match encoding {
            Encoding::Utf8 => self.rope.try_byte_to_char(wanted).ok(),
            Encoding::Utf16 => self.rope.try_utf16_cu_to_char(wanted).ok(),
            Encoding::Utf32 => Some(wanted),
        };
        character.and_then(|character| self.rope.try_char_to_byte(character).ok()).unwrap_or(content.end)
    }

    /// The bytes between two positions, in whichever order they are given.
    pub fn span(&self, range: Range<Position>, encoding: Encoding) -> Span {
        let (one, other) = (self.offset(range.start, encoding), self.offset(range.end, encoding));
        Span::new(one.min(other), one.max(other))
    }

    /// Puts an edit's text, as it is, in the place of its span; returns the span that was replaced, fitted to the text.
    pub fn apply(&mut self, edit: &Edit) -> Span {
        let span = self.fitted(edit.span);
        let (start, end) = (self.char_of(span.start), self.char_of(span.end));
        // Neither can fail: both ends have been fitted.
        let _ = self.rope.try_remove(start..end);
        let _ = self.rope.try_insert(start, &edit.text);
        span
    }

    /// What ends its first line: what an edit of ours should end its lines with. `\n` where there is a single line.
    pub fn line_ending(&self) -> LineEnding {
        let end = self.line(0).end;
        LineEnding::of(&self.slice(Span::new(end, end + 2))).unwrap_or_default()
    }

    /// `offset`, or the start of the character that it lies in, or the end of the text.
    fn boundary(&self, offset: usize) -> usize {
        self.rope.try_char_to_byte(self.char_of(offset)).unwrap_or(self.len())
    }

    fn fitted(&self, span: Span) -> Span {
        Span::new(self.boundary(span.start), self.boundary(span.end))
    }

    fn char_of(&self, offset: usize) -> usize {
        self.rope.try_byte_to_char(offset.min(self.len())).unwrap_or(self.rope.len_chars())
    }

    /// How many units of `encoding` stand before `offset`, a character boundary.
    fn units_before(&self, offset: usize, encoding: Encoding) -> usize {
        match encoding {
            Encoding::Utf8 => offset,
            Encoding::Utf16 => self.rope.try_char_to_utf16_cu(self.char_of(offset)).unwrap_or_default(),
            Encoding::Utf32 => self.char_of(offset),
        }
    }
}

impl fmt::Display for Document {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.rope.chunks().try_for_each(|chunk| f.write_str(chunk))
    }
}
