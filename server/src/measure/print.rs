//! Numbers, amounts and quantities as the house writes them.

use super::{Amount, Interval, Measures, Quantity, System, Unit, UnitKind, kitchen::round_number, numbers::GLYPHS};

/// How fractions are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum FractionStyle {
    /// `1 1/2`
    #[default]
    Slash,
    /// `1½`
    Glyph,
    /// `1.5`; thirds stay fractions, as no decimal is one
    Decimal,
}

/// How ranges are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum RangeStyle {
    /// `2 to 3`
    #[default]
    To,
    /// `2–3`, with an en dash
    Dash,
    /// `2-3`
    Hyphen,
}

/// How units are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum UnitStyle {
    /// `tbsp`
    #[default]
    Short,
    /// `tablespoons`
    Long,
}

/// How the house sets its measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Style {
    /// Fractions.
    pub fractions: FractionStyle,
    /// Ranges.
    pub ranges: RangeStyle,
    /// Units.
    pub units: UnitStyle,
}

/// How far a number may lie from a fraction of the measuring set to be written as it: well below half a 1/16.
const NEAR_FRACTION: f64 = 0.004;

/// The same for the fractions that two decimals come close to: 0.06 stays what it is, 0.0625 is 1/16.
const NEAR_SMALL_FRACTION: f64 = 0.0005;

/// A number with the fractions of a measuring set: `1 1/2`, `2/3`, `1/8`, and of a ruler: `3/16`; decimals for what is none
/// of them.
pub fn print_number(number: f64, style: FractionStyle) -> String {
    let (whole, rest) = (number.trunc(), number.fract());
    // What lies below zero is a temperature, and has no spoon.
    if number < 0.0 || !(NEAR_FRACTION..=1.0 - NEAR_FRACTION).contains(&rest) || !number.is_finite() {
        return print_decimal(number);
    }
    let fraction = [2.0, 3.0, 4.0, 8.0, 16.0, 32.0].into_iter().find_map(|under| {
        let over = (rest * under).round();
        let near = if under > 8.0 { NEAR_SMALL_FRACTION } else { NEAR_FRACTION };
        // Of the 32nds only 1/32 of a teaspoon has a spoon.
        let proper = over > 0.0 && over < under && (under < 32.0 || (whole == 0.0 && over == 1.0));
        (proper && (rest - over / under).abs() < near).then_some((over, under))
    });
    let Some((over, under)) = fraction.filter(|(_, under)| style != FractionStyle::Decimal || *under == 3.0) else {
        return print_decimal(number);
    };
    let glyph = GLYPHS.iter().find(|(_, glyph_over, glyph_under)| (*glyph_over, *glyph_under) == (over, under));
    match (style, glyph) {
        (FractionStyle::Glyph, Some((glyph, ..))) if whole == 0.0 => format!("{glyph}"),
        (FractionStyle::Glyph, Some((glyph, ..))) => format!("{whole}{glyph}"),
        _ if whole == 0.0 => format!("{over}/{under}"),
        _ => format!("{whole} {over}/{under}"),
    }
}

/// A number with decimals: two at most, three below a tenth, none that are zero.
pub fn print_decimal(number: f64) -> String {
    let places = if number.abs() < 0.1 { 3 } else { 2 };
    let scale = 10f64.powi(places);
    // Half a unit of the last place goes up, as a reader rounds.
    let text = format!("{:.*}", places.unsigned_abs() as usize, (number * scale).round() / scale);
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A number or a range before `unit`: fractions for cups and counts, decimals for grams and degrees.
pub fn print_interval(number: &Interval, unit: Option<Unit>, style: &Style) -> String {
    let decimals = unit
        .is_some_and(|unit| unit.system() == Some(System::Metric) || unit.kind() == UnitKind::Temperature)
        && unit != Some(Unit::GasMark);
    let print = |number| if decimals { print_decimal(number) } else { print_number(number, style.fractions) };
    let least = print(number.least);
    match number.most {
        None => format!("at least {least}"),
        Some(most) if print(most) == least => least,
        Some(most) if number.least == 0.0 && unit.is_none_or(|unit| unit.kind() != UnitKind::Temperature) => {
            format!("up to {}", print(most))
        }
        Some(most) => match style.ranges {
            RangeStyle::To => format!("{least} to {}", print(most)),
            RangeStyle::Dash => format!("{least}–{}", print(most)),
            RangeStyle::Hyphen => format!("{least}-{}", print(most)),
        },
    }
}

/// An amount, with no rounding but that of two decimals: `1 1/2 cups`, `250 g`, `375°F`, `gas mark 4`.
pub fn print_amount(amount: &Amount, style: &Style) -> String {
    let number = print_interval(&amount.number, amount.unit, style);
    let Some(unit) = amount.unit else { return number };
    let largest = amount.number.most.unwrap_or(f64::INFINITY);
    match (unit, style.units) {
        (Unit::GasMark, _) => format!("gas mark {number}"),
        (Unit::DegreeFahrenheit | Unit::DegreeCelsius | Unit::Degree, UnitStyle::Short) => {
            format!("{number}{}", unit.symbol())
        }
        (_, UnitStyle::Short) => format!("{number} {}", unit.symbol_for(largest)),
        (_, UnitStyle::Long) if largest > 1.0 => format!("{number} {}", unit.plural()),
        (_, UnitStyle::Long) => format!("{number} {}", unit.name()),
    }
}

/// Joined amounts: `1 cup plus 2 tbsp`, `1 lb 4 oz`, `1 h 20 min`.
pub fn print_amounts(parts: &[Amount], style: &Style) -> String {
    let by_volume = parts.iter().any(|part| part.kind() == UnitKind::Volume);
    let parts: Vec<String> = parts.iter().map(|part| print_amount(part, style)).collect();
    parts.join(if by_volume { " plus " } else { " " })
}

/// A quantity in `unit`, rounded as the kitchen rounds; nothing where the unit is of another kind.
pub fn print(quantity: &Quantity, unit: Unit, measures: &Measures, style: &Style) -> Option<String> {
    let number = quantity.number_of(unit, measures)?.map(|number| round_number(number, unit));
    Some(print_amount(&Amount::new(number, Some(unit)), style))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_as_a_cook_measures_them() {
        let table = [
            (0.5, "1/2", "½"),
            (1.5, "1 1/2", "1½"),
            (2.0 / 3.0, "2/3", "⅔"),
            (2.333_333, "2 1/3", "2⅓"),
            (0.125, "1/8", "⅛"),
            (0.375, "3/8", "⅜"),
            (3.0, "3", "3"),
            (2.9999, "3", "3"),
            (0.18, "0.18", "0.18"),
            (0.1, "0.1", "0.1"),
            (0.06, "0.06", "0.06"),
            (0.0625, "1/16", "1/16"),
            (0.03125, "1/32", "1/32"),
            (1.1875, "1 3/16", "1 3/16"),
            (0.44, "0.44", "0.44"),
            (1.05, "1.05", "1.05"),
            (-1.5, "-1.5", "-1.5"),
            (1500.0, "1500", "1500"),
            (0.0, "0", "0"),
        ];
        for (number, slash, glyph) in table {
            assert_eq!(print_number(number, FractionStyle::Slash), slash);
            assert_eq!(print_number(number, FractionStyle::Glyph), glyph);
        }
        let decimals = [(1.5, "1.5"), (2.0 / 3.0, "2/3"), (2.333_333, "2 1/3"), (0.125, "0.13"), (0.0625, "0.063")];
        for (number, decimal) in decimals {
            assert_eq!(print_number(number, FractionStyle::Decimal), decimal);
        }
    }

    #[test]
    fn amounts_are_written_as_the_house_writes_them() {
        let house = Style::default();
        let exactly = |number, unit| Amount::new(Interval::exactly(number), Some(unit));
        let range = |least, most, unit| Amount::new(Interval::between(least, most), Some(unit));
        let table = [
            (exactly(1.5, Unit::Cup), "1 1/2 cups"),
            (exactly(0.5, Unit::Cup), "1/2 cup"),
            (exactly(1.0, Unit::Cup), "1 cup"),
            (exactly(250.0, Unit::Gram), "250 g"),
            (exactly(1.35, Unit::Kilogram), "1.35 kg"),
            (exactly(0.5, Unit::Litre), "0.5 l"),
            (exactly(2.0, Unit::Tablespoon), "2 tbsp"),
            (exactly(375.0, Unit::DegreeFahrenheit), "375°F"),
            (exactly(-18.0, Unit::DegreeCelsius), "-18°C"),
            (exactly(4.0, Unit::GasMark), "gas mark 4"),
            (exactly(0.5, Unit::GasMark), "gas mark 1/2"),
            (exactly(9.0, Unit::Inch), "9 in"),
            (exactly(2.5, Unit::Centimetre), "2.5 cm"),
            (exactly(3.0, Unit::Leaf), "3 leaves"),
            (range(2.0, 3.0, Unit::Cup), "2 to 3 cups"),
            (range(0.5, 1.0, Unit::Cup), "1/2 to 1 cup"),
            (range(0.0, 3.0, Unit::Clove), "up to 3 cloves"),
            (range(0.0, 4.0, Unit::DegreeCelsius), "0 to 4°C"),
            (Amount::new(Interval::at_least(2.0), Some(Unit::Cup)), "at least 2 cups"),
            (Amount::new(Interval::exactly(4.0), None), "4"),
        ];
        for (amount, text) in table {
            assert_eq!(print_amount(&amount, &house), text);
        }
        let cup_and_spoons = [exactly(1.0, Unit::Cup), exactly(2.0, Unit::Tablespoon)];
        assert_eq!(print_amounts(&cup_and_spoons, &house), "1 cup plus 2 tbsp");
        assert_eq!(print_amounts(&[exactly(1.0, Unit::Pound), exactly(4.0, Unit::Ounce)], &house), "1 lb 4 oz");
        let long = Style { units: UnitStyle::Long, ranges: RangeStyle::Dash, fractions: FractionStyle::Glyph };
        assert_eq!(print_amounts(&cup_and_spoons, &long), "1 cup plus 2 tablespoons");
        assert_eq!(print_amount(&range(1.5, 2.0, Unit::Teaspoon), &long), "1½–2 teaspoons");
    }
}
