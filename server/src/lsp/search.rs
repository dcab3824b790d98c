//! What is looked for by name: in all documents that are open, and among the titles of their books.

use tower_lsp::lsp_types::{Location, SymbolInformation};

use super::capabilities::Editor;
use super::outline::symbol_kind;
use super::placed::Placed;
use super::shelf::Shelves;
use crate::assist::{self, EntryKind};

/// As many are found at most: nobody reads on.
const MOST: usize = 500;

/// What `query` finds; recipes before what is in them, and those that are open before others.
pub fn answer(shelves: &Shelves<'_>, editor: &Editor, query: &str) -> Vec<SymbolInformation> {
    let (mut recipes, mut inside) = (Vec::new(), Vec::new());
    for document in shelves.iter().flat_map(|shelf| shelf.open()) {
        let all = document.manuscript().into_iter().flat_map(|manuscript| manuscript.recipes());
        for (start, recipe) in all {
            let symbols = assist::symbols(recipe, query);
            let place = (!symbols.is_empty()).then(|| Placed::new(document, start, recipe, editor));
            for (symbol, place) in symbols.into_iter().zip(place.iter().cycle()) {
                let location = Location::new(document.uri().clone(), place.range(symbol.span));
                match symbol.kind {
                    EntryKind::Recipe => recipes.push(information(symbol.name, symbol.kind, location, None)),
                    kind => inside.push(information(symbol.name, kind, location, Some(recipe.name()))),
                }
            }
        }
    }
    for shelf in shelves.iter() {
        let shut = shelf.shut(|entry| assist::finds(&entry.summary.title, query), MOST);
        recipes.extend(shut.iter().map(|titled| {
            let location = Location::new(titled.uri().clone(), titled.title(editor));
            information(titled.name().to_owned(), EntryKind::Recipe, location, None)
        }));
    }
    recipes.into_iter().chain(inside).take(MOST).collect()
}

#[expect(deprecated, reason = "the field has to be filled; nothing is deprecated")]
fn information(name: String, kind: EntryKind, location: Location, container: Option<&str>) -> SymbolInformation {
    SymbolInformation {
        name,
        kind: symbol_kind(kind),
        tags: None,
        deprecated: None,
        location,
        container_name: container.map(str::to_owned),
    }
}
