//! What the recipes of one book are called, what they make, and which of them ask for which.

use std::collections::{BTreeSet, HashMap, HashSet};
use std::sync::Arc;

use super::near::{Remembered, nearest};
use crate::{
    larder::words::{self, fold},
    measure::{Measures, Quantity, UnitKind},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
    },
};

/// What others have to know of a recipe.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Summary {
    /// The [key](title_key) of its title; empty where it has none.
    pub key: String,
    /// The title as written.
    pub title: String,
    /// How much it makes, each way that its yield is stated.
    pub makes: Vec<Quantity>,
    /// The keys of the recipes that its list asks for, each once.
    pub asks: Vec<String>,
    /// The keys of the recipes that it speaks of anywhere, each once.
    pub names: Vec<String>,
}

/// A recipe in a file of the book.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The file, as it is shown to people: from the folder of the book.
    pub file: Arc<str>,
    /// The line that its title stands in, from 0.
    pub line: usize,
    /// What stands before its title in that line: `Recipe: `.
    pub lead: Box<str>,
    /// What others have to know of it.
    pub summary: Summary,
}

/// The recipes of a book as they are on disk.
#[derive(Debug, Default, PartialEq)]
pub struct Catalogue {
    by_key: HashMap<String, Vec<Arc<Entry>>>,
    /// What has no title and speaks of others all the same.
    untitled: Vec<Arc<Entry>>,
    whole: bool,
    near: Remembered,
}

/// The recipes of one manuscript as it is at the moment.
#[derive(Debug, Clone, Default)]
pub struct OwnTitles {
    by_key: HashMap<String, Vec<Arc<Summary>>>,
}

/// What a recipe may refer to: the recipes of its manuscript as they are at the moment, and the others of its book.
#[derive(Debug, Clone, Copy)]
pub struct Titles<'b> {
    /// Those of the manuscript.
    pub own: &'b OwnTitles,
    /// Those of the book.
    pub book: &'b Catalogue,
    /// The manuscript, as the catalogue calls it; nothing where that is not known.
    pub file: Option<&'b str>,
    /// Whether a recipe above in the manuscript has the title of this one.
    pub above: bool,
}

/// A recipe that a title may mean.
#[derive(Debug, Clone, Copy)]
pub struct Titled<'b> {
    /// What is known of it.
    pub summary: &'b Summary,
    /// Where it is, where that is in another file than the one that asks.
    pub elsewhere: Option<&'b Entry>,
}

/// A title as titles are compared: without regard to case, accents, plural, hyphen or Unicode form.
pub fn title_key(title: &str) -> String {
    let words: Vec<_> = words::iter(title).map(|word| word.folded).collect();
    words.join(" ")
}

impl Summary {
    /// What others have to know of a recipe; of prose that is none, of which recipes it speaks.
    pub fn of(recipe: &Recipe, measures: &Measures) -> Self {
        let key = |index: usize| recipe.references.get(index).map(|reference| title_key(recipe.at(reference.title)));
        let named = (0..recipe.references.len()).filter_map(key);
        if !recipe.is_recipe() {
            return Summary { names: once(named), ..Summary::default() };
        }
        let asked = recipe.ingredients.iter().filter_map(|line| key(line.reference?));
        Summary {
            key: title_key(recipe.name()),
            title: recipe.name().to_owned(),
            makes: makes(recipe, measures),
            asks: once(asked),
            names: once(named),
        }
    }
}

impl Summary {
    /// Whether it speaks of a recipe of this title.
    pub fn is_naming(&self, key: &str) -> bool {
        self.names.iter().any(|name| name == key)
    }
}

fn once(keys: impl Iterator<Item = String>) -> Vec<String> {
    keys.collect::<BTreeSet<_>>().into_iter().collect()
}

/// How much comes out by the `Yield`, each way it is stated: by volume, by weight, by the piece.
fn makes(recipe: &Recipe, measures: &Measures) -> Vec<Quantity> {
    let of_yield = |measure: &&Measure| match measure.place {
        Place::Header(index) => {
            recipe.headers.get(index).is_some_and(|header| fold(recipe.at(header.label)) == "yield")
        }
        _ => false,
    };
    let all: Vec<&Measure> = recipe.measures.iter().filter(of_yield).collect();
    // `12 rolls and 1 cup glaze` makes two things, of which nobody can say which one is asked for.
    match all.as_slice() {
        [one] if one.each.is_empty() => {
            let statements = one.statements().filter(|stated| !stated.each && !stated.sides);
            statements
                .filter(|stated| stated.kind().is_none_or(is_amount))
                .filter_map(|stated| amount(stated, measures))
                .collect()
        }
        _ => Vec::new(),
    }
}

fn is_amount(kind: UnitKind) -> bool {
    matches!(kind, UnitKind::Volume | UnitKind::Weight | UnitKind::Count)
}

fn amount(stated: &Stated, measures: &Measures) -> Option<Quantity> {
    stated.quantity(measures)
}

impl Catalogue {
    /// All recipes of a book.
    pub fn of(entries: impl IntoIterator<Item = Arc<Entry>>) -> Self {
        let mut all = Catalogue { whole: true, ..Catalogue::default() };
        for entry in entries {
            match entry.summary.key.is_empty() {
                true => all.untitled.push(entry),
                false => all.by_key.entry(entry.summary.key.clone()).or_default().push(entry),
            }
        }
        all
    }

    /// Whether it holds all recipes of a book that has been read.
    pub fn is_whole(&self) -> bool {
        self.whole
    }

    /// Every recipe in it that has a title, in no order.
    pub fn entries(&self) -> impl Iterator<Item = &Arc<Entry>> {
        self.by_key.values().flatten()
    }

    /// The recipes of this title.
    pub fn titled(&self, key: &str) -> impl Iterator<Item = &Arc<Entry>> {
        self.by_key.get(key).into_iter().flatten()
    }

    /// What speaks of a recipe of this title, in no order.
    pub fn naming(&self, key: &str) -> impl Iterator<Item = &Arc<Entry>> {
        self.entries().chain(&self.untitled).filter(move |entry| entry.summary.is_naming(key))
    }

    /// The keys under which it holds something else than another does. What has been read once is the same in both.
    pub fn changed(&self, other: &Catalogue) -> BTreeSet<String> {
        let same = |one: &[Arc<Entry>], other: &[Arc<Entry>]| {
            let alike = |(one, other): (&Arc<Entry>, &Arc<Entry>)| Arc::ptr_eq(one, other) || one == other;
            one.len() == other.len() && one.iter().zip(other).all(alike)
        };
        let differs = |from: &'_ Catalogue, to: &'_ Catalogue| -> Vec<String> {
            let known = |key: &String, entries: &[Arc<Entry>]| to.by_key.get(key).is_some_and(|to| same(entries, to));
            let other = from.by_key.iter().filter(|(key, entries)| !known(key, entries));
            other.map(|(key, _)| key.clone()).collect()
        };
        differs(self, other).into_iter().chain(differs(other, self)).collect()
    }
}

impl OwnTitles {
    /// Takes in a recipe of the manuscript.
    pub fn add(&mut self, summary: &Arc<Summary>) {
        if !summary.key.is_empty() {
            self.by_key.entry(summary.key.clone()).or_default().push(summary.clone());
        }
    }

    /// Takes out a recipe that the manuscript has no more.
    pub fn remove(&mut self, summary: &Summary) {
        let Some(under) = self.by_key.get_mut(&summary.key) else { return };
        if let Some(place) = under.iter().position(|own| **own == *summary) {
            under.remove(place);
        }
        if under.is_empty() {
            self.by_key.remove(&summary.key);
        }
    }

    /// Whether one of its recipes has this title.
    pub fn has(&self, key: &str) -> bool {
        self.by_key.contains_key(key)
    }

    /// Whether two of its recipes have the title of this key.
    pub fn repeats(&self, key: &str) -> bool {
        self.by_key.get(key).is_some_and(|titled| titled.len() > 1)
    }
}

impl<'b> Titles<'b> {
    /// The recipes of this title, those of the manuscript first.
    pub fn titled(&self, key: &str) -> Vec<Titled<'b>> {
        let own = self.own.by_key.get(key).into_iter().flatten();
        let own = own.map(|summary| Titled { summary, elsewhere: None });
        let others = self.book.titled(key).filter(|entry| Some(&*entry.file) != self.file);
        own.chain(others.map(|entry| Titled { summary: &entry.summary, elsewhere: Some(entry) })).collect()
    }

    /// Whether recipes with these keys ask, by way of others, for one of `wanted`.
    pub fn lead_to(&self, keys: &'b [String], wanted: &BTreeSet<String>) -> bool {
        let mut seen: HashSet<&str> = HashSet::new();
        let mut open: Vec<&str> = keys.iter().map(String::as_str).collect();
        while let Some(key) = open.pop() {
            if wanted.contains(key) {
                return true;
            }
            if seen.insert(key) {
                let titled = self.titled(key).into_iter();
                open.extend(titled.flat_map(|titled| &titled.summary.asks).map(String::as_str));
            }
        }
        false
    }

    /// The title that comes nearest to a reference that no recipe has, where one comes near.
    pub fn nearest(&self, written: &str) -> Option<String> {
        let file = self.file.unwrap_or_default();
        let look = || nearest(written, self.in_other_files()).map(str::to_owned);
        let other = self.book.near.nearest(file, written, look);
        nearest(written, self.in_this_file().chain(other.as_deref())).map(str::to_owned)
    }

    /// Every title there is, as written.
    pub fn all(&self) -> BTreeSet<&'b str> {
        self.in_this_file().chain(self.in_other_files()).collect()
    }

    fn in_this_file(&self) -> impl Iterator<Item = &'b str> + use<'b> {
        self.own.by_key.values().flatten().map(|summary| summary.title.as_str())
    }

    fn in_other_files(&self) -> impl Iterator<Item = &'b str> + use<'b> {
        let file = self.file;
        let others = self.book.entries().filter(move |entry| Some(&*entry.file) != file);
        others.map(|entry| entry.summary.title.as_str())
    }

    /// Whether every recipe is known that a title could mean: not so outside a book, and not before it has been read.
    pub fn is_whole(&self) -> bool {
        self.book.is_whole()
    }
}
