//! What is looked for by name, over all documents that are open.

use tower_lsp::lsp_types::{Location, SymbolInformation};

use super::capabilities::Editor;
use super::documents::Opened;
use super::outline::symbol_kind;
use super::placed::Placed;
use crate::assist::{self, EntryKind};

/// As many are found at most: nobody reads on.
const MOST: usize = 500;

/// What `query` finds; recipes before what is in them.
#[expect(deprecated, reason = "the field has to be filled; nothing is deprecated")]
pub fn answer(documents: &[&Opened], editor: &Editor, query: &str) -> Vec<SymbolInformation> {
    let mut found = Vec::new();
    for document in documents {
        let recipes = document.manuscript().into_iter().flat_map(|manuscript| manuscript.recipes());
        for (start, recipe) in recipes {
            let symbols = assist::symbols(recipe, query);
            let place = (!symbols.is_empty()).then(|| Placed::new(document, start, recipe, editor));
            for (symbol, place) in symbols.into_iter().zip(place.iter().cycle()) {
                let container = (symbol.kind != EntryKind::Recipe).then(|| recipe.name().to_owned());
                let information = SymbolInformation {
                    name: symbol.name,
                    kind: symbol_kind(symbol.kind),
                    tags: None,
                    deprecated: None,
                    location: Location::new(document.uri().clone(), place.range(symbol.span)),
                    container_name: container,
                };
                found.push((symbol.kind != EntryKind::Recipe, information));
            }
        }
    }
    found.sort_by_key(|(inside, _)| *inside);
    found.into_iter().map(|(_, information)| information).take(MOST).collect()
}
