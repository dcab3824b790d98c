//! A document, some of its lines, or what has just been typed, laid out. There is one layout: what the editor would like
//! of tabs and blanks has no place in it.

use tower_lsp::lsp_types::{Position, Range, TextEdit};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use crate::text::Edit;

/// Behind a line break, the number of the next step.
pub const FIRST_TYPED: &str = "\n";

/// Behind the number of a step, the numbers of those below it; behind a restatement, the space before it.
pub const ALSO_TYPED: [&str; 2] = [")", "."];

/// The edits that lay out the whole document.
pub fn document(document: &Opened, editor: &Editor) -> Option<Vec<TextEdit>> {
    converted(document, editor, &document.manuscript()?.formatted())
}

/// The edits that lay out the lines of a range.
pub fn range(document: &Opened, editor: &Editor, range: Range) -> Option<Vec<TextEdit>> {
    let asked = Converter::new(document, editor).span(range);
    converted(document, editor, &document.manuscript()?.formatted_within(asked))
}

/// The edits that follow from typing `sign` right before `position`.
pub fn typed(document: &Opened, editor: &Editor, position: Position, sign: &str) -> Option<Vec<TextEdit>> {
    let offset = Converter::new(document, editor).offset(position);
    converted(document, editor, &document.manuscript()?.formatted_as_typed(offset, sign))
}

fn converted(document: &Opened, editor: &Editor, edits: &[Edit]) -> Option<Vec<TextEdit>> {
    Some(Converter::new(document, editor).text_edits(edits))
}
