//! Another name for something, wherever its recipe says the old one; and for a recipe, wherever its book does.

use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::{
    OptionalVersionedTextDocumentIdentifier, Position, PrepareRenameResponse, TextEdit, WorkspaceEdit,
};

use super::actions::{workspace_edit, workspace_edits};
use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::placed::{Placed, first_line};
use super::places::here;
use super::shelf::{Later, Page, Shelf, Speakers, Titled, at_once};
use crate::assist::{self, Refusal, TitleHere};
use crate::book::title_key;
use crate::recipe::Recipe;
use crate::text::{Edit, Encoding};

/// The protocol's `RequestFailed`: the request was sound, and there is a reason in words why it is not done.
pub const REQUEST_FAILED: i64 = -32803;

/// Something, or the reason why not.
type Granted<T> = std::result::Result<T, Refusal>;

/// What would be renamed at `position`.
pub fn prepare(
    document: &Opened,
    shelf: &Shelf<'_>,
    editor: &Editor,
    position: Position,
) -> Result<Option<PrepareRenameResponse>> {
    let Some((start, recipe, offset)) = here(document, editor, position) else { return Ok(None) };
    let (span, placeholder) = match assist::title_at(recipe, offset) {
        Some(title) => {
            meant(shelf, &title).map_err(refused)?;
            (title.span, recipe.at(title.span).to_owned())
        }
        None => assist::renamable(recipe, offset).map_err(refused)?,
    };
    let range = Converter::new(document, editor).range(span.shifted(start));
    Ok(Some(PrepareRenameResponse::RangeWithPlaceholder { range, placeholder }))
}

/// The edits that rename it.
pub fn answer(
    document: &Opened,
    shelf: &Shelf<'_>,
    editor: &Editor,
    position: Position,
    new: &str,
) -> Later<Result<Option<WorkspaceEdit>>> {
    let Some((start, recipe, offset)) = here(document, editor, position) else { return at_once(Ok(None)) };
    if let Some(title) = assist::title_at(recipe, offset) {
        let pages = pages(document, shelf, start, &title);
        return match pages.and_then(|pages| retitled(pages, shelf, editor, &title, new)) {
            Ok(later) => later,
            Err(refusal) => at_once(Err(refused(refusal))),
        };
    }
    let edits = assist::rename(recipe, offset, new).map_err(refused);
    let placed = |edit: Edit| Edit { span: edit.span.shifted(start), ..edit };
    at_once(edits.map(|edits| {
        let edits: Vec<Edit> = edits.into_iter().map(placed).collect();
        Some(workspace_edit(document, editor, Converter::new(document, editor).text_edits(&edits)))
    }))
}

/// What a new title would have to be written in.
struct Pages {
    speakers: Speakers,
    /// Whether only the title itself changes, and nothing that refers to it.
    only_itself: bool,
}

/// The recipes of a title, if that can be renamed: of several with one title only the one that the cursor is in can be meant.
fn meant<'s>(shelf: &'s Shelf<'_>, title: &TitleHere) -> Granted<Vec<Titled<'s>>> {
    if shelf.is_being_read() {
        return Err("The book is still being read: try again in a moment.".into());
    }
    let titled = shelf.all_titled(&title.key);
    match titled.len() {
        0 => Err("No recipe of this book has that title, so there is none to rename.".into()),
        1 => Ok(titled),
        _ if title.own => Ok(titled),
        _ => Err("Several recipes have this title: tell them apart first, each in its own title.".into()),
    }
}

/// The title and all that refers to it. Of two recipes with one title, only the title itself: what refers to it goes on to mean the
/// other.
fn pages(document: &Opened, shelf: &Shelf<'_>, start: usize, title: &TitleHere) -> Granted<Pages> {
    let titled = meant(shelf, title)?;
    if let [only] = titled.as_slice() {
        return Ok(Pages { speakers: shelf.speakers(&title.key).with(only), only_itself: false });
    }
    let line = first_line(document, start);
    let here = |titled: &&Titled<'_>| matches!(titled, Titled::Open(other, first, _) if other.uri() == document.uri() && *first == line);
    let own = titled.iter().find(here).ok_or("Put the cursor on the title of the recipe itself.")?;
    Ok(Pages { speakers: shelf.page(own), only_itself: true })
}

/// Another title, wherever the old one is said.
fn retitled(
    pages: Pages,
    shelf: &Shelf<'_>,
    editor: &Editor,
    title: &TitleHere,
    new: &str,
) -> Granted<Later<Result<Option<WorkspaceEdit>>>> {
    let new = assist::valid_title(new)?.to_owned();
    let key = title_key(&new);
    let others = if key == title.key { Vec::new() } else { shelf.all_titled(&key) };
    if let Some(other) = others.first() {
        let place = other.place(editor);
        return Err(format!("A recipe in {place} is called “{}” already: choose another title.", other.name()));
    }
    let (old, editor) = (title.key.clone(), editor.clone());
    Ok(Box::new(move || {
        let change = |recipe: &Recipe| match pages.only_itself {
            true => assist::retitle_itself(recipe, &new),
            false => assist::retitle(recipe, &old, &new),
        };
        let mut out = Vec::new();
        for page in pages.speakers.pages() {
            let page = page.map_err(|trouble| refused(trouble.to_string()))?;
            let edits = edits(&page, editor.encoding, change).map_err(refused)?;
            if !edits.is_empty() {
                out.push((OptionalVersionedTextDocumentIdentifier { uri: page.uri, version: page.version }, edits));
            }
        }
        Ok(Some(workspace_edits(&editor, out)))
    }))
}

/// What `change` makes of the recipes of one manuscript. New titles are of one line, whatever ends lines there.
fn edits(page: &Page, encoding: Encoding, change: impl Fn(&Recipe) -> Granted<Vec<Edit>>) -> Granted<Vec<TextEdit>> {
    let mut out = Vec::new();
    for (line, recipe) in &page.recipes {
        let edits = change(recipe).map_err(|why| format!("In “{}”: {why}", recipe.name()))?;
        let place = Placed::at(*line, recipe, encoding);
        out.extend(edits.into_iter().map(|edit| TextEdit::new(place.range(edit.span), edit.text)));
    }
    Ok(out)
}

fn refused(why: Refusal) -> Error {
    let mut error = Error::new(ErrorCode::ServerError(REQUEST_FAILED));
    error.message = why.into();
    error
}
