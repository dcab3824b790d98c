//! What readers take loose measures to be.

use uom::si::{f64::Volume, volume::milliliter};

use super::{Interval, Unit};

/// What readers take one of a loose measure to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// From the least that anybody means to the most.
    pub volume: Interval<Volume>,
    /// Of what it is said, where that matters: `butter`, `leaves`.
    pub of: Option<&'static str>,
    /// Where the figure is from.
    pub source: &'static str,
}

const CUSTOM: &str = "common practice, no source";
const TABLE: &str = "table of old kitchen measures, iwanttolovemath.blogspot.com/2016/04/need-pinch.html";
const DROPS: &str = "measurement guide of b985.fm";
const USDA: &str = "USDA SR 01001: a pat of butter is 5 g; a cup 227 g";

/// A US teaspoon in millilitres.
const TSP: f64 = 4.928_921_593_75;
const TBSP: f64 = 3.0 * TSP;

/// What readers take one of a loose unit to be; nothing for other units, and for those that say nothing of a size
/// (a sprinkle of cheese, of salt).
pub fn taken_as(unit: Unit) -> Option<Taken> {
    let (least, most, of, source) = match unit {
        Unit::Pinch => (TSP / 24.0, TSP / 8.0, None, TABLE),
        Unit::Dash => (TSP / 16.0, TSP / 8.0, None, TABLE),
        Unit::Smidgen => (TSP / 32.0, TSP / 4.0, None, TABLE),
        Unit::Drop => (TSP / 120.0, TSP / 60.0, None, DROPS),
        Unit::Grating => (TSP / 32.0, TSP / 8.0, None, CUSTOM),
        Unit::Splash | Unit::Squeeze => (TSP, 2.0 * TSP, None, CUSTOM),
        Unit::Drizzle | Unit::Glug => (TBSP, 2.0 * TBSP, None, CUSTOM),
        Unit::Knob => (TBSP, 2.0 * TBSP, Some("butter"), CUSTOM),
        Unit::Pat => (5.0, 5.5, Some("butter"), USDA),
        Unit::Dollop => (TBSP, 2.0 * TBSP, None, CUSTOM),
        Unit::Spoonful => (TSP, TBSP, None, CUSTOM),
        Unit::Handful => (TBSP * 4.0, TBSP * 8.0, Some("leaves"), CUSTOM),
        Unit::Thumb => (TBSP, 1.5 * TBSP, Some("ginger, grated"), CUSTOM),
        _ => return None,
    };
    let volume = Interval::between(Volume::new::<milliliter>(least), Volume::new::<milliliter>(most));
    Some(Taken { volume, of, source })
}

#[cfg(test)]
mod tests {
    use super::{super::UnitKind, *};

    #[test]
    fn only_loose_units_are_taken_for_something() {
        for unit in Unit::all() {
            let loose = unit.kind() == UnitKind::Loose;
            assert_eq!(taken_as(unit).is_some(), loose && unit != Unit::Sprinkle, "{}", unit.name());
        }
    }
}
