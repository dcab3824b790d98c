//! The foods of a house: those it knows besides, other names for those of the larder, and what a cup of them weighs in this house.

use uom::si::f64::{Mass, MassDensity, Volume};
use uom::si::mass::gram;
use uom::si::volume::milliliter;

use super::Places;
use super::faults::{StyleFault, listed, unknown};
use super::tables::{FoodTable, Sheet};
use crate::book::near::nearest;
use crate::larder::{Allergen, Diet, Food, OwnFood, larder, words};
use crate::measure::{Cup, Unit, UnitKind, print_decimal};

/// The foods that the sheet tells of.
pub(super) fn foods(sheet: &Sheet, cup: Cup, places: &Places<'_>, faults: &mut Vec<StyleFault>) -> Vec<OwnFood> {
    let mut shelf = Shelf { cup, places, faults, foods: Vec::new() };
    for (name, table) in &sheet.foods {
        shelf.food(name, table);
    }
    for (name, grams) in &sheet.weights {
        shelf.weight(name, *grams);
    }
    shelf.foods
}

/// What to say of a name that is no food.
pub(super) fn unknown_food(name: &str) -> String {
    let tell = format!("If it is one, tell of it in a table of its own: [foods.\"{name}\"].");
    unknown("food in the larder called", name, near_food(name), &tell)
}

/// The food of the larder that a name was most likely meant to be.
fn near_food(name: &str) -> Option<&'static str> {
    let found = larder().find(name).filter(|found| found.misspelt.is_some()).map(|found| found.food.name);
    let names = |food: &'static Food| std::iter::once(food.name).chain(food.synonyms.iter().copied());
    found.or_else(|| nearest(name, larder().foods().flat_map(names)))
}

/// The words of a name, folded.
pub(super) fn folded(name: &str) -> String {
    words::iter(name).map(|word| word.folded).collect::<Vec<_>>().join(" ")
}

/// Whether two names are one but for case, accents, plural and hyphens.
pub(super) fn same(one: &str, other: &str) -> bool {
    folded(one) == folded(other)
}

/// The foods of a sheet on their way from its tables.
struct Shelf<'s> {
    cup: Cup,
    places: &'s Places<'s>,
    faults: &'s mut Vec<StyleFault>,
    foods: Vec<OwnFood>,
}

impl Shelf<'_> {
    fn food(&mut self, name: &str, table: &FoodTable) {
        let key = self.places.key(&["foods", name]);
        if folded(name).is_empty() {
            let message = "A food needs a name. Write it behind `foods.`, in quotation marks.";
            return self.faults.push(StyleFault::new(key, message));
        }
        let food = OwnFood {
            name: larder().food(name).map_or(name, |food| food.name).to_owned(),
            synonyms: table.also.iter().filter(|name| !folded(name).is_empty()).cloned().collect(),
            kinds: self.kinds(name, table),
            density: None,
            each: self.each(name, table),
            parts: table.parts.iter().map(|part| folded(part)).filter(|part| !part.is_empty()).collect(),
            allergens: self.choices(
                &["foods", name, "allergens"],
                table.allergens.as_deref(),
                &Allergen::ALL,
                Allergen::name,
            ),
            breaks: self.choices(&["foods", name, "not-for"], table.not_for.as_deref(), &Diet::ALL, Diet::name),
        };
        let claimed = names(&food).find_map(|name| Some((name, self.named(name)?.name.clone())));
        if let Some((twice, other)) = claimed {
            let message =
                format!("“{twice}” means “{other}” already, further up in this sheet. A name can mean one food only.");
            self.faults.push(StyleFault::new(key, message));
        }
        self.foods.push(food);
    }

    /// The food of this sheet that has a name.
    fn named(&self, name: &str) -> Option<&OwnFood> {
        self.foods.iter().find(|food| names(food).any(|own| same(own, name)))
    }

    fn kinds(&mut self, food: &str, table: &FoodTable) -> Vec<&'static str> {
        let mut kinds = Vec::new();
        for (index, word) in table.kinds.iter().enumerate() {
            let named = larder().kinds().find(|kind| same(kind, word));
            match named.or_else(|| larder().kind(&folded(word))) {
                Some(kind) => kinds.push(kind),
                None => {
                    let near = nearest(word, larder().kinds());
                    let instead = "Write one that a cook would use, as flour, cheese, herb or vegetable.";
                    let message = unknown("kind of food called", word, near, instead);
                    self.faults.push(StyleFault::new(self.places.element(&["foods", food, "kinds"], index), message));
                }
            }
        }
        kinds
    }

    fn each(&mut self, food: &str, table: &FoodTable) -> Vec<(String, f64)> {
        let mut each = Vec::new();
        for (word, grams) in &table.each {
            let path = ["foods", food, "each", word];
            match counted(word) {
                Some(unit) if weighs(*grams) => each.push((unit.to_owned(), *grams)),
                Some(_) => self.faults.push(StyleFault::new(self.places.value(&path), NO_WEIGHT)),
                None => {
                    let sizes = listed(SIZES, "or");
                    let message = format!(
                        "Nobody counts by “{word}”. Write a size ({sizes}), something to count by (clove, slice, can), or `one`."
                    );
                    self.faults.push(StyleFault::new(self.places.key(&path), message));
                }
            }
        }
        each
    }

    /// The things that the words name; a word that names none is left out.
    fn choices<T: Copy>(
        &mut self,
        path: &[&str],
        words: Option<&[String]>,
        all: &[T],
        name: fn(T) -> &'static str,
    ) -> Option<Vec<T>> {
        let mut chosen = Vec::new();
        for (index, word) in words?.iter().enumerate() {
            match all.iter().find(|choice| same(name(**choice), word)) {
                Some(choice) => chosen.push(*choice),
                None => {
                    let names: Vec<&str> = all.iter().map(|choice| name(*choice)).collect();
                    let message = match nearest(word, names.iter().copied()) {
                        Some(near) => format!("“{word}” is none that Tamis knows. Did you mean “{near}”?"),
                        None => format!("“{word}” is none that Tamis knows. There are {}.", listed(&names, "and")),
                    };
                    self.faults.push(StyleFault::new(self.places.element(path, index), message));
                }
            }
        }
        Some(chosen)
    }

    /// Grams a cup of a food of this sheet or of the larder.
    fn weight(&mut self, name: &str, grams: f64) {
        let path = ["weights", name];
        let (key, value) = (self.places.key(&path), self.places.value(&path));
        if !weighs(grams) {
            return self.faults.push(StyleFault::new(value, NO_WEIGHT));
        }
        let cup = Volume::new::<milliliter>(self.cup.millilitres());
        let density = Mass::new::<gram>(grams) / cup;
        let known = self.named(name).map(|food| food.name.clone());
        let Some(name) = known.or_else(|| larder().food(name).map(|food| food.name.to_owned())) else {
            return self.faults.push(StyleFault::new(key, unknown_food(name)));
        };
        let usual = larder().food(&name).and_then(|food| food.density);
        if let Some(usual) = usual.filter(|usual| density < 0.5 * usual.low || density > 2.0 * usual.high) {
            let grams_of = |density: MassDensity| print_decimal((density * cup).get::<gram>().round());
            let message = format!(
                "A cup of {name} usually weighs {} to {} g: {} g is too far from that to be right. Write the grams of one level cup.",
                grams_of(usual.low),
                grams_of(usual.high),
                print_decimal(grams)
            );
            return self.faults.push(StyleFault::new(value, message));
        }
        match self.foods.iter_mut().find(|food| same(&food.name, &name)) {
            Some(food) => food.density = Some(density),
            None => self.foods.push(OwnFood { name, density: Some(density), ..OwnFood::default() }),
        }
    }
}

const NO_WEIGHT: &str = "A weight is a number of grams, more than 0 and no more than 100,000.";

fn weighs(grams: f64) -> bool {
    grams > 0.0 && grams <= 100_000.0
}

fn names(food: &OwnFood) -> impl Iterator<Item = &str> {
    std::iter::once(&food.name).chain(&food.synonyms).map(String::as_str)
}

/// Sizes by which one of something is weighed.
const SIZES: &[&str] = &["small", "medium", "large", "extra-large", "jumbo"];

/// The size or the counted unit that a word names, as the larder spells it.
fn counted(word: &str) -> Option<&str> {
    let size = SIZES.iter().copied().chain(["one"]).find(|size| same(size, word));
    size.or_else(|| Unit::find(word).filter(|unit| unit.kind() == UnitKind::Count).map(Unit::name))
}
