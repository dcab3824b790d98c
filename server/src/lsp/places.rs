//! Where things come from, and where else they are spoken of.

use tower_lsp::lsp_types::{
    DocumentHighlight, DocumentHighlightKind, GotoDefinitionResponse, Location, LocationLink, Position, Range, Url,
};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::pieces::{Pieces, whole};
use super::placed::Placed;
use super::shelf::Shelf;
use crate::assist::{self, Named, Occurrence, Origin, Role, Thing};
use crate::recipe::Recipe;
use crate::text::Span;

/// Something that finds where the thing at an offset of a recipe comes from.
type Find = fn(&Recipe, usize) -> Option<(Span, Vec<Origin>)>;

/// Where what stands at `position` comes from.
pub fn definition(
    document: &Opened,
    shelf: &Shelf<'_>,
    editor: &Editor,
    position: Position,
) -> Option<GotoDefinitionResponse> {
    origins(document, shelf, editor, position, assist::definition)
}

/// The same, through the line that asks for another recipe to that recipe.
pub fn type_definition(
    document: &Opened,
    shelf: &Shelf<'_>,
    editor: &Editor,
    position: Position,
) -> Option<GotoDefinitionResponse> {
    origins(document, shelf, editor, position, assist::type_definition)
}

fn origins(
    document: &Opened,
    shelf: &Shelf<'_>,
    editor: &Editor,
    position: Position,
    find: Find,
) -> Option<GotoDefinitionResponse> {
    let converter = Converter::new(document, editor);
    let (start, recipe, offset) = here(document, editor, position)?;
    let (words, origins) = find(recipe, offset)?;
    let link = |uri: &Url, whole: Range, name: Range| LocationLink {
        origin_selection_range: Some(converter.range(words.shifted(start))),
        target_uri: uri.clone(),
        target_range: whole,
        target_selection_range: name,
    };
    let links = origins.into_iter().flat_map(|origin| match origin {
        Origin::Here(whole, name) => {
            let range = |span: Span| converter.range(span.shifted(start));
            vec![link(document.uri(), range(whole), range(name))]
        }
        Origin::Recipe(key) => {
            let titled = shelf.titled(&key, document.uri()).into_iter();
            titled.map(|titled| link(titled.uri(), titled.whole(editor), titled.title(editor))).collect()
        }
    });
    let links: Vec<LocationLink> = links.collect();
    if links.is_empty() {
        return None;
    }
    if editor.definition_links {
        return Some(GotoDefinitionResponse::Link(links));
    }
    let places = links.into_iter().map(|link| Location::new(link.target_uri, link.target_selection_range));
    Some(GotoDefinitionResponse::Array(places.collect()))
}

/// Where what stands at `position` is spoken of; `stated` says whether the places that list or make it count.
pub fn references(
    document: &Opened,
    shelf: &Shelf<'_>,
    editor: &Editor,
    position: Position,
    stated: bool,
) -> Option<Pieces<Location>> {
    let (start, recipe, offset) = here(document, editor, position)?;
    let named = assist::named_at(recipe, offset)?;
    if let [Thing::Recipe(key)] = named.things.as_slice() {
        return Some(references_to_title(shelf, editor, key, stated));
    }
    let found = all_occurrences(recipe, &named);
    let found = found.into_iter().filter(|occurrence| stated || occurrence.role != Role::Stated);
    let place = Placed::new(document, start, recipe, editor);
    let found = found.map(|occurrence| Location::new(document.uri().clone(), place.range(occurrence.span)));
    Some(whole(found.collect()))
}

/// Places by their addresses, and in the order of the text.
pub fn in_order(mut places: Vec<Location>) -> Vec<Location> {
    places.sort_by(|one, other| (&one.uri, one.range.start).cmp(&(&other.uri, other.range.start)));
    places
}

/// Where with `stated` the recipes of a title are called so, and where the book speaks of them, manuscript by manuscript.
fn references_to_title(shelf: &Shelf<'_>, editor: &Editor, key: &str, stated: bool) -> Pieces<Location> {
    let titles = shelf.all_titled(key).into_iter().filter(|_| stated);
    let titles: Vec<Location> =
        titles.map(|titled| Location::new(titled.uri().clone(), titled.title(editor))).collect();
    let (speakers, thing, encoding) = (shelf.speakers(key), Thing::Recipe(key.to_owned()), editor.encoding);
    Box::new(move |give| {
        if !give(titles) {
            return;
        }
        for page in speakers.pages().flatten() {
            let found = page.recipes.iter().flat_map(|(line, recipe)| {
                let taken = assist::occurrences(recipe, &thing).into_iter().filter(|found| found.role != Role::Stated);
                let place = Placed::at(*line, recipe, encoding);
                taken.map(move |found| place.range(found.span))
            });
            if !give(found.map(|range| Location::new(page.uri.clone(), range)).collect()) {
                return;
            }
        }
    })
}

fn all_occurrences(recipe: &Recipe, named: &Named) -> Vec<Occurrence> {
    let mut found: Vec<_> = named.things.iter().flat_map(|thing| assist::occurrences(recipe, thing)).collect();
    found.sort();
    found.dedup_by_key(|occurrence| occurrence.span);
    found
}

/// The way of what stands at `position` through its recipe.
pub fn highlights(document: &Opened, editor: &Editor, position: Position) -> Option<Vec<DocumentHighlight>> {
    let (start, recipe, offset) = here(document, editor, position)?;
    let named = assist::named_at(recipe, offset)?;
    let place = Placed::new(document, start, recipe, editor);
    let highlights = all_occurrences(recipe, &named).into_iter().map(|occurrence| DocumentHighlight {
        range: place.range(occurrence.span),
        kind: Some(match occurrence.role {
            Role::Stated => DocumentHighlightKind::WRITE,
            Role::Taken => DocumentHighlightKind::READ,
            Role::Named => DocumentHighlightKind::TEXT,
        }),
    });
    Some(highlights.collect())
}

/// The recipe at a position, the offset at which it starts, and the position in its own text.
pub fn here<'d>(document: &'d Opened, editor: &Editor, position: Position) -> Option<(usize, &'d Recipe, usize)> {
    let offset = Converter::new(document, editor).offset(position);
    let (start, recipe) = document.manuscript()?.recipe_at(offset)?;
    Some((start, recipe, offset.saturating_sub(start)))
}
