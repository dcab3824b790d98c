//! Which recipes of a book use which: what the protocol calls calls.

use std::collections::BTreeSet;

use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall, Range, TextDocumentPositionParams, Url,
};

use super::capabilities::Editor;
use super::outline::symbol_kind;
use super::pieces::{Pieces, whole};
use super::placed::{Placed, first_line};
use super::places::here;
use super::shelf::{Later, Shelves, Titled, at_once};
use crate::assist::{self, EntryKind, Thing};
use crate::book::title_key;
use crate::recipe::Recipe;
use crate::text::Encoding;

/// The recipe that is meant at a place: by its title, or the one that the place stands in.
pub fn prepare(
    shelves: &Shelves<'_>,
    editor: &Editor,
    at: &TextDocumentPositionParams,
) -> Result<Option<Vec<CallHierarchyItem>>> {
    let uri = &at.text_document.uri;
    let (document, shelf) = shelves.opened(uri)?;
    let Some((start, recipe, offset)) = here(document, editor, at.position) else { return Ok(None) };
    let named = assist::named_at(recipe, offset).and_then(|named| match named.things.as_slice() {
        [Thing::Recipe(key)] => Some(key.clone()),
        _ => None,
    });
    let meant = match named {
        Some(key) => shelf.titled(&key, uri).first().map(|titled| item_of(titled, editor)),
        None => Some(item(uri, first_line(document, start), recipe, editor.encoding)),
    };
    Ok(meant.map(|meant| vec![meant]))
}

/// The recipes that refer to `wanted`, and where, manuscript by manuscript.
pub fn incoming(
    shelves: &Shelves<'_>,
    editor: &Editor,
    wanted: &CallHierarchyItem,
) -> Pieces<CallHierarchyIncomingCall> {
    let Some(shelf) = shelves.of(&wanted.uri) else { return whole(Vec::new()) };
    let key = title_key(&wanted.name);
    let (speakers, encoding) = (shelf.speakers(&key), editor.encoding);
    Box::new(move |give| {
        for page in speakers.pages().flatten() {
            let recipes = page.recipes.iter().filter(|(_, recipe)| recipe.is_recipe());
            let calls = recipes.filter_map(|(line, recipe)| {
                let from_ranges = ranges(*line, recipe, encoding, &key);
                let from = || item(&page.uri, *line, recipe, encoding);
                (!from_ranges.is_empty()).then(|| CallHierarchyIncomingCall { from: from(), from_ranges })
            });
            if !give(calls.collect()) {
                break;
            }
        }
    })
}

/// The recipes that `wanted` refers to, and where; each once, in the order in which it first does.
pub fn outgoing(
    shelves: &Shelves<'_>,
    editor: &Editor,
    wanted: &CallHierarchyItem,
) -> Later<Vec<CallHierarchyOutgoingCall>> {
    let key = title_key(&wanted.name);
    let shelf = shelves.of(&wanted.uri);
    let own = shelf.and_then(|shelf| Some((shelf, shelf.titled(&key, &wanted.uri).into_iter().next()?)));
    let Some((shelf, own)) = own else { return at_once(Vec::new()) };
    let target = |key: &String| Some((key.clone(), item_of(shelf.titled(key, &wanted.uri).first()?, editor)));
    let named: BTreeSet<String> = match &own {
        Titled::Open(_, _, recipe) => titles(recipe).collect(),
        Titled::Shut(entry, _) => entry.summary.names.iter().cloned().collect(),
    };
    let targets: Vec<(String, CallHierarchyItem)> = named.iter().filter_map(target).collect();
    let (page, encoding) = (shelf.page(&own), editor.encoding);
    Box::new(move || {
        let Some(page) = page.pages().flatten().next() else { return Vec::new() };
        let own = page.recipes.iter().find(|(_, recipe)| title_key(recipe.name()) == key);
        let Some((line, recipe)) = own else { return Vec::new() };
        let call = |(key, to): (String, CallHierarchyItem)| {
            let from_ranges = ranges(*line, recipe, encoding, &key);
            (!from_ranges.is_empty()).then_some(CallHierarchyOutgoingCall { to, from_ranges })
        };
        let mut out: Vec<CallHierarchyOutgoingCall> = targets.into_iter().filter_map(call).collect();
        out.sort_by_key(|call| call.from_ranges.first().map(|range| range.start));
        out
    })
}

/// The keys of the titles that a recipe refers to.
fn titles(recipe: &Recipe) -> impl Iterator<Item = String> {
    recipe.references.iter().map(|reference| title_key(recipe.at(reference.title)))
}

/// Where a recipe refers to the title of this key.
fn ranges(first_line: u32, recipe: &Recipe, encoding: Encoding, key: &str) -> Vec<Range> {
    let place = Placed::at(first_line, recipe, encoding);
    let titles = recipe.references.iter().map(|reference| reference.title);
    titles.filter(|title| title_key(recipe.at(*title)) == key).map(|title| place.range(title)).collect()
}

fn item_of(titled: &Titled<'_>, editor: &Editor) -> CallHierarchyItem {
    match titled {
        Titled::Open(document, line, recipe) => item(document.uri(), *line, recipe, editor.encoding),
        Titled::Shut(_, uri) => CallHierarchyItem {
            name: titled.name().to_owned(),
            kind: symbol_kind(EntryKind::Recipe),
            tags: None,
            detail: None,
            uri: uri.clone(),
            range: titled.whole(editor),
            selection_range: titled.title(editor),
            data: None,
        },
    }
}

fn item(uri: &Url, first_line: u32, recipe: &Recipe, encoding: Encoding) -> CallHierarchyItem {
    let place = Placed::at(first_line, recipe, encoding);
    let outline = assist::outline(recipe);
    CallHierarchyItem {
        name: outline.name,
        kind: symbol_kind(outline.kind),
        tags: None,
        detail: Some(outline.detail).filter(|detail| !detail.is_empty()),
        uri: uri.clone(),
        range: place.range(outline.span),
        selection_range: place.range(outline.selection),
        data: None,
    }
}
