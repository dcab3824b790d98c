//! What the grammar sees in manuscripts, for tests of the highlighters that know nothing of it: for each file that is named, the kinds
//! and places of its nodes, as JSON. Lines and columns count from 0; columns are in UTF-16 units, as most editors count.
//!
//!     cargo run -p tamis-tests --example nodes -- samples/*.tamis

use std::{collections::BTreeMap, env, error::Error, fs};

use serde_json::{Value, json};
use tree_sitter::{Node, Parser, Point};

/// The nodes that a highlighter colours.
const KINDS: &[&str] = &[
    "label",
    "title",
    "group_name",
    "number",
    "range",
    "unit",
    "hedge",
    "mention_name",
    "reference_title",
    "comment",
    "query",
    "stet",
    "check_code",
    "reason",
    "result_name",
    "step_number",
    "escape",
    "item",
    "step",
];

fn main() -> Result<(), Box<dyn Error>> {
    let mut parser = Parser::new();
    parser.set_language(&tree_sitter_tamis::LANGUAGE.into())?;
    let mut files = BTreeMap::new();
    for path in env::args().skip(1) {
        let text = fs::read_to_string(&path)?;
        let tree = parser.parse(&text, None).ok_or("a parser with a language gives a tree")?;
        let mut nodes = Vec::new();
        gather(tree.root_node(), &text.lines().collect::<Vec<_>>(), &mut nodes);
        files.insert(path, nodes);
    }
    println!("{}", serde_json::to_string(&files)?);
    Ok(())
}

fn gather(node: Node, lines: &[&str], out: &mut Vec<Value>) {
    let kind = match (node.kind(), node.parent().map(|parent| parent.kind())) {
        ("label", Some("title_line")) => "recipe_label",
        ("label", Some("header")) => "header_label",
        ("label", _) => "section_label",
        (kind, _) => kind,
    };
    if KINDS.contains(&node.kind()) {
        let (from, to) = (node.start_position(), node.end_position());
        out.push(json!([kind, from.row, column(from, lines), to.row, column(to, lines)]));
    }
    let mut cursor = node.walk();
    for child in node.children(&mut cursor) {
        gather(child, lines, out);
    }
}

fn column(point: Point, lines: &[&str]) -> usize {
    let before = lines.get(point.row).and_then(|line| line.get(..point.column));
    before.map_or(point.column, |before| before.encode_utf16().count())
}
