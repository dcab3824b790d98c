//! A book as it is at the moment: the manuscripts that are open by their text in the editor, the others by what the catalogue says.
//!
//! Answers over a book come from there. Where a place in a file that is not open has to be known to the letter, or changed, that file
//! is read beside the desk, and no other.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{Position, Range, Url};

use super::capabilities::Editor;
use super::desk::{Desk, not_open};
use super::documents::{Opened, path};
use super::placed::{Placed, first_line};
use crate::book::{House, titles::Entry};
use crate::recipe::Recipe;
use crate::text::Span;
use crate::workspace::book::{SHEET, StyleSheet, StyleSheets};
use crate::workspace::leaf::leaf;
use crate::workspace::recipes::{Together, folder};
use crate::workspace::trouble::Trouble;

/// What is left to be done of an answer beside the desk.
pub type Later<T> = Box<dyn FnOnce() -> T + Send>;

/// An answer of which nothing is left to be done.
pub fn at_once<T: Send + 'static>(answer: T) -> Later<T> {
    Box::new(move || answer)
}

/// Which manuscripts belong together.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Home {
    /// Those under one style sheet.
    Book(PathBuf),
    /// Without one, those in one folder.
    Folder(PathBuf),
    /// What has no file yet stands alone.
    Alone(Url),
}

impl Home {
    fn of(uri: &Url, sheets: &StyleSheets) -> (Home, Option<StyleSheet>) {
        let Some(file) = path(uri) else { return (Home::Alone(uri.clone()), None) };
        match sheets.over(&file) {
            Some(sheet) => (Home::Book(sheet.path.clone()), Some(sheet)),
            None => (Home::Folder(file.parent().unwrap_or(&file).to_path_buf()), None),
        }
    }
}

/// All books that something is known of.
pub struct Shelves<'d> {
    by_home: BTreeMap<Home, Shelf<'d>>,
    sheets: &'d StyleSheets,
    folders: &'d [Url],
}

/// One book. Open manuscripts outside any are as good as one where they lie in one folder.
#[derive(Default)]
pub struct Shelf<'d> {
    open: Vec<&'d Opened>,
    bound: Option<Bound>,
}

/// The style sheet that decisions about a manuscript go into.
#[derive(Clone)]
pub enum Keeper<'s> {
    /// It is open.
    Open(&'s Opened),
    /// It is not.
    Shut(PathBuf, Url),
    /// There is none yet; here it would be.
    New(Url),
}

/// A book on disk.
struct Bound {
    sheet: StyleSheet,
    together: Together,
}

/// A recipe of some title.
#[derive(Clone)]
pub enum Titled<'s> {
    /// In a manuscript that is open: with the line that it begins in.
    Open(&'s Opened, u32, &'s Arc<Recipe>),
    /// In another.
    Shut(&'s Entry, Url),
}

/// Some recipes of one manuscript, each with the line that it begins in. Prose that refers to recipes counts as one.
pub struct Page {
    /// The manuscript.
    pub uri: Url,
    /// Its version, where it is open.
    pub version: Option<i32>,
    /// The recipes.
    pub recipes: Vec<(u32, Arc<Recipe>)>,
}

/// What has to do with a title: at hand in manuscripts that are open, and to be read in others.
pub struct Speakers {
    open: Vec<Page>,
    shut: Vec<(PathBuf, Url)>,
    house: Arc<House>,
}

impl Desk {
    /// All books as they are at the moment.
    pub(super) fn shelves(&self) -> Shelves<'_> {
        let mut by_home: BTreeMap<Home, Shelf<'_>> = BTreeMap::new();
        for (sheet, together) in self.books.read() {
            let bound = Some(Bound { sheet: sheet.clone(), together: together.clone() });
            by_home.insert(Home::Book(sheet.path.clone()), Shelf { bound, ..Shelf::default() });
        }
        for document in self.documents.values() {
            let (home, sheet) = Home::of(document.uri(), &self.sheets);
            let shelf = by_home.entry(home).or_default();
            shelf.open.push(document);
            // One that is being read has nothing in it yet.
            let unread = || sheet.map(|sheet| Bound { sheet, together: Together::default() });
            shelf.bound = shelf.bound.take().or_else(unread);
        }
        by_home.values_mut().for_each(|shelf| shelf.open.sort_by_key(|document| document.uri()));
        Shelves { by_home, sheets: &self.sheets, folders: &self.folders }
    }
}

impl<'d> Shelves<'d> {
    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &Shelf<'d>> {
        self.by_home.values()
    }

    /// The folders that the user works in.
    pub fn folders(&self) -> &[Url] {
        self.folders
    }

    /// The books that have been read.
    pub fn books(&self) -> impl Iterator<Item = (StyleSheet, Together)> {
        let bound = self.by_home.values().filter_map(|shelf| shelf.bound.as_ref());
        let read = bound.filter(|bound| bound.together.catalogue.is_whole());
        read.map(|bound| (bound.sheet.clone(), bound.together.clone()))
    }

    /// The book that a manuscript stands in, open or not.
    pub fn of(&self, uri: &Url) -> Option<&Shelf<'d>> {
        self.by_home.get(&Home::of(uri, self.sheets).0)
    }

    /// A manuscript that is open, with its book.
    pub fn opened(&self, uri: &Url) -> Result<(&'d Opened, &Shelf<'d>)> {
        let shelf = self.of(uri).ok_or_else(|| not_open(uri))?;
        let document = shelf.open.iter().find(|document| document.uri() == uri).ok_or_else(|| not_open(uri))?;
        Ok((document, shelf))
    }

    /// The style sheet that a manuscript is under. Where there is none, the one that would be made: in the folder that the user works
    /// in, else beside the manuscript. Nothing for what has no file yet.
    pub fn keeper(&self, uri: &Url) -> Option<Keeper<'d>> {
        let file = path(uri)?;
        let Some(sheet) = self.sheets.over(&file) else {
            let folders = self.folders.iter().filter_map(path).filter(|folder| file.starts_with(folder));
            let innermost = folders.max_by_key(|folder| folder.components().count());
            let folder = innermost.or_else(|| file.parent().map(Path::to_path_buf))?;
            return Some(Keeper::New(Url::from_file_path(folder.join(SHEET)).ok()?));
        };
        let (file, uri) = with_address(sheet.path)?;
        let mut open = self.by_home.values().flat_map(|shelf| &shelf.open);
        Some(open.find(|document| *document.uri() == uri).map_or(Keeper::Shut(file, uri), |open| Keeper::Open(open)))
    }
}

impl<'d> Shelf<'d> {
    /// What is open of it, its style sheet too, by address.
    pub fn open(&self) -> &[&'d Opened] {
        &self.open
    }

    /// Whether its recipes are still being read.
    pub fn is_being_read(&self) -> bool {
        self.bound.as_ref().is_some_and(|bound| !bound.together.catalogue.is_whole())
    }

    /// The recipes with a title in manuscripts that are not open, in the order of the book; `most` of them at most.
    pub fn shut(&self, wanted: impl Fn(&Entry) -> bool, most: usize) -> Vec<Titled<'_>> {
        let entries = self.bound.iter().flat_map(|bound| bound.together.catalogue.entries());
        self.entries(entries.filter(|entry| wanted(entry)), most)
    }

    /// The recipes of this title: those of the manuscript `first` if it has any, else all others.
    pub fn titled(&self, key: &str, first: &Url) -> Vec<Titled<'_>> {
        let (own, others): (Vec<_>, Vec<_>) =
            self.all_titled(key).into_iter().partition(|titled| titled.uri() == first);
        if own.is_empty() { others } else { own }
    }

    /// All recipes of this title.
    pub fn all_titled(&self, key: &str) -> Vec<Titled<'_>> {
        let open = self.open.iter().flat_map(|document| {
            let found = document.manuscript().into_iter().flat_map(|manuscript| manuscript.titled(key));
            found.map(|(start, recipe)| Titled::Open(document, first_line(document, start), recipe))
        });
        let mut out: Vec<Titled<'_>> = open.collect();
        out.extend(self.entries(self.bound.iter().flat_map(|bound| bound.together.catalogue.titled(key)), usize::MAX));
        out
    }

    /// What speaks of the recipes of this title.
    pub fn speakers(&self, key: &str) -> Speakers {
        let pages = self.open.iter().map(|document| {
            let naming = document.manuscript().into_iter().flat_map(|manuscript| manuscript.naming(key));
            let recipes = naming.map(|(start, recipe)| (first_line(document, start), recipe.clone()));
            Page { uri: document.uri().clone(), version: Some(document.version()), recipes: recipes.collect() }
        });
        let entries = self.bound.iter().flat_map(|bound| bound.together.catalogue.naming(key));
        let files: BTreeSet<PathBuf> =
            entries.filter(|entry| !self.is_open(entry)).filter_map(|entry| self.file(entry)).collect();
        let house = self.bound.as_ref().map(|bound| bound.sheet.house.clone());
        Speakers {
            open: pages.filter(|page| !page.recipes.is_empty()).collect(),
            shut: files.into_iter().filter_map(with_address).collect(),
            house: house.unwrap_or_default(),
        }
    }

    /// The manuscript of one recipe.
    pub fn page(&self, titled: &Titled<'_>) -> Speakers {
        let house = self.bound.as_ref().map(|bound| bound.sheet.house.clone());
        Speakers { open: Vec::new(), shut: Vec::new(), house: house.unwrap_or_default() }.with(titled)
    }

    fn entries<'s>(&'s self, entries: impl Iterator<Item = &'s Arc<Entry>>, most: usize) -> Vec<Titled<'s>> {
        let mut entries: Vec<&Entry> = entries.map(|entry| &**entry).filter(|entry| !self.is_open(entry)).collect();
        entries.sort_by_key(|entry| (&entry.file, entry.line));
        let shut = |entry: &'s Entry| Some(Titled::Shut(entry, with_address(self.file(entry)?)?.1));
        entries.into_iter().take(most).filter_map(shut).collect()
    }

    /// Whether the file of an entry is open, so that the editor knows better.
    fn is_open(&self, entry: &Entry) -> bool {
        let mut files = self.open.iter().filter_map(|document| document.manuscript()?.book().file.as_deref());
        files.any(|file| file == &*entry.file)
    }

    fn file(&self, entry: &Entry) -> Option<PathBuf> {
        Some(folder(&self.bound.as_ref()?.sheet).join(Path::new(&*entry.file)))
    }
}

fn with_address(file: PathBuf) -> Option<(PathBuf, Url)> {
    let file = std::path::absolute(file).ok()?;
    let uri = Url::from_file_path(&file).ok()?;
    Some((file, uri))
}

impl Titled<'_> {
    /// The manuscript.
    pub fn uri(&self) -> &Url {
        match self {
            Titled::Open(document, ..) => document.uri(),
            Titled::Shut(_, uri) => uri,
        }
    }

    /// The title as written.
    pub fn name(&self) -> &str {
        match self {
            Titled::Open(_, _, recipe) => recipe.name(),
            Titled::Shut(entry, _) => &entry.summary.title,
        }
    }

    /// Where the title stands.
    pub fn title(&self, editor: &Editor) -> Range {
        match self {
            Titled::Open(_, line, recipe) => {
                Placed::at(*line, recipe, editor.encoding).range(recipe.title.unwrap_or_default())
            }
            Titled::Shut(entry, _) => {
                let width = |text: &str| u32::try_from(editor.encoding.width(text)).unwrap_or(u32::MAX);
                let line = u32::try_from(entry.line).unwrap_or(u32::MAX);
                let start = width(&entry.lead);
                let end = start.saturating_add(width(&entry.summary.title));
                Range::new(Position::new(line, start), Position::new(line, end))
            }
        }
    }

    /// Where the whole recipe stands; of one that is not open, its title.
    pub fn whole(&self, editor: &Editor) -> Range {
        match self {
            Titled::Open(_, line, recipe) => {
                let title = recipe.title.unwrap_or_default();
                let all = Span::new(0, recipe.text.trim_end().len()).joined(title);
                Placed::at(*line, recipe, editor.encoding).range(all)
            }
            Titled::Shut(..) => self.title(editor),
        }
    }

    /// Its place in words: `jams.tamis, line 3`.
    pub fn place(&self, editor: &Editor) -> String {
        let file = match self {
            Titled::Open(document, ..) => document.manuscript().and_then(|manuscript| manuscript.book().file.clone()),
            Titled::Shut(entry, _) => Some(entry.file.clone()),
        };
        let last = || self.uri().path_segments().and_then(|mut parts| parts.next_back()).unwrap_or_default().into();
        format!("{}, line {}", file.unwrap_or_else(last), self.title(editor).start.line.saturating_add(1))
    }
}

impl Speakers {
    /// Adds a recipe that has to do with it too, by its title.
    pub fn with(mut self, titled: &Titled<'_>) -> Self {
        match titled {
            Titled::Open(document, line, recipe) => {
                let version = Some(document.version());
                let found = self.open.iter().position(|page| page.uri == *document.uri());
                let new = || Page { uri: document.uri().clone(), version, recipes: Vec::new() };
                let mut page = found.map_or_else(new, |at| self.open.swap_remove(at));
                if !page.recipes.iter().any(|(own, _)| own == line) {
                    page.recipes.push((*line, Arc::clone(recipe)));
                }
                self.open.push(page);
            }
            Titled::Shut(_, uri) if !self.shut.iter().any(|(_, own)| own == uri) => {
                self.shut.extend(path(uri).map(|file| (file, uri.clone())));
            }
            Titled::Shut(..) => {}
        }
        self
    }

    /// All manuscripts with recipes that may have to do with it, read where they are not open, by their addresses. A file that is gone
    /// is left out; one that cannot be read is an error.
    pub fn pages(self) -> impl Iterator<Item = std::result::Result<Page, Trouble>> {
        let mut all: Vec<(Url, std::result::Result<Page, PathBuf>)> =
            self.open.into_iter().map(|page| (page.uri.clone(), Ok(page))).collect();
        all.extend(self.shut.into_iter().map(|(file, uri)| (uri, Err(file))));
        all.sort_by(|one, other| one.0.cmp(&other.0));
        let house = self.house;
        all.into_iter().filter_map(move |(uri, page)| match page {
            Ok(page) => Some(Ok(page)),
            Err(file) => leaf(&file, &house).transpose().map(|leaf| {
                let lined = |(line, recipe)| (u32::try_from(line).unwrap_or(u32::MAX), recipe);
                leaf.map(|leaf| Page { uri, version: None, recipes: leaf.into_iter().map(lined).collect() })
            }),
        })
    }
}
