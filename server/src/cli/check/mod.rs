//! `tamis check`: what a cook would trip over.

mod baseline;
mod cut;
mod json;
mod lines;
mod mend;
mod sarif;
mod statistics;
mod tally;
mod text;

use std::collections::HashSet;
use std::fs::canonicalize;
use std::io;
use std::path::PathBuf;

use baseline::Passed;
pub use baseline::write_baseline;
pub use mend::{mend_and_check, preview};
use statistics::Statistics;
use tally::Tally;

use super::arguments::{Checking, Form as Output};
use super::console::{Console, Paper};
use super::frame::Frame;
use super::report::Checked;
use super::{Outcome, each_file, report};
use crate::workspace::baseline::Baselines;
use crate::workspace::book::{StyleSheets, is_sheet};
use crate::workspace::posts::Form;
use crate::workspace::recipes::Books;
use crate::workspace::trouble::Trouble;
use crate::workspace::walk::{Found, Source, find};

/// What is kept of a file that has been checked.
struct Note {
    tally: Tally,
    statistics: Statistics,
    passed: Passed,
}

/// Checks every manuscript that `what` names.
pub fn check(what: &Checking, console: &mut Console) -> io::Result<Outcome> {
    if what.statistics && !matches!(what.output, Output::Text | Output::Json) {
        console.complain(&"--statistics are for the eye or in JSON: leave --output out, or make it json")?;
        return Ok(Outcome::Failed);
    }
    let found = find(&what.paths);
    let books = Books::of_all(&found.manuscripts);
    let known = match known(what, &books, &found) {
        Ok(known) => known,
        Err(trouble) => {
            console.complain(&trouble)?;
            return Ok(Outcome::Failed);
        }
    };
    let paper = console.paper();
    let show = |source: &Source, text: &str| {
        let mut checked = checked(source, text, &books);
        let baseline = known.over(&books.sheets, source.path()).filter(|_| !checked.is_sheet);
        let passed = baseline.map(|known| Passed::over(known, source.path(), &mut checked)).unwrap_or_default();
        let shown = if what.statistics { String::new() } else { shown(what.output, &checked, source, text, paper) };
        (shown, Note { tally: Tally::of(&checked), statistics: Statistics::of(&checked), passed })
    };
    let files = sheets_first(&found, &books.sheets);
    let (mut tally, mut statistics, mut passed) = (Tally::default(), Statistics::default(), Passed::default());
    let keep = |of_one: Note| {
        tally.add(of_one.tally);
        statistics.add(of_one.statistics);
        passed.add(of_one.passed);
    };
    let frame = if what.statistics { Frame::default() } else { frame(what.output) };
    let outcome = each_file(&files, &found.troubles, frame, console, show, keep)?;
    if what.statistics {
        console.print(&statistics.show(what.output))?;
    }
    if what.output == Output::Text && tally.files + tally.sheets > 0 {
        console.print(&format!("{tally}\n{passed}"))?;
    }
    for trouble in passed.gone(&known) {
        console.complain(&trouble)?;
    }
    let wrong = tally.errors > 0 || what.strict && !tally.is_clean();
    Ok(outcome.max(if wrong { Outcome::Found } else { Outcome::Clean }))
}

/// What is wrong with a manuscript or a style sheet.
fn checked(source: &Source, text: &str, books: &Books) -> Checked {
    match is_sheet(source.path()) {
        true => report::check_sheet(text),
        false => report::check(text, Form::of(source.path()), books.of(source.path())),
    }
}

/// The baselines to go by.
fn known(what: &Checking, books: &Books, found: &Found) -> Result<Baselines, Trouble> {
    match &what.baseline {
        Some(path) => Baselines::at(path),
        None => Baselines::beside(&books.sheets, &found.manuscripts),
    }
}

fn shown(output: Output, checked: &Checked, source: &Source, text: &str, paper: Paper) -> String {
    let path = &source.to_string();
    match output {
        Output::Text => text::show(checked, path, text, paper),
        Output::Json => json::show(checked, path, text),
        Output::Sarif => sarif::show(checked, source, text),
        Output::Github => lines::annotations(checked, path, text),
        Output::Line => lines::show(checked, path, text),
    }
}

fn frame(output: Output) -> Frame {
    match output {
        Output::Text | Output::Github | Output::Line => Frame::default(),
        Output::Json => Frame::array(),
        Output::Sarif => sarif::frame(),
    }
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
