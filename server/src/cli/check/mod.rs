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
use crate::workspace::book::{StyleSheets, is_sheet};
use crate::workspace::walk::{Source, find};

/// Checks every manuscript that `what` names. With `strict`, whatever is found makes the outcome [`Outcome::Found`].
pub fn check(what: &What, strict: bool, console: &mut Console) -> io::Result<Outcome> {
    let mut tally = Tally::default();
    let width = console.width();
    let sheets = StyleSheets::default();
    let show = |source: &Source, text: &str| {
        let path = &source.to_string();
        let checked = match is_sheet(source.path()) {
            true => report::check_sheet(text),
            false => report::check(text, sheets.house(source.path())),
        };
        let shown = match what.output {
            Output::Text => text::show(&checked, path, text, width),
            Output::Json => json::show(&checked, path, text),
        };
        (shown, Tally::of(&checked))
    };
    let (sources, troubles) = find(&what.paths);
    let outcome =
        each_file((with_sheets(sources, &sheets), troubles), what.output, console, show, |of_one| tally.add(of_one))?;
    if what.output == Output::Text && tally.files + tally.sheets > 0 {
        console.print(&format!("{tally}\n"))?;
    }
    let found = tally.errors > 0 || strict && !tally.is_clean();
    Ok(outcome.max(if found { Outcome::Found } else { Outcome::Clean }))
}

/// The manuscripts, and before them the style sheets that they are under: what is wrong there may be wrong with all of them.
fn with_sheets(manuscripts: Vec<Source>, sheets: &StyleSheets) -> Vec<Source> {
    let mut all: Vec<Source> = Vec::new();
    for sheet in manuscripts.iter().filter_map(|source| sheets.over(source.path())) {
        let sheet = Source::File(sheet.path);
        if !all.contains(&sheet) {
            all.push(sheet);
        }
    }
    all.extend(manuscripts.into_iter().filter(|source| !is_sheet(source.path())));
    all
}
