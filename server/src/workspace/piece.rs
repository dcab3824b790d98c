//! One stretch of a manuscript that is read by itself: a recipe, or prose.

use std::collections::BTreeSet;
use std::sync::Arc;

use memchr::memchr2_iter;

use super::posts::Stretch;
use crate::{
    book::{Book, Titles, titles::Summary},
    checks::Finding,
    recipe::{self, Recipe},
    syntax::Tree,
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

/// How a recipe is parsed: to be read, or to be edited.
pub(super) type Parse = fn(&str) -> Option<Tree>;

impl Piece {
    /// Reads some stretches of `text`. Each step of the reading is done for all of them before the next: what it runs through is more than a
    /// processor keeps at hand, and to go through it recipe by recipe takes a tenth longer.
    pub fn of_stretches(text: &str, stretches: &[Stretch], book: &Book, parse: Parse) -> Vec<Piece> {
        let own = |stretch: &Stretch| stretch.span.of(text);
        let tree = |stretch: &Stretch| stretch.manuscript.then(|| parse(own(stretch))).flatten();
        let trees: Vec<Option<Tree>> = stretches.iter().map(tree).collect();
        let skim = |(stretch, tree): (&Stretch, &Option<Tree>)| {
            let recipe = tree.as_ref().map(|tree| recipe::skim(own(stretch), tree, book.house.larder()));
            recipe.unwrap_or_default()
        };
        let mut recipes: Vec<Recipe> = stretches.iter().zip(&trees).map(skim).collect();
        recipe::link(&mut recipes);
        let piece = |((stretch, tree), recipe): ((&Stretch, Option<Tree>), Recipe)| match stretch.manuscript {
            true => Piece::of(own(stretch), tree, recipe, book),
            false => Piece { len: stretch.span.len(), lines: line_ends(own(stretch)), ..Piece::default() },
        };
        stretches.iter().zip(trees).zip(recipes).map(piece).collect()
    }

    /// Reads a recipe that was another one, and for most of it still is what it was; where two have become one, it ends as the `last` did.
    pub fn again(&self, last: &Piece, text: &str, book: &Book) -> Piece {
        let trees = self.tree.as_ref().zip(last.tree.as_ref());
        let again = trees
            .and_then(|(begins, ends)| Tree::parse_again((begins, &self.recipe.text), (ends, &last.recipe.text), text));
        let tree = again.or_else(|| Tree::in_parts(text));
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

/// How many lines end in a text, with LF, CRLF or CR.
fn line_ends(text: &str) -> usize {
    let text = text.as_bytes();
    let is_end = |at: &usize| text.get(*at) == Some(&b'\n') || text.get(at + 1) != Some(&b'\n');
    memchr2_iter(b'\n', b'\r', text).filter(is_end).count()
}
