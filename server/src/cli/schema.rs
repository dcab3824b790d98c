//! `tamis schema`: the JSON Schema of the house style sheet, for editors that complete and check by one.

use std::io;

use super::Outcome;
use super::console::Console;
use crate::workspace::schema;

/// Prints the schema.
pub fn schema(console: &mut Console) -> io::Result<Outcome> {
    console.print(&format!("{:#}\n", schema::schema()))?;
    Ok(Outcome::Clean)
}
