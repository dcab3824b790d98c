//! Links in a document.

use std::collections::HashMap;

use tower_lsp::lsp_types::{DocumentLink, Url};

use super::capabilities::Editor;
use super::documents::Opened;
use super::placed::Placed;
use crate::assist::{self, Destination};
use crate::book::title_key;

/// The links of `document`: titles of recipes that it holds, and addresses.
pub fn answer(document: &Opened, editor: &Editor) -> Option<Vec<DocumentLink>> {
    let manuscript = document.manuscript()?;
    let mut titles: Option<HashMap<String, usize>> = None;
    let mut out = Vec::new();
    for (start, recipe, _) in manuscript.pieces() {
        let links = assist::links(recipe);
        if links.is_empty() {
            continue;
        }
        let place = Placed::new(document, start, recipe, editor);
        for link in links {
            let (target, tooltip) = match link.to {
                Destination::Address(address) => (Url::parse(&address).ok(), None),
                Destination::Recipe(title) => {
                    let titles = titles.get_or_insert_with(|| places_by_title(document));
                    let start = titles.get(&title_key(&title));
                    (start.map(|start| at(document, editor, *start)), Some(format!("Go to {title}")))
                }
            };
            out.extend(target.map(|target| DocumentLink {
                range: place.range(link.span),
                target: Some(target),
                tooltip,
                data: None,
            }));
        }
    }
    Some(out)
}

/// Where the title of each recipe stands; the first of two with one title.
fn places_by_title(document: &Opened) -> HashMap<String, usize> {
    let mut out = HashMap::new();
    for (start, recipe) in document.manuscript().into_iter().flat_map(|manuscript| manuscript.recipes()) {
        let place = start + recipe.title.unwrap_or_default().start;
        out.entry(title_key(recipe.name())).or_insert(place);
    }
    out
}

/// A place in the document itself, as editors read the fragment of an address: by its line.
fn at(document: &Opened, editor: &Editor, offset: usize) -> Url {
    let mut target = document.uri().clone();
    let line = document.text().position(offset, editor.encoding).line;
    target.set_fragment(Some(&format!("L{}", line.saturating_add(1))));
    target
}
