//! What is noted of a text without a tree is what a tree of it holds.

mod common;
#[path = "common/noted.rs"]
mod noted;

use proptest::{
    prelude::*,
    strategy::ValueTree as _,
    test_runner::{Config, RngAlgorithm, TestRng, TestRunner},
};

use noted::Both;

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
    let mut both = Both::new();
    let samples = common::samples();
    for (path, text) in &samples {
        assert!(both.agree(text), "{} is not read", path.display());
    }
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    // `TAMIS_NODES=400000` for a change of the grammar.
    let rounds = std::env::var("TAMIS_NODES").ok().and_then(|rounds| rounds.parse().ok()).unwrap_or(2_000);
    let mut read = 0;
    for round in 0..rounds {
        let (_, text) = &samples[round % samples.len()];
        let edits = edits().new_tree(&mut runner).expect("edits").current();
        read += usize::from(both.agree(&edited(text, &edits)));
    }
    assert!(read * 100 >= rounds * 99, "only {read} of {rounds} were read");
}

#[test]
fn what_is_odd_is_read_like_a_tree_or_not_at_all() {
    let mut both = Both::new();
    let method = "Recipe: T\n\nMethod:\n\n1. ";
    for (text, read) in [
        (String::new(), false),
        (" \n\t\n".into(), false),
        ("\u{feff}".into(), false),
        ("\u{feff}Recipe: A\n".into(), true),
        ("// only a remark".into(), false),
        ("?? a\n// b\nRecipe: A // c\n// d\n\nMethod:\n// e\n\n1. Stir // f\n// g\n\n// h".into(), true),
        ("\0".into(), false),
        ("- a\r- b\r".into(), true),
        // More brackets than the stack has room for.
        (format!("Recipe: T\n\nIngredients:\n\n- {}{}", "(".repeat(2_000), ")".repeat(2_000)), false),
        (format!("{method}{}", "[".repeat(3_000)), true),
        (format!("Recipe: T\n\nIngredients:\n\n- {}", "(".repeat(300)), true),
        (format!("{method}{}", "1 cup (".repeat(3_000)), true),
        (format!("{method}{}", "=> ".repeat(3_000)), true),
        // More nodes than there is room for at first.
        (format!("{method}{}", "1 1/2-".repeat(17_000)), true),
        (format!("{method}{}", "[a]".repeat(3_000)), true),
    ] {
        let start: String = text.chars().take(60).collect();
        assert_eq!(both.agree(&text), read, "{start:?}");
    }
}
