//! `tamis format`: manuscripts laid out.

use std::io;
use std::path::PathBuf;
use std::sync::Arc;

use super::console::Console;
use super::frame::Frame;
use super::{Outcome, difference, each_file};
use crate::book::{Book, House};
use crate::text::Edit;
use crate::workspace::Manuscript;
use crate::workspace::book::StyleSheets;
use crate::workspace::posts::Form;
use crate::workspace::trouble::Trouble;
use crate::workspace::walk::{Source, find};
use crate::workspace::write::rewrite;

/// What became of one file.
struct Done {
    changed: bool,
    trouble: Option<Trouble>,
}

/// Lays out every manuscript that `paths` name. With `check` or `diff` nothing is written, and a manuscript that would be changed
/// makes the outcome [`Outcome::Found`].
pub fn format(paths: &[PathBuf], check: bool, diff: bool, console: &mut Console) -> io::Result<Outcome> {
    let sheets = StyleSheets::default();
    let look = check || diff;
    let show = |source: &Source, text: &str| {
        let path = source.to_string();
        let after = laid_out(text, source, sheets.house(source.path()));
        let changed = after != text;
        let shown = match source {
            _ if diff => difference::unified(&path, text, &after),
            _ if check && changed => format!("{path}: would be laid out otherwise\n"),
            Source::StandardInput if !look => after.clone(),
            _ => String::new(),
        };
        let trouble = match source {
            Source::File(path) if changed && !look => rewrite(path, text, &after).err(),
            _ => None,
        };
        (shown, Done { changed, trouble })
    };
    let found = find(paths);
    let (mut files, mut changed, mut troubles) = (0, 0, Vec::new());
    let keep = |done: Done| {
        files += 1;
        changed += usize::from(done.changed && done.trouble.is_none());
        troubles.extend(done.trouble);
    };
    let mut outcome = each_file(&found.manuscripts, &found.troubles, Frame::default(), console, show, keep)?;
    for trouble in troubles {
        console.complain(&trouble)?;
        outcome = Outcome::Failed;
    }
    if files > 0 && !found.manuscripts.contains(&Source::StandardInput) && !diff {
        console.print(&summary(files, changed, look))?;
    }
    let otherwise = look && changed > 0;
    Ok(outcome.max(if otherwise { Outcome::Found } else { Outcome::Clean }))
}

/// A text laid out; of a post, what stands in its fences.
fn laid_out(text: &str, source: &Source, house: Arc<House>) -> String {
    let book = Book { house, ..Book::default() };
    Edit::put_into(text, &Manuscript::unchecked(text, Form::of(source.path()), book).formatted())
}

fn summary(files: usize, changed: usize, look: bool) -> String {
    let of = format!("{files} file{}", if files == 1 { "" } else { "s" });
    match (changed, look) {
        (0, _) => format!("{of}: nothing to lay out.\n"),
        (changed, false) => format!("Laid out {changed} of {of}.\n"),
        (changed, true) => format!("{changed} of {of} would be laid out otherwise.\n"),
    }
}
