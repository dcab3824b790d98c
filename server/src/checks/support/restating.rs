//! The same amount in the other system of measures, and where it goes.

use super::{liquids, setting};
use crate::{
    book::House,
    measure::{
        Amount, Measures, Quantity, Style, System, Unit, kitchen_amounts, print_amounts, print_interval, round_number,
    },
    recipe::{
        Recipe,
        measures::{Stated, Term},
        weights,
    },
    text::{Edit, Span},
};

/// A stated amount in the measures of a system, rounded as a kitchen rounds: a liquid by volume, what is scooped by its weight
/// where that is known. Nothing for the sides of something.
pub fn amounts_in(recipe: &Recipe, house: &House, index: usize, stated: &Stated, system: System) -> Vec<Amount> {
    let Some(quantity) = stated.quantity(&house.measures) else { return Vec::new() };
    let poured = weights::food_of(recipe, index).is_none_or(liquids::is_liquid);
    let density = weights::density_of(recipe, index).filter(|_| !poured);
    let weighed = match (quantity, density) {
        (Quantity::Volume(volume), Some(density)) => Quantity::Weight(volume.map(|volume| volume * density.typical)),
        (quantity, _) => quantity,
    };
    kitchen_amounts(&weighed, system, &house.measures)
}

/// The same in words, as the house or the recipe sets it; of sides, all of them: `23 x 33 cm`. Nothing where it comes to nothing.
pub fn text_in(recipe: &Recipe, house: &House, index: usize, stated: &Stated, system: System) -> Option<String> {
    if stated.sides {
        return sides(stated, system, &setting::style_in(recipe, house));
    }
    let amounts = amounts_in(recipe, house, index, stated, system);
    (!amounts.is_empty()).then(|| print_amounts(&amounts, &setting::style_in(recipe, house)))
}

/// The sides of something in one unit of a system.
fn sides(stated: &Stated, system: System, style: &Style) -> Option<String> {
    let unit = if system == System::Metric { Unit::Centimetre } else { Unit::Inch };
    let numbers: Option<Vec<String>> = stated.terms.iter().map(|term| side(&term.amount()?, unit, style)).collect();
    stated.terms.iter().filter_map(Term::amount).find_map(|amount| amount.unit)?.system()?;
    Some(format!("{} {}", numbers?.join(" x "), unit.symbol()))
}

/// From this many centimetres on the sides of a pan are whole ones: 9 x 5 x 3 in is 23 x 13 x 8 cm (common practice, no source).
const WHOLE: f64 = 4.0;

/// A side as makers round it: whole centimetres, half inches. Nothing for what is no length.
pub fn side(amount: &Amount, unit: Unit, style: &Style) -> Option<String> {
    let number = amount.quantity(&Measures::default()).number_of(unit, &Measures::default())?;
    let rounded = number.map(|number| match unit {
        Unit::Centimetre if number >= WHOLE => number.round(),
        Unit::Inch => (number * 2.0).round().max(1.0) / 2.0,
        unit => round_number(number, unit),
    });
    Some(print_interval(&rounded, Some(unit), style))
}

/// A stated amount without the blank that may stand behind the full stop of its unit.
pub fn as_written(recipe: &Recipe, stated: &Stated) -> Span {
    Span::new(stated.span.start, stated.span.start + recipe.at(stated.span).trim_end().len())
}

/// Puts `text` in parentheses behind a stated amount; in those that it stands in itself, behind a slash.
pub fn beside(recipe: &Recipe, stated: &Stated, text: &str) -> Edit {
    let end = as_written(recipe, stated).end;
    let closed = recipe.text.get(end..).is_some_and(|rest| rest.trim_start().starts_with([')', ']']));
    let text = if closed { format!(" / {text}") } else { format!(" ({text})") };
    Edit::insert(end, text)
}
