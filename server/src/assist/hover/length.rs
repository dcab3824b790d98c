//! A length in inches or centimetres; of a pan, what it holds.

use uom::si::length::{centimeter, inch};

use super::amount::answer;
use crate::{
    checks::support::{around, vessels},
    measure::{
        Amount, Interval, Measures, Mold, Quantity, Style, System, Unit, capacity, kitchen_amounts, print_amounts,
        print_interval, round_number,
    },
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
    },
};

/// The sides in the other system, and what the pan holds where they are a pan's.
pub fn answer_for(recipe: &Recipe, measure: &Measure, stated: &Stated) -> Vec<String> {
    let Some(sides) = in_other_system(stated) else { return Vec::new() };
    let sides = answer(&[sides]);
    sides.into_iter().chain(holds(recipe, measure)).collect()
}

/// `23 x 33 x 5 cm`
pub fn in_other_system(stated: &Stated) -> Option<String> {
    let amounts: Vec<Amount> = stated.terms.iter().map(|term| term.amount()).collect::<Option<_>>()?;
    let system = match amounts.last()?.unit?.system()? {
        System::Metric => System::Customary,
        System::Customary => System::Metric,
    };
    if !stated.sides {
        let quantity = Amount::total(&amounts, &Measures::default())?;
        let amounts = kitchen_amounts(&quantity, system, &Measures::default());
        return (!amounts.is_empty()).then(|| print_amounts(&amounts, &Style::default()));
    }
    let unit = if system == System::Metric { Unit::Centimetre } else { Unit::Inch };
    let numbers: Option<Vec<String>> = amounts.iter().map(|amount| side(amount, unit)).collect();
    Some(format!("{} {}", numbers?.join(" x "), unit.symbol()))
}

/// From this many centimetres on the sides of a pan are whole ones: 9 x 5 x 3 in is 23 x 13 x 8 cm (common practice, no source).
const WHOLE: f64 = 4.0;

/// A side as makers round it.
fn side(amount: &Amount, unit: Unit) -> Option<String> {
    let number = amount.quantity(&Measures::default()).number_of(unit, &Measures::default())?;
    let rounded = number.map(|number| match unit {
        Unit::Centimetre if number >= WHOLE => number.round(),
        Unit::Inch => (number * 2.0).round().max(1.0) / 2.0,
        unit => round_number(number, unit),
    });
    Some(print_interval(&rounded, Some(unit), &Style::default()))
}

/// `Holds about 8 cups (1.9 l) to the rim at the usual depth of 2 in (5 cm).`
fn holds(recipe: &Recipe, measure: &Measure) -> Option<String> {
    let sides = vessels::sides(&measure.stated)?;
    let mold = mold(recipe, measure, &sides.iter().map(|side| side.get::<inch>()).collect::<Vec<_>>())?;
    let found = capacity(mold, &sides)?;
    let half = |number: f64| (number * 2.0).round() / 2.0;
    let cups = found.cups.map(half);
    let litres =
        kitchen_amounts(&Quantity::millilitres(found.litres().times(1_000.0)), System::Metric, &Measures::default());
    let (cups, litres) = (
        print_amounts(&[Amount::new(cups, Some(Unit::Cup))], &Style::default()),
        print_amounts(&litres, &Style::default()),
    );
    let depth = found.depth.map(|depth| {
        let (inches, centimetres) = (depth.get::<inch>(), depth.get::<centimeter>());
        let deep = |number, unit| side(&Amount::new(Interval::exactly(number), Some(unit)), unit).unwrap_or_default();
        let (inches, centimetres) = (deep(inches, Unit::Inch), deep(centimetres, Unit::Centimetre));
        format!(", at the usual depth of {inches} in ({centimetres} cm)")
    });
    let depth = depth.unwrap_or_default();
    Some(if found.published {
        format!(
            "Holds about {cups} ({litres}) to the rim{depth}. From US tables of baking pans; makes differ by up to 15 %."
        )
    } else {
        format!("Holds {cups} ({litres}) to the rim, reckoned from its sides: less the more they slope.")
    })
}

/// Nouns that name a kind of pan, folded, the surest first.
const MOLDS: &[(&str, Mold)] = &[
    ("springform", Mold::Springform),
    ("loaf", Mold::Loaf),
    ("fluted", Mold::FlutedTube),
    ("tube", Mold::Tube),
    ("tart", Mold::Tart),
    ("flan", Mold::Tart),
    ("quiche", Mold::Tart),
    ("pie", Mold::Pie),
    ("square", Mold::Square),
    ("round", Mold::Round),
    ("rimmed", Mold::Sheet),
    ("sheet", Mold::Sheet),
    ("tray", Mold::Sheet),
];

/// Nouns for vessels that are baked in, folded.
const PANS: &[&str] = &["pan", "tin", "dish", "mold", "mould", "slab", "cake", "brownie"];

/// Nouns for vessels whose size is not that of a baking pan, folded.
const OTHERS: &[&str] =
    &["skillet", "saucepan", "pot", "wok", "bowl", "griddle", "oven", "plate", "platter", "ramekin"];

/// The kind of pan that the words around a size name, or that the size itself can only be.
fn mold(recipe: &Recipe, measure: &Measure, sides: &[f64]) -> Option<Mold> {
    let words = words_around(recipe, measure);
    let has = |word: &str| words.iter().any(|own| own == word);
    if let Some((_, mold)) = MOLDS.iter().find(|(word, _)| has(word)) {
        let cake = *mold == Mold::Round || *mold == Mold::Square;
        return (!cake || !OTHERS.iter().any(|other| has(other))).then_some(*mold);
    }
    if !PANS.iter().any(|word| has(word)) || OTHERS.iter().any(|word| has(word)) {
        return None;
    }
    match sides {
        [_] => Some(Mold::Round),
        [_, depth] if *depth <= 3.25 => Some(Mold::Round),
        [one, other, ..] if (one - other).abs() < 0.1 => Some(Mold::Square),
        [one, other, ..] if one.max(*other) <= 10.0 && one.min(*other) <= 5.5 => Some(Mold::Loaf),
        _ => Some(Mold::Rectangular),
    }
}

/// The line of the equipment, or a few words on both sides of the size; what it restates and is restated by is passed over.
fn words_around(recipe: &Recipe, measure: &Measure) -> Vec<String> {
    if let Place::Equipment(index) = measure.place {
        return recipe.equipment.get(index).map_or(Vec::new(), |line| around::words_in(recipe, line.span));
    }
    let end = measure.statements().map(|stated| stated.span.end).chain([measure.span.end]).max();
    let end = end.unwrap_or(measure.span.end);
    let closed = recipe.text.get(end..).unwrap_or_default();
    let end = end + usize::from(closed.starts_with([')', ']']));
    let mut words = around::behind(recipe, end, 3);
    words.extend(around::before(recipe, measure.span.start, 2));
    words
}
