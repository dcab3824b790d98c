//! Turns the one table of unit words into Rust, so that the grammar and the server read the same words.

use std::{env, fmt::Write as _, fs, path::Path};

fn main() {
    println!("cargo:rerun-if-changed=src");
    let sources = ["src/parser.c", "src/scanner.c", "src/nodes.c"];
    cc::Build::new().std("c11").include("src").files(sources).compile("tree-sitter-tamis");
    println!("cargo:rerun-if-changed=units.json");
    let table = fs::read_to_string("units.json").expect("grammar/units.json is part of the crate");
    let rows: Vec<serde_json::Value> = serde_json::from_str(&table).expect("grammar/units.json is a list of units");
    let mut out = String::from("&[\n");
    for row in &rows {
        let words = |key: &str| -> Vec<&str> {
            let list = row.get(key).and_then(|value| value.as_array());
            list.map(|words| words.iter().filter_map(|word| word.as_str()).collect()).unwrap_or_default()
        };
        let name = row["name"].as_str().expect("a unit has a name");
        let kind = row["kind"].as_str().expect("a unit has a kind");
        writeln!(
            out,
            "UnitWords {{ name: {name:?}, kind: {kind:?}, words: &{:?}, cased: &{:?}, guarded: &{:?} }},",
            words("words"),
            words("cased"),
            words("hyphen_or_size"),
        )
        .expect("writing to a string");
    }
    out.push(']');
    let target = Path::new(&env::var("OUT_DIR").expect("cargo sets OUT_DIR")).join("units.rs");
    fs::write(target, out).expect("OUT_DIR can be written");
}
