//! Liquids, which ounces may measure by weight or by volume.

use super::restated::Compared;
use crate::{
    checks::{Fix, View},
    larder::Food,
    measure::{Agreement, Amount, Comparison, System, Unit, UnitKind, Verdict, compare},
    recipe::{
        Recipe,
        measures::{Stated, Term},
        weights,
    },
    text::Edit,
};

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

/// Whether a pair of a liquid's ounces and a volume agrees only if the ounces are fluid ounces: `8 oz (240 ml) milk`. The food, the
/// ounces and the volume.
pub fn are_fluid_ounces<'r>(
    view: &View<'_>,
    compared: &Compared<'r>,
) -> Option<(&'static Food, &'r Stated, &'r Stated)> {
    let pair = &compared.pair;
    let food = weights::food_of(view.recipe, pair.measure).filter(|food| is_liquid(food))?;
    let in_ounces = |amounts: &[Amount]| matches!(amounts, [amount] if amount.unit == Some(Unit::Ounce));
    let (ounces, stated, volume, other) = match (in_ounces(&compared.written), in_ounces(&compared.restated)) {
        (true, false) => (&compared.written, pair.written, &compared.restated, pair.restated),
        (false, true) => (&compared.restated, pair.restated, &compared.written, pair.written),
        _ => return None,
    };
    let right = |agreement: &Agreement| {
        agreement.other.is_none() && agreement.verdict(&view.house.tolerances) == Verdict::Agrees
    };
    // '1 cup (8 oz) water' is right either way; millilitres beside ounces, and what is far from its weight, are not. A pack is
    // bought by what its label says.
    let metric = other.unit().and_then(Unit::system) == Some(System::Metric);
    let by_weight = compared.agreement().is_none_or(|agreement| right(&agreement));
    let pack = compared.measure.each.iter().any(|each| std::ptr::eq(each, pair.written));
    if pack || other.kind() != Some(UnitKind::Volume) || by_weight && !metric {
        return None;
    }
    let fluid: Vec<Amount> = ounces.iter().map(|amount| Amount { unit: Some(Unit::FluidOunce), ..*amount }).collect();
    match compare(&fluid, volume, &view.house.measures, None) {
        Comparison::Compared(agreement) if right(&agreement) => Some((food, stated, other)),
        _ => None,
    }
}
