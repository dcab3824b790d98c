//! From text to a tree: recipes of a manuscript, and the lists and the method of each, parsed each by itself and laid out.

mod node;
mod split;

pub use node::{Kind, Node};
pub use split::{lets_recipe_follow, parts, split, starts_recipe};

use std::cell::RefCell;
use std::sync::Arc;

use tree_sitter::Parser;

use self::node::{Laid, lay_out};
use crate::text::Span;

/// The tree of one recipe's text: one of the grammar's for each of its [`parts`], so that an edit of the method leaves the list as it is.
#[derive(Debug, Clone)]
pub struct Tree {
    parts: Vec<Part>,
}

/// The tree of one part, laid out.
#[derive(Debug, Clone)]
struct Part {
    span: Span,
    nodes: Arc<[Laid]>,
    damage: Arc<[Span]>,
}

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
        Tree::of_parts(text, |_| None)
    }

    /// Parses a text that was `before` until now, with this tree. Parts of which no letter has changed are not parsed again.
    ///
    /// A part that has changed is parsed from its text alone. Its old tree would save some of that; but what is made with the help of it
    /// may differ, in odd texts, from what is made without: a scanner sees by what could follow, and that is not the same in front of a
    /// new token as behind an old phrase.
    pub fn parse_again(&self, before: &str, text: &str) -> Option<Tree> {
        Tree::of_parts(text, |part| self.parts.iter().find(|known| known.span.of(before) == part))
    }

    fn of_parts<'k>(text: &str, known: impl Fn(&str) -> Option<&'k Part>) -> Option<Tree> {
        let part = |span: Span| {
            let text = span.of(text);
            let known = known(text).map(|known| Part { span, ..known.clone() });
            known.or_else(|| Part::parse(text, span))
        };
        Some(Tree { parts: parts(text).into_iter().map(part).collect::<Option<_>>()? })
    }

    /// The nodes that hold everything, one for each part, each with the place of that part.
    pub fn roots(&self) -> impl Iterator<Item = (Span, Node<'_>)> {
        self.parts.iter().filter_map(|part| Some((part.span, Node::first(&part.nodes, part.span.start)?.0)))
    }

    /// Every node of the kinds that `wanted` accepts, in order; those inside such a node are left out.
    pub fn find(&self, wanted: impl Fn(Kind) -> bool) -> Vec<Node<'_>> {
        self.roots().flat_map(|(_, root)| root.find(&wanted)).collect()
    }

    /// Places that the grammar could not read.
    pub fn damage(&self) -> Vec<Span> {
        self.parts.iter().flat_map(|part| part.damage.iter().map(|span| span.shifted(part.span.start))).collect()
    }
}

impl Part {
    fn parse(text: &str, span: Span) -> Option<Part> {
        let tree = PARSER.with(|parser| parser.borrow_mut().as_mut()?.parse(text, None))?;
        let (nodes, damage) = lay_out(&tree);
        Some(Part { span, nodes: nodes.into(), damage: damage.into() })
    }
}
