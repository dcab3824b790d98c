//! A length in inches or centimetres; of a pan, what it holds.

use uom::si::{length::inch, volume::milliliter};

use super::amount::answer;
use crate::{
    book::House,
    checks::support::{around, restating},
    measure::{Amount, Interval, Mold, Quantity, System, Unit, capacity, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        measures::{Measure, Stated},
        vessels::{Kind, Vessel, vessels},
    },
};

/// The sides in the other system, and what the pan holds where they are a pan's.
pub fn answer_for(recipe: &Recipe, house: &House, index: usize, stated: &Stated) -> Vec<String> {
    let system = stated.terms.iter().filter_map(|term| term.amount()?.unit?.system()).next_back();
    let Some(system) = system else { return Vec::new() };
    let text = restating::text_in(recipe, house, index, stated, system.other());
    let measure = recipe.measures.get(index);
    text.and_then(|text| answer(&[text]))
        .into_iter()
        .chain(measure.and_then(|measure| holds(recipe, house, measure)))
        .collect()
}

/// `Holds about 8 cups (1.9 l) to the rim, at the usual depth of 2 in (5 cm).`
fn holds(recipe: &Recipe, house: &House, measure: &Measure) -> Option<String> {
    let sides = measure.stated.lengths()?;
    let vessel = vessel(recipe, house, measure)?;
    let inches: Vec<f64> = sides.iter().map(|side| side.get::<inch>()).collect();
    let published = mold(recipe, &vessel, &inches).and_then(|mold| capacity(mold, &sides));
    let Some(found) = published else {
        // Only a size with its depth says what a pan holds that no table has: more than its sides give it cannot.
        let most = vessel.one?.most.filter(|_| sides.len() == 3)?.get::<milliliter>();
        let holds = in_cups_and_litres(house, &Interval::exactly(most));
        return Some(format!("Holds at most {holds} to the rim, by its sides: the more they slope, the less."));
    };
    let depth = found.depth.map(|depth| {
        let deep = Amount::new(Interval::exactly(depth.get::<inch>()), Some(Unit::Inch));
        let deep = |unit| restating::side(&deep, unit, &house.style()).unwrap_or_default();
        format!(", at the usual depth of {} in ({} cm)", deep(Unit::Inch), deep(Unit::Centimetre))
    });
    let holds = in_cups_and_litres(house, &found.millilitres());
    let depth = depth.unwrap_or_default();
    Some(format!("Holds about {holds} to the rim{depth}. From US tables of baking pans; makes differ by up to 15 %."))
}

/// `8 cups (1.9 l)`: half cups are near enough.
fn in_cups_and_litres(house: &House, millilitres: &Interval) -> String {
    let quantity = Quantity::millilitres(*millilitres);
    let cups = quantity.number_of(Unit::Cup, &house.measures).unwrap_or(*millilitres);
    let cups = Amount::new(cups.map(|cups| (cups * 2.0).round() / 2.0), Some(Unit::Cup));
    let litres = kitchen_amounts(&quantity, System::Metric, &house.measures);
    format!("{} ({})", print_amounts(&[cups], &house.style()), print_amounts(&litres, &house.style()))
}

/// So many bytes may stand between a vessel and its size: `a round cake tin, about 9 inches`.
const NEAR: usize = 12;

/// The vessel that a size belongs to.
fn vessel(recipe: &Recipe, house: &House, measure: &Measure) -> Option<Vessel> {
    let apart = |vessel: &Vessel| {
        let (own, size) = (vessel.span, measure.span);
        size.start.saturating_sub(own.end).max(own.start.saturating_sub(size.end))
    };
    let named = vessels(recipe, &house.measures).into_iter();
    named.filter(|vessel| vessel.place == measure.place && apart(vessel) <= NEAR).min_by_key(apart)
}

/// The pan of the tables that a vessel is, by its name and its sides.
fn mold(recipe: &Recipe, vessel: &Vessel, inches: &[f64]) -> Option<Mold> {
    let words = around::words_in(recipe, vessel.span);
    let says = |word: &str| words.iter().any(|own| own == word);
    match (vessel.kind, inches) {
        (Kind::Springform, _) => Some(Mold::Springform),
        (Kind::Loaf, _) => Some(Mold::Loaf),
        (Kind::Tube, _) if says("fluted") => Some(Mold::FlutedTube),
        (Kind::Tube, _) => Some(Mold::Tube),
        (Kind::Pie, _) => Some(Mold::Pie),
        (Kind::Tart, _) => Some(Mold::Tart),
        (Kind::Sheet, _) => Some(Mold::Sheet),
        (Kind::Cake | Kind::Dish, [one, other, ..]) if (one - other).abs() < 0.1 => Some(Mold::Square),
        (Kind::Cake | Kind::Dish, _) if says("square") => Some(Mold::Square),
        (Kind::Cake, [_]) => Some(Mold::Round),
        (Kind::Cake, [_, depth]) if *depth <= 3.25 => Some(Mold::Round),
        (Kind::Cake | Kind::Dish, [_, _, ..]) => Some(Mold::Rectangular),
        _ => None,
    }
}
