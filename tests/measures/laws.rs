//! Laws that hold for every text, number and amount.

use proptest::prelude::*;
use tamis::measure::{
    Amount, FractionStyle, Hedge, Interval, Measures, Off, Quantity, RangeStyle, Style, System, Tolerances, Unit,
    UnitKind, UnitStyle, Verdict, compare, difference, kitchen_amounts, nearest_unit, print_amount, print_amounts,
    print_interval, print_number, read_number, round_number,
};

use super::us;

/// Numbers that a measuring set can show: wholes with halves, thirds, quarters and eighths.
fn kitchen_number() -> impl Strategy<Value = f64> {
    let fraction = prop::sample::select(vec![0.0, 0.125, 0.25, 1.0 / 3.0, 0.375, 0.5, 0.625, 2.0 / 3.0, 0.75, 0.875]);
    (0_u32..200, fraction).prop_map(|(whole, fraction)| f64::from(whole) + fraction).prop_filter("some", |n| *n > 0.0)
}

fn interval() -> impl Strategy<Value = Interval> {
    (0.0..1000.0, prop::option::of(0.0..1000.0))
        .prop_map(|(least, more): (f64, Option<f64>)| Interval { least, most: more.map(|more| least + more) })
}

fn style() -> impl Strategy<Value = Style> {
    let fractions = prop::sample::select(vec![FractionStyle::Slash, FractionStyle::Glyph]);
    let ranges = prop::sample::select(vec![RangeStyle::To, RangeStyle::Dash]);
    let units = prop::sample::select(vec![UnitStyle::Short, UnitStyle::Long]);
    (fractions, ranges, units).prop_map(|(fractions, ranges, units)| Style { fractions, ranges, units })
}

/// Units that measure something, of which a kitchen may have any amount.
fn measured_unit() -> impl Strategy<Value = Unit> {
    let measured = |unit: &Unit| matches!(unit.kind(), UnitKind::Volume | UnitKind::Weight | UnitKind::Length);
    prop::sample::select(Unit::all().filter(measured).collect::<Vec<Unit>>())
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(1.0)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_stops_the_readers(text in ".*") {
        let _ = read_number(&text);
        let _ = Unit::find(&text);
        let _ = Unit::find_beside(&text, &Interval::exactly(1.0));
        let _ = nearest_unit(&text);
        let _ = Hedge::find(&text);
    }

    /// The same with what numbers are made of, so that more of it is nearly a number.
    #[test]
    fn nothing_like_a_number_stops_the_reader(text in "[0-9 ./,½⅔⁄–\u{a0}+a-z-]{0,12}") {
        if let Ok(number) = read_number(&text) {
            prop_assert!(number.least.is_finite() && number.most.is_none_or(|most| most >= number.least), "{number:?}");
        }
    }

    #[test]
    fn a_printed_number_reads_as_itself(number in kitchen_number(), style in style()) {
        let printed = print_number(number, style.fractions);
        prop_assert_eq!(read_number(&printed).map(|read| near(read.least, number)), Ok(true), "{}", printed);
    }

    #[test]
    fn a_printed_range_reads_as_itself(one in kitchen_number(), other in kitchen_number(), style in style()) {
        let range = Interval::between(one, other);
        let printed = print_interval(&range, Some(Unit::Cup), &style);
        let read = read_number(&printed).map(|read| near(read.least, range.least) && near(read.most.unwrap(), one.max(other)));
        prop_assert_eq!(read, Ok(true), "{}", printed);
    }

    #[test]
    fn a_printed_decimal_reads_to_its_last_place(number in 0.001..100_000.0_f64) {
        let printed = print_amount(&Amount::new(Interval::exactly(number), Some(Unit::Gram)), &Style::default());
        let read = read_number(printed.trim_end_matches(" g")).map(|read| read.least).unwrap_or_default();
        prop_assert!((read - number).abs() <= 0.0051, "{}", printed);
    }

    #[test]
    fn a_quantity_comes_back_in_the_unit_it_was_given_in(number in 0.001..10_000.0_f64, unit in measured_unit()) {
        let quantity = Amount::new(Interval::exactly(number), Some(unit)).quantity(&us());
        let back = quantity.number_of(unit, &us()).map(|back| near(back.least, number));
        prop_assert_eq!(back, Some(true));
    }

    #[test]
    fn sums_and_remainders_of_intervals_undo_each_other(one in interval(), other in interval()) {
        let sum = one.plus(&other);
        prop_assert_eq!(sum, other.plus(&one));
        prop_assert!(sum.contains(one.least + other.least));
        let left = sum.minus(&other);
        prop_assert!(near(left.least.min(one.least), left.least), "what is left may be less, never surely more");
        prop_assert!(left.least >= 0.0 && left.most.is_none_or(|most| most >= left.least));
        prop_assert_eq!(one.overlaps(&other), other.overlaps(&one));
        prop_assert!(one.contains(one.middle()));
    }

    #[test]
    fn rounding_twice_is_rounding_once(number in 0.01..5_000.0_f64, unit in measured_unit()) {
        let once = round_number(number, unit);
        prop_assert!(once > 0.0);
        prop_assert!(near(round_number(once, unit), once), "{} {}: {}", number, unit.plural(), once);
    }

    /// Whatever the kitchen makes of an amount is one that the check of restated measures lets stand.
    #[test]
    fn a_restatement_of_our_own_agrees(number in kitchen_number(), unit in measured_unit(), metric in any::<bool>()) {
        let written = [Amount::new(Interval::exactly(number), Some(unit))];
        let system = if metric { System::Metric } else { System::Customary };
        let restated = kitchen_amounts(&written[0].quantity(&us()), system, &us());
        let printed = print_amounts(&restated, &Style::default());
        let verdict = match compare(&written, &restated, &us(), None) {
            tamis::measure::Comparison::Compared(agreement) => agreement.verdict(&Tolerances::default()),
            other => panic!("{printed}: {other:?}"),
        };
        prop_assert_eq!(verdict, Verdict::Agrees, "{} {} ({})", number, unit.plural(), printed);
    }

    /// The same for ovens, in both scales.
    #[test]
    fn an_oven_restated_by_us_agrees(degrees in 40_u32..110, in_fahrenheit in any::<bool>()) {
        let degrees = f64::from(degrees * 5) / if in_fahrenheit { 1.0 } else { 2.0 };
        let (unit, system) =
            if in_fahrenheit { (Unit::DegreeFahrenheit, System::Metric) } else { (Unit::DegreeCelsius, System::Customary) };
        let written = [Amount::new(Interval::exactly(degrees), Some(unit))];
        let restated = kitchen_amounts(&written[0].quantity(&us()), system, &us());
        let off = difference(&written[0].quantity(&us()), &restated[0].quantity(&us()), None).map(Off::size);
        prop_assert!(off.is_some_and(|off| off <= 6.0), "{degrees} {} {restated:?}", unit.name());
    }

    #[test]
    fn how_far_apart_does_not_depend_on_the_unit(number in kitchen_number(), other in kitchen_number()) {
        let measures = Measures::default();
        let grams = |number: f64| Quantity::grams(Interval::exactly(number));
        let ounces = |number: f64| {
            Amount::new(Interval::exactly(number / 28.349_523_125), Some(Unit::Ounce)).quantity(&measures)
        };
        let share = |off: Option<Off>| off.map(Off::size).unwrap_or(f64::NAN);
        let (one, two) = (share(difference(&grams(number), &grams(other), None)), share(difference(&ounces(number), &ounces(other), None)));
        prop_assert!((one - two).abs() <= 1e-9 * one.max(1.0));
        prop_assert!(near(share(difference(&grams(number), &grams(number), None)), 0.0));
    }
}
