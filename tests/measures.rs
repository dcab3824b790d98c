//! Measures against what is published about them: units against the standards, roundings against what kitchens print,
//! conversions against a units library that shares no code with ours.

#[path = "measures/agreement.rs"]
mod agreement;
#[path = "measures/laws.rs"]
mod laws;
#[path = "measures/library.rs"]
mod library;

use tamis::measure::{
    Amount, Cup, Interval, Measures, Mold, Outline, Pan, Pint, Quantity, Tablespoon, Unit, capacity, celsius,
    fahrenheit, gas_mark, nearest_gas_mark, pans_apart, read_number,
};
use uom::si::{
    area::square_inch,
    f64::{Length, ThermodynamicTemperature},
    length::{centimeter, inch},
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
    volume::milliliter,
};

/// Reads measures, joined by `plus`: `1 lb`, `2 to 3 cups`, `1 cup plus 2 tbsp`, `350 °F`, `gas mark 4`.
fn amounts(text: &str) -> Vec<Amount> {
    let amount = |text: &str| {
        let (number, unit) = match text.strip_prefix("gas mark ") {
            Some(mark) => (mark, "gas mark"),
            None => match text.strip_suffix(" fl oz") {
                Some(number) => (number, "fl oz"),
                None => text.rsplit_once(' ').unwrap_or_else(|| panic!("{text:?} has a number and a unit")),
            },
        };
        let number = read_number(number).unwrap_or_else(|fault| panic!("{text:?}: {fault:?}"));
        Amount::new(number, Some(Unit::find(unit).unwrap_or_else(|| panic!("{text:?} has a unit"))))
    };
    text.split(" plus ").map(amount).collect()
}

fn quantity(text: &str, measures: &Measures) -> Quantity {
    Amount::total(&amounts(text), measures).unwrap_or_else(|| panic!("{text:?} is of one kind"))
}

/// The number of `unit` in a quantity of one value.
fn number(quantity: &Quantity, unit: Unit, measures: &Measures) -> f64 {
    let number = quantity.number_of(unit, measures).unwrap_or_else(|| panic!("{quantity:?} in {}", unit.plural()));
    assert!(number.is_exact(), "{quantity:?}");
    number.least
}

/// To as many figures as the source prints, or to the last bit but a few where it is exact.
#[track_caller]
fn assert_close(found: f64, published: f64, off: f64, what: &str) {
    assert!((found - published).abs() <= off * published.abs(), "{what}: {found}, published {published}");
}

const EXACT: f64 = 1e-14;

fn us() -> Measures {
    Measures::default()
}

fn imperial() -> Measures {
    Measures { cup: Cup::Imperial, tablespoon: Tablespoon::Imperial, pint: Pint::Imperial, ..us() }
}

fn label() -> Measures {
    Measures { cup: Cup::UsLegal, tablespoon: Tablespoon::Metric, ..us() }
}

fn australian() -> Measures {
    Measures { cup: Cup::Metric, tablespoon: Tablespoon::Australian, pint: Pint::Imperial, ..us() }
}

/// NIST Handbook 44, Appendix C, section 4: 1 gallon (US) is 231 cubic inches, 1 inch 2.54 cm, 1 avoirdupois pound
/// 453.592 37 g, all exactly; the others are their exact parts.
#[test]
fn handbook_44_gives_the_us_customary_units_exactly() {
    let cubic_inch = 2.54_f64.powi(3);
    let table = [
        ("1 gallon", Unit::Millilitre, 231.0 * cubic_inch),
        ("1 quart", Unit::Millilitre, 57.75 * cubic_inch),
        ("1 pint", Unit::Millilitre, 28.875 * cubic_inch),
        ("1 gill", Unit::FluidOunce, 4.0),
        ("1 cup", Unit::FluidOunce, 8.0),
        ("1 cup", Unit::Pint, 0.5),
        ("1 fl oz", Unit::Millilitre, 231.0 / 128.0 * cubic_inch),
        ("1 tbsp", Unit::FluidOunce, 0.5),
        ("1 tbsp", Unit::Teaspoon, 3.0),
        ("1 cup", Unit::Tablespoon, 16.0),
        ("1 lb", Unit::Gram, 453.592_37),
        ("1 oz", Unit::Gram, 28.349_523_125),
        ("1 lb", Unit::Ounce, 16.0),
        ("1 foot", Unit::Inch, 12.0),
        ("1 inch", Unit::Centimetre, 2.54),
        ("1 l", Unit::Millilitre, 1_000.0),
        ("1 kg", Unit::Gram, 1_000.0),
        ("1 m", Unit::Centimetre, 100.0),
    ];
    for (text, unit, published) in table {
        assert_close(number(&quantity(text, &us()), unit, &us()), published, EXACT, text);
    }
}

/// NIST SP 811 (2008), Appendix B.8, factors to seven figures (from memory, and as the `uom` crate has them).
#[test]
fn sp_811_gives_the_factors_to_seven_figures() {
    let table = [
        ("1 cup", us(), Unit::Millilitre, 236.588_2),
        ("1 fl oz", us(), Unit::Millilitre, 29.573_53),
        ("1 fl oz", imperial(), Unit::Millilitre, 28.413_06),
        ("1 gallon", us(), Unit::Millilitre, 3_785.412),
        ("1 gallon", imperial(), Unit::Millilitre, 4_546.09),
        ("1 gill", us(), Unit::Millilitre, 118.294_1),
        ("1 gill", imperial(), Unit::Millilitre, 142.065_3),
        ("1 pint", us(), Unit::Millilitre, 473.176_5),
        ("1 quart", us(), Unit::Millilitre, 946.352_9),
        ("1 tbsp", us(), Unit::Millilitre, 14.786_76),
        ("1 tsp", us(), Unit::Millilitre, 4.928_922),
        ("1 oz", us(), Unit::Gram, 28.349_52),
        ("1 lb", us(), Unit::Gram, 453.592_4),
        ("1 foot", us(), Unit::Centimetre, 30.48),
        ("1 inch", us(), Unit::Centimetre, 2.54),
        ("1 hour", us(), Unit::Second, 3_600.0),
        ("1 day", us(), Unit::Second, 86_400.0),
    ];
    for (text, measures, unit, published) in table {
        assert_close(number(&quantity(text, &measures), unit, &measures), published, 5e-7, text);
    }
}

/// Units of Measurement Regulations 1995 (UK), schedule: the gallon is 4.546 09 dm³, the quart 1.136 522 5, the pint
/// 0.568 261 25, the gill 0.142 065 312 5, the fluid ounce 0.028 413 062 5 (from memory).
#[test]
fn the_uk_regulations_give_the_imperial_units_exactly() {
    let table = [
        ("1 gallon", 4_546.09),
        ("1 quart", 1_136.522_5),
        ("1 pint", 568.261_25),
        ("1 gill", 142.065_312_5),
        ("1 fl oz", 28.413_062_5),
        // Half a pint, by custom: metricviews.uk/2023/07/14/kitchen-utensil-names-in-recipes.
        ("1 cup", 284.130_625),
        ("1 dessertspoon", 10.0),
    ];
    for (text, published) in table {
        let found = number(&quantity(text, &imperial()), Unit::Millilitre, &imperial());
        assert_close(found, published, EXACT, text);
    }
}

/// 21 CFR 101.9(b)(5)(viii), as quoted at ucum.org/trac/ticket/120.
#[test]
fn labels_have_round_spoons_and_cups() {
    for (text, published) in [("1 tsp", 5.0), ("1 tbsp", 15.0), ("1 cup", 240.0)] {
        assert_close(number(&quantity(text, &label()), Unit::Millilitre, &label()), published, EXACT, text);
    }
}

/// Standards Australia's metric set: cup 250 ml, tablespoon 20 ml, teaspoon 5 ml (healthykids.nsw.gov.au, conversion chart).
#[test]
fn an_australian_tablespoon_holds_four_teaspoons() {
    let house = australian();
    for (text, published) in [("1 cup", 250.0), ("1 tbsp", 20.0), ("1 tsp", 5.0)] {
        assert_close(number(&quantity(text, &house), Unit::Millilitre, &house), published, EXACT, text);
    }
    assert_close(number(&quantity("1 tbsp", &house), Unit::Teaspoon, &house), 4.0, EXACT, "tablespoon");
}

/// NIST SP 811, Appendix B.8: t/°C = (t/°F − 32)/1.8; the fixed points of water are common knowledge.
#[test]
fn temperatures_convert_with_their_zero() {
    for (in_fahrenheit, in_celsius) in [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0), (350.0, 1_590.0 / 9.0)] {
        assert!((fahrenheit(in_fahrenheit).get::<degree_celsius>() - in_celsius).abs() < 1e-9);
        assert!((celsius(in_celsius).get::<degree_fahrenheit>() - in_fahrenheit).abs() < 1e-9);
    }
}

/// cookingconversions.org/oventemperatures.htm: the gas mark, its °F, and the °C printed beside it.
const OVENS: [(f64, f64, f64, f64); 12] = [
    (0.25, 225.0, 105.0, 110.0),
    (0.5, 250.0, 120.0, 130.0),
    (1.0, 275.0, 135.0, 140.0),
    (2.0, 300.0, 150.0, 150.0),
    (3.0, 325.0, 160.0, 170.0),
    (4.0, 350.0, 175.0, 180.0),
    (5.0, 375.0, 190.0, 190.0),
    (6.0, 400.0, 200.0, 205.0),
    (7.0, 425.0, 220.0, 220.0),
    (8.0, 450.0, 230.0, 230.0),
    (9.0, 475.0, 240.0, 245.0),
    (10.0, 500.0, 260.0, 260.0),
];

#[test]
fn gas_marks_are_those_of_the_oven_table() {
    for (mark, in_fahrenheit, low, high) in OVENS {
        assert!((gas_mark(mark).get::<degree_fahrenheit>() - in_fahrenheit).abs() < 1e-9, "gas mark {mark}");
        let same = |heat: ThermodynamicTemperature| assert_eq!(nearest_gas_mark(heat), Some(mark), "gas mark {mark}");
        same(fahrenheit(in_fahrenheit));
        same(celsius(low));
        same(celsius(high));
    }
    assert_eq!(nearest_gas_mark(fahrenheit(165.0)), None);
    assert_eq!(nearest_gas_mark(fahrenheit(600.0)), None);
}

fn centimetres(lengths: &[f64]) -> Vec<Length> {
    lengths.iter().map(|length| Length::new::<centimeter>(*length)).collect()
}

fn inches(lengths: &[f64]) -> Vec<Length> {
    lengths.iter().map(|length| Length::new::<inch>(*length)).collect()
}

/// Pans to the rim, in cups, as US newspapers and extension services print them
/// (news-journalonline.com/story/lifestyle/food/2016/09/27/know-volume-of-your-baking-pans; studylib.net/doc/18320804).
/// Real pans slope and tables round: upright geometry holds up to a fifth more.
#[test]
fn pans_hold_what_the_tables_say() {
    let table: [(&[f64], bool, f64); 8] = [
        (&[6.0, 2.0], false, 4.0),
        (&[8.0, 2.0], false, 6.0),
        (&[9.0, 2.0], false, 8.0),
        (&[10.0, 2.0], false, 10.5),
        (&[9.0, 2.5], false, 10.0),
        (&[8.0, 8.0, 2.0], true, 8.0),
        (&[9.0, 9.0, 2.0], true, 10.0),
        (&[13.0, 9.0, 2.0], false, 14.0),
    ];
    for (dimensions, square, cups) in table {
        let pan = Pan::from_dimensions(&inches(dimensions), square).expect("a pan");
        let volume = pan.volume(Length::new::<inch>(2.0)).get::<milliliter>() / Cup::UsCustomary.millilitres();
        assert!((0.95 * cups..=1.2 * cups).contains(&volume), "{dimensions:?} holds {volume} cups, printed {cups}");
    }
}

/// The same tables, looked up by what a manuscript says of a pan, in inches or in the centimetres printed beside them. What is
/// published lies within what its sides can hold: never above upright sides (but for the rounding of centimetres), and no more than 45 % below them, as a pie plate is.
#[test]
fn a_pan_is_found_in_the_tables_by_its_sides() {
    type Row = (Mold, &'static [f64], &'static [f64], f64, f64);
    let table: [Row; 9] = [
        (Mold::Round, &[9.0, 2.0], &[23.0, 5.0], 8.0, 8.0),
        (Mold::Round, &[10.0, 2.0], &[25.0, 5.0], 10.0, 11.0),
        (Mold::Springform, &[9.0, 3.0], &[23.0, 8.0], 12.0, 12.0),
        (Mold::Square, &[8.0, 8.0, 2.0], &[20.0, 20.0, 5.0], 8.0, 8.0),
        (Mold::Square, &[8.0, 2.0], &[20.0, 5.0], 8.0, 8.0),
        (Mold::Rectangular, &[9.0, 13.0, 2.0], &[23.0, 33.0, 5.0], 12.0, 14.0),
        (Mold::Loaf, &[8.5, 4.5, 2.5], &[21.0, 11.0, 6.0], 6.0, 6.0),
        (Mold::Loaf, &[9.0, 5.0, 3.0], &[23.0, 13.0, 8.0], 8.0, 8.0),
        (Mold::Pie, &[9.0, 1.5], &[23.0, 4.0], 4.0, 5.0),
    ];
    for (mold, in_inches, in_centimetres, least, most) in table {
        for sides in [inches(in_inches), centimetres(in_centimetres)] {
            let found = capacity(mold, &sides).unwrap_or_else(|| panic!("{mold:?} {sides:?}"));
            assert_eq!(found.depth, None, "{mold:?} {sides:?}");
            assert_eq!(found.cups, Interval::between(least, most), "{mold:?} {sides:?}");
            let pan = Pan::from_dimensions(&sides, mold == Mold::Square).expect("a pan");
            let upright = pan.volume(Length::new::<inch>(2.0)).get::<milliliter>() / Cup::UsCustomary.millilitres();
            assert!((0.55 * upright..=1.05 * upright).contains(&least), "{mold:?} {sides:?}: {upright}");
        }
    }
    let shallow = capacity(Mold::Round, &inches(&[9.0])).expect("the usual one");
    assert_eq!((shallow.cups, shallow.depth), (Interval::exactly(8.0), Some(Length::new::<inch>(2.0))));
    let unknown = [
        (Mold::Round, &[9.0, 9.0, 9.0][..]),
        (Mold::Loaf, &[9.0]),
        (Mold::Tube, &[6.0, 3.0]),
        (Mold::Rectangular, &[10.0, 14.0, 3.0]),
    ];
    for (mold, sides) in unknown {
        assert_eq!(capacity(mold, &inches(sides)), None, "{mold:?} {sides:?}");
    }
}

/// Areas by which bakers swap pans: 8-inch round 50 square inches, 9-inch round 64, 8-inch square 64, 9 x 13 117
/// (common practice; arithmetic).
#[test]
fn pans_have_the_areas_that_bakers_swap_them_by() {
    let area = |dimensions: &[f64], square| {
        Pan::from_dimensions(&inches(dimensions), square).expect("a pan").area().get::<square_inch>().round()
    };
    assert_eq!(area(&[8.0], false), 50.0);
    assert_eq!(area(&[9.0], false), 64.0);
    assert_eq!(area(&[8.0], true), 64.0);
    assert_eq!(area(&[9.0, 13.0], false), 117.0);
    assert_eq!(area(&[9.0, 1.5], false), 64.0, "a small second figure is the depth");
    assert_eq!(Pan::from_dimensions(&inches(&[0.0]), false), None);
    assert_eq!(Pan::from_dimensions(&[], false), None);
    let depth = Pan::from_dimensions(&inches(&[9.0, 13.0, 2.0]), false).and_then(|pan| pan.depth);
    assert_eq!(depth, Some(Length::new::<inch>(2.0)));
    assert!(matches!(
        Pan::from_dimensions(&inches(&[8.0]), true).map(|pan| pan.outline),
        Some(Outline::Rectangular(long, wide)) if long == wide
    ));
}

/// Inches and the centimetres printed beside them in US books (common practice, no source); `9 in (20 cm)` is the slip.
#[test]
fn pans_in_centimetres_are_told_from_other_pans() {
    let apart = |one: &[f64], other: &[f64]| pans_apart(&inches(one), &centimetres(other)).expect("as many").abs();
    let same: [(&[f64], &[f64]); 9] = [
        (&[6.0], &[15.0]),
        (&[7.0], &[18.0]),
        (&[8.0], &[20.0]),
        (&[9.0], &[23.0]),
        (&[10.0], &[25.0]),
        (&[12.0], &[30.0]),
        (&[9.0, 13.0], &[33.0, 23.0]),
        (&[8.5, 4.5], &[21.5, 11.5]),
        (&[9.0, 5.0], &[23.0, 13.0]),
    ];
    for (one, other) in same {
        assert!(apart(one, other) < 0.03, "{one:?} in and {other:?} cm");
    }
    assert!(apart(&[9.0], &[20.0]) > 0.12);
    assert!(apart(&[9.0, 13.0], &[23.0, 28.0]) > 0.12);
    assert_eq!(pans_apart(&inches(&[9.0]), &centimetres(&[23.0, 33.0])), None);
}
