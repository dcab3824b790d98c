//! Links in a document.

use std::collections::HashMap;

use tower_lsp::lsp_types::{DocumentLink, Url};

use super::capabilities::Editor;
use super::documents::Opened;
use super::placed::Placed;
use super::shelf::{Shelf, Titled};
use crate::assist::{self, Destination};
use crate::book::title_key;

/// The links of `document`: titles of recipes of its book, and addresses.
pub fn answer(document: &Opened, shelf: &Shelf<'_>, editor: &Editor) -> Option<Vec<DocumentLink>> {
    let manuscript = document.manuscript()?;
    let mut by_key: HashMap<String, Option<Url>> = HashMap::new();
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
                    let key = title_key(&title);
                    let first = || shelf.titled(&key, document.uri()).first().map(|titled| at(titled, editor));
                    let target = by_key.entry(key.clone()).or_insert_with(first);
                    (target.clone(), Some(format!("Go to {title}")))
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

/// Where a title stands, as editors read the fragment of an address: by its line.
fn at(titled: &Titled<'_>, editor: &Editor) -> Url {
    let mut target = titled.uri().clone();
    let line = titled.title(editor).start.line;
    target.set_fragment(Some(&format!("L{}", line.saturating_add(1))));
    target
}
