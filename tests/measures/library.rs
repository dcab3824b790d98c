//! Our conversions beside those of `fend-core`, a general calculator library with units of its own (exact rationals, no `uom`).

use fend_core::{Context, evaluate};
use proptest::prelude::*;
use tamis::measure::{Amount, Interval, Unit};

use super::{number, us};

/// A unit of ours, and the same unit under the library's name. Its cup, spoon, pint and ounce are the US customary ones; its
/// month is that of the tropical year, and it has no imperial units.
const UNITS: &[(Unit, &str)] = &[
    (Unit::Teaspoon, "teaspoon"),
    (Unit::Tablespoon, "tablespoon"),
    (Unit::Cup, "cup"),
    (Unit::FluidOunce, "fluid_ounce"),
    (Unit::Gill, "gill"),
    (Unit::Pint, "pint"),
    (Unit::Quart, "quart"),
    (Unit::Gallon, "gallon"),
    (Unit::Millilitre, "milliliter"),
    (Unit::Centilitre, "centiliter"),
    (Unit::Decilitre, "deciliter"),
    (Unit::Litre, "liter"),
    (Unit::Gram, "gram"),
    (Unit::Milligram, "milligram"),
    (Unit::Kilogram, "kilogram"),
    (Unit::Ounce, "ounce"),
    (Unit::Pound, "pound"),
    (Unit::Inch, "inch"),
    (Unit::Foot, "foot"),
    (Unit::Millimetre, "millimeter"),
    (Unit::Centimetre, "centimeter"),
    (Unit::Metre, "meter"),
    (Unit::Second, "second"),
    (Unit::Minute, "minute"),
    (Unit::Hour, "hour"),
    (Unit::Day, "day"),
    (Unit::Week, "week"),
    (Unit::DegreeFahrenheit, "°F"),
    (Unit::DegreeCelsius, "°C"),
];

/// What the library makes of `count` of one unit in another.
fn converted(count: f64, from: &str, to: &str) -> f64 {
    let question = format!("{count} {from} to {to} to 12 dp");
    let answer = evaluate(&question, &mut Context::new()).unwrap_or_else(|fault| panic!("{question}: {fault}"));
    let answer = answer.get_main_result().trim_start_matches("approx. ").to_owned();
    let number: String = answer.chars().take_while(|c| c.is_ascii_digit() || matches!(c, '.' | '-')).collect();
    number.parse().unwrap_or_else(|_| panic!("{question}: {answer}"))
}

#[track_caller]
fn agree(count: f64, from: (Unit, &str), to: (Unit, &str)) {
    let ours = number(&Amount::new(Interval::exactly(count), Some(from.0)).quantity(&us()), to.0, &us());
    let theirs = converted(count, from.1, to.1);
    // Of a small number the library prints ten decimals, and is off by one in the last: 336.584 mg are 0.0007420407 lb, not …408.
    assert!(
        (ours - theirs).abs() <= 1e-9 * theirs.abs().max(0.2),
        "{count} {from:?} to {to:?}: {ours}, library {theirs}"
    );
}

#[test]
fn one_of_each_unit_is_as_many_of_every_other() {
    for from in UNITS {
        for to in UNITS.iter().filter(|to| to.0.kind() == from.0.kind()) {
            agree(1.0, *from, *to);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_amount_converts_as_the_library_converts_it(
        count in (1_u32..400_000).prop_map(|thousandths| f64::from(thousandths) / 1000.0),
        from in 0..UNITS.len(),
        to in 0..UNITS.len(),
    ) {
        let (from, to) = (UNITS[from], UNITS[to]);
        prop_assume!(from.0.kind() == to.0.kind());
        agree(count, from, to);
    }
}
