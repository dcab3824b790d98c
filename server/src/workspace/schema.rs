//! The JSON Schema of the house style sheet: for editors that complete and check by one, and for the help that our own server gives.

use serde_json::{Map, Value, json};

use crate::assist::wording::first_sentence;
use crate::book::sheet::Sheet;
use crate::checks::{CHECKS, Check};

/// The schema of the types that read the sheet, in which each check has its own entry with the first sentence of its page.
pub fn schema() -> Value {
    let mut schema = schemars::schema_for!(Sheet).to_value();
    if let Some(table) = schema.pointer_mut("/properties/checks").and_then(Value::as_object_mut) {
        let grade = table.insert("additionalProperties".to_owned(), json!(false)).unwrap_or_default();
        let one = |check: &Check| {
            let mut entry = grade.as_object().cloned().unwrap_or_default();
            entry.insert("description".to_owned(), json!(format!("{}.", first_sentence(check.docs))));
            (check.code.to_owned(), Value::Object(entry))
        };
        let mut checks: Vec<(String, Value)> = CHECKS.iter().map(one).collect();
        checks.sort_by(|(one, _), (other, _)| one.cmp(other));
        table.insert("properties".to_owned(), Value::Object(checks.into_iter().collect::<Map<_, _>>()));
    }
    schema
}
