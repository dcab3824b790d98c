//! From text to a tree: recipes of a manuscript, parsed each by itself.

mod node;
mod split;

pub use node::{Kind, Node};
pub use split::{lets_recipe_follow, split, starts_recipe};

use std::cell::RefCell;

use tree_sitter::Parser;

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
        PARSER.with(|parser| parser.borrow_mut().as_mut()?.parse(text, None).map(Tree))
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
