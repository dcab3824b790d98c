//! What a figure of the larder rests on, in words.

use uom::si::{
    f64::{Mass, MassDensity},
    mass::gram,
    mass_density::gram_per_cubic_centimeter,
};

use crate::{
    book::House,
    checks::support::words,
    larder::{Allergen, Density, Food, Weight},
    measure::{Measures, print_decimal},
};

/// Below this spread a measure comes out the same however it is filled (common practice, no source).
const SPREAD: f64 = 0.05;

/// `all-purpose flour: 125 g a cup; 113 to 150 g, depending on how it is filled (USDA SR26 20081)`. The cup, or the tablespoon
/// for what is measured by the spoon, is the house's.
pub fn of_volume(food: &Food, density: &Density, small: bool, house: &Measures) -> String {
    let (millilitres, measure) =
        if small { (house.tablespoon.millilitres(), "tbsp") } else { (house.cup.millilitres(), "cup") };
    let grams = |density: MassDensity| rounded(density.get::<gram_per_cubic_centimeter>() * millilitres);
    let (low, typical, high) = (grams(density.low), grams(density.typical), grams(density.high));
    let form =
        food.forms.iter().find(|form| form.density == *density && food.density != Some(*density)).map(|form| form.name);
    let what = form.map_or(food.name.to_owned(), |form| format!("{}, {form}", food.name));
    let why = if food.is("liquid") { "makes differ" } else { "depending on how it is filled" };
    let range = if density.high - density.low > density.typical * SPREAD && low < high {
        format!("; {} to {} g, {why}", print_decimal(low), print_decimal(high))
    } else {
        String::new()
    };
    format!("{what}: {} g a {measure}{range} ({})", print_decimal(typical), source(density.source))
}

/// `egg: one large weighs about 50 g (edible part; USDA SR26 01123)`.
pub fn of_one(food: &Food, one: &str, weight: &Weight) -> String {
    let grams = |mass: Mass| print_decimal(rounded(mass.get::<gram>()));
    let (low, high) = (grams(weight.low), grams(weight.high));
    let range = if low == high { String::new() } else { format!("; {low} to {high} g is usual") };
    let part = if food.edible.is_some() { "edible part; " } else { "" };
    format!("{}: {one} weighs about {} g{range} ({part}{})", food.name, grams(weight.typical), source(weight.source))
}

/// To a tenth below ten grams, else to the gram.
fn rounded(grams: f64) -> f64 {
    if grams < 10.0 { (grams * 10.0).round() / 10.0 } else { grams.round() }
}

/// As many ways of counting a food are told.
const WAYS: usize = 3;

/// What is known of a food by itself: its name, its weights, the allergens that the house has to declare.
pub fn of_food(food: &Food, house: &House) -> Vec<String> {
    let mut lines = vec![format!("**{}**", food.name)];
    lines.extend(food.density.map(|density| of_volume(food, &density, false, &house.measures)));
    lines.extend(food.each.iter().take(WAYS).map(|each| of_one(food, &one(each.unit), &each.weight)));
    lines.extend(contains(house.allergens.allergens().into_iter().filter(|allergen| food.holds(*allergen))));
    lines
}

/// `one`, `one clove`.
pub fn one(unit: &str) -> String {
    if unit.is_empty() || unit == "one" { "one".to_owned() } else { format!("one {unit}") }
}

/// `Contains milk. Brands differ: read the label.`; nothing for none.
pub fn contains(allergens: impl IntoIterator<Item = Allergen>) -> Option<String> {
    let names: Vec<String> = allergens.into_iter().map(declared).collect();
    (!names.is_empty()).then(|| format!("Contains {}. Brands differ: read the label.", words::and(&names)))
}

/// An allergen as a label declares it: `tree nuts`.
fn declared(allergen: Allergen) -> String {
    match allergen {
        Allergen::TreeNut | Allergen::Crustacean | Allergen::Mollusc | Allergen::Sulphite => {
            format!("{}s", allergen.name())
        }
        allergen => allergen.name().to_owned(),
    }
}

/// A source as the shelves note it, as a reader can look it up.
pub fn source(noted: &str) -> String {
    // The shelf also notes of which measure the figure was.
    let noted = [" tbsp", " tsp", " fl oz"].into_iter().find_map(|of| noted.strip_suffix(of)).unwrap_or(noted);
    match noted {
        noted if noted.starts_with("SR") => format!("USDA {noted}"),
        "memory" => "from memory".to_owned(),
        noted => noted.to_owned(),
    }
}
