//! A temperature on the other scales, and what it means for an oven, for sugar, and for what must be done inside.

use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

use super::amount::answer;
use crate::{
    book::House,
    checks::support::{around, heat},
    measure::{
        Amount, Interval, Measures, Quantity, System, Unit, celsius, equivalents, fahrenheit, kitchen_amounts,
        nearest_gas_mark, print_amounts, print_decimal, print_number,
    },
    recipe::{
        Recipe,
        measures::{Measure, Stated},
    },
};

/// From this many °C on something can be an oven's setting.
const COOLEST_OVEN: f64 = 105.0;

/// A fan oven is set this much lower: 20 °C (healthykids.nsw.gov.au/recipes/conversion-chart) or 25 °F (US practice, as at
/// hintsandthings.co.uk/kitchen/oventemp.htm).
const FAN_CELSIUS: f64 = 20.0;
const FAN_FAHRENHEIT: f64 = 25.0;

/// Words of a sentence that say what is heated, folded.
const OVEN: &[&str] = &["oven", "bake", "baking", "roast", "roasting", "preheat", "preheated"];
const SUGAR: &[&str] = &["sugar", "syrup", "caramel", "candy", "toffee", "fudge", "jam", "jelly", "marmalade"];
const ELSEWHERE: &[&str] = &[
    "oil",
    "fat",
    "lard",
    "shortening",
    "fryer",
    "fry",
    "grill",
    "griddle",
    "smoker",
    "wok",
    "skillet",
    "water",
    "milk",
];
const INSIDE: &[&str] = &[
    "internal",
    "core",
    "center",
    "centre",
    "middle",
    "thickest",
    "thermometer",
    "read",
    "register",
    "done",
    "inside",
];

/// The other scales; then what an author may want to say beside it.
pub fn answer_for(recipe: &Recipe, house: &House, measure: &Measure, stated: &Stated) -> Vec<String> {
    let Some(quantity @ Quantity::Temperature(kelvin)) = stated.quantity(&house.measures) else { return Vec::new() };
    let degrees = kelvin.map(|heat| heat.get::<degree_celsius>());
    if heat::is_difference(recipe, measure.span) || agrees_as_difference(measure) {
        return difference(stated).into_iter().collect();
    }
    let place = place(recipe, measure, &degrees);
    let written = stated.unit();
    let mut printed: Vec<String> = equivalents(&quantity, None, &house.measures)
        .into_iter()
        .filter(|amounts| amounts.iter().all(|amount| amount.unit != written))
        .filter(|amounts| place == Place::Oven || amounts.iter().all(|amount| amount.unit != Some(Unit::GasMark)))
        .map(|amounts| if place == Place::Sugar { to_the_degree(&quantity, &amounts) } else { amounts })
        .map(|amounts| print_amounts(&amounts, &house.style()))
        .collect();
    if written == Some(Unit::DegreeFahrenheit) || written == Some(Unit::Degree) {
        printed.sort_by_key(|text| text.contains("°F"));
    }
    let more = match place {
        Place::Oven => fan(recipe, house, stated, &quantity),
        Place::Sugar => stage(&degrees),
        Place::Inside => Some(INSIDE_CAUTION.to_owned()),
        Place::Elsewhere => None,
    };
    answer(&printed).into_iter().chain(more).collect()
}

const INSIDE_CAUTION: &str = "How hot meat, poultry, fish, eggs and leftovers must get inside is for your food authority to \
                              say: in the US, the USDA FSIS chart of safe minimum temperatures.";

#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Oven,
    Sugar,
    Inside,
    Elsewhere,
}

fn place(recipe: &Recipe, measure: &Measure, degrees: &Interval) -> Place {
    let has = |words: &[&str]| around::sentence_has(recipe, measure.span, words);
    let least = degrees.least;
    if has(SUGAR) && !has(OVEN) && least >= 100.0 {
        Place::Sugar
    } else if least >= COOLEST_OVEN && (has(OVEN) || !has(ELSEWHERE)) {
        Place::Oven
    } else if (45.0..100.0).contains(&least) && has(INSIDE) && holds_what_must_be_done(recipe) {
        Place::Inside
    } else {
        Place::Elsewhere
    }
}

fn holds_what_must_be_done(recipe: &Recipe) -> bool {
    let foods = recipe.ingredients.iter().flat_map(|line| &line.names).filter_map(|name| name.food);
    let kinds = ["meat", "poultry", "fish", "seafood", "egg"];
    foods.into_iter().any(|food| food.name == "egg" || kinds.iter().any(|kind| food.is(kind)))
}

/// Sugar is a matter of single degrees.
fn to_the_degree(quantity: &Quantity, amounts: &[Amount]) -> Vec<Amount> {
    let unit = amounts.first().and_then(|amount| amount.unit);
    let exact = unit.and_then(|unit| quantity.number_of(unit, &Measures::default()));
    exact.map(|exact| Amount::new(exact.map(f64::round), unit)).into_iter().collect()
}

/// `8°F (4.5°C) over the boiling point`: only a difference is restated so.
fn agrees_as_difference(measure: &Measure) -> bool {
    let celsius = |stated: &Stated| {
        let amount = stated.terms.first()?.amount()?;
        match amount.unit? {
            Unit::DegreeFahrenheit => Some(amount.number.middle() / 1.8),
            Unit::DegreeCelsius => Some(amount.number.middle()),
            _ => None,
        }
    };
    let stated = celsius(&measure.stated);
    measure.restated.iter().any(|again| {
        let pair = stated.zip(celsius(again));
        pair.is_some_and(|(one, other)| (one - other).abs() <= 1.0 && one.abs() < 60.0)
    })
}

/// `lower it by 25°F`: a difference converts without the 32.
fn difference(stated: &Stated) -> Option<String> {
    let amount = stated.terms.first()?.amount()?;
    let (number, symbol) = match amount.unit? {
        Unit::DegreeFahrenheit => (amount.number.map(|number| number / 1.8), "°C"),
        Unit::DegreeCelsius => (amount.number.map(|number| number * 1.8), "°F"),
        _ => return None,
    };
    let one = |number: f64| print_decimal((number * 2.0).round() / 2.0);
    let most = number.most.filter(|_| !number.is_exact()).map(|most| format!(" to {}", one(most))).unwrap_or_default();
    Some(format!("**{}{most}{symbol}**, as a difference", one(number.least)))
}

/// The same in a fan oven, or what a fan oven's setting is in another.
fn fan(recipe: &Recipe, house: &House, stated: &Stated, quantity: &Quantity) -> Option<String> {
    let Quantity::Temperature(heat) = quantity else { return None };
    let by = if heat::is_fan(recipe, stated) { -1.0 } else { 1.0 };
    let less_celsius = heat.map(|heat| celsius(heat.get::<degree_celsius>() - by * FAN_CELSIUS));
    let less_fahrenheit = heat.map(|heat| fahrenheit(heat.get::<degree_fahrenheit>() - by * FAN_FAHRENHEIT));
    let print = |heat, system| {
        print_amounts(&kitchen_amounts(&Quantity::Temperature(heat), system, &Measures::default()), &house.style())
    };
    let both = format!("{} or {}", print(less_fahrenheit, System::Customary), print(less_celsius, System::Metric));
    if by > 0.0 {
        return Some(format!(
            "Fan oven: {both}. 25°F or 20°C less is common practice; the oven's own book goes before it."
        ));
    }
    let mark = nearest_gas_mark(less_fahrenheit.least).map(|mark| print_number(mark, Default::default()));
    let mark = mark.map(|mark| format!(", gas mark {mark}")).unwrap_or_default();
    Some(format!(
        "Without a fan: {both}{mark}. 25°F or 20°C more is common practice; the oven's own book goes before it."
    ))
}

/// What sugar becomes, at sea level, from and to so many °F. lawsofbaking.com/glossary/stages-of-sugar-cooking.
const STAGES: &[(&str, f64, f64)] = &[
    ("thread", 230.0, 234.0),
    ("soft ball", 234.0, 240.0),
    ("firm ball", 242.0, 248.0),
    ("hard ball", 250.0, 266.0),
    ("soft crack", 270.0, 290.0),
    ("hard crack", 300.0, 310.0),
    ("caramel", 320.0, 350.0),
];

/// The stage that sugar is in at this heat. Jam and jelly set some 8 °F (4.5 °C) above the boiling point of water (trade
/// practice, from memory), and every 300 m of height takes 1 °C off both (from memory).
fn stage(degrees: &Interval) -> Option<String> {
    let in_fahrenheit = |celsius: f64| celsius * 1.8 + 32.0;
    let (least, most) = (in_fahrenheit(degrees.least), in_fahrenheit(degrees.most.unwrap_or(degrees.least)));
    let height = "At sea level; about 2°F (1°C) less for every 1000 ft (300 m) of height.";
    if (217.0..=222.0).contains(&least) {
        return Some(format!("Where jam and jelly set: 8°F (4.5°C) above boiling water. {height}"));
    }
    let (name, from, to) = STAGES.iter().find(|(_, from, to)| least >= from - 1.0 && most <= to + 1.0)?;
    let print = |heat: f64| {
        let quantity = Quantity::Temperature(Interval::exactly(fahrenheit(heat)));
        let number = quantity.number_of(Unit::DegreeCelsius, &Measures::default()).map_or(0.0, |number| number.least);
        print_number(number.round(), Default::default())
    };
    Some(format!("Sugar: {name} stage, {from} to {to}°F ({} to {}°C). {height}", print(*from), print(*to)))
}
