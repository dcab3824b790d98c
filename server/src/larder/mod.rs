//! The larder: every food that the checks know, by every name that cooks give it.
//!
//! The foods stand on `shelves/*.tsv`, a table a shelf, each figure with its source. Their names are put in order when the program is
//! built; what else a row says is read when its food is first asked for. Nothing here knows recipes.

mod cells;
mod claims;
mod find;
mod food;
mod found;
mod kinds;
mod names;
mod own;
mod properties;
mod reader;
mod scan;
mod senses;
mod shelf;
mod shelves;
pub mod spelling;
mod table;
mod vocabulary;
mod weigh;
pub mod words;

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::LazyLock;

pub use food::{CUP_MILLILITRES, Density, Each, Edible, Food, Form, Nutrients, Part, Weight};
pub use found::{Found, Slip};
pub use names::Folded;
pub use own::{HOUSE_SOURCE, OwnFood};
pub use properties::{Allergen, AllergenList, Diet};
pub use reader::part_of;
pub use scan::Match;
pub use shelf::{Fault, Shelf};
pub use shelves::SHELVES;
pub use table::mark_of;
pub use weigh::STATED;

use kinds::Kinds;
use names::{Names, built};
use shelf::Row;
use table::Table;

/// All foods, and the ways to find one.
#[derive(Debug)]
pub struct Larder {
    /// The larder that a house's own stands on.
    base: Option<&'static Larder>,
    rows: Vec<Row>,
    names: Names,
    kinds: Kinds,
    /// The folded words for parts of foods, in order.
    part_words: Vec<&'static str>,
}

impl Default for &'static Larder {
    fn default() -> Self {
        larder()
    }
}

/// The larder that comes with the program.
pub fn larder() -> &'static Larder {
    static LARDER: LazyLock<Larder> = LazyLock::new(Larder::built);
    &LARDER
}

impl Larder {
    /// The larder that comes with the program, anew.
    pub fn built() -> Self {
        let rows = SHELVES.iter().flat_map(shelf::rows).collect();
        let part_words = built::PARTS.split(' ').collect();
        Larder { base: None, rows, names: Names::built(), kinds: Kinds::read(), part_words }
    }

    /// Reads shelves, each with its file name; what is made of them is kept as long as the program runs. What cannot be read is left out;
    /// [`Larder::faults_of`] tells what that is.
    pub fn read(shelves: &[Shelf]) -> Self {
        let rows: Vec<Row> = shelves.iter().flat_map(shelf::rows).collect();
        let names = Names::of_table(table_of(&rows), None);
        let part_words = part_words(rows.iter().flat_map(Row::part_names));
        Larder { base: None, rows, names, kinds: Kinds::read(), part_words }
    }

    /// What cannot be read from shelves, and names that two foods claim. Nothing, where they are in order.
    pub fn faults_of(shelves: &[Shelf]) -> Vec<Fault> {
        let mut faults = Vec::new();
        shelves.iter().for_each(|shelf| shelf::faults(shelf, &mut faults));
        let rows: Vec<Row> = shelves.iter().flat_map(shelf::rows).collect();
        let name = |position: usize| rows.get(position).and_then(Row::food).map_or("", |food| food.name);
        faults.extend(table_of(&rows).clashes.into_iter().map(|(taken, keeper, refused)| Fault {
            shelf: "",
            line: 0,
            message: format!("`{taken}` means `{}` and cannot mean `{}` too", name(keeper), name(refused)),
        }));
        faults
    }

    /// All foods, shelf by shelf, and then those of the house.
    pub fn foods(&self) -> impl Iterator<Item = &Food> {
        let own = || self.rows.iter().filter_map(Row::food);
        let theirs = self.base.iter().flat_map(|base| base.rows.iter().filter_map(Row::food));
        theirs.filter(move |food| own().all(|own| own.name != food.name)).chain(own())
    }

    /// How many foods there are, those that a house's own stand for included.
    fn count(&self) -> usize {
        self.base.map_or(0, Larder::count) + self.rows.len()
    }

    /// The food of a hit among the names, which counts the foods of the larder beneath first.
    fn at(&self, position: usize) -> Option<&Food> {
        match self.base {
            Some(base) => base.at(position).or_else(|| self.rows.get(position.checked_sub(base.count())?)?.food()),
            None => self.rows.get(position)?.food(),
        }
    }

    /// The food that has exactly this name or synonym, case, accents, plural and hyphens aside.
    pub fn food(&self, exact_name: &str) -> Option<&Food> {
        let words: Vec<_> = words::split(exact_name).into_iter().map(|word| word.folded).collect();
        self.at(self.names.exact(&words)?)
    }

    /// The kind that folded words, joined by spaces, mean: `veggie` is `vegetable`.
    pub fn kind(&self, folded: &str) -> Option<&'static str> {
        self.kinds.find(folded)
    }

    /// Every kind of food by its own name, also those that no word of a cook means: `dry`.
    pub fn kinds(&self) -> impl Iterator<Item = &'static str> {
        kinds::rows().map(|(kind, _)| kind)
    }

    /// Whether folded words, joined by spaces, mean a kind of food.
    pub fn is_kind(&self, folded: &str) -> bool {
        self.kind(folded).is_some()
    }

    /// The row of its own that a part of a food has: the yolk of an egg is the food `egg yolk`.
    pub fn part_as_food(&self, food: &Food, part: &str) -> Option<&Food> {
        self.food(&format!("{} {part}", food.name))
    }

    /// Whether a folded word says anything here: it stands in some food's name, or tells how a food is, how much or which part of it.
    pub fn knows(&self, word: &str) -> bool {
        let little = vocabulary::is_state(word) || vocabulary::is_portion(word) || vocabulary::stop(word).is_some();
        little || self.names.knows(word) || self.is_part_word(word) || self.is_kind(word)
    }

    /// Whether some food has a part of this name.
    fn is_part_word(&self, word: &str) -> bool {
        let word = vocabulary::part_word(word);
        self.base.is_some_and(|base| base.is_part_word(word)) || self.part_words.binary_search(&word).is_ok()
    }
}

/// The names of all foods.
fn table_of(rows: &[Row]) -> Table {
    Table::of(rows.iter().enumerate().flat_map(|(food, row)| row.names().map(move |name| (name, food))))
}

/// The folded words for parts of these names, in order. They are kept as long as the program runs.
fn part_words(names: impl Iterator<Item = &'static str>) -> Vec<&'static str> {
    let words: BTreeSet<_> = names.map(words::fold).collect();
    let kept = |word: Cow<'static, str>| match word {
        Cow::Borrowed(word) => word,
        Cow::Owned(word) => &*word.leak(),
    };
    words.into_iter().map(kept).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shelf_in_the_folder_is_read() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/larder/shelves");
        let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().file_name()).collect();
        files.sort();
        let read: Vec<_> = shelves::SHELVES.iter().map(|(name, _)| *name).collect();
        assert_eq!(files, read);
    }

    #[test]
    fn the_shelves_are_in_order() {
        assert_eq!(Larder::faults_of(SHELVES), []);
    }

    #[test]
    fn a_row_that_cannot_be_read_and_a_name_that_is_taken_are_told_and_left_out() {
        let header = "name\tsynonyms\tkinds\tcup\tcup_source\tforms\teach\tparts\tedible\tallergens\tbreaks\tnutrients\tnutrient_source";
        let text: &'static str = format!("{header}\nmeal\tgrist\nbran\t\t\ta lot\tmemory\ngroats\tgrist\n").leak();
        let shelves = [("test.tsv", text)];
        let told: Vec<String> = Larder::faults_of(&shelves).into_iter().map(|fault| fault.message).collect();
        assert_eq!(told, ["`bran`: `a lot` is no number", "`grist` means `meal` and cannot mean `groats` too"]);
        let larder = Larder::read(&shelves);
        assert_eq!(larder.foods().map(|food| food.name).collect::<Vec<_>>(), ["meal", "groats"]);
        assert_eq!(larder.food("grist").map(|food| food.name), Some("meal"));
        assert!(larder.food("bran").is_none() && larder.find("two cups of bran").is_none());
    }
}
