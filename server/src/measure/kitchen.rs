//! Quantities as a kitchen measures them: rounded to what its scales, spoons and ovens can show, in units it would choose.

use uom::si::{
    f64::MassDensity, length::centimeter, mass::gram, thermodynamic_temperature::degree_celsius, time::minute,
    volume::milliliter,
};

use super::{Amount, Interval, Measures, Quantity, System, Unit};

/// How far a single measure may be off before two are joined: `1 cup plus 2 tbsp` rather than `1 cup`.
const CLOSE_ENOUGH: f64 = 0.04;

/// The largest number (not included) to which a step applies, and the step.
type Steps = &'static [(f64, f64)];

const ANY: f64 = f64::INFINITY;

/// The steps in which a kitchen measures. Common practice, no source; the metric steps give what US and British books print
/// beside customary measures (113 g as 115, 237 ml as 240, 473 ml as 475, 9 in as 23 cm).
fn steps(unit: Unit) -> Steps {
    match unit {
        Unit::Gram => &[(1.0, 0.1), (10.0, 0.5), (50.0, 1.0), (250.0, 5.0), (500.0, 10.0), (ANY, 25.0)],
        Unit::Kilogram => &[(0.5, 0.01), (ANY, 0.05)],
        Unit::Milligram => &[(10.0, 1.0), (100.0, 5.0), (ANY, 50.0)],
        Unit::Millilitre => {
            &[(2.0, 0.25), (10.0, 0.5), (40.0, 1.0), (200.0, 5.0), (400.0, 10.0), (1_000.0, 25.0), (ANY, 50.0)]
        }
        Unit::Centilitre => &[(4.0, 0.1), (20.0, 0.5), (ANY, 1.0)],
        Unit::Decilitre => &[(2.0, 0.05), (4.0, 0.1), (ANY, 0.25)],
        Unit::Litre => &[(0.4, 0.01), (1.0, 0.025), (2.0, 0.05), (ANY, 0.1)],
        Unit::Teaspoon => &[(0.09, 0.03125), (1.0, 0.125), (3.0, 0.25), (ANY, 0.5)],
        Unit::Tablespoon | Unit::Dessertspoon | Unit::Jigger | Unit::Foot => &[(ANY, 0.5)],
        Unit::Ounce | Unit::FluidOunce => &[(0.5, 0.01), (8.0, 0.25), (ANY, 0.5)],
        Unit::Pound | Unit::Gill | Unit::Pint | Unit::Quart | Unit::Gallon => &[(ANY, 0.25)],
        Unit::Millimetre => &[(ANY, 1.0)],
        Unit::Centimetre => &[(1.5, 0.1), (15.0, 0.5), (ANY, 1.0)],
        Unit::Metre => &[(ANY, 0.05)],
        Unit::Inch => &[(2.0, 0.125), (6.0, 0.25), (ANY, 0.5)],
        Unit::DegreeCelsius => &[(100.0, 1.0), (ANY, 5.0)],
        Unit::DegreeFahrenheit | Unit::Degree => &[(200.0, 1.0), (ANY, 5.0)],
        Unit::Second => &[(10.0, 1.0), (ANY, 5.0)],
        Unit::Minute => &[(20.0, 1.0), (ANY, 5.0)],
        Unit::Hour => &[(ANY, 0.25)],
        _ => &[(10.0, 0.5), (ANY, 1.0)],
    }
}

/// A number of `unit`, rounded to what a kitchen can measure: grams to 1, 5, 10 or 25 by size, cups to the quarters and thirds
/// of a set, oven degrees to 5 °C and 25 °F. Never down to nothing.
pub fn round_number(number: f64, unit: Unit) -> f64 {
    let rounded = match unit {
        Unit::Cup => round_cups(number),
        Unit::DegreeFahrenheit if number >= 200.0 => round_oven_fahrenheit(number),
        Unit::GasMark => return number,
        _ => {
            let step = steps(unit).iter().find(|(below, _)| number.abs() < *below).map_or(1.0, |(_, step)| *step);
            to_step(number, step)
        }
    };
    if rounded == 0.0 { number } else { rounded }
}

/// To the nearest multiple of `step`, without the dust of binary fractions: 0.3, not 0.30000000000000004.
fn to_step(number: f64, step: f64) -> f64 {
    if step < 1.0 { (number / step).round() / (1.0 / step).round() } else { (number / step).round() * step }
}

/// To the nearest quarter or third of a cup, whichever is nearer.
fn round_cups(cups: f64) -> f64 {
    let (quarters, thirds) = (to_step(cups, 0.25), (cups * 3.0).round() / 3.0);
    if (cups - quarters).abs() <= (cups - thirds).abs() { quarters } else { thirds }
}

/// To the 25 °F of an oven dial where one is within 10 °F, else to 5 °F.
fn round_oven_fahrenheit(degrees: f64) -> f64 {
    let dial = to_step(degrees, 25.0);
    if (degrees - dial).abs() <= 10.0 { dial } else { to_step(degrees, 5.0) }
}

/// A quantity as a kitchen of that system would measure it, in as few joined amounts as come close: `[1 cup, 2 tbsp]`,
/// `[1.35 kg]`, `[1 lb, 2 oz]`. Times, counts and loose measures belong to no system and come back in their own units.
pub fn kitchen_amounts(quantity: &Quantity, system: System, measures: &Measures) -> Vec<Amount> {
    let rounded = |unit| amount_in(quantity, unit, measures);
    match (quantity, system) {
        (Quantity::Volume(volume), System::Metric) => {
            let largest = volume.most.unwrap_or(volume.least).get::<milliliter>();
            rounded(if round_number(largest, Unit::Millilitre) < 1000.0 { Unit::Millilitre } else { Unit::Litre })
        }
        (Quantity::Weight(weight), System::Metric) => {
            let largest = weight.most.unwrap_or(weight.least).get::<gram>();
            rounded(if round_number(largest, Unit::Gram) < 1000.0 { Unit::Gram } else { Unit::Kilogram })
        }
        (Quantity::Length(length), System::Metric) => {
            rounded(if length.least.get::<centimeter>() < 1.45 { Unit::Millimetre } else { Unit::Centimetre })
        }
        (Quantity::Temperature(_), System::Metric) => rounded(Unit::DegreeCelsius),
        (Quantity::Volume(_), System::Customary) => cups_and_spoons(quantity, measures),
        (Quantity::Weight(_), System::Customary) => pounds_and_ounces(quantity, measures),
        (Quantity::Length(_), System::Customary) => rounded(Unit::Inch),
        (Quantity::Temperature(_), System::Customary) => rounded(Unit::DegreeFahrenheit),
        (Quantity::Time(_), _) => hours_and_minutes(quantity, measures),
        (Quantity::Count { count, unit }, _) => vec![Amount::new(*count, *unit)],
        (Quantity::Loose { count, unit }, _) => vec![Amount::new(*count, Some(*unit))],
    }
}

/// The quantity in one unit, rounded.
fn amount_in(quantity: &Quantity, unit: Unit, measures: &Measures) -> Vec<Amount> {
    let number = quantity.number_of(unit, measures).map(|number| number.map(|end| round_number(end, unit)));
    number.map(|number| Amount::new(number, Some(unit))).into_iter().collect()
}

/// The value of a quantity that holds one value only, in `unit`.
fn exact_number(quantity: &Quantity, unit: Unit, measures: &Measures) -> Option<f64> {
    quantity.number_of(unit, measures).filter(Interval::is_exact).map(|number| number.least)
}

fn off(number: f64, rounded: f64) -> f64 {
    (rounded - number).abs() / number
}

/// `larger` and `smaller` of two units, or one alone where the other is nothing.
fn joined(larger: f64, larger_unit: Unit, smaller: f64, smaller_unit: Unit) -> Vec<Amount> {
    [(larger, larger_unit), (smaller, smaller_unit)]
        .into_iter()
        .filter(|(number, _)| *number > 0.0)
        .map(|(number, unit)| Amount::new(Interval::exactly(number), Some(unit)))
        .collect()
}

/// Teaspoons below a tablespoon, tablespoons below a quarter cup, cups from there, quarts from twelve cups on where they come
/// out even.
fn cups_and_spoons(quantity: &Quantity, measures: &Measures) -> Vec<Amount> {
    let number = |unit| quantity.number_of(unit, measures).map_or(0.0, |number| number.least);
    let (cups, quarts) = (number(Unit::Cup), number(Unit::Quart));
    let unit = match () {
        () if cups >= 12.0 && off(quarts, round_number(quarts, Unit::Quart)) < CLOSE_ENOUGH / 2.0 => Unit::Quart,
        () if cups >= 0.24 => Unit::Cup,
        () if number(Unit::Tablespoon) >= 0.98 => Unit::Tablespoon,
        () => Unit::Teaspoon,
    };
    match (unit, exact_number(quantity, unit, measures)) {
        (Unit::Cup | Unit::Tablespoon, Some(exact)) if off(exact, round_number(exact, unit)) > CLOSE_ENOUGH => {
            with_spoons(exact, unit, measures)
        }
        _ => amount_in(quantity, unit, measures),
    }
}

/// Cups with the tablespoons, or tablespoons with the teaspoons, that come closest together.
fn with_spoons(exact: f64, unit: Unit, measures: &Measures) -> Vec<Amount> {
    let each = |unit: Unit| measures.millilitres(unit.facts().size).unwrap_or(1.0);
    let (parts, spoon): (&[f64], Unit) = match unit {
        Unit::Cup => (&[0.0, 0.25, 1.0 / 3.0, 0.5, 2.0 / 3.0, 0.75], Unit::Tablespoon),
        _ => (&[0.0, 0.5], Unit::Teaspoon),
    };
    let spoons_each = each(unit) / each(spoon);
    let off = |(base, spoons): &(f64, f64)| off(exact, base + spoons / spoons_each);
    let pairs = parts.iter().map(|part| exact.floor() + part).filter(|base| *base > 0.0 && *base <= exact);
    let closest = pairs
        .map(|base| (base, ((exact - base) * spoons_each).round()))
        .filter(|(_, spoons)| *spoons <= 3.0)
        .min_by(|one, other| off(one).total_cmp(&off(other)));
    let (base, spoons) = closest.unwrap_or((round_number(exact, unit), 0.0));
    joined(base, unit, spoons, spoon)
}

/// Ounces below a pound, from there pounds to the quarter where that is close, else pounds and ounces.
fn pounds_and_ounces(quantity: &Quantity, measures: &Measures) -> Vec<Amount> {
    let ounces = quantity.number_of(Unit::Ounce, measures).map_or(0.0, |number| number.least);
    if round_number(ounces, Unit::Ounce) < 16.0 {
        return amount_in(quantity, Unit::Ounce, measures);
    }
    match exact_number(quantity, Unit::Pound, measures) {
        Some(pounds) if off(pounds, round_number(pounds, Unit::Pound)) > 0.75 * CLOSE_ENOUGH => {
            let ounces = ounces.round();
            joined((ounces / 16.0).floor(), Unit::Pound, ounces % 16.0, Unit::Ounce)
        }
        _ => amount_in(quantity, Unit::Pound, measures),
    }
}

/// Seconds below a minute, minutes below an hour, hours and minutes below two days, then days.
fn hours_and_minutes(quantity: &Quantity, measures: &Measures) -> Vec<Amount> {
    let Quantity::Time(time) = quantity else { return Vec::new() };
    let minutes = time.least.get::<minute>();
    let exact = time.most.is_some_and(|most| most <= time.least);
    let in_one = |unit| {
        let number = quantity.number_of(unit, measures);
        number.map(|number| Amount::new(number, Some(unit))).into_iter().collect()
    };
    if minutes < 1.0 {
        in_one(Unit::Second)
    } else if minutes < 60.0 {
        in_one(Unit::Minute)
    } else if minutes >= 48.0 * 60.0 {
        in_one(Unit::Day)
    } else if exact {
        let minutes = minutes.round();
        joined((minutes / 60.0).floor(), Unit::Hour, minutes % 60.0, Unit::Minute)
    } else {
        in_one(Unit::Hour)
    }
}

/// What an amount comes to in the other measures of a kitchen: cups and spoons, millilitres, grams, ounces; degrees and gas
/// marks; inches and centimetres. Between volume and weight only where the food's typical density is given.
pub fn equivalents(quantity: &Quantity, density: Option<MassDensity>, measures: &Measures) -> Vec<Vec<Amount>> {
    let both = |quantity: &Quantity| {
        [System::Customary, System::Metric].map(|system| kitchen_amounts(quantity, system, measures)).into_iter()
    };
    let mut found: Vec<Vec<Amount>> = both(quantity).collect();
    match quantity {
        Quantity::Volume(volume) => {
            if let Some(density) = density {
                found.extend(both(&Quantity::Weight(volume.map(|volume| volume * density))));
            }
        }
        Quantity::Weight(weight) => {
            if let Some(density) = density {
                found.extend(both(&Quantity::Volume(weight.map(|weight| weight / density))));
            }
        }
        Quantity::Temperature(heat) if heat.least.get::<degree_celsius>() >= 95.0 => {
            found.push(amount_in(quantity, Unit::GasMark, measures));
        }
        _ => {}
    }
    found.retain(|amounts| !amounts.is_empty());
    found.dedup();
    found
}

#[cfg(test)]
mod tests {
    use super::{
        super::{Style, print_amounts},
        *,
    };

    /// Reads `NUMBER UNIT`.
    fn quantity(text: &str) -> Quantity {
        let (number, unit) = text.rsplit_once(' ').unwrap_or_else(|| panic!("{text}"));
        let number = super::super::read_number(number).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
        Amount::new(number, Some(Unit::find(unit).unwrap_or_else(|| panic!("{text}")))).quantity(&Measures::default())
    }

    /// What a book prints beside a measure, by the styles of the trade (common practice, no source).
    #[test]
    fn a_kitchen_measures_in_what_it_has() {
        let table = [
            ("1 cup", "1 cup", "240 ml"),
            ("2 cups", "2 cups", "475 ml"),
            ("1/2 cup", "1/2 cup", "120 ml"),
            ("1/3 cup", "1/3 cup", "80 ml"),
            ("2/3 cup", "2/3 cup", "160 ml"),
            ("1/4 cup", "1/4 cup", "60 ml"),
            ("1 quart", "4 cups", "950 ml"),
            ("1 gallon", "4 quarts", "3.8 l"),
            ("1 tsp", "1 tsp", "5 ml"),
            ("1/2 tsp", "1/2 tsp", "2.5 ml"),
            ("1/4 tsp", "1/4 tsp", "1.25 ml"),
            ("1/16 tsp", "1/16 tsp", "0.25 ml"),
            ("1 tbsp", "1 tbsp", "15 ml"),
            ("3 tsp", "1 tbsp", "15 ml"),
            ("2 tbsp", "2 tbsp", "30 ml"),
            ("4 tbsp", "1/4 cup", "60 ml"),
            ("18 tbsp", "1 cup plus 2 tbsp", "270 ml"),
            ("4 tsp", "1 tbsp plus 1 tsp", "20 ml"),
            ("100 ml", "1/4 cup plus 3 tbsp", "100 ml"),
            ("500 ml", "2 cups plus 2 tbsp", "500 ml"),
            ("1 l", "4 1/4 cups", "1 l"),
            ("2 to 3 cups", "2 to 3 cups", "475 to 700 ml"),
            ("1 oz", "1 oz", "28 g"),
            ("4 oz", "4 oz", "115 g"),
            ("8 oz", "8 oz", "225 g"),
            ("1 lb", "1 lb", "450 g"),
            ("2 lb", "2 lb", "900 g"),
            ("3 lb", "3 lb", "1.35 kg"),
            ("5 lb", "5 lb", "2.25 kg"),
            ("18 oz", "1 lb 2 oz", "500 g"),
            ("120 g", "4 1/4 oz", "120 g"),
            ("500 g", "1 lb 2 oz", "500 g"),
            ("1 kg", "2 1/4 lb", "1 kg"),
            ("5 g", "0.18 oz", "5 g"),
            ("1 in", "1 in", "2.5 cm"),
            ("1/4 in", "1/4 in", "6 mm"),
            ("1/8 in", "1/8 in", "3 mm"),
            ("1 1/2 in", "1 1/2 in", "4 cm"),
            ("9 in", "9 in", "23 cm"),
            ("8 in", "8 in", "20 cm"),
            ("13 in", "13 in", "33 cm"),
            ("20 cm", "8 in", "20 cm"),
            ("22 cm", "8 1/2 in", "22 cm"),
            ("350 °F", "350°F", "175°C"),
            ("375 °F", "375°F", "190°C"),
            ("425 °F", "425°F", "220°C"),
            ("180 °C", "350°F", "180°C"),
            ("160 °C", "325°F", "160°C"),
            ("170 °C", "340°F", "170°C"),
            ("165 °F", "165°F", "74°C"),
            ("63 °C", "145°F", "63°C"),
            ("90 min", "1 h 30 min", "1 h 30 min"),
            ("40 to 45 min", "40 to 45 min", "40 to 45 min"),
            ("2 h", "2 h", "2 h"),
            ("3 days", "3 days", "3 days"),
            ("2 dozen", "24", "24"),
            ("2 pinches", "2 pinches", "2 pinches"),
        ];
        for (written, customary, metric) in table {
            let house = Measures::default();
            let print = |system| print_amounts(&kitchen_amounts(&quantity(written), system, &house), &Style::default());
            let printed = (print(System::Customary), print(System::Metric));
            assert_eq!(printed, (customary.to_owned(), metric.to_owned()), "{written}");
        }
    }

    #[test]
    fn equivalents_cross_from_volume_to_weight_by_the_density_only() {
        let house = Measures::default();
        let print = |quantity: &Quantity, density: Option<f64>| -> Vec<String> {
            let density = density.map(MassDensity::new::<uom::si::mass_density::gram_per_cubic_centimeter>);
            let found = equivalents(quantity, density, &house);
            found.iter().map(|amounts| print_amounts(amounts, &Style::default())).collect()
        };
        assert_eq!(print(&quantity("1 cup"), None), ["1 cup", "240 ml"]);
        assert_eq!(print(&quantity("1 cup"), Some(0.53)), ["1 cup", "240 ml", "4 1/2 oz", "125 g"]);
        assert_eq!(print(&quantity("125 g"), Some(0.53)), ["4 1/2 oz", "125 g", "1 cup", "240 ml"]);
        assert_eq!(print(&quantity("350 °F"), None), ["350°F", "175°C", "gas mark 4"]);
        assert_eq!(print(&quantity("165 °F"), None), ["165°F", "74°C"]);
        assert_eq!(print(&quantity("3 cloves"), None), ["3 cloves"]);
    }
}
