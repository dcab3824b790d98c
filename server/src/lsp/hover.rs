//! What is said about the place under the pointer.

use tower_lsp::lsp_types::{Hover, HoverContents, MarkupContent, MarkupKind, Position};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;

/// The hover at `position`.
pub fn answer(document: &Opened, editor: &Editor, position: Position) -> Option<Hover> {
    let converter = Converter::new(document, editor);
    let (span, value) = document.hover(converter.offset(position))?;
    let kind = if editor.markdown_hover { MarkupKind::Markdown } else { MarkupKind::PlainText };
    Some(Hover { contents: HoverContents::Markup(MarkupContent { kind, value }), range: Some(converter.range(span)) })
}
