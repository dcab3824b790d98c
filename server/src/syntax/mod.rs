//! From text to a tree: recipes of a manuscript, parsed each by itself and again as they are typed.

mod node;
mod split;

pub use node::{Kind, Node};
pub use split::{lets_recipe_follow, split, starts_recipe};

use std::cell::RefCell;

use tree_sitter::{InputEdit, Parser, Point};

use crate::text::Span;

/// The tree of one recipe's text.
#[derive(Debug, Clone)]
pub struct Tree(tree_sitter::Tree);

thread_local! {
    static PARSER: RefCell<Option<Parser>> = RefCell::new(parser());
}

fn parser() -> Option<Parser> {
    let mut parser = Parser::new();
    parser.set_language(&tree_sitter_tamis::LANGUAGE.into()).ok()?;
    Some(parser)
}

impl Tree {
    /// Parses `text`. `None` only where the grammar does not fit the parser, which a test rules out.
    pub fn parse(text: &str) -> Option<Tree> {
        Tree::with(text, None)
    }

    /// Parses `text`, which is this tree's text after one edit: `old` bytes were replaced by `new` bytes at `start`.
    ///
    /// How the parser gets over what it cannot read depends on what it takes over from the old tree; then all is parsed, so that the tree is
    /// that of the text and not of how it came about.
    pub fn again(mut self, text: &str, start: usize, old: usize, new: usize) -> Option<Tree> {
        // The grammar asks for no line and column, so those of the edit need not be right.
        let point = |offset: usize| Point { row: 0, column: offset };
        self.0.edit(&InputEdit {
            start_byte: start,
            old_end_byte: start + old,
            new_end_byte: start + new,
            start_position: point(start),
            old_end_position: point(start + old),
            new_end_position: point(start + new),
        });
        Tree::with(text, Some(&self)).filter(|tree| !tree.0.root_node().has_error()).or_else(|| Tree::parse(text))
    }

    fn with(text: &str, old: Option<&Tree>) -> Option<Tree> {
        PARSER.with(|parser| parser.borrow_mut().as_mut()?.parse(text, old.map(|old| &old.0)).map(Tree))
    }

    /// The node that holds everything.
    pub fn root(&self) -> Node<'_> {
        Node::new(self.0.root_node())
    }

    /// Places that the grammar could not read.
    pub fn damage(&self) -> Vec<Span> {
        let mut out = Vec::new();
        if self.0.root_node().has_error() {
            self.root().damage(&mut out);
        }
        out
    }
}
