//! What is generated and committed is what the sources give today.

#[path = "../examples/generate.rs"]
#[allow(dead_code)]
mod generate;

use std::{fs, path::Path};

#[test]
fn the_committed_parser_and_words_are_current() {
    let grammar = Path::new(env!("CARGO_MANIFEST_DIR"));
    let made = tempfile::tempdir().expect("a folder for what is generated");
    generate::generate(grammar, made.path()).expect("the grammar can be generated");
    for file in ["words.h", "parser.c", "grammar.json", "node-types.json", "tree_sitter/parser.h"] {
        let committed = fs::read_to_string(grammar.join("src").join(file)).expect(file);
        let current = fs::read_to_string(made.path().join(file)).expect(file);
        assert!(
            committed == current,
            "grammar/src/{file} is not current; run `cargo run -p tree-sitter-tamis --example generate`"
        );
    }
}
