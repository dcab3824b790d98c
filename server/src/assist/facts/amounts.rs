//! An amount of a food by weight, by volume and by number, each rounded to what a kitchen can measure.

use uom::si::{f64::Mass, mass::gram, mass_density::gram_per_cubic_centimeter, volume::milliliter};

use super::asked::{Amount, NotKnown};
use crate::{
    book::House,
    larder::{Density, Food, Weight},
    measure::{
        Interval, Quantity, System, Unit, kitchen_amounts, print, print_amounts, print_number, round_number, taken_as,
    },
};

/// An amount in every measure of a kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Amounts {
    /// As it was asked for: `1 1/2 cups`, `2 large`.
    pub asked: String,
    /// In grams.
    pub weight: Option<Spread>,
    /// In millilitres.
    pub volume: Option<Spread>,
    /// By number: how many, and of what; `None` for the food itself.
    pub counts: Vec<(f64, Option<&'static str>)>,
    /// What it was reckoned with, each with its source; or what is missing.
    pub basis: Vec<String>,
}

/// How much, from the least that it can be to the most.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// The least.
    pub low: f64,
    /// The figure to reckon with: a range where the amount itself is one.
    pub typical: Interval,
    /// The most.
    pub high: f64,
    /// The typical figure as a kitchen measures it, in one unit or several: `190 g`, `6 3/4 oz`.
    pub printed: Vec<String>,
    /// The whole range as a kitchen measures it: `170 to 225 g`. `None` where it is no wider than the rounding.
    pub range: Option<String>,
}

/// Fewer and more of something than this are no help to anybody.
const COUNTS: std::ops::RangeInclusive<f64> = 0.25..=60.0;

/// How many ways of counting are told.
const WAYS: usize = 5;

/// Works out what `amount` comes to.
pub(super) fn of(house: &House, food: &'static Food, form: Option<&str>, amount: &Amount) -> Result<Amounts, NotKnown> {
    let written = || amount.written.clone();
    let unreadable = || NotKnown::Amount { amount: written(), near: None };
    let quantity = whole(house, amount).ok_or_else(unreadable)?;
    let density = form.and_then(|form| food.form(form)).map(|form| form.density).or(food.density);
    let kitchen = Kitchen { house, food, density };
    let mut found = Amounts { asked: written(), weight: None, volume: None, counts: Vec::new(), basis: Vec::new() };
    match quantity {
        Quantity::Weight(weight) => kitchen.weighed(&weight.map(|weight| weight.get::<gram>()), &mut found),
        Quantity::Volume(volume) => kitchen.measured(&volume.map(|volume| volume.get::<milliliter>()), &mut found),
        Quantity::Count { count, unit } => {
            let by = unit.map(Unit::name).or(amount.size).unwrap_or("one");
            let not_counted = || NotKnown::NotCounted {
                amount: written(),
                food: food.name,
                by: food.each.iter().map(|each| each.unit).filter(|unit| *unit != "one").collect(),
            };
            kitchen.counted(&count, by, &food.each(by).ok_or_else(not_counted)?, &mut found);
        }
        Quantity::Loose { count, unit } => {
            let taken = taken_as(unit).ok_or_else(unreadable)?;
            found.basis.push(format!("what readers take a {} to be ({})", unit.name(), taken.source));
            kitchen.measured(&taken.volume.map(|volume| volume.get::<milliliter>()).scaled(&count), &mut found);
        }
        Quantity::Length(_) | Quantity::Temperature(_) | Quantity::Time(_) => {
            return Err(NotKnown::NoFood { amount: written() });
        }
    }
    Ok(found)
}

/// All of it: `2 (14-oz) cans` are 28 ounces.
fn whole(house: &House, amount: &Amount) -> Option<Quantity> {
    let quantity = amount.stated.quantity(&house.measures)?;
    match (&amount.each, &quantity) {
        (Some(each), Quantity::Count { count, .. }) => Some(each.quantity(&house.measures)?.scaled(count)),
        _ => Some(quantity),
    }
}

/// A food in a house.
struct Kitchen<'h> {
    house: &'h House,
    food: &'static Food,
    /// In the state that was asked for.
    density: Option<Density>,
}

impl Kitchen<'_> {
    fn weighed(&self, grams: &Interval, found: &mut Amounts) {
        found.weight = Some(self.spread(Dimension::Weight, *grams, *grams));
        found.counts = self.counts(grams);
        if self.volume_of(grams, grams, found) {
            self.rests_on_density(found);
        }
    }

    fn measured(&self, millilitres: &Interval, found: &mut Amounts) {
        found.volume = Some(self.spread(Dimension::Volume, *millilitres, *millilitres));
        let Some(density) = self.density else { return self.rests_on_density(found) };
        let (low, typical, high) = per_millilitre(&density);
        let typical = millilitres.times(typical);
        let range = Interval { least: millilitres.least * low, most: millilitres.most.map(|most| most * high) };
        found.weight = Some(self.spread(Dimension::Weight, typical, range));
        found.counts = self.counts(&typical);
        self.rests_on_density(found);
    }

    fn counted(&self, count: &Interval, by: &str, one: &Weight, found: &mut Amounts) {
        let grams = |mass: Mass| mass.get::<gram>();
        let typical = count.times(grams(one.typical));
        let range =
            Interval { least: count.least * grams(one.low), most: count.most.map(|most| most * grams(one.high)) };
        found.weight = Some(self.spread(Dimension::Weight, typical, range));
        found.counts = self.counts(&typical);
        let what = if by == "one" { "one".to_owned() } else { format!("one {by}") };
        let weighs = self.grams(grams(one.low), grams(one.typical), grams(one.high));
        found.basis.push(format!("{what} weighs {weighs} ({})", one.source));
        if self.volume_of(&typical, &range, found) {
            self.rests_on_density(found);
        }
    }

    /// The volume of a weight; `false` where it is not known.
    fn volume_of(&self, typical: &Interval, range: &Interval, found: &mut Amounts) -> bool {
        let Some(density) = self.density else { return false };
        let (low, usual, high) = per_millilitre(&density);
        let range = Interval { least: range.least / high, most: range.most.map(|most| most / low) };
        found.volume = Some(self.spread(Dimension::Volume, typical.times(1.0 / usual), range));
        true
    }

    /// How many it is, by each way of counting that the food has, the sizes first.
    fn counts(&self, grams: &Interval) -> Vec<(f64, Option<&'static str>)> {
        if !grams.is_exact() {
            return Vec::new();
        }
        let count = |(unit, each): (&'static str, f64)| {
            let count = round_number(grams.least / each, Unit::Piece);
            COUNTS.contains(&count).then_some((count, Some(unit).filter(|unit| *unit != "one")))
        };
        let each = self.food.each.iter().map(|each| (each.unit, each.weight.typical.get::<gram>()));
        let mut counts: Vec<_> = each.filter_map(count).collect();
        counts.sort_by_key(|(_, unit)| unit.is_some());
        counts.truncate(WAYS);
        counts
    }

    fn spread(&self, dimension: Dimension, typical: Interval, range: Interval) -> Spread {
        let (measures, style) = (&self.house.measures, &self.house.style());
        let high = range.most.unwrap_or(f64::INFINITY);
        let quantity = dimension.quantity(typical);
        let fluid = dimension == Dimension::Volume && self.food.is("liquid");
        let fluid_ounces = fluid.then(|| print(&quantity, Unit::FluidOunce, measures, style)).flatten();
        let systems =
            dimension.systems().map(|system| print_amounts(&kitchen_amounts(&quantity, system, measures), style));
        let printed: Vec<String> = systems.into_iter().chain(fluid_ounces).collect();
        let first = dimension.systems().first().copied().unwrap_or(System::Metric);
        let whole = print_amounts(&kitchen_amounts(&dimension.quantity(range), first, measures), style);
        let wide = printed.first() != Some(&whole);
        Spread { low: range.least, typical, high, printed, range: wide.then_some(whole) }
    }

    /// What the cup that was reckoned with holds, or why there is none.
    fn rests_on_density(&self, found: &mut Amounts) {
        let cup = self.house.measures.cup;
        found.basis.push(match self.density {
            Some(density) => {
                let (low, typical, high) = per_millilitre(&density);
                let [low, typical, high] = [low, typical, high].map(|each| each * cup.millilitres());
                format!("a {} cup of it weighs {} ({})", cup.name(), self.grams(low, typical, high), density.source)
            }
            None if self.food.forms.is_empty() => "what a cup of it weighs is not known".to_owned(),
            None => {
                let forms: Vec<&str> = self.food.forms.iter().map(|form| form.name).collect();
                format!("what a cup of it weighs depends on its state; name one of these: {}", forms.join(", "))
            }
        });
    }

    /// `125 g, 112 to 150 by how it is filled`.
    fn grams(&self, low: f64, typical: f64, high: f64) -> String {
        let grams = |number: f64| print_number(tidy(number), self.house.style().fractions);
        match grams(low) == grams(high) {
            true => format!("{} g", grams(typical)),
            false => format!("{} g, from {} to {}", grams(typical), grams(low), grams(high)),
        }
    }
}

/// Grams to one decimal below ten, whole from there.
pub fn tidy(grams: f64) -> f64 {
    if grams < 10.0 { (grams * 10.0).round() / 10.0 } else { grams.round() }
}

fn per_millilitre(density: &Density) -> (f64, f64, f64) {
    let number = |density: uom::si::f64::MassDensity| density.get::<gram_per_cubic_centimeter>();
    (number(density.low), number(density.typical), number(density.high))
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Dimension {
    Weight,
    Volume,
}

impl Dimension {
    fn quantity(self, number: Interval) -> Quantity {
        match self {
            Dimension::Weight => Quantity::grams(number),
            Dimension::Volume => Quantity::millilitres(number),
        }
    }

    /// In which order the systems are told.
    fn systems(self) -> [System; 2] {
        match self {
            Dimension::Weight => [System::Metric, System::Customary],
            Dimension::Volume => [System::Customary, System::Metric],
        }
    }
}
