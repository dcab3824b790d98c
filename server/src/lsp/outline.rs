//! The symbols of a document: its recipes, and what is in them.

use tower_lsp::lsp_types::{DocumentSymbol, DocumentSymbolResponse, Location, SymbolInformation, SymbolKind};

use super::capabilities::Editor;
use super::documents::Opened;
use super::placed::Placed;
use crate::assist::{self, Entry, EntryKind};

/// The outline of `document`; flat for an editor that cannot take a tree.
pub fn answer(document: &Opened, editor: &Editor) -> Option<DocumentSymbolResponse> {
    let recipes = document.manuscript()?.recipes();
    let roots = recipes.map(|(start, recipe)| {
        let place = Placed::new(document, start, recipe, editor);
        symbol(&place, assist::outline(recipe))
    });
    let roots: Vec<DocumentSymbol> = roots.collect();
    if editor.symbol_trees {
        return Some(DocumentSymbolResponse::Nested(roots));
    }
    let mut flat = Vec::new();
    roots.into_iter().for_each(|root| flatten(document, root, None, &mut flat));
    Some(DocumentSymbolResponse::Flat(flat))
}

/// What the protocol has for what a recipe is made of. It was made for programs.
pub fn symbol_kind(kind: EntryKind) -> SymbolKind {
    match kind {
        EntryKind::Recipe => SymbolKind::CLASS,
        EntryKind::Section => SymbolKind::NAMESPACE,
        EntryKind::Group => SymbolKind::PACKAGE,
        EntryKind::Ingredient => SymbolKind::FIELD,
        EntryKind::Equipment => SymbolKind::OBJECT,
        EntryKind::Step => SymbolKind::METHOD,
        EntryKind::Result => SymbolKind::VARIABLE,
        EntryKind::Test => SymbolKind::EVENT,
    }
}

#[expect(deprecated, reason = "the field has to be filled; nothing is deprecated")]
fn symbol(place: &Placed<'_>, entry: Entry) -> DocumentSymbol {
    let children: Vec<DocumentSymbol> = entry.children.into_iter().map(|child| symbol(place, child)).collect();
    DocumentSymbol {
        name: entry.name,
        detail: Some(entry.detail).filter(|detail| !detail.is_empty()),
        kind: symbol_kind(entry.kind),
        tags: None,
        deprecated: None,
        range: place.range(entry.span),
        selection_range: place.range(entry.selection),
        children: (!children.is_empty()).then_some(children),
    }
}

#[expect(deprecated, reason = "the field has to be filled; nothing is deprecated")]
fn flatten(document: &Opened, symbol: DocumentSymbol, container: Option<&str>, out: &mut Vec<SymbolInformation>) {
    let location = Location::new(document.uri().clone(), symbol.range);
    out.push(SymbolInformation {
        name: symbol.name.clone(),
        kind: symbol.kind,
        tags: None,
        deprecated: None,
        location,
        container_name: container.map(str::to_owned),
    });
    for child in symbol.children.into_iter().flatten() {
        flatten(document, child, Some(&symbol.name), out);
    }
}
