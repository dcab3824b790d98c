//! `tamis scale`: manuscripts with every recipe for more or for fewer.

use std::io;
use std::path::PathBuf;
use std::sync::Arc;

use super::console::Console;
use super::frame::Frame;
use super::{Outcome, difference, each_file};
use crate::assist::{self, Wanted};
use crate::book::{Book, House};
use crate::text::Edit;
use crate::workspace::Manuscript;
use crate::workspace::book::StyleSheets;
use crate::workspace::posts::Form;
use crate::workspace::trouble::{Fault, Trouble};
use crate::workspace::walk::{Source, find};
use crate::workspace::write::rewrite;

/// What is to become of a scaled manuscript.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// It is printed.
    Whole,
    /// The lines that differ are printed.
    Difference,
    /// It takes the place of the other one.
    Written,
}

impl Answer {
    /// What is asked with `--diff` or `--write`.
    pub fn of(diff: bool, write: bool) -> Self {
        match (diff, write) {
            (true, _) => Answer::Difference,
            (_, true) => Answer::Written,
            _ => Answer::Whole,
        }
    }
}

/// Scales every recipe of every manuscript that `paths` name. A manuscript of which one recipe cannot be scaled is left out as a
/// whole, and makes the outcome [`Outcome::Failed`].
pub fn scale(paths: &[PathBuf], wanted: Wanted, answer: Answer, console: &mut Console) -> io::Result<Outcome> {
    let sheets = StyleSheets::default();
    let show = |source: &Source, text: &str| {
        let scaled = scaled(text, source, sheets.house(source.path()), wanted);
        let (after, told) = match scaled {
            Ok(scaled) => scaled,
            Err(trouble) => return (String::new(), Err(trouble)),
        };
        match (answer, source) {
            (Answer::Difference, _) => (difference::unified(&source.to_string(), text, &after), Ok(told)),
            (Answer::Written, Source::File(path)) => (String::new(), rewrite(path, text, &after).map(|()| told)),
            _ => (after, Ok(told)),
        }
    };
    let found = find(paths);
    let (mut notes, mut troubles) = (Vec::new(), Vec::new());
    let keep = |done: Result<Vec<String>, Trouble>| match done {
        Ok(told) => notes.extend(told),
        Err(trouble) => troubles.push(trouble),
    };
    let outcome = each_file(&found.manuscripts, &found.troubles, Frame::default(), console, show, keep)?;
    notes.iter().try_for_each(|note| console.complain(note))?;
    troubles.iter().try_for_each(|trouble| console.complain(trouble))?;
    Ok(if troubles.is_empty() { outcome } else { Outcome::Failed })
}

/// A text with all its recipes scaled, and what there is to tell of each.
fn scaled(text: &str, source: &Source, house: Arc<House>, wanted: Wanted) -> Result<(String, Vec<String>), Trouble> {
    let book = Book { house, ..Book::default() };
    let manuscript = Manuscript::unchecked(text, Form::of(source.path()), book);
    let (mut edits, mut told) = (Vec::new(), Vec::new());
    for (start, recipe) in manuscript.recipes() {
        let line = manuscript.document().line_of(start) + 1;
        let fault = |reason| Trouble::of(format_args!("{source}:{line}"), Fault::NotScaled(reason));
        let scaled = assist::scale(recipe, manuscript.house(), wanted).map_err(fault)?;
        edits.extend(scaled.edits.into_iter().map(|edit: Edit| edit.shifted(start)));
        let title = recipe.title.map_or_else(|| "the recipe".to_owned(), |title| recipe.at(title).to_owned());
        told.push(format!("{source}:{line}: {title}: {}", scaled.told));
    }
    Ok((Edit::put_into(text, &edits), told))
}
