use super::{Encoding, Position, Span};

/// Where the lines of a text that stands still begin. One pass to make, a binary search to ask.
#[derive(Debug, Clone)]
pub struct LineIndex<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> LineIndex<'t> {
    /// Reads `text` once.
    pub fn new(text: &'t str) -> Self {
        let bytes = text.as_bytes();
        let is_last = |at: &usize| bytes.get(*at) == Some(&b'\n') || bytes.get(at + 1) != Some(&b'\n');
        let ends = memchr::memchr2_iter(b'\n', b'\r', bytes).filter(is_last);
        let starts = std::iter::once(0).chain(ends.map(|end| end + 1)).collect();
        LineIndex { text, starts }
    }

    /// How many lines there are: one more than line breaks.
    pub fn line_count(&self) -> usize {
        self.starts.len()
    }

    /// The line that holds `offset`, from 0. A line break belongs to the line that it ends.
    pub fn line_of(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start <= offset).saturating_sub(1)
    }

    /// The text of a line without its line break; empty at the end of the text for a line that it does not have.
    pub fn line(&self, line: usize) -> Span {
        let Some(start) = self.starts.get(line).copied() else { return Span::at(self.text.len()) };
        let end = self.starts.get(line + 1).copied().unwrap_or(self.text.len());
        let with_break = Span::new(start, end).of(self.text);
        let length = match self.starts.get(line + 1) {
            Some(_) => {
                with_break.strip_suffix("\r\n").or(with_break.strip_suffix(['\n', '\r'])).unwrap_or(with_break).len()
            }
            None => with_break.len(),
        };
        Span::new(start, start + length)
    }

    /// Line and column of a byte offset. One past the end is the end, one inside a character is its start, one inside a
    /// line break is the end of the line.
    pub fn position(&self, offset: usize, encoding: Encoding) -> Position {
        let mut offset = offset.min(self.text.len());
        while !self.text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = self.line_of(offset);
        let content = self.line(line);
        let before = Span::new(content.start, offset.min(content.end)).of(self.text);
        Position::counted(line, encoding.width(before))
    }

    /// The byte offset of a line and column. A column past the end of its line is that end, a line past the end of the
    /// text is the end of the text, a column inside a character is its start.
    pub fn offset(&self, position: Position, encoding: Encoding) -> usize {
        let content = self.line(position.line as usize);
        content.start + encoding.offset(content.of(self.text), position.column as usize)
    }
}
