//! Where things come from, and where else they are spoken of.

use tower_lsp::lsp_types::{
    DocumentHighlight, DocumentHighlightKind, GotoDefinitionResponse, Location, LocationLink, Position,
};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::placed::Placed;
use crate::assist::{self, Named, Origin, Role, Thing};
use crate::book::title_key;
use crate::recipe::Recipe;
use crate::text::Span;

/// Something that finds where the thing at an offset of a recipe comes from.
type Find = fn(&Recipe, usize) -> Option<(Span, Vec<Origin>)>;

/// Where what stands at `position` comes from.
pub fn definition(document: &Opened, editor: &Editor, position: Position) -> Option<GotoDefinitionResponse> {
    origins(document, editor, position, assist::definition)
}

/// The same, through the line that asks for another recipe to that recipe.
pub fn type_definition(document: &Opened, editor: &Editor, position: Position) -> Option<GotoDefinitionResponse> {
    origins(document, editor, position, assist::type_definition)
}

fn origins(document: &Opened, editor: &Editor, position: Position, find: Find) -> Option<GotoDefinitionResponse> {
    let converter = Converter::new(document, editor);
    let (start, recipe, offset) = here(document, editor, position)?;
    let (words, origins) = find(recipe, offset)?;
    let place = |origin: Origin| match origin {
        Origin::Here(whole, name) => Some((whole.shifted(start), name.shifted(start))),
        Origin::Recipe(key) => titled(document, &key),
    };
    let links = origins.into_iter().filter_map(place).map(|(whole, name)| LocationLink {
        origin_selection_range: Some(converter.range(words.shifted(start))),
        target_uri: document.uri().clone(),
        target_range: converter.range(whole),
        target_selection_range: converter.range(name),
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

/// The recipe of that title in the document: all of it, and its title.
fn titled(document: &Opened, key: &str) -> Option<(Span, Span)> {
    let mut recipes = document.manuscript()?.recipes();
    let (start, recipe) = recipes.find(|(_, recipe)| title_key(recipe.name()) == key)?;
    let title = recipe.title?;
    Some((Span::new(0, recipe.text.trim_end().len()).joined(title).shifted(start), title.shifted(start)))
}

/// Where what stands at `position` is spoken of; `stated` says whether the places that list or make it count.
pub fn references(document: &Opened, editor: &Editor, position: Position, stated: bool) -> Option<Vec<Location>> {
    let (start, recipe, offset) = here(document, editor, position)?;
    let named = assist::named_at(recipe, offset)?;
    let mut out = Vec::new();
    for (start, recipe) in holders(document, &named, (start, recipe)) {
        let place = Placed::new(document, start, recipe, editor);
        let mut found: Vec<_> = named.things.iter().flat_map(|thing| assist::occurrences(recipe, thing)).collect();
        found.sort();
        found.dedup_by_key(|occurrence| occurrence.span);
        let found = found.into_iter().filter(|occurrence| stated || occurrence.role != Role::Stated);
        out.extend(found.map(|occurrence| Location::new(document.uri().clone(), place.range(occurrence.span))));
    }
    Some(out)
}

/// The recipes that may speak of it: its own, but for a title all those of the document.
fn holders<'d>(document: &'d Opened, named: &Named, own: (usize, &'d Recipe)) -> Vec<(usize, &'d Recipe)> {
    if !matches!(named.things.as_slice(), [Thing::Recipe(_)]) {
        return vec![own];
    }
    let all = document.manuscript().into_iter().flat_map(|manuscript| manuscript.recipes());
    all.map(|(start, recipe)| (start, &**recipe)).collect()
}

/// The way of what stands at `position` through its recipe.
pub fn highlights(document: &Opened, editor: &Editor, position: Position) -> Option<Vec<DocumentHighlight>> {
    let (start, recipe, offset) = here(document, editor, position)?;
    let named = assist::named_at(recipe, offset)?;
    let place = Placed::new(document, start, recipe, editor);
    let mut found: Vec<_> = named.things.iter().flat_map(|thing| assist::occurrences(recipe, thing)).collect();
    found.sort();
    found.dedup_by_key(|occurrence| occurrence.span);
    let highlights = found.into_iter().map(|occurrence| DocumentHighlight {
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
