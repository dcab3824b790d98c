//! The JSON Schema of the house style sheet, which ships in `editors/schema/`, says what the server reads.
//!
//! `TAMIS_WRITE_SCHEMA=1 cargo test -p tamis-tests --test house_schema` writes it anew; read the difference before keeping it.

use std::{fs, path::Path};

use serde_json::{Map, Value, json};
use tamis::{book::sheet::Sheet, checks::CHECKS};

/// The schema of the sheet, in which each check has its own entry with the first sentence of its page.
fn schema() -> String {
    let mut schema = schemars::schema_for!(Sheet).to_value();
    let grade = schema["properties"]["checks"]["additionalProperties"].take();
    assert!(grade.is_object(), "the checks are a table of grades");
    let one = |check: &tamis::checks::Check| {
        let mut entry = grade.clone();
        entry["description"] = json!(first_sentence(check.docs));
        (check.code.to_owned(), entry)
    };
    let mut checks: Vec<(String, Value)> = CHECKS.iter().map(one).collect();
    checks.sort_by(|(one, _), (other, _)| one.cmp(other));
    schema["properties"]["checks"]["properties"] = Value::Object(checks.into_iter().collect::<Map<_, _>>());
    schema["properties"]["checks"]["additionalProperties"] = json!(false);
    format!("{:#}\n", schema)
}

fn first_sentence(page: &str) -> String {
    let paragraph = page.split("\n\n").find(|block| !block.trim().is_empty() && !block.starts_with('#'));
    let text = paragraph.unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ");
    format!("{}.", text.split(". ").next().unwrap_or_default().trim_end_matches('.'))
}

#[test]
fn the_schema_that_ships_is_current() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../editors/schema/tamis.schema.json");
    if std::env::var_os("TAMIS_WRITE_SCHEMA").is_some() {
        fs::write(&file, schema()).expect("the schema can be written");
    }
    let shipped = fs::read_to_string(&file).unwrap_or_default();
    assert!(shipped == schema(), "editors/schema/tamis.schema.json is stale; see the top of tests/house_schema.rs");
}
