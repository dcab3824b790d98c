//! Degrees and gas marks.
//!
//! Gas marks: 1 is 275 °F and each mark is 25 °F more; ¼ and ½ are 225 and 250 °F (the table printed with British ovens,
//! as at cookingconversions.org/oventemperatures.htm).

use uom::si::{
    f64::ThermodynamicTemperature,
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
};

use super::measures::Scale;

/// Above this many degrees a home oven is set in Fahrenheit: few go beyond 275 °C. Common practice, no source.
const HOTTEST_CELSIUS: f64 = 280.0;

/// A temperature in °F.
pub fn fahrenheit(degrees: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_fahrenheit>(degrees)
}

/// A temperature in °C.
pub fn celsius(degrees: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(degrees)
}

/// The temperature that a gas mark stands for. Between the marks, and beyond them, it goes on by the same steps.
pub fn gas_mark(mark: f64) -> ThermodynamicTemperature {
    fahrenheit(if mark >= 1.0 {
        250.0 + 25.0 * mark
    } else if mark >= 0.5 {
        250.0 + 50.0 * (mark - 0.5)
    } else {
        225.0 + 100.0 * (mark - 0.25)
    })
}

/// The gas mark nearest to a temperature: ¼, ½, 1 … 10. Nothing where no mark is within 13 °F (half a step) of it.
pub fn nearest_gas_mark(temperature: ThermodynamicTemperature) -> Option<f64> {
    let degrees = temperature.get::<degree_fahrenheit>();
    let step = ((degrees - 225.0) / 25.0).round();
    if (degrees - 225.0 - 25.0 * step).abs() > 13.0 {
        return None;
    }
    match step as i64 {
        0 => Some(0.25),
        1 => Some(0.5),
        2..=11 => Some(step - 1.0),
        _ => None,
    }
}

/// The scale of degrees that do not name theirs: what the house means, unless no oven is that hot in °C.
pub fn scale_of(degrees: f64, house: Scale) -> Scale {
    if degrees > HOTTEST_CELSIUS { Scale::Fahrenheit } else { house }
}

/// The scales of two temperatures side by side that name none, `350°/180°`: the reading in which they lie closer together.
/// Nothing where neither reading brings them within 10 °C.
pub fn scales_of_pair(one: f64, other: f64) -> Option<(Scale, Scale)> {
    let apart =
        |in_fahrenheit: f64, in_celsius: f64| (fahrenheit(in_fahrenheit).get::<degree_celsius>() - in_celsius).abs();
    let (first, second) = (apart(one, other), apart(other, one));
    if first.min(second) > 10.0 {
        None
    } else if first <= second {
        Some((Scale::Fahrenheit, Scale::Celsius))
    } else {
        Some((Scale::Celsius, Scale::Fahrenheit))
    }
}
