//! The roundings that the trade prints and a reader understands, however far they are from the exact conversion.
//!
//! The rows are what house styles print beside a customary measure: common practice, no source, but for the Australian ones
//! (1 oz = 30 g, 4 oz = 125 g, 1 lb = 500 g, 1 pint = 600 ml, 5 fl oz = 150 ml), which are the conversion chart of
//! healthykids.nsw.gov.au, and the oven rows, which are the printed °C of cookingconversions.org/oventemperatures.htm.

use uom::si::{
    f64::ThermodynamicTemperature,
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
};

use super::{Amount, Cup, Interval, Measures, Pint, Quantity, System, Unit, heat::OVEN, kitchen_amounts, round_number};

/// Of one customary unit: from which number to which, what one of it is printed as (in ml, g or cm).
struct Rounding {
    unit: Unit,
    whose: Whose,
    from: f64,
    to: f64,
    least: f64,
    most: f64,
}

/// Under which of the house's measures a row holds.
#[derive(Clone, Copy)]
enum Whose {
    Any,
    Cup(Cup),
    Pint(Pint),
}

impl Whose {
    fn fits(self, measures: &Measures) -> bool {
        match self {
            Whose::Any => true,
            Whose::Cup(cup) => cup == measures.cup,
            Whose::Pint(pint) => pint == measures.pint,
        }
    }
}

const fn each(unit: Unit, from: f64, to: f64, least: f64, most: f64) -> Rounding {
    Rounding { unit, whose: Whose::Any, from, to, least, most }
}

/// Of the unit that belongs to one cup or pint only.
const fn of(whose: Whose, unit: Unit, least: f64, most: f64) -> Rounding {
    Rounding { unit, whose, from: 0.125, to: 16.0, least, most }
}

const US: Whose = Whose::Pint(Pint::Us);
const IMPERIAL: Whose = Whose::Pint(Pint::Imperial);

const ROUNDINGS: &[Rounding] = &[
    // 1/8 tsp 0.5 to 0.6 ml, 1/4 tsp 1 to 1.25, 1/2 tsp 2 to 2.5, 3/4 tsp 3.5 to 4
    each(Unit::Teaspoon, 0.125, 0.5, 4.0, 5.0),
    each(Unit::Teaspoon, 0.75, 0.75, 4.6, 5.4),
    each(Unit::FluidOunce, 1.0, 2.0, 25.0, 30.0),
    each(Unit::FluidOunce, 2.5, 20.0, 28.0, 30.0),
    of(Whose::Cup(Cup::UsCustomary), Unit::Cup, 225.0, 240.0),
    of(US, Unit::Pint, 450.0, 500.0),
    of(IMPERIAL, Unit::Pint, 550.0, 600.0),
    of(US, Unit::Quart, 900.0, 1_000.0),
    of(IMPERIAL, Unit::Quart, 1_100.0, 1_200.0),
    of(US, Unit::Gallon, 3_600.0, 4_000.0),
    of(IMPERIAL, Unit::Gallon, 4_500.0, 4_600.0),
    each(Unit::Ounce, 0.5, 3.0, 25.0, 30.0),
    each(Unit::Ounce, 4.0, 15.0, 27.5, 31.25),
    each(Unit::Pound, 0.25, 20.0, 440.0, 500.0),
    // 1/8 in 3 mm, 1/4 in 5 to 6 mm, 1/2 in 1 to 1.3 cm, 3/4 in 2 cm, 1 in 2.5 cm, 1 1/2 in 4 cm
    each(Unit::Inch, 0.125, 0.125, 2.4, 2.4),
    each(Unit::Inch, 0.25, 0.375, 2.0, 2.7),
    each(Unit::Inch, 0.5, 0.5, 2.0, 2.6),
    each(Unit::Inch, 0.75, 1.5, 2.4, 2.7),
];

/// A rounding never explains a pair further apart than this: 1 g is not 1.5 g.
const FURTHEST: f64 = 0.25;

/// Whether the trade prints one of these beside the other.
pub(super) fn is_usual(one: &[Amount], other: &[Amount], measures: &Measures) -> bool {
    let totals = Amount::total(one, measures).zip(Amount::total(other, measures));
    let Some((mine, theirs)) = totals.filter(|(mine, theirs)| mine.kind() == theirs.kind()) else { return false };
    is_printed_beside(&mine, one, &theirs, measures)
        || is_printed_beside(&theirs, other, &mine, measures)
        || is_rounded(&mine, &theirs, other, measures)
        || is_rounded(&theirs, &mine, one, measures)
}

/// Whether a row of the tables gives `metric` for `customary`, which is written as `parts`, at both ends.
fn is_printed_beside(customary: &Quantity, parts: &[Amount], metric: &Quantity, measures: &Measures) -> bool {
    if let (Quantity::Temperature(mine), Quantity::Temperature(theirs)) = (customary, metric) {
        let on_one_row = |mine: ThermodynamicTemperature, theirs: ThermodynamicTemperature| {
            let (fahrenheit, celsius) = (mine.get::<degree_fahrenheit>(), theirs.get::<degree_celsius>().round());
            OVEN.iter().any(|dial| (dial.fahrenheit - fahrenheit).abs() < 0.01 && dial.celsius.contains(&celsius))
        };
        return both_ends(mine, theirs, on_one_row);
    }
    let Some(metric) = metric.plain_number() else { return false };
    parts.first().and_then(|amount| amount.unit).is_some_and(|unit| {
        let rows = ROUNDINGS.iter().filter(|row| {
            let pounds_of_ounces = row.unit == Unit::Pound && unit == Unit::Ounce;
            (row.unit == unit || pounds_of_ounces) && row.whose.fits(measures)
        });
        rows.filter_map(|row| Some((row, customary.number_of(row.unit, measures)?))).any(|(row, number)| {
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

/// Whether `restated`, written as `parts`, is what the house's own kitchen rounding makes of `written`.
fn is_rounded(written: &Quantity, restated: &Quantity, parts: &[Amount], measures: &Measures) -> bool {
    let same = |one: f64, other: f64| (one - other).abs() <= 1e-6 * one.abs();
    let near = |one: f64, other: f64| (one - other).abs() <= FURTHEST * one.abs();
    if let [Amount { unit: Some(unit), number }] = parts
        && unit.system() == Some(System::Metric)
    {
        let exact = written.number_of(*unit, measures);
        let rounded = |exact, printed| same(round_number(exact, *unit), printed) && near(exact, printed);
        if exact.is_some_and(|exact| both_ends(&exact, number, rounded)) {
            return true;
        }
    }
    let system = parts.first().and_then(|amount| amount.unit).and_then(Unit::system);
    let kitchen = system.and_then(|system| Amount::total(&kitchen_amounts(written, system, measures), measures));
    match (kitchen.and_then(|kitchen| kitchen.plain_number()), restated.plain_number()) {
        (Some(kitchen), Some(restated)) => both_ends(&kitchen, &restated, same),
        _ => false,
    }
}
