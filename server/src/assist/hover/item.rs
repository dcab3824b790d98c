//! A line of the list: what it asks for, what that weighs, what it brings, and which steps use it.

use super::{amount::Measured, figures, mention, naming};
use crate::{
    assist::share,
    book::House,
    checks::support::words,
    larder::Allergen,
    recipe::{Ingredient, Recipe},
};

/// What is said of the line of this index where its name is pointed at.
pub fn answer(recipe: &Recipe, house: &House, index: usize) -> Vec<String> {
    let Some(line) = recipe.ingredient(index) else { return Vec::new() };
    let mut lines = vec![title(recipe, line)];
    lines.extend(measures(recipe, house, line));
    lines.extend(facts(recipe, house, index));
    lines
}

/// `**all-purpose flour**: 2 cups (250 g)`
fn title(recipe: &Recipe, line: &Ingredient) -> String {
    let name = naming::line(recipe, line);
    let written = line.amount.and_then(|index| recipe.measures.get(index)).map(|measure| recipe.at(measure.span));
    let amount = written.map(|written| format!(": {}", words::plain(written))).unwrap_or_default();
    format!("**{name}**{amount}")
}

/// The listed amount in other measures, in plain type, and what that rests on.
fn measures(recipe: &Recipe, house: &House, line: &Ingredient) -> Vec<String> {
    let measure = line.amount.and_then(|index| Some((index, recipe.measures.get(index)?)));
    let Some((index, measure)) = measure else { return Vec::new() };
    let Some(mut measured) = Measured::whole(recipe, house, index) else { return Vec::new() };
    measured.written.extend(measure.restated.iter().filter_map(|stated| stated.unit()));
    mention::below(measured.answer(house))
}

/// The allergens that a line brings, and who uses it.
pub fn facts(recipe: &Recipe, house: &House, index: usize) -> Vec<String> {
    let Some(line) = recipe.ingredient(index) else { return Vec::new() };
    allergens(recipe, house, line).into_iter().chain(used(recipe, index)).collect()
}

/// The allergens that a line brings, of those that the house has to declare.
pub fn allergens(recipe: &Recipe, house: &House, line: &Ingredient) -> Option<String> {
    let mut found: Vec<Allergen> = Vec::new();
    let said = recipe.larder.find(recipe.at(line.span));
    for food in line.names.iter().filter(|name| !name.aside).filter_map(|name| name.food) {
        // What the line itself rules out ('gluten-free flour') it does not bring.
        let brings = |allergen: Allergen| match &said {
            Some(said) if std::ptr::eq(said.food, food) => said.holds(allergen),
            _ => food.holds(allergen),
        };
        found.extend(house.allergens.allergens().into_iter().filter(|allergen| brings(*allergen)));
    }
    found.sort();
    found.dedup();
    figures::contains(found)
}

/// `Used in step 2 (half) and step 4 (the rest).`
pub fn used(recipe: &Recipe, index: usize) -> Option<String> {
    let line = recipe.ingredient(index).filter(|line| !line.tags.remark)?;
    let uses = recipe.flow.uses(index);
    if uses.is_empty() {
        return Some(
            match () {
                () if recipe.flow.loosely_used(index) => {
                    "No step names it; it may be among what a step takes together."
                }
                () if line.tags.serving || line.tags.optional => "No step names it.",
                () => "No step uses it.",
            }
            .to_owned(),
        );
    }
    let own = line.names.first().and_then(|name| name.part);
    let many = words::is_plural(&naming::line(recipe, line));
    let said: Vec<String> = uses
        .iter()
        .map(|found| {
            let share = share(recipe, found).filter(|share| share != "all");
            let part = found.part.filter(|part| own != Some(*part)).map(|part| naming::part_of(part, many).to_owned());
            let aside: Vec<String> = part.into_iter().chain(share).collect();
            let aside = if aside.is_empty() { String::new() } else { format!(" ({})", aside.join(", ")) };
            format!("{}{aside}", words::step(recipe, found.step))
        })
        .collect();
    Some(format!("Used in {}.", words::and(&said)))
}
