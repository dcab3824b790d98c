//! From text to a tree: recipes of a manuscript, and what of each can be read by itself, parsed so and laid out.

mod node;
mod split;
mod whole;

pub use node::{Kind, Node};
pub use split::{Cut, lets_recipe_follow, parts, split, starts_recipe};

use std::cell::RefCell;
use std::sync::Arc;

use tree_sitter::Parser;
use tree_sitter_tamis::Reader;

use self::node::{Laid, lay_out, lay_out_noted};
use crate::text::Span;

/// The tree of one recipe's text. Of one that will be edited it is one of the grammar's for each of its [`parts`], so that an edit of the
/// method leaves the list as it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tree {
    parts: Vec<Part>,
}

/// The tree of one part, laid out.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Part {
    cut: Cut,
    nodes: Arc<[Laid]>,
    damage: Arc<[Span]>,
}

thread_local! {
    static PARSER: RefCell<Option<Parser>> = RefCell::new(parser());
    static READER: RefCell<Reader> = RefCell::default();
}

fn parser() -> Option<Parser> {
    let mut parser = Parser::new();
    parser.set_language(&tree_sitter_tamis::LANGUAGE.into()).ok()?;
    Some(parser)
}

impl Tree {
    /// Parses `text`, to be read once. `None` only where the grammar does not fit the parser, which a test rules out.
    pub fn parse(text: &str) -> Option<Tree> {
        let part = Part::parse(text, Cut { span: Span::new(0, text.len()), behind: "" })?;
        Some(Tree { parts: vec![part] })
    }

    /// Parses a text that will be edited. All that stands in its tree stands in the other.
    pub fn in_parts(text: &str) -> Option<Tree> {
        let cuts = parts(text);
        let (whole, damage) = laid_out(text)?;
        let whole = if damage.is_empty() { whole } else { Vec::new() };
        let mut whole = whole::cut_out(text, &whole, &cuts);
        Tree::of_parts(text, &cuts, |cut, _| {
            whole.next().flatten().map(|nodes| Part { cut, nodes, damage: Arc::default() })
        })
    }

    /// Parses a text that begins as one does whose tree is known, and ends as another, or the same. Parts of which no letter has changed are
    /// not parsed again.
    ///
    /// A part that has changed is parsed from its text alone. Its old tree would save some of that; but what is made with the help of it
    /// may differ, in odd texts, from what is made without: a scanner sees by what could follow, and that is not the same in front of a
    /// new token as behind an old phrase.
    pub fn parse_again(begins: (&Tree, &str), ends: (&Tree, &str), text: &str) -> Option<Tree> {
        Tree::of_parts(text, &parts(text), |cut, [from_start, from_end]| {
            // It stood at this place from the top or, where parts have come or gone above it, from the end.
            let from_end = ends.0.parts.len().checked_sub(from_end + 1);
            let places = [(begins, Some(from_start)), (ends, from_end)].into_iter();
            let mut known = places.filter_map(|((tree, before), place)| Some((tree.parts.get(place?)?, before)));
            let is_same = |(known, before): &(&Part, &str)| {
                known.cut.behind == cut.behind && known.cut.span.of(before) == cut.span.of(text)
            };
            known.find(is_same).map(|(known, _)| Part { cut, ..known.clone() })
        })
    }

    /// Made of parts that are known, each asked for with its places from the top and from the end, and of others that are parsed.
    fn of_parts(text: &str, cuts: &[Cut], mut known: impl FnMut(Cut, [usize; 2]) -> Option<Part>) -> Option<Tree> {
        let parse = |cut: Cut| Part::parse(cut.span.of(text), cut);
        let part = |(place, cut): (usize, &Cut)| known(*cut, [place, cuts.len() - 1 - place]).or_else(|| parse(*cut));
        let parts: Option<Vec<Part>> = cuts.iter().enumerate().map(part).collect();
        // What cannot be read apart is read together.
        let parts = parts.or_else(|| joined(cuts).into_iter().map(parse).collect());
        parts.map(|parts| Tree { parts })
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
fn joined(cuts: &[Cut]) -> Vec<Cut> {
    let mut out: Vec<Cut> = Vec::new();
    for cut in cuts {
        match out.last_mut().filter(|_| !cut.behind.is_empty()) {
            Some(last) => last.span.end = cut.span.end,
            None => out.push(*cut),
        }
    }
    out
}

/// The nodes of a text and the places that the grammar could not read.
fn laid_out(text: &str) -> Option<(Vec<Laid>, Vec<Span>)> {
    let noted = READER.with_borrow_mut(|reader| reader.nodes(text).map(lay_out_noted));
    noted.map(|laid| (laid, Vec::new())).or_else(|| Some(lay_out(&parsed(text)?)))
}

fn parsed(text: &str) -> Option<tree_sitter::Tree> {
    PARSER.with(|parser| parser.borrow_mut().as_mut()?.parse(text, None))
}

impl Part {
    fn parse(text: &str, cut: Cut) -> Option<Part> {
        let (nodes, damage) = match cut.behind {
            "" => laid_out(text)?,
            label => node::behind(laid_out(&[label, text].concat())?, label.len())?,
        };
        Some(Part { cut, nodes: nodes.into(), damage: damage.into() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// How many parts of a text are cut out of the whole, and how many are read by themselves: none of the first is another than if it were.
    #[track_caller]
    fn cut_and_read(text: &str) -> [usize; 2] {
        let cuts = parts(text);
        let by_itself: Vec<Part> = cuts.iter().map(|cut| Part::parse(cut.span.of(text), *cut).unwrap()).collect();
        assert_eq!(Tree::in_parts(text), Some(Tree { parts: by_itself }), "{text}");
        let (whole, _) = lay_out(&parsed(text).unwrap());
        let read = whole::cut_out(text, &whole, &cuts).filter(Option::is_none).count();
        [cuts.len() - read, read]
    }

    #[test]
    fn parts_cut_out_of_the_whole_are_those_that_are_read_by_themselves() {
        let rows = "- 1 cup flour\n- 2 eggs,\n  beaten\n- salt\n- 1 lemon\n";
        for (text, counts) in [
            (
                format!("Recipe: A\n\nIngredients:\n{rows}- 1 pear\n\nMethod:\n\n1. Stir.\n\n2. Bake.\n\n3. Eat."),
                [6, 0],
            ),
            (
                format!("What A is.\n\nEquipment:\r\n{rows}{rows}\r\nDIRECTIONS:\r\n1. Stir.  \r\n\r\n2. Bake.\r\n"),
                [5, 0],
            ),
            (
                format!(
                    "Ingredients:\n{rows}\nMethod:\n\n1. Stir.\n\n2. Bake.\n\nNotes: None.\n\nTests:\n- 2026-03-01: done\n"
                ),
                [4, 0],
            ),
            // Remarks at a cut belong to what is above the part, or below.
            (
                format!("Recipe: A\n// of old\n\nIngredients:\n{rows}// late\n- pears // two\n\nMethod:\n\n1. Stir.\n"),
                [1, 2],
            ),
            (
                "Recipe: A\n\nMethod:\n\n1. Stir. ?? long\n\n2. Bake [au: how?]\n\n3. Eat.\n\n// Ed.: good\n".into(),
                [2, 2],
            ),
            ("Recipe: A\n\nMethod:\n\n1. [Stir\n\n2. Bake (long\n\n3. Eat ]]) => x\n\n4.".into(), [4, 0]),
            (String::new(), [0, 1]),
        ] {
            assert_eq!(cut_and_read(&text), counts, "{text}");
        }
    }
}
