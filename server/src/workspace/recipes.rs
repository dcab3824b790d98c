//! What the recipes of one book on disk have to tell each other.

use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use rayon::iter::{IntoParallelRefIterator, ParallelIterator};

use super::book::{StyleSheet, StyleSheets};
use super::read::read;
use super::walk::{Source, find};
use crate::book::habits::{CupWeight, Habits, cup_weights};
use crate::book::{Book, Grade, House};
use crate::recipe;
use crate::syntax::{Tree, split};

/// Of every recipe of a file, what it takes a cup of its foods to weigh.
pub type Told = Vec<Vec<CupWeight>>;

/// The recipes of one book, file by file: the manuscripts under a style sheet, down to the next one.
#[derive(Debug, Clone, Default)]
pub struct Recipes {
    by_file: BTreeMap<PathBuf, Told>,
}

impl Recipes {
    /// Reads the whole book, several files at a time. What cannot be read tells nothing; whoever checks it says why.
    pub fn of_book(sheet: &StyleSheet) -> Self {
        let folder = sheet.path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let sheets = StyleSheets::default();
        let own = |file: &Path| sheets.over(file).is_some_and(|over| over.path == sheet.path);
        let tell = |source: &Source| {
            let file = source.path();
            own(file).then(|| (key(file), told(file, &sheet.house)))
        };
        Recipes { by_file: find(&[folder.to_path_buf()]).manuscripts.par_iter().filter_map(tell).collect() }
    }

    /// Puts what a file tells now in the place of what it told before.
    pub fn put(&mut self, file: &Path, told: Told) {
        self.by_file.insert(key(file), told);
    }

    /// What most of them do.
    pub fn habits(&self) -> Habits {
        Habits::of(self.by_file.values().flatten().map(Vec::as_slice))
    }
}

/// What a file tells; nothing where it is gone.
pub fn told(file: &Path, house: &House) -> Told {
    let Ok(text) = read(&Source::File(file.to_path_buf())) else { return Told::new() };
    let recipes = split(&text).into_iter().filter_map(|span| {
        let text = span.of(&text);
        let recipe = recipe::read(text, &Tree::parse(text)?, house.larder());
        recipe.is_recipe().then(|| cup_weights(&recipe, &house.measures))
    });
    recipes.collect()
}

fn key(file: &Path) -> PathBuf {
    std::path::absolute(file).unwrap_or_else(|_| file.to_path_buf())
}

/// The books that files stand in.
#[derive(Debug, Default)]
pub struct Books {
    /// Their style sheets.
    pub sheets: StyleSheets,
    habits: HashMap<PathBuf, Arc<Habits>>,
}

impl Books {
    /// Reads the whole of every book that one of these manuscripts stands in, so that a recipe is checked by the same book whichever
    /// files are asked for.
    pub fn of_all(manuscripts: &[Source]) -> Self {
        let mut books = Books::default();
        for sheet in manuscripts.iter().filter_map(|source| books.sheets.over(source.path())) {
            if asks_others(&sheet.house) && !books.habits.contains_key(&sheet.path) {
                let habits = Arc::new(Recipes::of_book(&sheet).habits());
                books.habits.insert(sheet.path, habits);
            }
        }
        books
    }

    /// The book that a file stands in; one without a style sheet is in none.
    pub fn of(&self, file: &Path) -> Book {
        let sheet = self.sheets.over(file);
        let habits = sheet.as_ref().and_then(|sheet| self.habits.get(&sheet.path)).cloned().unwrap_or_default();
        Book { house: sheet.map(|sheet| sheet.house).unwrap_or_default(), habits }
    }
}

/// Whether a house wants anything to be known of a recipe that only the others can tell.
pub fn asks_others(house: &House) -> bool {
    house.grade("weight-unlike-the-book") != Some(Grade::Off)
}
