//! One stretch of a manuscript that is read by itself: a recipe, or prose.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::posts::Stretch;
use crate::{
    book::{Book, Titles, titles::Summary},
    checks::Finding,
    recipe::{self, Recipe},
    syntax::Tree,
    text::lines,
};

/// One recipe of the manuscript; its place follows from the lengths of those before.
#[derive(Debug, Clone, Default)]
pub(super) struct Piece {
    pub len: usize,
    /// How many lines end in it.
    pub lines: usize,
    /// Whether it is read; the prose of a post is not.
    pub manuscript: bool,
    pub tree: Option<Tree>,
    pub recipe: Arc<Recipe>,
    pub summary: Arc<Summary>,
    pub findings: Arc<[Finding]>,
}

impl Piece {
    /// Reads a stretch of `text`.
    pub fn of_stretch(text: &str, stretch: Stretch, book: &Book) -> Piece {
        match stretch.manuscript {
            true => Piece::read(stretch.span.of(text), book),
            false => Piece { len: stretch.span.len(), lines: line_ends(stretch.span.of(text)), ..Piece::default() },
        }
    }

    /// Reads a recipe.
    pub fn read(text: &str, book: &Book) -> Piece {
        let tree = Tree::parse(text);
        let recipe = tree.as_ref().map(|tree| recipe::read(text, tree, book.house.larder()));
        Piece::of(text, tree, recipe.unwrap_or_default(), book)
    }

    /// The same for a recipe that was another one, and for most of it still is what it was.
    pub fn again(&self, text: &str, book: &Book) -> Piece {
        let tree =
            self.tree.as_ref().and_then(|tree| tree.parse_again(&self.recipe.text, text)).or_else(|| Tree::parse(text));
        let recipe = tree.as_ref().map(|tree| recipe::read_again(text, tree, book.house.larder(), &self.recipe));
        Piece::of(text, tree, recipe.unwrap_or_default(), book)
    }

    fn of(text: &str, tree: Option<Tree>, recipe: Recipe, book: &Book) -> Piece {
        let summary = Arc::new(Summary::of(&recipe, &book.house.measures));
        let (len, lines, recipe) = (text.len(), line_ends(text), Arc::new(recipe));
        Piece { len, lines, manuscript: true, tree, recipe, summary, findings: Arc::default() }
    }

    /// Whether what is known of the recipes with these keys may concern this one: it has such a title too, or speaks of one, or of one that
    /// nobody has, which may be meant for one; or it asks for others, which ask for one in turn.
    pub fn is_about(&self, keys: &BTreeSet<String>, titles: &Titles<'_>) -> bool {
        let summary = &self.summary;
        !keys.is_empty()
            && (keys.contains(&summary.key)
                || summary
                    .names
                    .iter()
                    .any(|name| keys.contains(name) || titles.is_whole() && titles.titled(name).is_empty())
                || titles.lead_to(&summary.asks, keys))
    }
}

fn line_ends(text: &str) -> usize {
    lines(text).filter(|line| line.ends_with(['\n', '\r'])).count()
}
