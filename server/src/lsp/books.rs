//! The books that open manuscripts stand in and that the user works in: what their other recipes do, as it is on disk.
//!
//! A book is read once, beside the desk, and each of its files again when it has been saved. While somebody types nothing of it is
//! read and nothing changes, so that a keystroke costs the same in a book of ten recipes and of ten thousand.

use std::collections::{HashMap, HashSet};
use std::path::PathBuf;

use tower_lsp::lsp_types::Url;

use super::desk::Desk;
use super::documents::path;
use super::mail::Mail;
use crate::workspace::book::{SHEET, StyleSheet};
use crate::workspace::recipes::{Recipes, Together, Told, told};

/// The books that something is known of, by the paths of their style sheets.
#[derive(Default)]
pub(super) struct Books {
    by_sheet: HashMap<PathBuf, Known>,
    /// Whether the client waits to ask what is wrong in all manuscripts.
    are_reviewed: bool,
}

/// What is known of a book.
#[derive(Default)]
struct Known {
    /// `None` while it is being read.
    recipes: Option<Recipes>,
    /// Files that changed meanwhile.
    late: Vec<(PathBuf, Vec<Told>)>,
    together: Together,
}

/// Something to be read beside the desk, which hears of it by mail.
pub(super) enum Errand {
    /// A whole book.
    Book(StyleSheet),
    /// One file of a book.
    File(StyleSheet, PathBuf),
}

/// What has been read.
pub enum News {
    /// A whole book.
    Book(Recipes),
    /// One file of it.
    File(PathBuf, Vec<Told>),
}

impl Errand {
    /// Whether it takes as long as a book is.
    pub fn is_long(&self) -> bool {
        matches!(self, Errand::Book(_))
    }

    /// Reads. `progress` hears how many manuscripts of how many have been read.
    pub fn run(self, progress: impl Fn(usize, usize) + Sync) -> Mail {
        match self {
            Errand::Book(sheet) => {
                let news = News::Book(Recipes::of_book(&sheet, progress));
                Mail::BookRead { sheet: sheet.path, news }
            }
            Errand::File(sheet, file) => {
                let told = told(&file, &sheet);
                Mail::BookRead { sheet: sheet.path, news: News::File(file, told) }
            }
        }
    }
}

impl Books {
    /// Those that have been read, with what their recipes come to together.
    pub fn read(&self) -> impl Iterator<Item = (&StyleSheet, &Together)> {
        self.by_sheet.values().filter_map(|known| Some((known.recipes.as_ref()?.sheet(), &known.together)))
    }
}

impl Desk {
    /// Begins to work, once the client can be asked things.
    pub(super) fn begin(&mut self) {
        self.watch_files();
        self.open_books();
    }

    /// Works in other folders than before. What is known of books that nothing is open of any more is forgotten.
    pub(super) fn work_in(&mut self, added: Vec<Url>, removed: &[Url]) {
        self.folders.retain(|folder| !removed.contains(folder));
        self.folders.extend(added);
        let open = self.documents.keys().filter_map(path).filter_map(|file| self.sheets.over(&file));
        let needed: HashSet<PathBuf> = open.chain(self.sheets_of_folders()).map(|sheet| sheet.path).collect();
        self.books.by_sheet.retain(|sheet, _| needed.contains(sheet));
        self.open_books();
    }

    /// Has the books read whose folders the user works in.
    pub(super) fn open_books(&mut self) {
        for sheet in self.sheets_of_folders() {
            self.together(&sheet);
        }
    }

    /// The style sheets of the books that the folders are, or lie in.
    fn sheets_of_folders(&self) -> Vec<StyleSheet> {
        let paths = self.folders.iter().filter_map(path);
        paths.filter_map(|folder| self.sheets.over(&folder.join(SHEET))).collect()
    }

    /// What the recipes of a book come to together, as far as it has been read; has it read the first time.
    pub(super) fn together(&mut self, sheet: &StyleSheet) -> Together {
        match self.books.by_sheet.get(&sheet.path) {
            Some(known) => known.together.clone(),
            None => {
                self.books.by_sheet.insert(sheet.path.clone(), Known::default());
                self.errands.push(Errand::Book(sheet.clone()));
                Together::default()
            }
        }
    }

    /// Has a manuscript read again that has changed on disk, if anybody asked for its book.
    pub(super) fn manuscript_changed(&mut self, uri: &Url) {
        let Some(file) = path(uri) else { return };
        if let Some(sheet) = self.sheets.over(&file).filter(|sheet| self.books.by_sheet.contains_key(&sheet.path)) {
            self.errands.push(Errand::File(sheet, file));
        }
    }

    /// Takes in what has been read, and checks the open manuscripts by it. Most Markdown that changes has no recipe in it, and leaves
    /// the book as it was.
    pub(super) fn book_read(&mut self, sheet: PathBuf, news: News) {
        let Some(known) = self.books.by_sheet.get_mut(&sheet) else { return };
        match (news, &mut known.recipes) {
            (News::Book(mut recipes), place) => {
                for (file, told) in known.late.drain(..) {
                    recipes.put(&file, told);
                }
                *place = Some(recipes);
            }
            (News::File(file, told), Some(recipes)) => {
                if !recipes.put(&file, told) {
                    return;
                }
            }
            (News::File(file, told), None) => {
                known.late.push((file, told));
                return;
            }
        }
        known.together = known.recipes.as_ref().map(Recipes::together).unwrap_or_default();
        self.obey();
        if std::mem::take(&mut self.books.are_reviewed) {
            self.ask_for_pulls();
        }
    }

    /// Has a book read for a client that asks what is wrong in all of its manuscripts, and has that client ask again.
    pub(super) fn want_book(&mut self, sheet: &StyleSheet) {
        self.together(sheet);
        // It may have been read since the client asked.
        match self.books.by_sheet.get(&sheet.path).is_some_and(|known| known.recipes.is_some()) {
            true => self.ask_for_pulls(),
            false => self.books.are_reviewed = true,
        }
    }

    /// Forgets all books: what a cup is may have changed with a style sheet.
    pub(super) fn forget_books(&mut self) {
        self.books.by_sheet.clear();
    }
}
