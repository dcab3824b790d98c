//! `tamis check`: what a cook would trip over.

mod cut;
mod json;
mod tally;
mod text;

use std::io;

use tally::Tally;

use super::arguments::{Output, What};
use super::console::Console;
use super::{Outcome, each_file, report};

/// Checks every manuscript that `what` names. With `strict`, whatever is found makes the outcome [`Outcome::Found`].
pub fn check(what: &What, strict: bool, console: &mut Console) -> io::Result<Outcome> {
    let mut tally = Tally::default();
    let width = console.width();
    let show = |path: &str, text: &str| {
        let checked = report::check(text);
        let shown = match what.output {
            Output::Text => text::show(&checked, path, text, width),
            Output::Json => json::show(&checked, path, text),
        };
        (shown, Tally::of(&checked))
    };
    let outcome = each_file(what, console, show, |of_one| tally.add(of_one))?;
    if what.output == Output::Text && tally.files > 0 {
        console.print(&format!("{tally}\n"))?;
    }
    let found = tally.errors > 0 || strict && !tally.is_clean();
    Ok(outcome.max(if found { Outcome::Found } else { Outcome::Clean }))
}
