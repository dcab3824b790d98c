//! `tamis check --fix`: mends what needs no decision before anything is checked, or shows what would be mended.

use std::io;
use std::ops::ControlFlow;

use super::super::arguments::{Checking, Form as Output};
use super::super::console::Console;
use super::super::frame::Frame;
use super::super::{Outcome, difference, each_file, stream};
use super::check;
use crate::book::Book;
use crate::text::Edit;
use crate::workspace::Manuscript;
use crate::workspace::posts::Form;
use crate::workspace::read::read;
use crate::workspace::recipes::Books;
use crate::workspace::trouble::{Fault, Trouble};
use crate::workspace::walk::{Source, find};
use crate::workspace::write::rewrite;

/// A text with everything mended that needs no decision, how much that was, and whether it came to an end.
struct MendedText {
    text: String,
    count: usize,
    unsettled: bool,
}

fn mended(text: &str, source: &Source, book: Book) -> MendedText {
    let mended = Manuscript::of(text, Form::of(source.path()), book).mended();
    MendedText { text: Edit::put_into(text, &mended.edits), count: mended.count, unsettled: mended.unsettled }
}

/// Mends every manuscript that `what` names in its file, and then checks them all.
pub fn mend_and_check(what: &Checking, console: &mut Console) -> io::Result<Outcome> {
    let found = find(&what.paths);
    let books = Books::of_all(&found.manuscripts);
    let (mut count, mut files) = (0, 0);
    let mut troubles: Vec<Trouble> = Vec::new();
    let work = |source: &Source| mend_file(source, &books);
    // A file that cannot be read is told of when it is checked.
    stream::in_order(&found.manuscripts, work, |source, answer| {
        match answer.unwrap_or_else(|_| Err(Trouble::of(source, Fault::Ours))) {
            Ok(Some(mended)) => {
                (count, files) = (count + mended.count, files + usize::from(mended.count > 0));
                troubles.extend(mended.unsettled.then(|| Trouble::of(source, Fault::Unsettled)));
            }
            Ok(None) => {}
            Err(trouble) => troubles.push(trouble),
        }
        ControlFlow::Continue(())
    });
    let failed = if troubles.is_empty() { Outcome::Clean } else { Outcome::Failed };
    for trouble in troubles {
        console.complain(&trouble)?;
    }
    let outcome = check(what, console)?;
    if what.output == Output::Text && count > 0 {
        let (places, of) = (if count == 1 { "place" } else { "places" }, if files == 1 { "file" } else { "files" });
        console.print(&format!("Mended {count} {places} in {files} {of}.\n"))?;
    }
    Ok(outcome.max(failed))
}

fn mend_file(source: &Source, books: &Books) -> Result<Option<MendedText>, Trouble> {
    let Source::File(path) = source else { return Err(Trouble::of(source, Fault::NoFile)) };
    let Ok(text) = read(source) else { return Ok(None) };
    let mended = mended(&text, source, books.of(path));
    if mended.text != text {
        rewrite(path, &text, &mended.text)?;
    }
    Ok(Some(mended))
}

/// Shows what would be mended in every manuscript that `what` names. That something would makes the outcome [`Outcome::Found`].
pub fn preview(what: &Checking, console: &mut Console) -> io::Result<Outcome> {
    let found = find(&what.paths);
    let books = Books::of_all(&found.manuscripts);
    let show = |source: &Source, text: &str| {
        let after = mended(text, source, books.of(source.path())).text;
        (difference::unified(&source.to_string(), text, &after), after != text)
    };
    let mut changed = false;
    let keep = |one: bool| changed |= one;
    let outcome = each_file(&found.manuscripts, &found.troubles, Frame::default(), console, show, keep)?;
    Ok(outcome.max(if changed { Outcome::Found } else { Outcome::Clean }))
}
