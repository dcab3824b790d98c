//! Pans, dishes and other vessels, which are told by their measurements.

use uom::si::length::centimeter;

use super::around;
use crate::{
    measure::UnitKind,
    recipe::{
        Recipe,
        language::lexicon::{Roles, roles},
        measures::Place,
        pairs::Pair,
    },
};

/// Words for vessels, besides those of the lexicon, that a size stands with: a 9-inch springform, a 9-inch cake.
const SIZED: &[&str] = &["springform", "cake", "pie", "tart", "flan", "quiche", "bundt", "tube", "saucepan", "wok"];

/// Vessels of the lexicon whose sizes are not those of a pan: a cutter's, a sheet of paper's.
const NO_PANS: &[&str] = &[
    "work",
    "side",
    "base",
    "bottom",
    "hand",
    "paper",
    "foil",
    "parchment",
    "cup",
    "board",
    "surface",
    "counter",
    "worktop",
    "bench",
    "knife",
    "cutter",
    "pin",
    "slot",
    "rack",
    "grate",
    "ring",
];

/// Below this many centimetres a length is a cut or a thickness, and not the size of a pan.
const SMALLEST: f64 = 10.0;

/// Whether a pair gives the size of a vessel: `a 9-inch (23 cm) cake pan`, `9 x 13 in (23 x 33 cm)` in the equipment.
pub fn is_size_of_one(recipe: &Recipe, pair: &Pair<'_>) -> bool {
    let lengths = [pair.written, pair.restated].iter().all(|stated| stated.kind() == Some(UnitKind::Length));
    let Some(measure) = recipe.measures.get(pair.measure).filter(|_| lengths) else { return false };
    let longest = [pair.written, pair.restated]
        .into_iter()
        .filter_map(|stated| stated.lengths())
        .flatten()
        .fold(0.0, |most: f64, side| most.max(side.get::<centimeter>()));
    longest >= SMALLEST && (matches!(measure.place, Place::Equipment(_)) || is_named(recipe, pair))
}

/// Whether a vessel is named right behind the two, between them, or before them: "a round cake tin, 9 in (23 cm)".
fn is_named(recipe: &Recipe, pair: &Pair<'_>) -> bool {
    let between = if pair.apart { around::behind(recipe, pair.written.span.end, 4) } else { Vec::new() };
    let behind = around::behind(recipe, behind_bracket(recipe, pair.restated.span.end), 3);
    let before = around::before(recipe, pair.written.span.start, 3);
    between.iter().chain(&behind).chain(&before).any(|word| names_vessel(word))
}

fn names_vessel(word: &str) -> bool {
    SIZED.contains(&word) || roles(word).any(Roles::VESSEL) && !NO_PANS.contains(&word)
}

/// Right behind the bracket that closes at `offset`, if one does.
fn behind_bracket(recipe: &Recipe, offset: usize) -> usize {
    let rest = recipe.text.get(offset..).unwrap_or_default();
    let blanks = rest.len() - rest.trim_start().len();
    if rest.trim_start().starts_with([')', ']']) { offset + blanks + 1 } else { offset }
}
