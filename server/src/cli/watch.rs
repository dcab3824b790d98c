//! `tamis check --watch`: looks again whenever a file changes.

use std::collections::BTreeMap;
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::mpsc::{self, Receiver};
use std::time::Duration;

use notify::event::{CreateKind, RemoveKind};
use notify::{EventKind, RecursiveMode, Watcher, recommended_watcher};

use super::arguments::{Checking, Form as Output};
use super::console::{Console, complain};
use super::{Outcome, check};
use crate::workspace::baseline::BASELINE;
use crate::workspace::book::{SHEET, StyleSheets, is_sheet};
use crate::workspace::posts::Form;
use crate::workspace::recipes::folder;
use crate::workspace::trouble::{Fault, Trouble};
use crate::workspace::walk::has_ending;

/// Saving a file tells of several changes, and an editor may save several files: so long nothing may follow before it is looked at.
const QUIET: Duration = Duration::from_millis(100);

/// Takes away what a terminal shows, and what it would scroll back to.
const CLEAR: &[u8] = b"\x1b[2J\x1b[3J\x1b[H";

/// Checks what is asked for, and again after each change, until the process is ended.
pub fn watch(what: &Checking) -> io::Result<ExitCode> {
    let (told, events) = mpsc::channel();
    let watched = recommended_watcher(told).and_then(|mut watcher| {
        // Before the first look, so that no change is missed.
        folders(what).iter().try_for_each(|(folder, mode)| watcher.watch(folder, *mode))?;
        Ok(watcher)
    });
    let watcher = match watched {
        Ok(watcher) => watcher,
        Err(error) => {
            let reason = error.paths.first().map_or_else(|| ".".to_owned(), |path| path.display().to_string());
            complain(&Trouble::of(reason, Fault::NotWatched(words(&error))));
            return Ok(Outcome::Failed.into());
        }
    };
    loop {
        look(what)?;
        if wait(&events).is_none() {
            drop(watcher);
            return Ok(Outcome::Failed.into());
        }
    }
}

/// One look: on a terminal in the place of the last one, with the time.
fn look(what: &Checking) -> io::Result<()> {
    if io::stdout().is_terminal() {
        io::stdout().write_all(CLEAR)?;
    }
    let mut console = Console::of_process(what.output == Output::Text);
    check::check(what, &mut console)?;
    if what.output == Output::Text {
        let time = jiff::ZonedDateTime::now().strftime("%H:%M:%S");
        console.print(&format!("{time}: looking again whenever a file changes; Ctrl-C ends this.\n"))?;
    }
    console.finish()
}

/// Waits for a change of something that matters, and then until nothing follows. Nothing where no change will ever be told.
fn wait(events: &Receiver<notify::Result<notify::Event>>) -> Option<()> {
    while !matters(&events.recv().ok()?) {}
    while events.recv_timeout(QUIET).is_ok() {}
    Some(())
}

/// Whether it may change what is found. That a file has been opened, as the look itself does, changes nothing.
fn matters(event: &notify::Result<notify::Event>) -> bool {
    // What was missed may have mattered.
    let Ok(event) = event else { return true };
    let named = |path: &PathBuf| {
        let baseline = path.file_name().is_some_and(|name| name == BASELINE);
        has_ending(path) || is_sheet(path) || baseline || Form::of(path) == Form::Post
    };
    match event.kind {
        EventKind::Access(_) => false,
        EventKind::Create(CreateKind::Folder) | EventKind::Remove(RemoveKind::Folder) => true,
        _ => event.paths.iter().any(|path| named(path) || path.is_dir()),
    }
}

/// The folders to be watched: those asked for, those that the files asked for lie in, and the books of all of them.
fn folders(what: &Checking) -> BTreeMap<PathBuf, RecursiveMode> {
    let sheets = StyleSheets::default();
    let mut folders = BTreeMap::new();
    for path in &what.paths {
        let (own, mode) = match path.is_dir() {
            true => (path.clone(), RecursiveMode::Recursive),
            false => (parent(path), RecursiveMode::NonRecursive),
        };
        if let Some(sheet) = sheets.over(&own.join(SHEET)) {
            folders.insert(folder(&sheet).to_path_buf(), RecursiveMode::Recursive);
        }
        folders.entry(own).or_insert(mode);
    }
    folders
}

fn parent(file: &Path) -> PathBuf {
    file.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new(".")).to_path_buf()
}

/// What the watcher says, without the paths that are told anyway.
fn words(error: &notify::Error) -> String {
    match &error.kind {
        notify::ErrorKind::PathNotFound => "there is no such file or folder".to_owned(),
        notify::ErrorKind::Io(error) => error.to_string(),
        _ => error.to_string(),
    }
}
