//! Degrees and gas marks.
//!
//! Gas marks: 1 is 275 °F and each mark is 25 °F more; ¼ and ½ are 225 and 250 °F (the table printed with British ovens,
//! as at cookingconversions.org/oventemperatures.htm).

use std::ops::RangeInclusive;

use uom::si::{
    f64::ThermodynamicTemperature,
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
};

use super::measures::Scale;

/// One setting of an oven.
pub(super) struct Dial {
    pub gas_mark: f64,
    pub fahrenheit: f64,
    /// What is printed in °C beside it, from the least to the most.
    pub celsius: RangeInclusive<f64>,
}

const fn dial(gas_mark: f64, fahrenheit: f64, least: f64, most: f64) -> Dial {
    Dial { gas_mark, fahrenheit, celsius: least..=most }
}

/// The settings of an oven, as they are printed beside each other.
pub(super) const OVEN: [Dial; 12] = [
    dial(0.25, 225.0, 105.0, 110.0),
    dial(0.5, 250.0, 120.0, 130.0),
    dial(1.0, 275.0, 135.0, 140.0),
    dial(2.0, 300.0, 150.0, 150.0),
    dial(3.0, 325.0, 160.0, 170.0),
    dial(4.0, 350.0, 175.0, 180.0),
    dial(5.0, 375.0, 190.0, 190.0),
    dial(6.0, 400.0, 200.0, 205.0),
    dial(7.0, 425.0, 220.0, 220.0),
    dial(8.0, 450.0, 230.0, 230.0),
    dial(9.0, 475.0, 240.0, 245.0),
    dial(10.0, 500.0, 260.0, 260.0),
];

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

/// The gas mark for a temperature: ¼, ½, 1 … 10. The one that is printed beside its °C, else the nearest within 13 °F (half a
/// step); nothing where an oven has none.
pub fn nearest_gas_mark(temperature: ThermodynamicTemperature) -> Option<f64> {
    let (degrees, printed) = (temperature.get::<degree_fahrenheit>(), temperature.get::<degree_celsius>().round());
    let away = |dial: &Dial| (degrees - dial.fahrenheit).abs();
    let on_dial = OVEN.iter().find(|dial| away(dial) < 0.5);
    let beside = || OVEN.iter().find(|dial| dial.celsius.contains(&printed));
    let nearest = || OVEN.iter().find(|dial| away(dial) <= 13.0);
    on_dial.or_else(beside).or_else(nearest).map(|dial| dial.gas_mark)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn degrees_without_a_scale_are_the_house_s_unless_no_oven_is_so_hot() {
        assert_eq!(scale_of(180.0, Scale::Celsius), Scale::Celsius);
        assert_eq!(scale_of(180.0, Scale::Fahrenheit), Scale::Fahrenheit);
        assert_eq!(scale_of(350.0, Scale::Celsius), Scale::Fahrenheit);
    }

    #[test]
    fn a_pair_without_scales_is_read_as_it_fits() {
        assert_eq!(scales_of_pair(350.0, 180.0), Some((Scale::Fahrenheit, Scale::Celsius)));
        assert_eq!(scales_of_pair(180.0, 350.0), Some((Scale::Celsius, Scale::Fahrenheit)));
        assert_eq!(scales_of_pair(350.0, 220.0), None);
    }
}
