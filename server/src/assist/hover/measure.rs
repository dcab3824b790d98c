//! An amount in the other measures of a kitchen, and what the answer rests on.

use uom::si::{mass::gram, mass_density::gram_per_cubic_centimeter, volume::milliliter};

use super::Hover;
use crate::{
    book::House,
    larder::{CUP_MILLILITRES, Density, Food},
    measure::{
        Amount, Interval, Quantity, Style, System, Unit, equivalents, kitchen_amounts, print_amounts, print_interval,
        taken_as,
    },
    recipe::{
        Recipe,
        measures::{Measure, Place},
        weights,
    },
};

/// What to say about the measure of this index.
pub fn hover(recipe: &Recipe, house: &House, index: usize) -> Option<Hover> {
    let span = recipe.measures.get(index)?.span;
    let lines = answer(recipe, house, index);
    (!lines.is_empty()).then(|| Hover { span, markdown: lines.join("\n\n") })
}

/// The answer and what it rests on, a paragraph each; none where there is nothing to convert.
pub fn answer(recipe: &Recipe, house: &House, index: usize) -> Vec<String> {
    let Some(measure) = recipe.measures.get(index) else { return Vec::new() };
    let food = weights::food_of(recipe, index);
    if measure.stated.sides {
        return sides(measure);
    }
    let Some(quantity) = measure.stated.quantity(&house.measures) else { return Vec::new() };
    let density = weights::density_of(recipe, index);
    match quantity {
        Quantity::Count { count, unit } => {
            food.map(|food| counted(food, size(recipe, measure), &count, unit)).unwrap_or_default()
        }
        Quantity::Loose { count, unit } => loose(&count, unit),
        _ => converted(house, &quantity, measure, density.zip(food)),
    }
}

fn converted(house: &House, quantity: &Quantity, measure: &Measure, density: Option<(Density, &Food)>) -> Vec<String> {
    let style = Style::default();
    let written: Vec<Option<Unit>> =
        measure.stated.terms.iter().filter_map(|term| term.amount()).map(|amount| amount.unit).collect();
    let own = |amounts: &[Amount]| amounts.iter().all(|amount| written.contains(&amount.unit));
    let mut others: Vec<Vec<Amount>> =
        equivalents(quantity, density.map(|(density, _)| density.typical), &house.measures);
    others.retain(|amounts| !own(amounts));
    // The answer first: the weight of a volume, the volume of a weight, else the other system.
    let volume = matches!(quantity, Quantity::Volume(_));
    others.sort_by_key(|amounts| {
        let weight = amounts
            .first()
            .and_then(|amount| amount.unit)
            .is_some_and(|unit| unit.kind() == crate::measure::UnitKind::Weight);
        let metric =
            amounts.first().and_then(|amount| amount.unit).is_some_and(|unit| unit.system() == Some(System::Metric));
        (density.is_some() && weight != volume, !metric)
    });
    let printed: Vec<String> = others.iter().map(|amounts| print_amounts(amounts, &style)).collect();
    let Some((first, rest)) = printed.split_first() else { return Vec::new() };
    let mut lines = vec![format!("**{first}**{}", rest.iter().map(|other| format!(" · {other}")).collect::<String>())];
    if let Some((density, food)) = density {
        lines.push(rests_on(&density, food));
    }
    lines
}

/// "all-purpose flour: 113–150 g a cup, depending on how it is filled (SR26 20081)".
fn rests_on(density: &Density, food: &Food) -> String {
    let grams =
        |density: uom::si::f64::MassDensity| (density.get::<gram_per_cubic_centimeter>() * CUP_MILLILITRES).round();
    let (low, typical, high) = (grams(density.low), grams(density.typical), grams(density.high));
    let range = if low == high {
        format!("{typical} g a cup")
    } else {
        format!("{low}–{high} g a cup, depending on how it is filled; reckoned with {typical}")
    };
    format!("{}: {range} ({})", food.name, density.source)
}

fn size<'r>(recipe: &'r Recipe, measure: &Measure) -> &'r str {
    const SIZES: &[&str] = &["extra-large", "small", "medium", "large", "jumbo"];
    let Place::Ingredient(index) = measure.place else { return "" };
    let line = recipe.ingredients.get(index).map_or("", |ingredient| recipe.at(ingredient.span));
    SIZES.iter().find(|size| line.to_lowercase().contains(**size)).copied().unwrap_or_default()
}

/// Counted things by the weight of one.
fn counted(food: &Food, size: &str, count: &Interval, unit: Option<Unit>) -> Vec<String> {
    let own = unit.map(|unit| unit.name());
    let weight = own
        .and_then(|unit| food.each(unit))
        .or_else(|| food.each(size).filter(|_| own.is_none()))
        .or_else(|| food.each("one").filter(|_| own.is_none()));
    let Some(weight) = weight else { return Vec::new() };
    let total = Quantity::grams(count.times(weight.typical.get::<gram>()));
    let both = [System::Metric, System::Customary]
        .map(|system| print_amounts(&kitchen_amounts(&total, system, &Default::default()), &Style::default()));
    let [metric, customary] = both;
    let one = own.map_or_else(
        || if size.is_empty() { "one".to_owned() } else { format!("one {size}") },
        |unit| format!("one {unit}"),
    );
    let each = format!(
        "{}: {one} weighs about {} g ({})",
        food.name,
        (weight.typical.get::<gram>() * 10.0).round() / 10.0,
        weight.source
    );
    vec![format!("**{metric}** · {customary}"), each]
}

/// Loose measures by what readers take them to be.
fn loose(count: &Interval, unit: Unit) -> Vec<String> {
    let Some(taken) = taken_as(unit) else { return Vec::new() };
    let millilitres = taken.volume.map(|volume| volume.get::<milliliter>()).scaled(count);
    let style = Style::default();
    let spoons = print_amounts(
        &kitchen_amounts(&Quantity::millilitres(millilitres), System::Customary, &Default::default()),
        &style,
    );
    vec![
        format!("**{spoons}** · {} ml", print_interval(&millilitres, Some(Unit::Millilitre), &style)),
        format!("What readers take a {} to be ({})", unit.name(), taken.source),
    ]
}

/// The sides of a pan in the other system.
fn sides(measure: &Measure) -> Vec<String> {
    let amounts: Option<Vec<Amount>> = measure.stated.terms.iter().map(|term| term.amount()).collect();
    let Some(amounts) = amounts else { return Vec::new() };
    let system = match amounts.last().and_then(|amount| amount.unit).and_then(Unit::system) {
        Some(System::Metric) => System::Customary,
        Some(_) => System::Metric,
        None => return Vec::new(),
    };
    let style = Style::default();
    let printed = amounts.iter().map(|amount| {
        print_amounts(&kitchen_amounts(&amount.quantity(&Default::default()), system, &Default::default()), &style)
    });
    vec![format!("**{}**", printed.collect::<Vec<_>>().join(" x "))]
}
