//! What is noted of a text without a tree, beside what a tree of it holds. The laws in `tests/support` hold any input to it.

use tree_sitter::{Language, Node, Parser};
use tree_sitter_tamis::{LANGUAGE, Reader};

/// A named node: its number, its first byte and that behind its last, and how many named ones there are of it.
type Named = (u16, usize, usize, usize);

/// Both ways to read.
pub struct Both {
    language: Language,
    parser: Parser,
    reader: Reader,
}

impl Both {
    /// Of the language under test.
    pub fn new() -> Both {
        let (language, mut parser) = (Language::from(LANGUAGE), Parser::new());
        parser.set_language(&language).expect("the grammar fits the parser");
        Both { language, parser, reader: Reader::default() }
    }

    /// Holds one against the other. The answer is whether the text can be read without a tree; where it cannot, a tree has the last word.
    #[track_caller]
    pub fn agree(&mut self, text: &str) -> bool {
        let Some(noted) = self.noted(text) else { return false };
        let tree = self.parser.parse(text, None).expect("a parser with a language always gives a tree");
        let mut expected = Vec::new();
        of_tree(tree.root_node(), &mut expected);
        let first = noted.iter().zip(&expected).position(|(noted, expected)| noted != expected);
        assert!(noted == expected, "{text:?}\ndiffers at {first:?}:\n{noted:?}\n{expected:?}");
        assert!(!tree.root_node().has_error(), "{text:?} cannot be read without damage");
        true
    }

    /// The named nodes, each behind all below it.
    fn noted(&mut self, text: &str) -> Option<Vec<Named>> {
        // How many of those before each are named.
        let (mut named, mut before) = (Vec::new(), vec![0]);
        for (place, node) in self.reader.nodes(text)?.iter().enumerate() {
            let first = before[place + 1 - node.count as usize];
            if self.language.node_kind_is_named(node.symbol) {
                named.push((node.symbol, node.start as usize, node.end as usize, named.len() - first + 1));
            }
            before.push(named.len());
        }
        Some(named)
    }
}

/// The same of a tree.
fn of_tree(node: Node, out: &mut Vec<Named>) {
    let before = out.len();
    let mut cursor = node.walk();
    for child in node.children(&mut cursor) {
        of_tree(child, out);
    }
    if node.is_named() {
        out.push((node.kind_id(), node.start_byte(), node.end_byte(), out.len() - before + 1));
    }
}
