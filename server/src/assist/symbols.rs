//! What can be looked for by name over many recipes: their titles, what is in them, what their steps make.

use super::{outline::EntryKind, wording::one_line};
use crate::{recipe::Recipe, text::Span};

/// Something with a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Symbol {
    /// What it is: a recipe, an ingredient or a result.
    pub kind: EntryKind,
    /// Its name.
    pub name: String,
    /// Where it stands.
    pub span: Span,
}

/// What `query` finds in a recipe; nothing but the recipe itself where nothing is looked for.
pub fn symbols(recipe: &Recipe, query: &str) -> Vec<Symbol> {
    let mut out = Vec::new();
    let mut push = |kind: EntryKind, span: Span| {
        if finds(recipe.at(span), query) {
            out.push(Symbol { kind, name: one_line(recipe.at(span)), span });
        }
    };
    recipe.title.into_iter().for_each(|title| push(EntryKind::Recipe, title));
    if !query.is_empty() {
        let names = recipe.ingredients.iter().flat_map(|line| line.names.iter().filter(|name| !name.aside));
        names.for_each(|name| push(EntryKind::Ingredient, name.span));
        let results = recipe.steps.iter().flat_map(|step| &step.results);
        results.for_each(|result| push(EntryKind::Result, result.span));
    }
    out
}

/// Whether a name has the letters of a query in their order, whatever stands between: what editors filter further by themselves.
pub fn finds(name: &str, query: &str) -> bool {
    let small =
        |text: &str| text.chars().flat_map(char::to_lowercase).filter(|c| !c.is_whitespace()).collect::<Vec<_>>();
    let mut letters = name.chars().flat_map(char::to_lowercase);
    small(query).into_iter().all(|wanted| letters.any(|letter| letter == wanted))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_query_need_not_be_a_word() {
        for (query, name, found) in [
            ("", "Plum Jam", true),
            ("plum", "Plum Jam", true),
            ("PJ", "Plum Jam", true),
            ("plum jam", "Plum-Jam", true),
            ("jp", "Plum Jam", false),
            ("é", "purée", true),
        ] {
            assert_eq!(finds(name, query), found, "{query}");
        }
    }
}
