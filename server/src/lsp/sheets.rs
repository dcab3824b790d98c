//! Style sheets that are not open, and what changes when one is saved.
//!
//! A sheet takes effect as it stands on disk. What is being typed into it is checked, and changes nothing before it is saved.

use std::collections::BTreeSet;
use std::iter;

use tower_lsp::Client;
use tower_lsp::lsp_types::{
    DidChangeWatchedFilesRegistrationOptions, FileSystemWatcher, GlobPattern, Registration, Url,
};

use super::desk::Desk;
use super::diagnostics::{Body, published};
use super::documents::{Opened, is_sheet, path};
use super::marks::Marks;
use crate::book::Book;
use crate::workspace::book::SHEET;
use crate::workspace::read::read;
use crate::workspace::recipes::shown;
use crate::workspace::walk::{Source, endings};

/// The version under which diagnostics of a file that is not open are kept; no client counts so low.
pub(super) const NOT_OPEN: i32 = i32::MIN;

/// Something to ask the client.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Request {
    /// To tell of style sheets, manuscripts and posts that change on disk.
    WatchFiles,
    /// To ask for diagnostics again.
    RefreshDiagnostics,
    /// To ask for the hints beside the text again.
    RefreshHints,
    /// To ask for the lines above the recipes again.
    RefreshLenses,
}

impl Request {
    /// Asks. A client that refuses goes without.
    pub async fn ask(self, client: Client) {
        let _ = match self {
            Request::WatchFiles => client.register_capability(vec![watchers()]).await,
            Request::RefreshDiagnostics => client.workspace_diagnostic_refresh().await,
            Request::RefreshHints => client.inlay_hint_refresh().await,
            Request::RefreshLenses => client.code_lens_refresh().await,
        };
    }
}

fn watchers() -> Registration {
    let patterns = iter::once(format!("**/{SHEET}")).chain(endings().map(|ending| format!("**/*.{ending}")));
    let watcher = |pattern| FileSystemWatcher { glob_pattern: GlobPattern::String(pattern), kind: None };
    let options = DidChangeWatchedFilesRegistrationOptions { watchers: patterns.map(watcher).collect() };
    Registration {
        id: "tamis-book".into(),
        method: "workspace/didChangeWatchedFiles".into(),
        register_options: serde_json::to_value(options).ok(),
    }
}

impl Desk {
    /// Has the client tell of files that change, if it can.
    pub(super) fn watch_files(&mut self) {
        if self.editor.watches_files {
            self.requests.push(Request::WatchFiles);
        }
    }

    /// The book that a document stands in.
    pub(super) fn book(&mut self, uri: &Url) -> Book {
        let Some((file, sheet)) = path(uri).and_then(|path| Some((path.clone(), self.sheets.over(&path)?))) else {
            return Book::default();
        };
        let together = self.together(&sheet);
        let file = Some(shown(&file, &sheet));
        Book { house: sheet.house, habits: together.habits, catalogue: together.catalogue, file }
    }

    /// The style sheet that a document is under.
    pub(super) fn sheet_over(&self, uri: &Url) -> Option<Url> {
        let sheet = self.sheets.over(&path(uri)?)?.path;
        Url::from_file_path(std::path::absolute(sheet).ok()?).ok()
    }

    /// Reads every open manuscript under the style that now holds, where that is another.
    pub(super) fn sheet_changed(&mut self) {
        self.sheets.forget();
        self.forget_books();
        self.open_books();
        let sheets: Vec<Url> = self.documents.keys().filter_map(|uri| self.sheet_over(uri)).collect();
        self.due.extend(sheets);
        self.obey();
        let sheets: BTreeSet<Url> = self.shown.keys().filter(|uri| is_sheet(uri)).cloned().collect();
        self.due.extend(sheets);
    }

    /// Reads every open manuscript as a part of its book as that now is, where it is another.
    pub(super) fn obey(&mut self) {
        let open: Vec<Url> = self.documents.keys().cloned().collect();
        for uri in open {
            let book = self.book(&uri);
            if !self.documents.get_mut(&uri).is_some_and(|document| document.obey(book)) {
                continue;
            }
            let pulled = self.shown.get(&uri).is_some_and(|shown| shown.is_pulled());
            if pulled {
                self.ask_for_pulls();
            }
            self.due.insert(uri);
        }
    }

    /// Has the client ask for diagnostics again. Every one that pulls is asked: the protocol crate looks for the leave to do so under a name
    /// that no client uses.
    pub(super) fn ask_for_pulls(&mut self) {
        if !self.requests.contains(&Request::RefreshDiagnostics) {
            self.requests.push(Request::RefreshDiagnostics);
        }
    }

    /// What the client has to be told of a document that is not open: what is wrong with a style sheet that an open manuscript is
    /// under, or that there is nothing any more.
    pub(super) fn news_of_closed(&mut self, uri: Url) -> Option<Body> {
        let marks = self.sheet_on_disk(&uri).map(|sheet| Marks::of(&sheet, &self.editor)).unwrap_or_default();
        if marks.is_empty() {
            let shown = self.shown.remove(&uri)?.take_back();
            return shown.then(|| published(&uri, None, Marks::default()));
        }
        let shown = self.shown.entry(uri.clone()).or_default();
        shown.close();
        Some(published(&uri, None, shown.push(NOT_OPEN, marks)?))
    }

    fn sheet_on_disk(&self, uri: &Url) -> Option<Opened> {
        let file = path(uri).filter(|_| is_sheet(uri))?;
        self.documents.keys().any(|open| self.sheet_over(open).as_ref() == Some(uri)).then_some(())?;
        let text = read(&Source::File(file)).ok()?;
        Some(Opened::new(uri.clone(), NOT_OPEN, &text, Book::default()))
    }
}
