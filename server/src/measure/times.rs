//! An amount taken so many times, measured as a kitchen measures that.

use super::{
    Amount, Comparison, Interval, Measures, System, Tolerances, Unit, UnitKind, Verdict, compare, kitchen_amounts,
    round_number,
};

/// So near a count has to come to a half of one to be rounded to it: a third of an onion stays a third.
const NEAR: f64 = 0.05;

/// A stated amount taken `times` times: in its own unit where a kitchen would still measure it so, else in those that it would choose.
/// What is counted is rounded to halves where that comes near. Nothing for lengths, times and temperatures, which nobody takes twice.
pub fn times(stated: &[Amount], times: f64, measures: &Measures) -> Option<Vec<Amount>> {
    let all: Vec<Amount> = stated.iter().map(|one| Amount::new(one.number.times(times), one.unit)).collect();
    let total = Amount::total(&all, measures)?;
    match (total.kind(), all.as_slice()) {
        (UnitKind::Length | UnitKind::Time | UnitKind::Temperature, _) => None,
        (UnitKind::Count | UnitKind::Loose, [one]) => Some(vec![Amount::new(one.number.map(round_count), one.unit)]),
        (UnitKind::Count | UnitKind::Loose, _) => None,
        (_, [one]) => {
            let unit = one.unit?;
            let written = stated.first().map_or(1.0, |written| fineness(&written.number, unit));
            let rounded = |number: f64| if is_whole(number / written) { number } else { round_number(number, unit) };
            let own = vec![Amount::new(one.number.map(rounded), one.unit)];
            let usual = is_usual(one.number.least, unit).then_some(own);
            let kitchen = unit.system().map(|system| kitchen_amounts(&total, system, measures));
            let near = |rounded: &Vec<Amount>| agrees(&all, rounded, measures);
            Some(usual.into_iter().chain(kitchen).find(near).unwrap_or_else(|| all.clone()))
        }
        (_, several) => {
            let system = several.first()?.unit.and_then(Unit::system).unwrap_or(System::Customary);
            let kitchen = kitchen_amounts(&total, system, measures);
            Some(if agrees(&all, &kitchen, measures) { kitchen } else { all })
        }
    }
}

/// Whether a kitchen has a measure for so much of this unit: no seven teaspoons, no eighth of a cup, no 3000 g (common practice, no
/// source).
fn is_usual(number: f64, unit: Unit) -> bool {
    match unit {
        Unit::Teaspoon => number < 3.0,
        Unit::Tablespoon => (0.98..4.0).contains(&number),
        Unit::Cup => number >= 0.24,
        Unit::Ounce => number < 16.0,
        Unit::Pound => number >= 0.98,
        Unit::Gram | Unit::Millilitre => number < 1000.0,
        Unit::Kilogram | Unit::Litre => number >= 0.98,
        _ => true,
    }
}

/// In how large steps an author has written grams or millilitres: 240 ml in tens, 355 ml in fives, 113 g in single ones. What comes
/// out in such steps again needs no rounding: three times 1 cup (240 ml) are 720 ml, and two sticks (113 g each) are 226 g. Nothing
/// of other units comes out so by itself.
fn fineness(number: &Interval, unit: Unit) -> f64 {
    if !matches!(unit, Unit::Gram | Unit::Millilitre) {
        return f64::INFINITY;
    }
    let ends = [number.least, number.most.unwrap_or(number.least)];
    let steps = [10.0, 5.0, 1.0];
    steps.into_iter().find(|step| ends.iter().all(|end| is_whole(end / step))).unwrap_or(f64::INFINITY)
}

fn is_whole(number: f64) -> bool {
    number >= 1.0 && (number - number.round()).abs() < 1e-9
}

fn round_count(count: f64) -> f64 {
    let step = if count < 20.0 { 0.5 } else { 1.0 };
    let rounded = (count / step).round() * step;
    if (rounded - count).abs() <= NEAR * count { rounded } else { count }
}

/// Whether a rounding comes as near as the usual tolerances want a restatement to, at both ends of a range.
fn agrees(exact: &[Amount], rounded: &[Amount], measures: &Measures) -> bool {
    let ends: [fn(&Interval) -> f64; 2] = [|number| number.least, |number| number.most.unwrap_or(number.least)];
    ends.into_iter().all(|end| {
        let at = |amounts: &[Amount]| -> Vec<Amount> {
            amounts.iter().map(|one| Amount::new(Interval::exactly(end(&one.number)), one.unit)).collect()
        };
        let compared = compare(&at(exact), &at(rounded), measures, None);
        matches!(compared, Comparison::Compared(agreement) if agreement.verdict(&Tolerances::default()) == Verdict::Agrees)
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Style, print_amounts, read_number};
    use super::*;

    /// Reads `NUMBER UNIT`, or a bare number.
    fn amount(text: &str) -> Amount {
        let (number, unit) = match text.rsplit_once(' ').map(|(number, unit)| (number, Unit::find(unit))) {
            Some((number, Some(unit))) => (number, Some(unit)),
            _ => (text, None),
        };
        Amount::new(read_number(number).unwrap(), unit)
    }

    #[test]
    fn amounts_are_taken_as_a_cook_would_measure_them() {
        let table: &[(&str, f64, &str)] = &[
            ("1 cup", 2.0, "2 cups"),
            ("3/4 cup", 1.0 / 3.0, "1/4 cup"),
            ("1/2 cup", 0.25, "2 tbsp"),
            ("1 cup", 1.25, "1 1/4 cups"),
            ("1 tsp", 3.0, "1 tbsp"),
            ("1 1/2 tsp", 2.0, "1 tbsp"),
            ("1/2 tsp", 0.5, "1/4 tsp"),
            ("2 tbsp", 2.0, "1/4 cup"),
            ("1 tbsp", 0.5, "1 1/2 tsp"),
            ("2 to 3 tbsp", 2.0, "4 to 6 tbsp"),
            ("450 g", 2.0, "900 g"),
            ("450 g", 3.0, "1.35 kg"),
            ("100 g", 0.333, "33 g"),
            ("1 kg", 0.5, "500 g"),
            ("240 ml", 0.5, "120 ml"),
            ("240 ml", 3.0, "720 ml"),
            ("113 g", 2.0, "226 g"),
            ("355 ml", 1.0 / 3.0, "120 ml"),
            ("1 l", 0.5, "500 ml"),
            ("8 oz", 2.0, "1 lb"),
            ("1 lb", 0.5, "8 oz"),
            ("1 pint", 2.0, "2 pints"),
            ("3", 0.5, "1 1/2"),
            ("1", 1.0 / 3.0, "1/3"),
            ("4", 2.5, "10"),
            ("7", 1.5, "10 1/2"),
            ("3 cloves", 1.5, "4 1/2 cloves"),
            ("1 dozen", 2.0, "2 dozen"),
            ("1 pinch", 2.0, "2 pinches"),
        ];
        for (stated, by, expected) in table {
            let taken = times(&[amount(stated)], *by, &Measures::default()).unwrap();
            assert_eq!(print_amounts(&taken, &Style::default()), *expected, "{stated} × {by}");
        }
        let joined = times(&[amount("1 cup"), amount("2 tbsp")], 2.0, &Measures::default()).unwrap();
        assert_eq!(print_amounts(&joined, &Style::default()), "2 1/4 cups");
        for stated in ["9 in", "20 min", "350 °F"] {
            assert_eq!(times(&[amount(stated)], 2.0, &Measures::default()), None, "{stated}");
        }
    }
}
