//! Whether an amount and its restatement say the same.

use std::borrow::Cow;

use uom::si::{
    f64::{Mass, MassDensity, Volume},
    mass::gram,
};

use super::{
    Amount, Cup, Interval, Measures, Pint, Quantity, Tablespoon, Unit, UnitKind, heat::scales_of_pair, usual::is_usual,
};

/// How far a restatement is off. Positive where it is more than what is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Off {
    /// The difference of two amounts of one kind, as a part of what is written: 0.05 is 5 %.
    Share(f64),
    /// As `Share`, beyond what the range of the food's density allows.
    BeyondDensity(f64),
    /// The difference of two temperatures in °C.
    Degrees(f64),
}

impl Off {
    /// The size of the difference, whichever way it goes.
    pub fn size(self) -> f64 {
        match self {
            Off::Share(off) | Off::BeyondDensity(off) | Off::Degrees(off) => off.abs(),
        }
    }
}

/// A measure of the house other than the house's own, under which a pair agrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OtherMeasure {
    /// With this cup.
    Cup(Cup),
    /// With this tablespoon (and its teaspoon).
    Tablespoon(Tablespoon),
    /// With this pint (and its fluid ounce, quart and gallon).
    Pint(Pint),
}

/// How an amount and its restatement compare.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Comparison {
    /// They measure different things: a weight restated as a length.
    OtherKind {
        /// What the amount measures.
        written: UnitKind,
        /// What the restatement measures.
        restated: UnitKind,
    },
    /// Nothing can be said: a count beside a weight, a volume beside a weight of unknown density, a loose measure, a fan
    /// oven's setting beside a conventional one's.
    Unknown,
    /// They measure the same thing.
    Compared(Agreement),
}

/// How well an amount and its restatement agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Agreement {
    /// How far they are apart; nothing where they overlap.
    pub off: Off,
    /// Whether the pair is one that the trade rounds to, however far apart.
    pub usual: bool,
    /// The one other cup, tablespoon or pint under which they would agree closely, where the house's own does not.
    pub other: Option<OtherMeasure>,
}

/// From which difference on a disagreement is worth a query, misleads, and makes the recipe wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// Above this an editor would ask; `None` if that is never worth asking.
    pub query: Option<f64>,
    /// Above this it misleads.
    pub misleading: f64,
    /// Above this it is wrong.
    pub wrong: f64,
}

/// The differences that a house puts up with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerances {
    /// Two measures of one kind, as a part of what is written.
    pub same_kind: Steps,
    /// A volume and a weight, beyond the range of the density.
    pub by_density: Steps,
    /// Two temperatures, in °C.
    pub degrees: Steps,
}

impl Default for Tolerances {
    fn default() -> Self {
        Tolerances {
            same_kind: Steps { query: Some(0.05), misleading: 0.125, wrong: 0.25 },
            by_density: Steps { query: None, misleading: 0.20, wrong: 0.50 },
            degrees: Steps { query: None, misleading: 6.0, wrong: 15.0 },
        }
    }
}

/// What a difference means to whoever cooks from the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Nothing to say.
    Agrees,
    /// An editor would ask.
    Query,
    /// It will mislead some readers.
    Misleading,
    /// One of the two is wrong.
    Wrong,
}

impl Agreement {
    /// The difference, weighed by what the house puts up with.
    pub fn verdict(&self, tolerances: &Tolerances) -> Verdict {
        let steps = match self.off {
            Off::Share(_) => &tolerances.same_kind,
            Off::BeyondDensity(_) => &tolerances.by_density,
            Off::Degrees(_) => &tolerances.degrees,
        };
        match self.off.size() {
            _ if self.usual => Verdict::Agrees,
            off if off > steps.wrong => Verdict::Wrong,
            off if off > steps.misleading => Verdict::Misleading,
            off if steps.query.is_some_and(|query| off > query) => Verdict::Query,
            _ => Verdict::Agrees,
        }
    }
}

/// Below this difference two amounts are the same but for the rounding of one of them: 237 and 240 ml are 1.4 % apart.
const CLOSE: f64 = 0.02;

/// Temperatures this far apart (in °C) in one scale are a conventional oven's and a fan oven's: 20 °C or 25 °F are usual, up to
/// 50 °F printed. healthykids.nsw.gov.au/recipes/conversion-chart (20 °C); hintsandthings.co.uk/kitchen/oventemp.htm (25 °C).
const FAN: std::ops::RangeInclusive<f64> = 9.0..=30.0;

/// Compares an amount with its restatement, each the sum of its joined parts. Packs (`2 x 400 g`) are multiplied before.
///
/// `density` is the range of the food's density, where the food is known. Two ranges are compared end with end; a single value
/// agrees with every range that holds it.
pub fn compare(
    written: &[Amount],
    restated: &[Amount],
    measures: &Measures,
    density: Option<&Interval<MassDensity>>,
) -> Comparison {
    let (written, restated) = (with_scale(written, restated), with_scale(restated, written));
    let totals = Amount::total(&written, measures).zip(Amount::total(&restated, measures));
    let Some((mine, theirs)) = totals else { return Comparison::Unknown };
    let off = match difference(&mine, &theirs, density) {
        Some(off) => off,
        None if comparable(mine.kind(), theirs.kind()) => return Comparison::Unknown,
        None => return Comparison::OtherKind { written: mine.kind(), restated: theirs.kind() },
    };
    let one_scale = written.iter().map(|amount| amount.unit).eq(restated.iter().map(|amount| amount.unit));
    if matches!(off, Off::Degrees(_)) && one_scale && FAN.contains(&off.size()) {
        return Comparison::Unknown;
    }
    let usual = is_usual(&written, &restated, measures);
    let other = match off {
        Off::Share(share) if !usual && share.abs() > CLOSE => other_measure(&written, &restated, measures),
        _ => None,
    };
    Comparison::Compared(Agreement { off, usual, other })
}

/// Whether a restatement may be of this kind at all, if only in another way than by arithmetic.
fn comparable(one: UnitKind, other: UnitKind) -> bool {
    use UnitKind::{Count, Length, Loose, Volume, Weight};
    let by_amount = |kind| matches!(kind, Volume | Weight | Count | Loose);
    // '2 sticks of rhubarb (40 cm)', 'a 1-inch piece'.
    let by_length = |kind| matches!(kind, Length | Count | Loose);
    one == other || (by_amount(one) && by_amount(other)) || (by_length(one) && by_length(other))
}

/// Degrees that do not name their scale take the other one than those beside them; both unnamed, the pair that fits.
fn with_scale<'a>(amounts: &'a [Amount], beside: &[Amount]) -> Cow<'a, [Amount]> {
    let ([one], [other]) = (amounts, beside) else { return Cow::Borrowed(amounts) };
    let unit = match (one.unit, other.unit) {
        (Some(Unit::Degree), Some(Unit::DegreeFahrenheit)) => Some(Unit::DegreeCelsius),
        (Some(Unit::Degree), Some(Unit::DegreeCelsius)) => Some(Unit::DegreeFahrenheit),
        (Some(Unit::Degree), Some(Unit::Degree)) => match scales_of_pair(one.number.middle(), other.number.middle()) {
            Some((super::Scale::Fahrenheit, _)) => Some(Unit::DegreeFahrenheit),
            Some((super::Scale::Celsius, _)) => Some(Unit::DegreeCelsius),
            None => one.unit,
        },
        _ => return Cow::Borrowed(amounts),
    };
    Cow::Owned(vec![Amount::new(one.number, unit)])
}

/// How far `restated` is from `written`; nothing where they can't be compared.
pub fn difference(written: &Quantity, restated: &Quantity, density: Option<&Interval<MassDensity>>) -> Option<Off> {
    match (written, restated) {
        (Quantity::Temperature(_), Quantity::Temperature(_)) => {
            let degrees = apart(&written.plain_number()?, &restated.plain_number()?, |one, other| other - one);
            Some(Off::Degrees(degrees))
        }
        (Quantity::Count { unit, .. }, Quantity::Count { unit: other, .. }) if unit != other => None,
        (Quantity::Loose { .. }, _) | (_, Quantity::Loose { .. }) => None,
        (Quantity::Volume(volume), Quantity::Weight(weight)) => {
            Some(Off::BeyondDensity(beyond_density(volume, weight, density?)))
        }
        (Quantity::Weight(weight), Quantity::Volume(volume)) => {
            Some(Off::BeyondDensity(-beyond_density(volume, weight, density?)))
        }
        _ if written.kind() == restated.kind() => {
            Some(Off::Share(apart(&written.plain_number()?, &restated.plain_number()?, share)))
        }
        _ => None,
    }
}

/// By which part of `one` the `other` differs from it.
fn share(one: f64, other: f64) -> f64 {
    if one != 0.0 {
        (other - one) / one
    } else if other == 0.0 {
        0.0
    } else {
        1.0
    }
}

/// The difference of two intervals: of their ends where both are ranges, else from the single value to the nearer end; nothing
/// where the single value lies inside. Where an end is open only the lower ends count.
fn apart(written: &Interval, restated: &Interval, difference: impl Fn(f64, f64) -> f64) -> f64 {
    let least = difference(written.least, restated.least);
    let (Some(mine), Some(theirs)) = (written.most, restated.most) else { return least };
    if !written.is_exact() && !restated.is_exact() {
        further(least, difference(mine, theirs))
    } else if written.overlaps(restated) {
        0.0
    } else if theirs < written.least {
        difference(written.least, theirs)
    } else {
        difference(mine, restated.least)
    }
}

/// The larger of two differences, whichever way they go.
fn further(one: f64, other: f64) -> f64 {
    if one.abs() < other.abs() { other } else { one }
}

/// By which part of what a volume can weigh, by the range of the food's density, a weight lies outside it.
fn beyond_density(volume: &Interval<Volume>, weight: &Interval<Mass>, density: &Interval<MassDensity>) -> f64 {
    let grams = |mass: Mass| mass.get::<gram>();
    let weighs = |volume: Volume| density.map(|density| grams(volume * density));
    let outside = |weighs: Interval, grams: f64| apart(&weighs, &Interval::exactly(grams), share);
    let (smallest, lightest) = (weighs(volume.least), grams(weight.least));
    let Some((largest, heaviest)) = volume.most.map(weighs).zip(weight.most.map(grams)) else {
        return outside(smallest, lightest);
    };
    if !volume.is_exact() && !weight.is_exact() {
        return further(outside(smallest, lightest), outside(largest, heaviest));
    }
    let weighs = Interval { least: smallest.least, most: largest.most };
    match weighs.most {
        _ if weighs.overlaps(&weight.map(grams)) => 0.0,
        Some(most) if most < lightest => share(most, lightest),
        _ => share(weighs.least, heaviest),
    }
}

/// The other cup, tablespoon or pint that brings the pair within a rounding, if there is one: the closest.
fn other_measure(written: &[Amount], restated: &[Amount], measures: &Measures) -> Option<OtherMeasure> {
    let cups = Cup::ALL.into_iter().map(OtherMeasure::Cup);
    let spoons = Tablespoon::ALL.into_iter().map(OtherMeasure::Tablespoon);
    let pints = Pint::ALL.into_iter().map(OtherMeasure::Pint);
    let off = |other: &OtherMeasure| {
        let measures = match *other {
            OtherMeasure::Cup(cup) => Measures { cup, ..*measures },
            OtherMeasure::Tablespoon(tablespoon) => Measures { tablespoon, ..*measures },
            OtherMeasure::Pint(pint) => Measures { pint, ..*measures },
        };
        let (mine, theirs) = Amount::total(written, &measures).zip(Amount::total(restated, &measures))?;
        difference(&mine, &theirs, None).map(Off::size)
    };
    let close = cups.chain(spoons).chain(pints).filter_map(|other| Some((other, off(&other)?)));
    let close = close.filter(|(_, off)| *off <= CLOSE);
    close.min_by(|(_, one), (_, other)| one.total_cmp(other)).map(|(other, _)| other)
}
