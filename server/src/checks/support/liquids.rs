//! Liquids, which ounces may measure by weight or by volume.

use crate::{
    larder::Food,
    recipe::{Recipe, measures::Term},
    text::Edit,
};

use super::super::Fix;

/// Whether a food is poured: what a cook may measure in a jug.
pub fn is_liquid(food: &Food) -> bool {
    food.is("liquid") || food.is("juice") || food.is("syrup")
}

/// The fix that spells ounces out as fluid ounces.
pub fn as_fluid_ounces(recipe: &Recipe, term: &Term) -> Option<Fix> {
    let unit = term.unit?;
    let written = recipe.at(unit).trim();
    let text = match () {
        () if written.eq_ignore_ascii_case("ounce") => "fluid ounce",
        () if written.to_lowercase().ends_with("ounces") => "fluid ounces",
        () => "fl oz",
    };
    // No hyphen holds two words: `8-oz` becomes `8 fl oz`.
    let gap = if written.starts_with(['-', '‐', '‑']) || term.number.end == unit.start { " " } else { "" };
    let fix = Edit::replace(unit, format!("{gap}{text}"));
    Some(Fix::new(format!("Write {text}"), vec![fix]))
}
