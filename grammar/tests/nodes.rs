//! What is noted of a text without a tree is what a tree of it holds.

mod common;

use proptest::{
    prelude::*,
    strategy::ValueTree as _,
    test_runner::{Config, RngAlgorithm, TestRng, TestRunner},
};
use tree_sitter::{Language, Node};
use tree_sitter_tamis::Reader;

/// A named node: its number, first and last byte, and how many named ones there are of it.
type Named = (u16, usize, usize, usize);

/// The named nodes of the tree, each behind all below it.
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

/// The same of what is noted; none where the text cannot be read so.
fn noted(reader: &mut Reader, language: &Language, text: &str) -> Option<Vec<Named>> {
    let noted = reader.nodes(text)?;
    // How many of those before each are named.
    let (mut named, mut before) = (Vec::new(), vec![0]);
    for (place, node) in noted.iter().enumerate() {
        let first = before[place + 1 - node.count as usize];
        if language.node_kind_is_named(node.symbol) {
            named.push((node.symbol, node.start as usize, node.end as usize, named.len() - first + 1));
        }
        before.push(named.len());
    }
    Some(named)
}

/// Holds one against the other. Whether the text can be read without a tree.
#[track_caller]
fn compare(reader: &mut Reader, language: &Language, text: &str) -> bool {
    let Some(noted) = noted(reader, language, text) else { return false };
    let tree = common::parse(text);
    let mut expected = Vec::new();
    of_tree(tree.root_node(), &mut expected);
    let first = noted.iter().zip(&expected).position(|(noted, expected)| noted != expected);
    assert!(noted == expected, "{text:?}\ndiffers at {first:?}:\n{noted:?}\n{expected:?}");
    true
}

/// What a slip of the hand leaves behind, and letters that texts seldom have.
const TYPED: &[&str] = &[
    " ",
    "\n",
    "\n\n",
    "\r",
    "\r\n",
    "\t",
    "[",
    "]",
    "[[",
    "(",
    ")",
    "/",
    "//",
    "?? ",
    "=> ",
    ":",
    "-",
    "- ",
    ",",
    ".",
    "½",
    "1",
    "2 cups",
    "about ",
    "stet ",
    "Recipe:",
    "Method:\n",
    "°",
    "é",
    "\0",
    "\u{feff}",
    "\u{2028}",
    "🍅",
    "\\",
    "[AU: x]",
];

fn edits() -> impl Strategy<Value = Vec<(f64, usize, &'static str)>> {
    let edit = (0.0..1.0_f64, 0..12_usize, proptest::sample::select(TYPED));
    proptest::collection::vec(edit, 1..8)
}

fn edited(text: &str, edits: &[(f64, usize, &str)]) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    for (place, removed, typed) in edits {
        let first = (letters.len() as f64 * place) as usize;
        let last = (first + removed).min(letters.len());
        letters.splice(first..last, typed.chars());
    }
    letters.into_iter().collect()
}

#[test]
fn what_is_noted_of_a_text_is_what_its_tree_holds() {
    let (mut reader, language) = (Reader::default(), common::language());
    let samples = common::samples();
    for (path, text) in &samples {
        assert!(compare(&mut reader, &language, text), "{} is not read", path.display());
    }
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let rounds = std::env::var("TAMIS_NODES").ok().and_then(|rounds| rounds.parse().ok()).unwrap_or(2_000);
    let mut read = 0;
    for round in 0..rounds {
        let (_, text) = &samples[round % samples.len()];
        let edits = edits().new_tree(&mut runner).expect("edits").current();
        read += usize::from(compare(&mut reader, &language, &edited(text, &edits)));
    }
    assert!(read * 100 >= rounds * 99, "only {read} of {rounds} were read");
}

#[test]
fn what_is_odd_is_read_like_a_tree_or_not_at_all() {
    let (mut reader, language) = (Reader::default(), common::language());
    let method = "Recipe: T\n\nMethod:\n\n1. ";
    for text in [
        String::new(),
        " \n\t\n".into(),
        "\u{feff}".into(),
        "\u{feff}Recipe: A\n".into(),
        "// only a remark".into(),
        "?? a\n// b\nRecipe: A // c\n// d\n\nMethod:\n// e\n\n1. Stir // f\n// g\n\n// h".into(),
        "\0".into(),
        "- a\r- b\r".into(),
        format!("{method}{}", "[".repeat(3_000)),
        format!("Recipe: T\n\nIngredients:\n\n- {}", "(".repeat(3_000)),
        format!("{method}{}", "1 cup (".repeat(3_000)),
        format!("{method}{}", "=> ".repeat(3_000)),
        format!("{method}{}", "1 1/2-".repeat(17_000)),
    ] {
        compare(&mut reader, &language, &text);
    }
}
