//! What an amount of a food weighs: by its density, by the weight of one, or because it says so.

use uom::si::f64::{Mass, Volume};

use super::food::{Density, Food, Form, Weight};
use crate::measure::{Interval, Quantity, Unit};

/// The source of a weight that is not looked up but stated by the recipe itself.
pub const STATED: &str = "as stated";

/// Units that a cook counts the same thing by, so that a figure for one serves the others. Common practice, no source.
const SAME_UNIT: &[&[&str]] = &[
    &["can", "tin"],
    &["packet", "package", "sachet", "envelope", "pack"],
    &["rasher", "slice", "strip"],
    &["head", "bulb"],
    &["stalk", "stick"],
    &["piece", "chunk", "one"],
    &["fillet", "one"],
    &["tub", "container", "carton"],
];

impl Food {
    /// What so much of it weighs, in a form if one is given. A size (`large`) tells what a bare number counts.
    ///
    /// Nothing where the larder has no figure for it, for loose measures, and for what is no measure of a food.
    ///
    /// ```
    /// # use tamis::{larder::larder, measure::{Amount, Interval, Measures}};
    /// # use uom::si::mass::gram;
    /// let two = Amount::new(Interval::exactly(2.0), None).quantity(&Measures::default());
    /// let eggs = larder().food("egg").unwrap().weigh(&two, None, Some("large")).unwrap();
    /// assert_eq!(eggs.typical.get::<gram>(), 100.0);
    /// ```
    pub fn weigh(&self, quantity: &Quantity, form: Option<&Form>, size: Option<&str>) -> Option<Weight> {
        match quantity {
            Quantity::Weight(weight) => Some(Weight::stated(weight)),
            Quantity::Volume(volume) => Some(form.map(|form| form.density).or(self.density)?.weigh(volume)),
            Quantity::Count { count, unit } => {
                let one = self.weight_of_one(*unit, size)?;
                Some(spanning(count, |count| one.times(count)))
            }
            _ => None,
        }
    }

    /// What one weighs: of a counted unit, of a size, or of what a bare number means.
    fn weight_of_one(&self, unit: Option<Unit>, size: Option<&str>) -> Option<Weight> {
        let Some(unit) = unit.map(Unit::name) else {
            return size.and_then(|size| self.each(size)).or_else(|| self.each("one")).or_else(|| self.each("medium"));
        };
        let others = SAME_UNIT.iter().filter(|same| same.contains(&unit)).flat_map(|same| same.iter());
        self.each(unit).or_else(|| others.filter_map(|other| self.each(other)).next())
    }
}

/// From the lightest that the least can weigh to the heaviest of the most; an open end is left where it starts.
fn spanning<Q: Copy + PartialOrd>(interval: &Interval<Q>, weight: impl Fn(Q) -> Weight) -> Weight {
    let least = weight(interval.least);
    let most = weight(interval.most.unwrap_or(interval.least));
    Weight { low: least.low, typical: (least.typical + most.typical) / 2.0, high: most.high, source: least.source }
}

impl Weight {
    /// A weight that is known because somebody says so.
    pub fn stated(weight: &Interval<Mass>) -> Self {
        spanning(weight, |mass| Weight { low: mass, typical: mass, high: mass, source: STATED })
    }
}

impl Density {
    /// What a volume of it weighs, from the lightest of the least to the heaviest of the most.
    pub fn weigh(&self, volume: &Interval<Volume>) -> Weight {
        spanning(volume, |volume| self.weight_of(volume))
    }
}
