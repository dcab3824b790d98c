//! What the recipes of one book on disk have to tell each other.

use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use rayon::iter::{IntoParallelRefIterator, ParallelIterator};

use super::book::{StyleSheet, StyleSheets};
use super::posts::Form;
use super::read::read;
use super::walk::{Source, find};
use crate::book::Book;
use crate::book::habits::{CupWeight, Habits, cup_weights};
use crate::book::titles::{Catalogue, Entry, Summary};
use crate::recipe::{self, trials::is_tried};
use crate::syntax::Tree;
use crate::text::LineIndex;

/// What a recipe tells the others of its book.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    cup_weights: Vec<CupWeight>,
    tried: bool,
    entry: Arc<Entry>,
}

/// The recipes of one book, file by file: the manuscripts under a style sheet, down to the next one.
#[derive(Debug, Clone)]
pub struct Recipes {
    sheet: StyleSheet,
    by_file: BTreeMap<PathBuf, Vec<Told>>,
}

/// What the recipes of one book come to together.
#[derive(Debug, Clone, Default)]
pub struct Together {
    /// What most of them do.
    pub habits: Arc<Habits>,
    /// What they are called.
    pub catalogue: Arc<Catalogue>,
}

impl Recipes {
    /// Reads the whole book, several files at a time; `progress` hears after each how many of how many have been read. What cannot be
    /// read tells nothing; whoever checks it says why.
    pub fn of_book(sheet: &StyleSheet, progress: impl Fn(usize, usize) + Sync) -> Self {
        let sheets = StyleSheets::default();
        let own = |file: &Path| sheets.over(file).is_some_and(|over| over.path == sheet.path);
        let manuscripts = find(&[folder(sheet).to_path_buf()]).manuscripts;
        let read = AtomicUsize::new(0);
        let tell = |source: &Source| {
            let file = source.path();
            let told = own(file).then(|| (key(file), told(file, sheet)));
            progress(read.fetch_add(1, Ordering::Relaxed) + 1, manuscripts.len());
            told
        };
        Recipes { sheet: sheet.clone(), by_file: manuscripts.par_iter().filter_map(tell).collect() }
    }

    /// Puts what a file tells now in the place of what it told before. Whether that was something else.
    pub fn put(&mut self, file: &Path, told: Vec<Told>) -> bool {
        let key = key(file);
        if self.by_file.get(&key).map_or(&[][..], Vec::as_slice) == told {
            return false;
        }
        match told.is_empty() {
            true => self.by_file.remove(&key),
            false => self.by_file.insert(key, told),
        };
        true
    }

    /// What they come to together.
    pub fn together(&self) -> Together {
        let all = || self.by_file.values().flatten();
        let recipes = || all().filter(|told| !told.entry.summary.title.is_empty());
        let tried = recipes().filter(|told| told.tried).count();
        let habits = Habits::of(all().map(|told| told.cup_weights.as_slice())).with_tests(tried, recipes().count());
        let catalogue = Catalogue::of(all().map(|told| told.entry.clone()));
        Together { habits: Arc::new(habits), catalogue: Arc::new(catalogue) }
    }

    /// The style sheet of the book.
    pub fn sheet(&self) -> &StyleSheet {
        &self.sheet
    }
}

/// What the recipes of a file tell; nothing where it is gone.
pub fn told(file: &Path, sheet: &StyleSheet) -> Vec<Told> {
    let Ok(text) = read(&Source::File(file.to_path_buf())) else { return Vec::new() };
    let (lines, name) = (LineIndex::new(&text), shown(file, sheet));
    let stretches = Form::of(file).stretches(&text).into_iter().filter(|stretch| stretch.manuscript);
    let recipes = stretches.map(|stretch| stretch.span).filter_map(|span| {
        let own = span.of(&text);
        let recipe = recipe::skim(own, &Tree::parse(own)?, sheet.house.larder());
        let start = span.start + recipe.title.map_or(0, |title| title.start);
        let line = lines.line_of(start);
        let lead = text.get(lines.line(line).start..start).unwrap_or_default().into();
        let summary = Summary::of(&recipe, &sheet.house.measures);
        // Prose tells of itself where it refers to recipes.
        (recipe.is_recipe() || !summary.names.is_empty()).then(|| Told {
            cup_weights: cup_weights(&recipe, &sheet.house.measures),
            tried: is_tried(&recipe),
            entry: Arc::new(Entry { file: name.clone(), line, lead, summary }),
        })
    });
    recipes.collect()
}

/// The folder of a book.
pub fn folder(sheet: &StyleSheet) -> &Path {
    sheet.path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// A file of a book as it is shown to people: from the folder of the book, with slashes.
pub fn shown(file: &Path, sheet: &StyleSheet) -> Arc<str> {
    seen_from(file, &sheet.path)
}

/// A file as it is named in another one: from the folder of that, with slashes, and with `..` where it does not lie below.
pub fn seen_from(file: &Path, other: &Path) -> Arc<str> {
    let (file, folder) = (key(file), key(other));
    let folder = folder.parent().unwrap_or(&folder);
    let shared = file.components().zip(folder.components()).take_while(|(one, other)| one == other).count();
    if shared == 0 {
        return file.to_string_lossy().into();
    }
    let up = folder.components().skip(shared).map(|_| "..".into());
    let down = file.components().skip(shared).map(|part| part.as_os_str().to_string_lossy());
    up.chain(down).collect::<Vec<_>>().join("/").into()
}

/// One name for a file, by whichever way it is reached, also once it is gone.
fn key(file: &Path) -> PathBuf {
    let absolute = std::path::absolute(file).unwrap_or_else(|_| file.to_path_buf());
    let folder = absolute.parent().and_then(|folder| std::fs::canonicalize(folder).ok());
    match (folder, absolute.file_name()) {
        (Some(folder), Some(name)) => folder.join(name),
        _ => absolute,
    }
}

/// The books that files stand in.
#[derive(Debug, Default)]
pub struct Books {
    /// Their style sheets.
    pub sheets: StyleSheets,
    together: HashMap<PathBuf, Together>,
}

impl Books {
    /// Reads the whole of every book that one of these manuscripts stands in, so that a recipe is checked by the same book whichever
    /// files are asked for.
    pub fn of_all(manuscripts: &[Source]) -> Self {
        let mut books = Books::default();
        for sheet in manuscripts.iter().filter_map(|source| books.sheets.over(source.path())) {
            let read = || Recipes::of_book(&sheet, |_, _| ()).together();
            books.together.entry(sheet.path.clone()).or_insert_with(read);
        }
        books
    }

    /// The book that a file stands in; one without a style sheet is in none.
    pub fn of(&self, file: &Path) -> Book {
        let sheet = self.sheets.over(file);
        let together = sheet.as_ref().and_then(|sheet| self.together.get(&sheet.path)).cloned().unwrap_or_default();
        Book {
            // What comes on standard input may be any of the files.
            file: sheet.as_ref().filter(|_| file != Source::StandardInput.path()).map(|sheet| shown(file, sheet)),
            house: sheet.map(|sheet| sheet.house).unwrap_or_default(),
            habits: together.habits,
            catalogue: together.catalogue,
        }
    }
}
