//! What the tests of the grammar share: a parser, the samples, and a tree written as one S-expression.

#![allow(dead_code, reason = "each test file is a crate of its own and uses a part")]

use std::{
    fmt::Write as _,
    fs,
    path::{Path, PathBuf},
};

use tree_sitter::{Language, Node, Parser, Tree};

/// The language under test.
pub fn language() -> Language {
    tree_sitter_tamis::LANGUAGE.into()
}

/// A parser of the language under test.
pub fn parser() -> Parser {
    let mut parser = Parser::new();
    parser.set_language(&language()).expect("the grammar fits the parser");
    parser
}

/// The tree of a whole text.
pub fn parse(text: &str) -> Tree {
    parser().parse(text, None).expect("a parser with a language always gives a tree")
}

/// Every `.tamis` file under `samples`, with its text, in the order of the names.
pub fn samples() -> Vec<(PathBuf, String)> {
    let mut out = Vec::new();
    gather(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples"), &mut out);
    out.sort();
    out
}

fn gather(folder: &Path, out: &mut Vec<(PathBuf, String)>) {
    for entry in fs::read_dir(folder).expect("the samples are part of the project") {
        let path = entry.expect("a folder that can be read").path();
        if path.is_dir() {
            gather(&path, out);
        } else if path.extension().is_some_and(|end| end == "tamis") {
            let text = fs::read_to_string(&path).expect("a sample is UTF-8");
            out.push((path, text));
        }
    }
}

/// Calls `visit` with `node` and everything under it, parents first.
pub fn walk<'tree>(node: Node<'tree>, visit: &mut dyn FnMut(Node<'tree>)) {
    visit(node);
    let mut cursor = node.walk();
    for child in node.children(&mut cursor) {
        walk(child, visit);
    }
}

/// Named nodes with their fields, a child per line, two spaces deeper than its parent. Leaves show their text where `text` is given.
pub fn outline(node: Node, text: Option<&str>) -> String {
    let mut out = String::new();
    write_node(node, None, 0, text, &mut out);
    out
}

fn write_node(node: Node, field: Option<&str>, depth: usize, text: Option<&str>, out: &mut String) {
    if depth > 0 {
        write!(out, "\n{:width$}", "", width = depth * 2).expect("writing to a string");
    }
    if let Some(field) = field {
        write!(out, "{field}: ").expect("writing to a string");
    }
    let missing = if node.is_missing() { "MISSING " } else { "" };
    write!(out, "({missing}{}", node.kind()).expect("writing to a string");
    if let (Some(text), 0) = (text, node.named_child_count()) {
        write!(out, " {:?}", &text[node.byte_range()]).expect("writing to a string");
    }
    let mut cursor = node.walk();
    if cursor.goto_first_child() {
        loop {
            if cursor.node().is_named() || cursor.node().is_missing() {
                write_node(cursor.node(), cursor.field_name(), depth + 1, text, out);
            }
            if !cursor.goto_next_sibling() {
                break;
            }
        }
    }
    out.push(')');
}
