//! What the larder says a cup, a spoon or one of something weighs, against the table that it names as its source.

use std::{collections::BTreeMap, sync::LazyLock};

use tamis::{
    larder::{Density, Food, Weight, larder, words},
    measure::{Amount, Cup, Interval, Measures, Quantity, Unit},
};
use uom::si::{f64::Volume, mass::gram, volume::milliliter};

/// A row of the table: so many (`amount`) of a measure weigh so much.
struct Row {
    description: &'static str,
    amount: f64,
    measure: &'static str,
    grams: f64,
    /// The grams as printed: `3` may be anything from 2.5 to 3.5.
    step: f64,
}

/// The rows by their food's number.
static TABLE: LazyLock<BTreeMap<&str, Vec<Row>>> = LazyLock::new(|| {
    let mut table: BTreeMap<&str, Vec<Row>> = BTreeMap::new();
    let lines = include_str!("larder/sr26_household_weights.tsv").lines().filter(|line| !line.starts_with('#'));
    for line in lines.skip(1) {
        let [number, description, amount, measure, grams] = line.split('\t').collect::<Vec<_>>()[..] else {
            panic!("{line}")
        };
        let step = if grams.contains('.') { 0.1 } else { 1.0 };
        // The table writes a third with two places, or with three.
        let amount = if amount.starts_with("0.33") { 1.0 / 3.0 } else { amount.parse().expect("an amount") };
        let grams = grams.parse().expect("grams");
        table.entry(number).or_default().push(Row { description, amount, measure, grams, step });
    }
    table
});

/// The table's number in a source, and what stands behind it: `SR26 02053 tbsp`, `SR26 05091 less bone`.
fn numbered(source: &str) -> Option<(&str, &str)> {
    let rest = source.strip_prefix("SR26 ")?;
    let (number, note) = rest.split_at_checked(5)?;
    Some((number, note.trim()))
}

/// The number, where the figure is for that very food and not for one like it (`SR26 11297 (as parsley)`).
fn own_number(source: &str) -> Option<&str> {
    numbered(source).filter(|(_, note)| !note.starts_with('(')).map(|(number, _)| number)
}

const SPOONS: &[(&str, Unit)] = &[
    ("cups", Unit::Cup),
    ("cup", Unit::Cup),
    ("tablespoons", Unit::Tablespoon),
    ("tablespoon", Unit::Tablespoon),
    ("tbsp", Unit::Tablespoon),
    ("teaspoon", Unit::Teaspoon),
    ("tsp", Unit::Teaspoon),
    ("fl oz", Unit::FluidOunce),
];

/// A measure by volume, taken apart: how many, of what, and what is said of its state: `cup, sliced`, `serving 1/2 cup`.
fn spoon(measure: &str) -> Option<(f64, Unit, &str)> {
    let (many, measure) = match measure.strip_prefix("serving 1/2 ") {
        Some(rest) => (0.5, rest),
        None => (1.0, measure.strip_prefix("serving 1 ").unwrap_or(measure)),
    };
    let starts =
        |word: &&(&str, Unit)| measure.get(..word.0.len()).is_some_and(|start| start.eq_ignore_ascii_case(word.0));
    let (word, unit) = SPOONS.iter().find(starts)?;
    let rest = measure.get(word.len()..)?;
    (rest.is_empty() || rest.starts_with([' ', ','])).then(|| (many, *unit, rest.trim_start_matches([' ', ','])))
}

fn volume(count: f64, unit: Unit) -> Volume {
    match Amount::new(Interval::exactly(count), Some(unit)).quantity(&Measures::default()) {
        Quantity::Volume(volume) => volume.least,
        other => panic!("{other:?}"),
    }
}

/// The densities of a food: as usual under the empty name, and in its forms.
fn densities(food: &Food) -> Vec<(&'static str, Density)> {
    let usual = food.density.iter().map(|density| ("", *density));
    usual.chain(food.forms.iter().map(|form| (form.name, form.density))).collect()
}

/// A figure that says it is the table's can be found there, or says how it follows from what is found there.
#[test]
fn every_figure_that_names_the_table_is_in_it() {
    let mut missing = Vec::new();
    let mut seen = 0;
    for food in larder().foods() {
        let per_cup = densities(food).into_iter().map(|(name, density)| {
            (name, density.weight_of(Volume::new::<milliliter>(Cup::UsCustomary.millilitres())), true)
        });
        let each = food.each.iter().map(|each| (each.unit, each.weight, false));
        let parts = food.parts.iter().filter_map(|part| Some((part.name, part.weight?, false)));
        for (name, weight, poured) in per_cup.chain(each).chain(parts) {
            let Some((number, note)) = numbered(weight.source) else { continue };
            seen += 1;
            let rows = TABLE.get(number).map_or(&[][..], Vec::as_slice);
            if !rows.iter().any(|row| gives(row, food, &weight, poured, note)) {
                missing.push(format!("{} {name}: {:.1} g, {}", food.name, weight.typical.get::<gram>(), weight.source));
            }
        }
    }
    assert!(seen > 3_000, "{seen}");
    assert!(missing.is_empty(), "{} of {seen}: {missing:#?}", missing.len());
}

fn gives(row: &Row, food: &Food, weight: &Weight, poured: bool, note: &str) -> bool {
    let one = row.grams / row.amount;
    let stated = match (poured, spoon(row.measure)) {
        (true, Some((many, unit, _))) => one * (volume(1.0, Unit::Cup) / volume(many, unit)).value,
        (true, None) => return false,
        (false, _) => match note {
            "less bone" => one * food.edible.map_or(1.0, |edible| edible.share),
            "half a fillet" => one / 2.0,
            "oz of 14" => 28.35 / 14.0,
            _ => one,
        },
    };
    // The shelves hold whole grams for a cup.
    let rounding = if poured { 0.6 } else { 0.06 };
    (weight.typical.get::<gram>() - stated).abs() <= (0.006 * stated).max(rounding)
}

/// What the table calls a state in other words than the larder, folded.
fn state(word: &str) -> &str {
    match word {
        "slice" | "strip" => "sliced",
        "cube" | "diced" | "piece" | "chunk" => "cubed",
        "half" => "halved",
        "floweret" => "floret",
        "section" => "segment",
        "crumb" => "crushed",
        "aril" => "seed",
        word => word,
    }
}

fn states(text: &str) -> Vec<String> {
    let words = words::split(text).into_iter().map(|word| word.folded.into_owned());
    words.filter(|word| word.starts_with(|c: char| c.is_alphabetic())).map(|word| state(&word).to_owned()).collect()
}

/// Measures that are none of the food as it lies in the cup: what a cup of something else gives.
const OF_SOMETHING_ELSE: &[&str] = &["yield", "makes", "in shell", "with pits", "with hulls", "NLEA"];

/// Words that say no more than that the food is as usual.
const AS_USUAL: &[&str] =
    &["fluid", "unthawed", "unsifted", "stirred", "leaf", "purchased", "drained", "solid", "kernel"];

/// The larder's entry for a row: the form that the row names; where it names none, what has this number for its source.
fn entry<'d>(
    food: &Food,
    number: &str,
    said: &str,
    densities: &'d [(&'static str, Density)],
) -> Option<&'d (&'static str, Density)> {
    let said = said.split_once('(').map_or(said, |(before, _)| before);
    let said: Vec<String> = states(said).into_iter().filter(|word| !AS_USUAL.contains(&word.as_str())).collect();
    let names = |entry: &&(&'static str, Density)| {
        let form = states(entry.0);
        !form.is_empty() && form.iter().all(|word| said.contains(word))
    };
    let own = || densities.iter().filter(|(_, density)| own_number(density.source) == Some(number));
    let usual = densities.iter().find(|(form, _)| form.is_empty());
    if let Some(named) = own().filter(names).max_by_key(|(form, _)| form.len()) {
        return Some(named);
    }
    let cooked = own().find(|(form, _)| *form == "cooked");
    if said.is_empty() {
        return own().find(|(form, _)| form.is_empty()).or(cooked).or_else(|| own().next()).or(usual);
    }
    // `cup, sliced` of the cooked food, of which the larder has one figure.
    if cooked.is_some() {
        return cooked;
    }
    let named = states(&format!("{} {}", food.name, food.synonyms.join(" ")));
    let by_name = usual.filter(|_| said.iter().any(|word| named.contains(word)));
    by_name.or_else(|| densities.iter().find(names))
}

/// USDA SR26 once more, whole: every cup and spoon of every food whose number stands anywhere in the larder.
#[test]
fn cups_and_spoons_are_those_of_the_table() {
    let (mut off, mut inside, mut outside, mut unmatched) = (Vec::new(), 0, Vec::new(), Vec::new());
    for food in larder().foods() {
        let densities = densities(food);
        let mut numbers: Vec<&str> = densities.iter().filter_map(|(_, density)| own_number(density.source)).collect();
        numbers.extend(food.nutrients().and_then(|nutrients| own_number(nutrients.source)));
        numbers.sort_unstable();
        numbers.dedup();
        for (number, row) in
            numbers.iter().flat_map(|number| TABLE.get(number).into_iter().flatten().map(move |row| (number, row)))
        {
            let Some((many, unit, said)) = spoon(row.measure) else { continue };
            if OF_SOMETHING_ELSE.iter().any(|words| row.measure.contains(words)) {
                continue;
            }
            let what = || format!("{}: {} {} of {number} ({})", food.name, row.amount, row.measure, row.description);
            let Some((form, density)) = entry(food, number, said, &densities) else {
                unmatched.push(what());
                continue;
            };
            let weight = density.weight_of(volume(row.amount * many, unit));
            off.push((weight.typical.get::<gram>() - row.grams).abs() / row.grams);
            let (low, high) = (weight.low.get::<gram>() - row.step / 2.0, weight.high.get::<gram>() + row.step / 2.0);
            if (low..=high).contains(&row.grams) {
                inside += 1;
            } else {
                outside.push(format!("{} is {} g, {form} {low:.1}…{high:.1}", what(), row.grams));
            }
        }
    }
    off.sort_by(f64::total_cmp);
    let rows = off.len();
    let at = |share: f64| off[((rows - 1) as f64 * share) as usize] * 100.0;
    println!(
        "{rows} cups and spoons; off by {:.2} % at the median, {:.1} at 75, {:.1} at 90, {:.1} at 95; {inside} inside, {} unmatched",
        at(0.5),
        at(0.75),
        at(0.9),
        at(0.95),
        unmatched.len()
    );
    assert!(rows > 1_500 && unmatched.len() * 12 < rows, "{rows} rows, and unmatched {unmatched:#?}");
    assert!(at(0.5) < 0.05, "off by {} % at the median", at(0.5));
    assert!(inside * 100 >= rows * 95, "{} of {rows} outside: {outside:#?}", outside.len());
}
