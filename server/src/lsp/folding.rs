//! What an editor can fold away.

use tower_lsp::lsp_types::{FoldingRange, FoldingRangeKind};

use super::capabilities::Editor;
use super::documents::Opened;
use super::placed::Placed;
use crate::assist;

/// The folds of `document`: whole lines, so that they suit editors that can fold nothing else.
pub fn answer(document: &Opened, editor: &Editor) -> Option<Vec<FoldingRange>> {
    let mut out = Vec::new();
    for (start, recipe, _) in document.manuscript()?.pieces() {
        let place = Placed::new(document, start, recipe, editor);
        for fold in assist::folds(recipe) {
            let range = place.range(fold.span);
            if range.start.line < range.end.line {
                let kind = if fold.remarks { FoldingRangeKind::Comment } else { FoldingRangeKind::Region };
                let (start_line, end_line) = (range.start.line, range.end.line);
                out.push(FoldingRange { start_line, end_line, kind: Some(kind), ..FoldingRange::default() });
            }
        }
    }
    Some(out)
}
