//! `tamis schema`: the JSON Schema of the house style sheet, for editors that complete and check by one.

use std::io;

use serde_json::{Map, Value, json};

use super::Outcome;
use super::console::Console;
use super::explain::summary;
use crate::book::sheet::Sheet;
use crate::checks::{CHECKS, Check};

/// Prints the schema.
pub fn schema(console: &mut Console) -> io::Result<Outcome> {
    console.print(&format!("{:#}\n", of_sheet()))?;
    Ok(Outcome::Clean)
}

/// The schema of the types that read the sheet, in which each check has its own entry with the first sentence of its page.
fn of_sheet() -> Value {
    let mut schema = schemars::schema_for!(Sheet).to_value();
    if let Some(table) = schema.pointer_mut("/properties/checks").and_then(Value::as_object_mut) {
        let grade = table.insert("additionalProperties".to_owned(), json!(false)).unwrap_or_default();
        let one = |check: &Check| {
            let mut entry = grade.as_object().cloned().unwrap_or_default();
            entry.insert("description".to_owned(), json!(format!("{}.", summary(check.docs))));
            (check.code.to_owned(), Value::Object(entry))
        };
        let mut checks: Vec<(String, Value)> = CHECKS.iter().map(one).collect();
        checks.sort_by(|(one, _), (other, _)| one.cmp(other));
        table.insert("properties".to_owned(), Value::Object(checks.into_iter().collect::<Map<_, _>>()));
    }
    schema
}
