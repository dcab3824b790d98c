//! Amounts beside their restatements: those of the trade are let stand, those of slips are found.

use tamis::measure::{
    Amount, Comparison, Cup, Interval, Measures, Off, OtherMeasure, Pint, Tablespoon, Tolerances, UnitKind, Verdict,
    compare,
};
use uom::si::{f64::MassDensity, mass_density::gram_per_cubic_centimeter};

use super::{OVENS, amounts, australian, imperial, us};

fn verdict(written: &str, restated: &str, measures: &Measures) -> Verdict {
    match compare(&amounts(written), &amounts(restated), measures, None) {
        Comparison::Compared(agreement) => agreement.verdict(&Tolerances::default()),
        other => panic!("{written} ({restated}): {other:?}"),
    }
}

#[track_caller]
fn all_agree(table: &[(&str, &str)], measures: &Measures) {
    for (written, restated) in table {
        assert_eq!(verdict(written, restated, measures), Verdict::Agrees, "{written} ({restated})");
        assert_eq!(verdict(restated, written, measures), Verdict::Agrees, "{restated} ({written})");
    }
}

/// nist.gov/pml/owm/cooking-measurement-equivalencies: every pair that NIST prints. The roundings do not multiply up.
#[test]
fn the_equivalents_of_nist_agree() {
    let table = [
        ("1/4 tsp", "1.25 ml"),
        ("1/2 tsp", "2.5 ml"),
        ("1 tsp", "5 ml"),
        ("1 tbsp", "15 ml"),
        ("1 fl oz", "30 ml"),
        ("1/4 cup", "60 ml"),
        ("1/3 cup", "80 ml"),
        ("1/2 cup", "120 ml"),
        ("3/4 cup", "180 ml"),
        ("1 cup", "240 ml"),
        ("1 pint", "480 ml"),
        ("1 quart", "950 ml"),
        ("1/2 gallon", "1950 ml"),
        ("1 gallon", "3840 ml"),
        ("1 oz", "28 g"),
        ("1/4 lb", "114 g"),
        ("1 lb", "454 g"),
    ];
    all_agree(&table, &us());
}

/// NIST SP 430, table 1 (nist.gov/pml/owm/metric-household).
#[test]
fn the_household_weights_and_measures_agree() {
    let table = [
        ("1 tsp", "4.9 ml"),
        ("1/4 cup", "59 ml"),
        ("1/2 cup", "118 ml"),
        ("1 cup", "237 ml"),
        ("1 pint", "473 ml"),
        ("1 quart", "946 ml"),
        ("1 l", "4.23 cups"),
        ("1 l", "1.06 quarts"),
        ("1 l", "33.8 fl oz"),
    ];
    all_agree(&table, &us());
}

/// healthykids.nsw.gov.au/recipes/conversion-chart.
#[test]
fn the_australian_chart_agrees() {
    let table = [
        ("1 oz", "30 g"),
        ("4 oz", "125 g"),
        ("8 oz", "250 g"),
        ("1 lb", "500 g"),
        ("2 lb", "1 kg"),
        ("5 fl oz", "150 ml"),
        ("1 pint", "600 ml"),
        ("1 cup", "250 ml"),
        ("1 tbsp", "20 ml"),
    ];
    all_agree(&table, &australian());
}

/// What house styles print (common practice, no source).
#[test]
fn the_roundings_of_the_trade_agree() {
    let table = [
        ("1/8 tsp", "0.5 ml"),
        ("1/4 tsp", "1 ml"),
        ("1/2 tsp", "2 ml"),
        ("3/4 tsp", "4 ml"),
        ("2 tbsp", "30 ml"),
        ("1/3 cup", "75 ml"),
        ("2/3 cup", "150 ml"),
        ("2/3 cup", "160 ml"),
        ("3/4 cup", "175 ml"),
        ("1 cup", "235 ml"),
        ("1 cup", "225 ml"),
        ("2 cups", "475 ml"),
        ("1 quart", "1 l"),
        ("1 pint", "500 ml"),
        ("1 oz", "25 g"),
        ("2 oz", "50 g"),
        ("4 oz", "110 g"),
        ("4 oz", "115 g"),
        ("8 oz", "225 g"),
        ("16 oz", "500 g"),
        ("1 lb", "450 g"),
        ("2 lb plus 12 oz", "1.25 kg"),
        ("1 lb plus 4 oz", "570 g"),
        ("1 cup plus 2 tbsp", "270 ml"),
        ("2 to 3 tbsp", "30 to 45 ml"),
        ("1 to 2 lb", "450 to 900 g"),
        ("1 to 2 lb", "0.5 to 1 kg"),
        ("1 inch", "2.5 cm"),
        ("1/8 inch", "3 mm"),
        ("1/4 inch", "5 mm"),
        ("1/4 inch", "6 mm"),
        ("1/2 inch", "1 cm"),
        ("1/2 inch", "12 mm"),
        ("3/4 inch", "2 cm"),
        ("1 1/2 inches", "4 cm"),
        ("2 inches", "5 cm"),
        ("9 inches", "23 cm"),
        ("90 min", "1 1/2 hours"),
        ("170 °C", "325 °F"),
        ("350 °F", "gas mark 4"),
        ("165 °F", "74 °C"),
        ("240 °F", "115 °C"),
    ];
    all_agree(&table, &us());
    all_agree(
        &[("1 pint", "570 ml"), ("1 pint", "600 ml"), ("1/2 pint", "300 ml"), ("10 fl oz", "300 ml")],
        &imperial(),
    );
}

#[test]
fn every_row_of_the_oven_table_agrees() {
    for (mark, in_fahrenheit, low, high) in OVENS {
        let mark = format!("gas mark {mark}");
        let in_fahrenheit = format!("{in_fahrenheit} °F");
        for celsius in [low, high].map(|celsius| format!("{celsius} °C")) {
            all_agree(&[(&in_fahrenheit, &celsius), (&mark, &celsius), (&mark, &in_fahrenheit)], &us());
        }
    }
}

#[test]
fn a_slip_is_graded_by_how_far_it_misleads() {
    let table = [
        ("1 cup", "225 ml", Verdict::Agrees),
        ("1 cup", "260 ml", Verdict::Query),
        ("1 cup", "275 ml", Verdict::Misleading),
        ("1 cup", "300 ml", Verdict::Wrong),
        ("12 oz", "240 g", Verdict::Wrong),
        ("2 1/2 lb", "1.5 kg", Verdict::Wrong),
        ("1 lb", "400 g", Verdict::Query),
        ("3 tbsp", "15 ml", Verdict::Wrong),
        ("2 to 3 cups", "475 to 950 ml", Verdict::Wrong),
        ("9 inches", "20 cm", Verdict::Misleading),
        ("1 inch", "3 cm", Verdict::Misleading),
        ("350 °F", "190 °C", Verdict::Misleading),
        ("350 °F", "200 °C", Verdict::Wrong),
        ("180 °C", "gas mark 6", Verdict::Wrong),
        ("375 °F", "gas mark 4", Verdict::Misleading),
        ("90 min", "2 hours", Verdict::Wrong),
    ];
    for (written, restated, expected) in table {
        assert_eq!(verdict(written, restated, &us()), expected, "{written} ({restated})");
    }
}

#[test]
fn the_house_sets_what_it_puts_up_with() {
    let Comparison::Compared(agreement) = compare(&amounts("1 cup"), &amounts("250 ml"), &us(), None) else {
        panic!("two volumes")
    };
    let strict = Tolerances {
        same_kind: tamis::measure::Steps { query: None, misleading: 0.02, wrong: 0.05 },
        ..Default::default()
    };
    assert_eq!(agreement.verdict(&Tolerances::default()), Verdict::Query);
    assert_eq!(agreement.verdict(&strict), Verdict::Wrong);
    assert!(matches!(agreement.off, Off::Share(off) if (off - 0.0567).abs() < 0.0001));
}

#[test]
fn another_cup_spoon_or_pint_is_named() {
    let table = [
        ("2 cups", "500 ml", us(), Some(OtherMeasure::Cup(Cup::Metric))),
        ("1/2 cup", "125 ml", us(), Some(OtherMeasure::Cup(Cup::Metric))),
        ("500 ml", "2 cups", us(), Some(OtherMeasure::Cup(Cup::Metric))),
        ("1 cup", "285 ml", us(), Some(OtherMeasure::Cup(Cup::Imperial))),
        ("1 cup", "240 ml", australian(), Some(OtherMeasure::Cup(Cup::UsLegal))),
        ("1 tbsp", "20 ml", us(), Some(OtherMeasure::Tablespoon(Tablespoon::Australian))),
        ("1 tbsp", "15 ml", australian(), Some(OtherMeasure::Tablespoon(Tablespoon::Metric))),
        ("1 pint", "570 ml", us(), Some(OtherMeasure::Pint(Pint::Imperial))),
        ("1 pint", "475 ml", imperial(), Some(OtherMeasure::Pint(Pint::Us))),
        ("1 cup", "240 ml", us(), None),
        ("1 cup", "400 ml", us(), None),
        ("1 lb", "400 g", us(), None),
    ];
    for (written, restated, measures, other) in table {
        match compare(&amounts(written), &amounts(restated), &measures, None) {
            Comparison::Compared(agreement) => assert_eq!(agreement.other, other, "{written} ({restated})"),
            unlike => panic!("{written} ({restated}): {unlike:?}"),
        }
    }
}

/// All-purpose flour: 113 to 150 g a US cup, by how the cup is filled (common practice, no source).
#[test]
fn a_weight_inside_the_range_of_the_density_agrees() {
    let per_cup = |grams: f64| MassDensity::new::<gram_per_cubic_centimeter>(grams / 236.588_236_5);
    let flour = Interval::between(per_cup(113.0), per_cup(150.0));
    let table = [
        ("1 cup", "113 g", 0.0, Verdict::Agrees),
        ("1 cup", "120 g", 0.0, Verdict::Agrees),
        ("1 cup", "150 g", 0.0, Verdict::Agrees),
        ("1 cup", "165 g", 0.10, Verdict::Agrees),
        ("1 cup", "200 g", 1.0 / 3.0, Verdict::Misleading),
        ("1 cup", "230 g", 0.5333, Verdict::Wrong),
        ("1 cup", "50 g", -0.5575, Verdict::Wrong),
        ("2 to 3 cups", "240 to 360 g", 0.0, Verdict::Agrees),
        ("2 to 3 cups", "240 to 600 g", 1.0 / 3.0, Verdict::Misleading),
        ("1 cup plus 2 tbsp", "150 g", 0.0, Verdict::Agrees),
        ("120 g", "1 cup", 0.0, Verdict::Agrees),
        ("230 g", "1 cup", -0.5333, Verdict::Wrong),
    ];
    for (written, restated, off, expected) in table {
        match compare(&amounts(written), &amounts(restated), &us(), Some(&flour)) {
            Comparison::Compared(agreement) => {
                assert_eq!(agreement.verdict(&Tolerances::default()), expected, "{written} ({restated})");
                let Off::BeyondDensity(found) = agreement.off else { panic!("{written} ({restated}): {agreement:?}") };
                assert!((found - off).abs() < 1e-3, "{written} ({restated}): {found}");
            }
            unlike => panic!("{written} ({restated}): {unlike:?}"),
        }
    }
}

#[test]
fn what_cannot_be_compared_is_not() {
    let unknown = [
        ("1 cup", "120 g"),
        ("2 cloves", "10 g"),
        ("1 head", "10 cloves"),
        ("1 pinch", "0.3 g"),
        ("3 sticks", "20 cm"),
        ("180 °C", "160 °C"),
        ("400 °F", "375 °F"),
    ];
    for (written, restated) in unknown {
        let found = compare(&amounts(written), &amounts(restated), &us(), None);
        assert_eq!(found, Comparison::Unknown, "{written} ({restated})");
    }
    assert_eq!(compare(&[], &amounts("1 cup"), &us(), None), Comparison::Unknown);
    let weight_as_length = compare(&amounts("500 g"), &amounts("20 cm"), &us(), None);
    assert_eq!(weight_as_length, Comparison::OtherKind { written: UnitKind::Weight, restated: UnitKind::Length });
}

#[test]
fn degrees_without_a_scale_take_the_one_that_fits() {
    for (written, restated) in [("350 °", "180 °"), ("180 °", "350 °"), ("350 °F", "180 °"), ("180 °C", "350 °")]
    {
        assert_eq!(verdict(written, restated, &us()), Verdict::Agrees, "{written} ({restated})");
    }
}

#[test]
fn an_open_end_is_compared_at_its_lower_one() {
    let open = [Amount { number: Interval::at_least(2.0), ..amounts("2 cups")[0] }];
    let Comparison::Compared(agreement) = compare(&open, &amounts("475 ml"), &us(), None) else {
        panic!("two volumes")
    };
    assert_eq!(agreement.verdict(&Tolerances::default()), Verdict::Agrees);
}
