//! What a growing selection takes in.

use tower_lsp::lsp_types::{Position, SelectionRange};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use crate::assist;
use crate::text::Span;

/// For each position, the stretches around it, each within the next, the whole text last.
pub fn answer(document: &Opened, editor: &Editor, positions: &[Position]) -> Option<Vec<SelectionRange>> {
    Some(positions.iter().map(|position| around(document, editor, *position)).collect())
}

fn around(document: &Opened, editor: &Editor, position: Position) -> SelectionRange {
    let converter = Converter::new(document, editor);
    let offset = converter.offset(position);
    let here = document.manuscript().and_then(|manuscript| manuscript.recipe_at(offset));
    let mut spans: Vec<Span> = here
        .map(|(start, recipe)| {
            let around = assist::selection(recipe, offset.saturating_sub(start));
            around.into_iter().map(|span| span.shifted(start)).collect()
        })
        .unwrap_or_default();
    let whole = Span::new(0, document.text().len());
    if spans.last() != Some(&whole) {
        spans.push(whole);
    }
    let outwards = spans.into_iter().rev().map(|span| converter.range(span));
    let grown = outwards.fold(None, |parent, range| Some(Box::new(SelectionRange { range, parent })));
    grown.map_or_else(SelectionRange::default, |innermost| *innermost)
}
