//! The larder: every food that the checks know, by every name that cooks give it.
//!
//! The foods stand on `shelves/*.tsv`, a table a shelf, each figure with its source. They are read once. Nothing here knows recipes.

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
mod vocabulary;
mod weigh;
pub mod words;

use std::borrow::Cow;
use std::sync::LazyLock;

pub use food::{CUP_MILLILITRES, Density, Each, Edible, Food, Form, Nutrients, Part, Weight};
pub use found::{Found, Slip};
pub use own::{HOUSE_SOURCE, OwnFood};
pub use properties::{Allergen, AllergenList, Diet};
pub use reader::part_of;
pub use scan::Match;
pub use shelf::Fault;
pub use shelves::SHELVES;
pub use weigh::STATED;

use kinds::Kinds;
use names::Names;

/// All foods, and the ways to find one.
#[derive(Debug)]
pub struct Larder {
    /// The larder that a house's own stands on.
    base: Option<&'static Larder>,
    foods: Vec<Food>,
    names: Names,
    kinds: Kinds,
    part_words: Vec<Cow<'static, str>>,
    faults: Vec<Fault>,
}

impl Default for &'static Larder {
    fn default() -> Self {
        larder()
    }
}

/// The larder that comes with the program.
pub fn larder() -> &'static Larder {
    static LARDER: LazyLock<Larder> = LazyLock::new(|| Larder::read(shelves::SHELVES));
    &LARDER
}

impl Larder {
    /// Reads shelves, each with its file name. What cannot be read is left out and kept among the [faults](Larder::faults).
    pub fn read(shelves: &[(&'static str, &'static str)]) -> Self {
        let (mut foods, mut faults) = (Vec::new(), Vec::new());
        for (shelf, text) in shelves {
            shelf::read(shelf, text, &mut foods, &mut faults);
        }
        let (mut names, mut clashes) = (Names::for_foods(foods.len()), Vec::new());
        for (position, food) in foods.iter().enumerate() {
            names.insert(position, food, &mut clashes);
        }
        let name = |position: usize| foods.get(position).map_or("", |food: &Food| food.name);
        faults.extend(clashes.iter().map(|clash| Fault {
            shelf: "",
            line: 0,
            message: format!(
                "`{}` means `{}` and cannot mean `{}` too",
                clash.name,
                name(clash.kept_by),
                name(clash.refused)
            ),
        }));
        Larder { base: None, part_words: part_words(&foods), foods, names, kinds: Kinds::read(), faults }
    }

    /// All foods, shelf by shelf, and then those of the house.
    pub fn foods(&self) -> impl Iterator<Item = &Food> {
        let theirs = self.base.iter().flat_map(|base| &base.foods);
        theirs.filter(|food| self.foods.iter().all(|own| own.name != food.name)).chain(&self.foods)
    }

    /// How many foods there are, those that a house's own stand for included.
    fn count(&self) -> usize {
        self.base.map_or(0, Larder::count) + self.foods.len()
    }

    /// The food of a hit among the names, which counts the foods of the larder beneath first.
    fn at(&self, position: usize) -> Option<&Food> {
        match self.base {
            Some(base) => base.at(position).or_else(|| self.foods.get(position.checked_sub(base.count())?)),
            None => self.foods.get(position),
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
        self.base.is_some_and(|base| base.is_part_word(word))
            || self.part_words.binary_search_by(|part| part.as_ref().cmp(word)).is_ok()
    }

    /// What could not be read from the shelves, and names that two foods claim. Empty in a larder that is in order.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }
}

/// The folded words for the parts of these foods, in order.
fn part_words(foods: &[Food]) -> Vec<Cow<'static, str>> {
    let mut words: Vec<_> = foods.iter().flat_map(|food| &food.parts).map(|part| words::fold(part.name)).collect();
    words.sort_unstable();
    words.dedup();
    words
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
        assert_eq!(larder().faults(), []);
    }
}
