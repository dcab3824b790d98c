//! The books that open manuscripts stand in: what their other recipes do, as it is on disk.
//!
//! A book is read once, beside the desk, and each of its files again when it has been saved. While somebody types nothing of it is
//! read and nothing changes, so that a keystroke costs the same in a book of ten recipes and of ten thousand.

use std::collections::HashMap;
use std::path::PathBuf;

use tower_lsp::lsp_types::Url;

use super::desk::Desk;
use super::documents::path;
use super::mail::Mail;
use crate::workspace::book::StyleSheet;
use crate::workspace::recipes::{Recipes, Together, Told, told};

/// The books of the open manuscripts, by the paths of their style sheets.
#[derive(Default)]
pub(super) struct Books {
    by_sheet: HashMap<PathBuf, Known>,
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
    /// Reads. May take as long as the book is.
    pub fn run(self) -> Mail {
        match self {
            Errand::Book(sheet) => {
                let news = News::Book(Recipes::of_book(&sheet, |_, _| ()));
                Mail::BookRead { sheet: sheet.path, news }
            }
            Errand::File(sheet, file) => {
                let told = told(&file, &sheet);
                Mail::BookRead { sheet: sheet.path, news: News::File(file, told) }
            }
        }
    }
}

impl Desk {
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

    /// Takes in what has been read, and checks the open manuscripts by it.
    pub(super) fn book_read(&mut self, sheet: PathBuf, news: News) {
        let Some(known) = self.books.by_sheet.get_mut(&sheet) else { return };
        match (news, &mut known.recipes) {
            (News::Book(mut recipes), place) => {
                known.late.drain(..).for_each(|(file, told)| recipes.put(&file, told));
                *place = Some(recipes);
            }
            (News::File(file, told), Some(recipes)) => recipes.put(&file, told),
            (News::File(file, told), None) => known.late.push((file, told)),
        }
        known.together = known.recipes.as_ref().map(Recipes::together).unwrap_or_default();
        self.obey();
    }

    /// Forgets all books: what a cup is may have changed with a style sheet.
    pub(super) fn forget_books(&mut self) {
        self.books.by_sheet.clear();
    }
}
