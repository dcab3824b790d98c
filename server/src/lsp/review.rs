//! What is wrong in all manuscripts of the folders that the user works in, for a client that asks for that. It is worked out beside the
//! desk, file by file, and once for as long as the file and its book stay the same. Those that are open are left out, since they are asked
//! for one by one, and so are style sheets, of which the client is told by itself.

use std::collections::{HashMap, HashSet};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use tokio::sync::mpsc::WeakUnboundedSender;
use tower_lsp::lsp_types::{
    Diagnostic, FullDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport, Url,
    WorkspaceDocumentDiagnosticReport, WorkspaceFullDocumentDiagnosticReport,
    WorkspaceUnchangedDocumentDiagnosticReport,
};

use super::capabilities::Editor;
use super::documents::{Opened, path};
use super::mail::Mail;
use super::marks::Marks;
use super::pieces::Pieces;
use super::sheets::NOT_OPEN;
use super::shelf::Shelves;
use crate::book::Book;
use crate::workspace::book::{StyleSheet, StyleSheets};
use crate::workspace::read::{Written, read, written};
use crate::workspace::recipes::{Together, shown};
use crate::workspace::walk::{Source, find_again, holds_some};

/// The names of the answers that the client still has, by the address of the file.
pub type Previous = HashMap<Url, String>;

/// So many entries of a folder are looked at: one with more is no cookbook but a disk.
const MOST: usize = 100_000;

/// A look at all files that takes longer is not taken at every asking, but for a tenth of the time.
const LONG: Duration = Duration::from_millis(200);

/// The name of an answer about a file that is no more.
const GONE: &str = "gone";

/// What has been found so far, for whoever asks again: most clients do so every other second.
#[derive(Debug, Clone, Default)]
pub struct Reviewed {
    files: Arc<Mutex<Files>>,
    /// What manuscripts under no style sheet stand in.
    no_book: Book,
}

#[derive(Debug, Default)]
struct Files {
    known: HashMap<PathBuf, Known>,
    /// Of Markdown, whether it holds manuscripts.
    posts: HashMap<PathBuf, (Written, bool)>,
    /// When it has been looked for files the last time, and how long that took.
    looked: Option<(Instant, Duration)>,
}

/// What was found in a file.
#[derive(Debug)]
struct Known {
    written: Written,
    book: Book,
    name: String,
    is_empty: bool,
}

/// All that is needed to look through the folders once.
struct Round {
    folders: Vec<PathBuf>,
    books: HashMap<PathBuf, (StyleSheet, Together)>,
    open: HashSet<Url>,
    editor: Editor,
    reviewed: Reviewed,
    letterbox: WeakUnboundedSender<Mail>,
}

/// What is wrong in each file, where that is another than the client knows. `letterbox` hears of books that have yet to be read: what is
/// wrong in their manuscripts is told when the client asks again.
pub fn answer(
    shelves: &Shelves<'_>,
    editor: &Editor,
    mut previous: Previous,
    reviewed: Reviewed,
    letterbox: WeakUnboundedSender<Mail>,
) -> Pieces<WorkspaceDocumentDiagnosticReport> {
    let open = shelves.iter().flat_map(|shelf| shelf.open()).map(|document| document.uri().clone());
    let round = Round {
        folders: shelves.folders().iter().filter_map(path).collect(),
        books: shelves.books().map(|(sheet, together)| (sheet.path.clone(), (sheet, together))).collect(),
        open: open.collect(),
        editor: editor.clone(),
        reviewed,
        letterbox,
    };
    Box::new(move |give| round.look_through(&mut previous, give))
}

impl Round {
    fn look_through(&self, previous: &mut Previous, give: &dyn Fn(Vec<WorkspaceDocumentDiagnosticReport>) -> bool) {
        if self.reviewed.is_to_rest() {
            return;
        }
        previous.retain(|uri, _| !self.open.contains(uri));
        let (sheets, mut wanted) = (StyleSheets::default(), HashSet::new());
        for source in self.reviewed.manuscripts(&self.folders) {
            let file = source.path();
            let Some(uri) = Url::from_file_path(file).ok().filter(|uri| !self.open.contains(uri)) else { continue };
            let before = previous.remove(&uri);
            let Some(book) = self.book(file, &sheets, &mut wanted) else { continue };
            let report = self.report(&source, &uri, book, before.as_deref());
            if report.is_some_and(|report| !give(vec![report])) {
                return;
            }
        }
        let gone = previous.drain().filter(|(_, name)| name != GONE);
        let gone: Vec<_> = gone.map(|(uri, _)| full(&uri, GONE.to_owned(), Vec::new())).collect();
        if !gone.is_empty() {
            give(gone);
        }
    }

    /// The book that a file stands in. Nothing where that has not been read: then it is asked for, once.
    fn book(&self, file: &Path, sheets: &StyleSheets, wanted: &mut HashSet<PathBuf>) -> Option<Book> {
        let Some(sheet) = sheets.over(file) else { return Some(self.reviewed.no_book.clone()) };
        let Some((sheet, together)) = self.books.get(&sheet.path) else {
            if wanted.insert(sheet.path.clone())
                && let Some(letterbox) = self.letterbox.upgrade()
            {
                // Nobody reads it any more once the client has gone.
                let _ = letterbox.send(Mail::BookWanted { sheet });
            }
            return None;
        };
        let Together { habits, catalogue } = together.clone();
        Some(Book { house: sheet.house.clone(), habits, catalogue, file: Some(shown(file, sheet)) })
    }

    /// What to tell of one file: nothing where the client shows that already, and where there is nothing to show.
    fn report(
        &self,
        source: &Source,
        uri: &Url,
        book: Book,
        before: Option<&str>,
    ) -> Option<WorkspaceDocumentDiagnosticReport> {
        let file = source.path();
        let written = written(file)?;
        if let Some(known) = self.reviewed.lock().known.get(file).filter(|known| known.is_of(&written, &book)) {
            match before {
                None if known.is_empty => return None,
                Some(before) if before == known.name => return Some(unchanged(uri, known.name.clone())),
                _ => {}
            }
        }
        // What cannot be read says so to whoever opens it.
        let text = read(source).ok()?;
        let marks = Marks::of(&Opened::new(uri.clone(), NOT_OPEN, &text, book.clone()), &self.editor);
        let (name, is_empty) = (name_of(&marks), marks.is_empty());
        let known = Known { written, book, name: name.clone(), is_empty };
        self.reviewed.lock().known.insert(file.to_path_buf(), known);
        match before {
            None if is_empty => None,
            Some(before) if before == name => Some(unchanged(uri, name)),
            _ => Some(full(uri, name, serde_json::from_str(&format!("[{}]", marks.json())).ok()?)),
        }
    }
}

impl Reviewed {
    fn lock(&self) -> MutexGuard<'_, Files> {
        self.files.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Whether it is too early to look for files again.
    fn is_to_rest(&self) -> bool {
        self.lock().looked.is_some_and(|(last, took)| took > LONG && last.elapsed() < took * 9)
    }

    /// The manuscripts in these folders.
    fn manuscripts(&self, folders: &[PathBuf]) -> Vec<Source> {
        let start = Instant::now();
        let found = find_again(folders, &|file| self.holds_some(file), MOST).manuscripts;
        self.lock().looked = Some((Instant::now(), start.elapsed()));
        found
    }

    /// Whether a file in Markdown holds manuscripts; read only where it is another than before.
    fn holds_some(&self, file: &Path) -> bool {
        let Some(written) = written(file) else { return false };
        if let Some((_, held)) = self.lock().posts.get(file).filter(|(before, _)| *before == written) {
            return *held;
        }
        let holds = holds_some(file);
        self.lock().posts.insert(file.to_path_buf(), (written, holds));
        holds
    }
}

impl Known {
    /// Whether it was found in what the file and its book are now.
    fn is_of(&self, written: &Written, book: &Book) -> bool {
        self.written == *written
            && Arc::ptr_eq(&self.book.catalogue, &book.catalogue)
            && Arc::ptr_eq(&self.book.habits, &book.habits)
            && self.book.file == book.file
            && self.book.house == book.house
    }
}

/// The same for the same diagnostics, also after a while.
fn name_of(marks: &Marks) -> String {
    let mut hasher = DefaultHasher::new();
    marks.json().hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}

fn full(uri: &Url, name: String, items: Vec<Diagnostic>) -> WorkspaceDocumentDiagnosticReport {
    let report = FullDocumentDiagnosticReport { result_id: Some(name), items };
    WorkspaceFullDocumentDiagnosticReport { uri: uri.clone(), version: None, full_document_diagnostic_report: report }
        .into()
}

fn unchanged(uri: &Url, result_id: String) -> WorkspaceDocumentDiagnosticReport {
    let report = UnchangedDocumentDiagnosticReport { result_id };
    WorkspaceUnchangedDocumentDiagnosticReport {
        uri: uri.clone(),
        version: None,
        unchanged_document_diagnostic_report: report,
    }
    .into()
}
