//! `tamis check`: what a cook would trip over.

mod cut;
mod json;
mod mend;
mod tally;
mod text;

use std::collections::HashSet;
use std::fs::canonicalize;
use std::io;
use std::path::PathBuf;

pub use mend::{mend_and_check, preview};
use tally::Tally;

use super::arguments::{Output, What};
use super::console::Console;
use super::{Outcome, each_file, report};
use crate::workspace::book::{StyleSheets, is_sheet};
use crate::workspace::posts::Form;
use crate::workspace::recipes::Books;
use crate::workspace::walk::{Found, Source, find};

/// Checks every manuscript that `what` names. With `strict`, whatever is found makes the outcome [`Outcome::Found`].
pub fn check(what: &What, strict: bool, console: &mut Console) -> io::Result<Outcome> {
    let mut tally = Tally::default();
    let width = console.width();
    let found = find(&what.paths);
    let books = Books::of_all(&found.manuscripts);
    let show = |source: &Source, text: &str| {
        let path = &source.to_string();
        let checked = match is_sheet(source.path()) {
            true => report::check_sheet(text),
            false => report::check(text, Form::of(source.path()), books.of(source.path())),
        };
        let shown = match what.output {
            Output::Text => text::show(&checked, path, text, width),
            Output::Json => json::show(&checked, path, text),
        };
        (shown, Tally::of(&checked))
    };
    let files = sheets_first(&found, &books.sheets);
    let outcome = each_file(&files, &found.troubles, what.output, console, show, |of_one| tally.add(of_one))?;
    if what.output == Output::Text && tally.files + tally.sheets > 0 {
        console.print(&format!("{tally}\n"))?;
    }
    let found = tally.errors > 0 || strict && !tally.is_clean();
    Ok(outcome.max(if found { Outcome::Found } else { Outcome::Clean }))
}

/// The style sheets that were found and those that the manuscripts are under, each once, and then the manuscripts: what is wrong
/// in a sheet may be wrong with all of them.
fn sheets_first(found: &Found, sheets: &StyleSheets) -> Vec<Source> {
    let over = found.manuscripts.iter().filter_map(|source| sheets.over(source.path())).map(|sheet| sheet.path);
    let mut taken = HashSet::new();
    let mut is_new = |path: &PathBuf| taken.insert(canonicalize(path).unwrap_or_else(|_| path.clone()));
    let sheets = over.chain(found.sheets.iter().cloned()).filter(|path| is_new(path)).map(Source::File);
    sheets.chain(found.manuscripts.iter().cloned()).collect()
}
