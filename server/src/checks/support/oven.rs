//! What an oven is set to, and whether two settings are one.

use uom::si::thermodynamic_temperature::degree_celsius;

use super::{heat, words};
use crate::{
    checks::View,
    measure::{Amount, Interval, Quantity, Unit},
    recipe::{
        Recipe,
        measures::{Measure, Stated},
    },
    text::Span,
};

/// Two settings no further apart than this many °C are one: 350°F is printed as 175 and as 180°C. The roundings of the oven
/// tables (cookingconversions.org/oventemperatures.htm) lie within it.
const NEAR: f64 = 8.0;

/// The settings of an oven that bakes, in °C: below, it only warms, dries or proves. Gas mark 10 is 260°C
/// (cookingconversions.org/oventemperatures.htm); home ovens end some 30°C above (common practice, no source).
const BAKES: (f64, f64) = (60.0, 290.0);

/// The ways in which a temperature is stated, in °C. A bare number has the degrees of the house.
fn celsius(view: &View<'_>, measure: &Measure) -> Vec<Interval> {
    let read = |stated: &Stated| {
        let amount = setting(stated)?;
        let unit = amount.unit.or(Some(Unit::Degree));
        match Amount::new(amount.number, unit).quantity(&view.house.measures) {
            Quantity::Temperature(heat) => Some(heat.map(|heat| heat.get::<degree_celsius>())),
            _ => None,
        }
    };
    measure.statements().filter_map(read).collect()
}

/// The first term, which is the temperature where a time follows it at once: `350°F 45 min`.
fn setting(stated: &Stated) -> Option<Amount> {
    stated.terms.first()?.amount()
}

/// Where the temperature stands, without "about" and without a time behind it.
pub fn place(measure: &Measure) -> Span {
    let start = measure.hedge.map_or(measure.span.start, |hedge| hedge.end.max(measure.span.start));
    match measure.stated.terms.as_slice() {
        [term, _, ..] => term.span,
        _ => Span::new(start, measure.span.end),
    }
}

/// Whether a temperature is one that an oven is set to, and no difference.
pub fn is_setting(view: &View<'_>, measure: &Measure) -> bool {
    let within = |stated: &Interval| stated.overlaps(&Interval::between(BAKES.0, BAKES.1));
    let stated = celsius(view, measure);
    !heat::is_difference(view.recipe, measure.span) && !stated.is_empty() && stated.iter().all(within)
}

/// Whether an oven set to the one is set to the other.
pub fn is_same(view: &View<'_>, one: &Measure, other: &Measure) -> bool {
    let wider = |stated: Interval| Interval { least: stated.least - NEAR, most: stated.most.map(|most| most + NEAR) };
    let theirs = celsius(view, other);
    celsius(view, one).into_iter().any(|mine| theirs.iter().any(|other| wider(mine).overlaps(other)))
}

/// Whether the first is the hotter of two settings.
pub fn is_hotter(view: &View<'_>, one: &Measure, other: &Measure) -> bool {
    let middle = |measure| celsius(view, measure).first().map(Interval::middle);
    middle(one) > middle(other)
}

/// A setting as the manuscript writes it.
pub fn written(recipe: &Recipe, measure: &Measure) -> String {
    words::plain(recipe.at(place(measure))).trim_end_matches('.').to_owned()
}

/// The measure of an event.
pub fn heat_of(recipe: &Recipe, heat: Option<usize>) -> Option<&Measure> {
    recipe.measures.get(heat?)
}
