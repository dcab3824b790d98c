//! What can be said of a proposal at more length, once somebody looks at it.

use uom::si::mass_density::gram_per_cubic_centimeter;

use crate::{
    assist::hover::of_food,
    book::House,
    checks::check,
    larder::{CUP_MILLILITRES, Food},
    measure::{Amount, Interval, Style, Unit, equivalents, print_amounts, taken_as},
};

/// What a proposal is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Topic {
    /// A food, by its name in the larder.
    Food(String),
    /// A unit, by its name.
    Unit(String),
    /// A check, by its code.
    Check(String),
}

/// What there is to say, in Markdown.
pub fn explain(house: &House, topic: &Topic) -> Option<String> {
    match topic {
        Topic::Food(name) => house.larder().food(name).map(|food| of_food(food, house).join("\n\n")),
        Topic::Unit(name) => Unit::all().find(|unit| unit.name() == name).and_then(|unit| measured(house, unit)),
        Topic::Check(code) => check(code).map(|check| page(check.docs)),
    }
}

/// The line below the title of a check's page.
pub fn summary(docs: &str) -> &str {
    docs.lines().skip(1).map(str::trim).find(|line| !line.is_empty()).unwrap_or_default()
}

/// The page of a check up to its examples.
fn page(docs: &str) -> String {
    docs.split("\n## Example").next().unwrap_or_default().trim().to_owned()
}

/// One of a unit in the other measures of a kitchen.
fn measured(house: &House, unit: Unit) -> Option<String> {
    let one = Amount::new(Interval::exactly(1.0), Some(unit)).quantity(&house.measures);
    let others = equivalents(&one, None, &house.measures).into_iter();
    let others = others.filter(|amounts| amounts.iter().any(|amount| amount.unit != Some(unit)));
    let printed: Vec<String> = others.map(|amounts| print_amounts(&amounts, &Style::default())).collect();
    if !printed.is_empty() {
        return Some(format!("1 {} is {}.", unit.name(), printed.join(", or ")));
    }
    taken_as(unit)
        .map(|taken| format!("Readers take 1 {} to be {} ({}).", unit.name(), millilitres(&taken.volume), taken.source))
}

fn millilitres(volume: &Interval<uom::si::f64::Volume>) -> String {
    let number = volume.map(|volume| volume.get::<uom::si::volume::milliliter>());
    print_amounts(&[Amount::new(number, Some(Unit::Millilitre))], &Style::default())
}

/// Grams in a cup of a food, as they are usually reckoned.
pub fn grams_a_cup(food: &Food) -> Option<f64> {
    let density = food.density?;
    Some(density.typical.get::<gram_per_cubic_centimeter>() * CUP_MILLILITRES)
}
