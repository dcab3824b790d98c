//! Another name for something, wherever its recipe says the old one.

use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::{Position, PrepareRenameResponse, WorkspaceEdit};

use super::actions::workspace_edit;
use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::places::here;
use crate::assist::{self, Refusal};
use crate::text::Edit;

/// The protocol's `RequestFailed`: the request was sound, and there is a reason in words why it is not done.
const REQUEST_FAILED: i64 = -32803;

/// What would be renamed at `position`.
pub fn prepare(document: &Opened, editor: &Editor, position: Position) -> Result<Option<PrepareRenameResponse>> {
    let Some((start, recipe, offset)) = here(document, editor, position) else { return Ok(None) };
    let (span, placeholder) = assist::renamable(recipe, offset).map_err(refused)?;
    let range = Converter::new(document, editor).range(span.shifted(start));
    Ok(Some(PrepareRenameResponse::RangeWithPlaceholder { range, placeholder }))
}

/// The edits that rename it.
pub fn answer(document: &Opened, editor: &Editor, position: Position, new: &str) -> Result<Option<WorkspaceEdit>> {
    let Some((start, recipe, offset)) = here(document, editor, position) else { return Ok(None) };
    let edits = assist::rename(recipe, offset, new).map_err(refused)?;
    let edits: Vec<Edit> = edits.into_iter().map(|edit| Edit { span: edit.span.shifted(start), ..edit }).collect();
    let edits = Converter::new(document, editor).text_edits(&edits);
    Ok(Some(workspace_edit(document, editor, edits)))
}

fn refused(why: Refusal) -> Error {
    let mut error = Error::new(ErrorCode::ServerError(REQUEST_FAILED));
    error.message = why.into();
    error
}
