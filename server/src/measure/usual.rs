//! The roundings that the trade prints and a reader understands, however far they are from the exact conversion.
//!
//! The rows are what house styles print beside a customary measure: common practice, no source, but for the Australian ones
//! (1 oz = 30 g, 4 oz = 125 g, 1 lb = 500 g, 1 pint = 600 ml, 5 fl oz = 150 ml), which are the conversion chart of
//! healthykids.nsw.gov.au, and the oven rows, which are the printed °C of cookingconversions.org/oventemperatures.htm.

use uom::si::{
    f64::ThermodynamicTemperature,
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
};

use super::{Amount, Interval, Measures, Pint, Quantity, System, Unit, kitchen_amounts, round_number};

/// Of one customary unit: from which number to which, what one of it is printed as (in ml, g or cm).
struct Rounding {
    unit: Unit,
    pint: Option<Pint>,
    from: f64,
    to: f64,
    least: f64,
    most: f64,
}

/// Any pint, any number.
const fn each(unit: Unit, from: f64, to: f64, least: f64, most: f64) -> Rounding {
    Rounding { unit, pint: None, from, to, least, most }
}

/// Of one pint only.
const fn of_pint(unit: Unit, pint: Pint, to: f64, least: f64, most: f64) -> Rounding {
    Rounding { unit, pint: Some(pint), from: 0.25, to, least, most }
}

const ROUNDINGS: &[Rounding] = &[
    // 1/8 tsp 0.5 to 0.6 ml, 1/4 tsp 1 to 1.25, 1/2 tsp 2 to 2.5, 3/4 tsp 3.5 to 4
    each(Unit::Teaspoon, 0.125, 0.5, 4.0, 5.0),
    each(Unit::Teaspoon, 0.75, 0.75, 4.6, 5.4),
    each(Unit::FluidOunce, 1.0, 2.0, 25.0, 30.0),
    each(Unit::FluidOunce, 2.5, 20.0, 28.0, 30.0),
    of_pint(Unit::Pint, Pint::Us, 8.0, 450.0, 500.0),
    of_pint(Unit::Pint, Pint::Imperial, 8.0, 550.0, 600.0),
    of_pint(Unit::Quart, Pint::Us, 8.0, 900.0, 1_000.0),
    of_pint(Unit::Quart, Pint::Imperial, 8.0, 1_100.0, 1_200.0),
    of_pint(Unit::Gallon, Pint::Us, 8.0, 3_600.0, 4_000.0),
    of_pint(Unit::Gallon, Pint::Imperial, 8.0, 4_500.0, 4_600.0),
    each(Unit::Ounce, 0.5, 3.0, 25.0, 30.0),
    each(Unit::Ounce, 4.0, 15.0, 27.5, 31.25),
    each(Unit::Pound, 0.25, 20.0, 440.0, 500.0),
    // 1/8 in 3 mm, 1/4 in 5 to 6 mm, 1/2 in 1 to 1.3 cm, 3/4 in 2 cm, 1 in 2.5 cm, 1 1/2 in 4 cm
    each(Unit::Inch, 0.125, 0.125, 2.4, 2.4),
    each(Unit::Inch, 0.25, 0.375, 2.0, 2.7),
    each(Unit::Inch, 0.5, 0.5, 2.0, 2.6),
    each(Unit::Inch, 0.75, 1.5, 2.4, 2.7),
];

/// What is printed in °C beside an oven temperature in °F.
const OVEN: [(f64, f64, f64); 12] = [
    (225.0, 105.0, 110.0),
    (250.0, 120.0, 130.0),
    (275.0, 135.0, 140.0),
    (300.0, 150.0, 150.0),
    (325.0, 160.0, 170.0),
    (350.0, 175.0, 180.0),
    (375.0, 190.0, 190.0),
    (400.0, 200.0, 205.0),
    (425.0, 220.0, 220.0),
    (450.0, 230.0, 230.0),
    (475.0, 240.0, 245.0),
    (500.0, 260.0, 260.0),
];

/// A rounding never explains a pair further apart than this: 1 g is not 1.5 g.
const FURTHEST: f64 = 0.25;

/// Whether the trade prints one of these beside the other.
pub(super) fn is_usual(one: &[Amount], other: &[Amount], measures: &Measures) -> bool {
    is_printed_beside(one, other, measures)
        || is_printed_beside(other, one, measures)
        || is_rounded(one, other, measures)
        || is_rounded(other, one, measures)
}

/// Whether a row of the tables gives `metric` for `customary`, at both ends.
fn is_printed_beside(customary: &[Amount], metric: &[Amount], measures: &Measures) -> bool {
    let totals = Amount::total(customary, measures).zip(Amount::total(metric, measures));
    let Some((mine, theirs)) = totals else { return false };
    if let (Quantity::Temperature(mine), Quantity::Temperature(theirs)) = (&mine, &theirs) {
        let row = |fahrenheit: f64, celsius: f64| {
            let near = |one: f64, other: f64| (one - other).abs() < 0.01;
            OVEN.iter()
                .any(|(dial, least, most)| near(*dial, fahrenheit) && (*least..=*most).contains(&celsius.round()))
        };
        let in_scales = |mine: ThermodynamicTemperature, theirs: ThermodynamicTemperature| {
            row(mine.get::<degree_fahrenheit>(), theirs.get::<degree_celsius>())
        };
        return both_ends(mine, theirs, in_scales);
    }
    let Some(metric) = theirs.plain_number() else { return false };
    customary.first().and_then(|amount| amount.unit).is_some_and(|unit| {
        let rows = ROUNDINGS.iter().filter(|row| {
            let pounds_of_ounces = row.unit == Unit::Pound && unit == Unit::Ounce;
            (row.unit == unit || pounds_of_ounces) && row.pint.is_none_or(|pint| pint == measures.pint)
        });
        rows.filter_map(|row| Some((row, mine.number_of(row.unit, measures)?))).any(|(row, number)| {
            both_ends(&number, &metric, |number, metric| {
                let slack = 1e-6 * metric.abs();
                (row.from..=row.to).contains(&number)
                    && (row.least * number - slack..=row.most * number + slack).contains(&metric)
            })
        })
    })
}

fn both_ends<Q: Copy, R: Copy>(one: &Interval<Q>, other: &Interval<R>, fits: impl Fn(Q, R) -> bool) -> bool {
    fits(one.least, other.least) && one.most.zip(other.most).is_none_or(|(one, other)| fits(one, other))
}

/// Whether `restated` is what the house's own kitchen rounding makes of `written`.
fn is_rounded(written: &[Amount], restated: &[Amount], measures: &Measures) -> bool {
    let totals = Amount::total(written, measures).zip(Amount::total(restated, measures));
    let Some((mine, theirs)) = totals else { return false };
    let same = |one: f64, other: f64| (one - other).abs() <= 1e-6 * one.abs();
    let near = |one: f64, other: f64| (one - other).abs() <= FURTHEST * one.abs();
    if let [Amount { unit: Some(unit), number }] = restated
        && unit.system() == Some(System::Metric)
    {
        let exact = mine.number_of(*unit, measures);
        let rounded = |exact, printed| same(round_number(exact, *unit), printed) && near(exact, printed);
        if exact.is_some_and(|exact| both_ends(&exact, number, rounded)) {
            return true;
        }
    }
    let system = restated.first().and_then(|amount| amount.unit).and_then(Unit::system);
    let kitchen = system.and_then(|system| Amount::total(&kitchen_amounts(&mine, system, measures), measures));
    match (kitchen.and_then(|kitchen| kitchen.plain_number()), theirs.plain_number()) {
        (Some(kitchen), Some(theirs)) => both_ends(&kitchen, &theirs, same),
        _ => false,
    }
}
