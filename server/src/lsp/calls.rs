//! Which recipes use which, over all documents that are open: what the protocol calls calls.

use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{
    CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall, Range, TextDocumentPositionParams, Url,
};

use super::capabilities::Editor;
use super::documents::Opened;
use super::outline::symbol_kind;
use super::placed::Placed;
use super::places::here;
use crate::assist::{self, Thing};
use crate::book::title_key;
use crate::recipe::Recipe;

/// A recipe in a document.
#[derive(Clone, Copy)]
struct Held<'d> {
    document: &'d Opened,
    start: usize,
    recipe: &'d Recipe,
}

/// The recipe that is meant at a place: by its title, or the one that the place stands in.
pub fn prepare(
    documents: &[&Opened],
    editor: &Editor,
    at: &TextDocumentPositionParams,
) -> Result<Option<Vec<CallHierarchyItem>>> {
    let uri = &at.text_document.uri;
    let document = documents.iter().find(|document| document.uri() == uri);
    let document = document.ok_or_else(|| Error::invalid_params(format!("{uri} is not open")))?;
    let Some((start, recipe, offset)) = here(document, editor, at.position) else { return Ok(None) };
    let own = Held { document, start, recipe };
    let named = assist::named_at(recipe, offset).and_then(|named| match named.things.as_slice() {
        [Thing::Recipe(key)] => Some(key.clone()),
        _ => None,
    });
    let meant = named.map_or(Some(own), |key| find(documents, uri, &key));
    Ok(meant.map(|meant| vec![item(meant, editor)]))
}

/// The recipes that refer to `item`, and where.
pub fn incoming(documents: &[&Opened], editor: &Editor, wanted: &CallHierarchyItem) -> Vec<CallHierarchyIncomingCall> {
    let key = title_key(&wanted.name);
    let mut out = Vec::new();
    for held in all(documents) {
        let from_ranges = ranges(held, editor, &key);
        if !from_ranges.is_empty() {
            out.push(CallHierarchyIncomingCall { from: item(held, editor), from_ranges });
        }
    }
    out
}

/// The recipes that `item` refers to, and where; each once, in the order in which it first does.
pub fn outgoing(documents: &[&Opened], editor: &Editor, wanted: &CallHierarchyItem) -> Vec<CallHierarchyOutgoingCall> {
    let Some(own) = find(documents, &wanted.uri, &title_key(&wanted.name)) else { return Vec::new() };
    let mut keys: Vec<String> = Vec::new();
    for reference in &own.recipe.references {
        let key = title_key(own.recipe.at(reference.title));
        if !keys.contains(&key) {
            keys.push(key);
        }
    }
    let call = |key: String| {
        let to = item(find(documents, &wanted.uri, &key)?, editor);
        Some(CallHierarchyOutgoingCall { to, from_ranges: ranges(own, editor, &key) })
    };
    keys.into_iter().filter_map(call).collect()
}

/// Where a recipe refers to the title of this key.
fn ranges(held: Held<'_>, editor: &Editor, key: &str) -> Vec<Range> {
    if held.recipe.references.is_empty() {
        return Vec::new();
    }
    let place = Placed::new(held.document, held.start, held.recipe, editor);
    let titles = held.recipe.references.iter().map(|reference| reference.title);
    let same = titles.filter(|title| title_key(held.recipe.at(*title)) == key);
    same.map(|title| place.range(title)).collect()
}

/// The recipe whose title has this key: in the document asked about, else in any other.
fn find<'d>(documents: &[&'d Opened], uri: &Url, key: &str) -> Option<Held<'d>> {
    let fitting = || all(documents).filter(|held| title_key(held.recipe.name()) == key);
    fitting().find(|held| held.document.uri() == uri).or_else(|| fitting().next())
}

fn all<'d>(documents: &[&'d Opened]) -> impl Iterator<Item = Held<'d>> {
    documents.iter().flat_map(|document| {
        let recipes = document.manuscript().into_iter().flat_map(|manuscript| manuscript.recipes());
        recipes.map(|(start, recipe)| Held { document, start, recipe })
    })
}

fn item(held: Held<'_>, editor: &Editor) -> CallHierarchyItem {
    let place = Placed::new(held.document, held.start, held.recipe, editor);
    let outline = assist::outline(held.recipe);
    CallHierarchyItem {
        name: outline.name,
        kind: symbol_kind(outline.kind),
        tags: None,
        detail: Some(outline.detail).filter(|detail| !detail.is_empty()),
        uri: held.document.uri().clone(),
        range: place.range(outline.span),
        selection_range: place.range(outline.selection),
        data: None,
    }
}
