//! From text to a tree: recipes of a manuscript, and what of each can be read by itself, parsed so and laid out.

mod node;
mod split;

pub use node::{Kind, Node};
pub use split::{Cut, lets_recipe_follow, parts, split, starts_recipe};

use std::cell::RefCell;
use std::sync::Arc;

use tree_sitter::Parser;

use self::node::{Laid, lay_out, lay_out_behind};
use crate::text::Span;

/// The tree of one recipe's text: one of the grammar's for each of its [`parts`], so that an edit of the method leaves the list as it is.
#[derive(Debug, Clone)]
pub struct Tree {
    parts: Vec<Part>,
}

/// The tree of one part, laid out.
#[derive(Debug, Clone)]
struct Part {
    cut: Cut,
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
        Tree::of_parts(text, |_, _, _| None)
    }

    /// Parses a text that was `before` until now, with this tree. Parts of which no letter has changed are not parsed again.
    ///
    /// A part that has changed is parsed from its text alone. Its old tree would save some of that; but what is made with the help of it
    /// may differ, in odd texts, from what is made without: a scanner sees by what could follow, and that is not the same in front of a
    /// new token as behind an old phrase.
    pub fn parse_again(&self, before: &str, text: &str) -> Option<Tree> {
        Tree::of_parts(text, |part, cut, [from_start, from_end]| {
            // It stood at this place from the top or, where parts have come or gone above it, from the end.
            let from_end = self.parts.len().checked_sub(from_end + 1);
            let mut known =
                [Some(from_start), from_end].into_iter().flatten().filter_map(|place| self.parts.get(place));
            known.find(|known| known.cut.behind == cut.behind && known.cut.span.of(before) == part)
        })
    }

    fn of_parts<'k>(text: &str, known: impl Fn(&str, Cut, [usize; 2]) -> Option<&'k Part>) -> Option<Tree> {
        let part = |cut: Cut, places: [usize; 2]| {
            let text = cut.span.of(text);
            let known = known(text, cut, places).map(|known| Part { cut, ..known.clone() });
            known.or_else(|| Part::parse(text, cut))
        };
        let of = |cuts: Vec<Cut>| {
            let last = cuts.len() - 1;
            let parts = cuts.into_iter().enumerate().map(|(place, cut)| part(cut, [place, last - place]));
            Some(Tree { parts: parts.collect::<Option<_>>()? })
        };
        // What cannot be read apart is read together.
        of(parts(text)).or_else(|| of(joined(parts(text))))
    }

    /// The nodes that hold everything, one for each part, each with the place of that part.
    pub fn roots(&self) -> impl Iterator<Item = (Span, Node<'_>)> {
        self.parts.iter().filter_map(|part| Some((part.cut.span, Node::first(&part.nodes, part.cut.span.start)?.0)))
    }

    /// Every node of the kinds that `wanted` accepts, in order; those inside such a node are left out.
    pub fn find(&self, wanted: impl Fn(Kind) -> bool) -> Vec<Node<'_>> {
        self.roots().flat_map(|(_, root)| root.find(&wanted)).collect()
    }

    /// Places that the grammar could not read.
    pub fn damage(&self) -> Vec<Span> {
        self.parts.iter().flat_map(|part| part.damage.iter().map(|span| span.shifted(part.cut.span.start))).collect()
    }
}

/// The parts with all that goes on in the one where it began.
fn joined(cuts: Vec<Cut>) -> Vec<Cut> {
    let mut out: Vec<Cut> = Vec::new();
    for cut in cuts {
        match out.last_mut().filter(|_| !cut.behind.is_empty()) {
            Some(last) => last.span.end = cut.span.end,
            None => out.push(cut),
        }
    }
    out
}

impl Part {
    fn parse(text: &str, cut: Cut) -> Option<Part> {
        let parse = |text: &str| PARSER.with(|parser| parser.borrow_mut().as_mut()?.parse(text, None));
        let (nodes, damage) = match cut.behind {
            "" => lay_out(&parse(text)?),
            label => lay_out_behind(&parse(&[label, text].concat())?, label.len())?,
        };
        Some(Part { cut, nodes: nodes.into(), damage: damage.into() })
    }
}
