//! Positions in one recipe, looked up among its own lines: answers about a whole document are put together from those about
//! its recipes, and none of them searches the document.

use tower_lsp::lsp_types::{Position, Range};

use super::capabilities::Editor;
use super::documents::Opened;
use crate::recipe::Recipe;
use crate::text::{Encoding, LineIndex, Span};

/// Speaks of one recipe of a document to one editor. Recipes begin at the start of a line.
pub struct Placed<'r> {
    lines: LineIndex<'r>,
    first_line: u32,
    encoding: Encoding,
}

impl<'r> Placed<'r> {
    /// Speaks of `recipe`, which begins at the offset `start` of `document`.
    pub fn new(document: &Opened, start: usize, recipe: &'r Recipe, editor: &Editor) -> Self {
        Placed::at(first_line(document, start), recipe, editor.encoding)
    }

    /// Speaks of `recipe`, which begins in the line `first_line` of its manuscript.
    pub fn at(first_line: u32, recipe: &'r Recipe, encoding: Encoding) -> Self {
        Placed { lines: LineIndex::new(&recipe.text), first_line, encoding }
    }

    /// The range of some bytes of the recipe's text.
    pub fn range(&self, span: Span) -> Range {
        Range::new(self.position(span.start), self.position(span.end))
    }

    /// The position of a byte of the recipe's text.
    pub fn position(&self, offset: usize) -> Position {
        let position = self.lines.position(offset, self.encoding);
        Position::new(self.first_line.saturating_add(position.line), position.column)
    }
}

/// The line that begins at the offset `start`.
pub fn first_line(document: &Opened, start: usize) -> u32 {
    u32::try_from(document.text().line_of(start)).unwrap_or(u32::MAX)
}
