//! `tamis facts`: what is known of a food.

mod json;
mod text;

use std::io;
use std::path::Path;

use super::Outcome;
use super::arguments::Output;
use super::console::{Console, complain};
use crate::assist;
use crate::workspace::book::StyleSheets;

/// What has to be said wherever allergens and nutrients are told.
const CAUTION: &str = "Computed from published tables, and makes differ. For allergens, diets and nutrition the label of the \
                       product and the law where you publish decide.";

/// Answers a question: a food, and an amount of it if one is wanted.
pub fn facts(question: &str, output: Output, console: &mut Console) -> io::Result<Outcome> {
    // Under the style sheet of the folder that the program runs in, as standard input is.
    let house = StyleSheets::default().house(Path::new("-"));
    let facts = match assist::facts(&house, question) {
        Ok(facts) => facts,
        Err(unknown) => {
            complain(&unknown);
            return Ok(Outcome::Failed);
        }
    };
    let shown = match output {
        Output::Text => text::show(&facts, console.page_width()),
        Output::Json => json::show(&facts),
    };
    console.print(&shown)?;
    Ok(Outcome::Clean)
}
