use uom::si::{
    f64::{Length, Mass, MassDensity, ThermodynamicTemperature, Time, Volume},
    length::centimeter,
    mass::gram,
    thermodynamic_temperature::{degree_celsius, degree_fahrenheit},
    time::second,
    volume::milliliter,
};

use super::{
    Interval, Measures, Scale, Unit, UnitKind,
    heat::{celsius, fahrenheit, gas_mark, nearest_gas_mark, scale_of},
    unit_table::Size,
};

/// How much of something, with its dimension.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Quantity {
    /// By volume.
    Volume(Interval<Volume>),
    /// By weight.
    Weight(Interval<Mass>),
    /// By length.
    Length(Interval<Length>),
    /// A temperature.
    Temperature(Interval<ThermodynamicTemperature>),
    /// A time.
    Time(Interval<Time>),
    /// By number, of things that have a unit of their own (cans, cloves) or of the food itself.
    Count {
        /// How many.
        count: Interval,
        /// Of what; `None` for the food itself.
        unit: Option<Unit>,
    },
    /// By eye.
    Loose {
        /// How many.
        count: Interval,
        /// Of what: pinches, handfuls.
        unit: Unit,
    },
}

/// A number with its unit, as a manuscript has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// How many.
    pub number: Interval,
    /// Of what; `None` for a bare number.
    pub unit: Option<Unit>,
}

impl Amount {
    /// So many of a unit.
    pub fn new(number: Interval, unit: Option<Unit>) -> Self {
        Amount { number, unit }
    }

    /// What it is a measure of.
    pub fn kind(&self) -> UnitKind {
        self.unit.map_or(UnitKind::Count, Unit::kind)
    }

    /// How much it is, by the house's measures.
    pub fn quantity(&self, measures: &Measures) -> Quantity {
        let Some(unit) = self.unit else { return Quantity::Count { count: self.number, unit: None } };
        let heat = |read: fn(f64) -> ThermodynamicTemperature| Quantity::Temperature(self.number.map(read));
        match unit.facts().size {
            Size::Grams(grams) => Quantity::Weight(self.number.map(|number| Mass::new::<gram>(number * grams))),
            Size::Centimetres(cm) => Quantity::Length(self.number.map(|number| Length::new::<centimeter>(number * cm))),
            Size::Seconds(seconds) => Quantity::Time(self.number.map(|number| Time::new::<second>(number * seconds))),
            Size::Fahrenheit => heat(fahrenheit),
            Size::Celsius => heat(celsius),
            Size::Degrees => match scale_of(self.number.middle(), measures.scale) {
                Scale::Fahrenheit => heat(fahrenheit),
                Scale::Celsius => heat(celsius),
            },
            Size::GasMark => heat(gas_mark),
            Size::Count(count) => {
                let unit = if unit == Unit::Dozen { None } else { Some(unit) };
                Quantity::Count { count: self.number.times(count), unit }
            }
            Size::Loose => Quantity::Loose { count: self.number, unit },
            size => {
                let each = measures.millilitres(size).unwrap_or_default();
                Quantity::Volume(self.number.map(|number| Volume::new::<milliliter>(number * each)))
            }
        }
    }

    /// The sum of joined amounts, `1 cup plus 2 tbsp`; nothing where they are of several kinds, or none.
    pub fn total(parts: &[Amount], measures: &Measures) -> Option<Quantity> {
        let (first, others) = parts.split_first()?;
        others.iter().try_fold(first.quantity(measures), |sum, part| sum.plus(&part.quantity(measures)))
    }
}

impl Quantity {
    /// A volume in millilitres.
    pub fn millilitres(millilitres: Interval) -> Self {
        Quantity::Volume(millilitres.map(Volume::new::<milliliter>))
    }

    /// A weight in grams.
    pub fn grams(grams: Interval) -> Self {
        Quantity::Weight(grams.map(Mass::new::<gram>))
    }

    /// What it is a measure of.
    pub fn kind(&self) -> UnitKind {
        match self {
            Quantity::Volume(_) => UnitKind::Volume,
            Quantity::Weight(_) => UnitKind::Weight,
            Quantity::Length(_) => UnitKind::Length,
            Quantity::Temperature(_) => UnitKind::Temperature,
            Quantity::Time(_) => UnitKind::Time,
            Quantity::Count { .. } => UnitKind::Count,
            Quantity::Loose { .. } => UnitKind::Loose,
        }
    }

    /// Its number in millilitres, grams, centimetres, °C or seconds; how many of a count.
    pub(super) fn plain_number(&self) -> Option<Interval> {
        match self {
            Quantity::Volume(volume) => Some(volume.map(|volume| volume.get::<milliliter>())),
            Quantity::Weight(weight) => Some(weight.map(|weight| weight.get::<gram>())),
            Quantity::Length(length) => Some(length.map(|length| length.get::<centimeter>())),
            Quantity::Temperature(heat) => Some(heat.map(|heat| heat.get::<degree_celsius>())),
            Quantity::Time(time) => Some(time.map(|time| time.get::<second>())),
            Quantity::Count { count, .. } => Some(*count),
            Quantity::Loose { .. } => None,
        }
    }

    /// Both together; nothing where they can't be added: other kinds, other counted units, temperatures.
    pub fn plus(&self, other: &Quantity) -> Option<Quantity> {
        match (self, other) {
            (Quantity::Volume(mine), Quantity::Volume(theirs)) => Some(Quantity::Volume(mine.plus(theirs))),
            (Quantity::Weight(mine), Quantity::Weight(theirs)) => Some(Quantity::Weight(mine.plus(theirs))),
            (Quantity::Length(mine), Quantity::Length(theirs)) => Some(Quantity::Length(mine.plus(theirs))),
            (Quantity::Time(mine), Quantity::Time(theirs)) => Some(Quantity::Time(mine.plus(theirs))),
            (Quantity::Count { count: mine, unit }, Quantity::Count { count: theirs, unit: other })
                if unit == other =>
            {
                Some(Quantity::Count { count: mine.plus(theirs), unit: *unit })
            }
            (Quantity::Loose { count: mine, unit }, Quantity::Loose { count: theirs, unit: other })
                if unit == other =>
            {
                Some(Quantity::Loose { count: mine.plus(theirs), unit: *unit })
            }
            _ => None,
        }
    }

    /// What is left when `other` is taken away, never less than nothing; nothing where they can't be compared.
    pub fn minus(&self, other: &Quantity) -> Option<Quantity> {
        match (self, other) {
            (Quantity::Volume(mine), Quantity::Volume(theirs)) => Some(Quantity::Volume(mine.minus(theirs))),
            (Quantity::Weight(mine), Quantity::Weight(theirs)) => Some(Quantity::Weight(mine.minus(theirs))),
            (Quantity::Length(mine), Quantity::Length(theirs)) => Some(Quantity::Length(mine.minus(theirs))),
            (Quantity::Time(mine), Quantity::Time(theirs)) => Some(Quantity::Time(mine.minus(theirs))),
            (Quantity::Count { count: mine, unit }, Quantity::Count { count: theirs, unit: other })
                if unit == other =>
            {
                Some(Quantity::Count { count: mine.minus(theirs), unit: *unit })
            }
            _ => None,
        }
    }

    /// As much as a share or a count of it; a temperature stays as it is.
    pub fn scaled(&self, by: &Interval) -> Quantity {
        match self {
            Quantity::Volume(volume) => Quantity::Volume(volume.scaled(by)),
            Quantity::Weight(weight) => Quantity::Weight(weight.scaled(by)),
            Quantity::Length(length) => Quantity::Length(length.scaled(by)),
            Quantity::Temperature(temperature) => Quantity::Temperature(*temperature),
            Quantity::Time(time) => Quantity::Time(time.scaled(by)),
            Quantity::Count { count, unit } => Quantity::Count { count: count.scaled(by), unit: *unit },
            Quantity::Loose { count, unit } => Quantity::Loose { count: count.scaled(by), unit: *unit },
        }
    }

    /// The number of `unit` that makes it; nothing where the unit is of another kind. No rounding, but a gas mark is the
    /// nearest one.
    pub fn number_of(&self, unit: Unit, measures: &Measures) -> Option<Interval> {
        match (self, unit.facts().size) {
            (Quantity::Weight(weight), Size::Grams(grams)) => Some(weight.map(|weight| weight.get::<gram>() / grams)),
            (Quantity::Length(length), Size::Centimetres(cm)) => {
                Some(length.map(|length| length.get::<centimeter>() / cm))
            }
            (Quantity::Time(time), Size::Seconds(seconds)) => Some(time.map(|time| time.get::<second>() / seconds)),
            (Quantity::Temperature(heat), Size::Fahrenheit) => Some(heat.map(|heat| heat.get::<degree_fahrenheit>())),
            (Quantity::Temperature(heat), Size::Celsius) => Some(heat.map(|heat| heat.get::<degree_celsius>())),
            (Quantity::Temperature(heat), Size::Degrees) => Some(match measures.scale {
                Scale::Fahrenheit => heat.map(|heat| heat.get::<degree_fahrenheit>()),
                Scale::Celsius => heat.map(|heat| heat.get::<degree_celsius>()),
            }),
            (Quantity::Temperature(heat), Size::GasMark) => {
                let least = nearest_gas_mark(heat.least)?;
                match heat.most {
                    Some(most) => Some(Interval { least, most: Some(nearest_gas_mark(most)?) }),
                    None => Some(Interval::at_least(least)),
                }
            }
            (Quantity::Count { count, unit: None }, Size::Count(each)) if unit == Unit::Dozen => {
                Some(count.times(1.0 / each))
            }
            (Quantity::Count { count, unit: Some(mine) } | Quantity::Loose { count, unit: mine }, _)
                if *mine == unit =>
            {
                Some(*count)
            }
            (Quantity::Volume(volume), size) => {
                let each = measures.millilitres(size)?;
                Some(volume.map(|volume| volume.get::<milliliter>() / each))
            }
            _ => None,
        }
    }

    /// What this volume of a food weighs, over the whole range of its density; a weight stays as it is.
    pub fn weight(&self, density: &Interval<MassDensity>) -> Option<Interval<Mass>> {
        match self {
            Quantity::Weight(weight) => Some(*weight),
            Quantity::Volume(volume) => Some(Interval {
                least: volume.least * density.least,
                most: volume.most.zip(density.most).map(|(volume, density)| volume * density),
            }),
            _ => None,
        }
    }

    /// The volume that this weight of a food takes up, over the whole range of its density; a volume stays as it is.
    pub fn volume(&self, density: &Interval<MassDensity>) -> Option<Interval<Volume>> {
        match self {
            Quantity::Volume(volume) => Some(*volume),
            Quantity::Weight(weight) => {
                let densest = density.most?;
                Some(Interval { least: weight.least / densest, most: weight.most.map(|most| most / density.least) })
            }
            _ => None,
        }
    }
}
