//! What a measure measures: its food, and how heavy that is in the state that the line gives.

use super::{
    Recipe,
    measures::{Measure, Place},
};
use crate::larder::{Density, Food};

/// The ingredient that the measure of this index belongs to: that of its line, or of the mention it stands with.
pub fn ingredient_of(recipe: &Recipe, index: usize) -> Option<usize> {
    match recipe.measures.get(index)?.place {
        Place::Ingredient(ingredient) => Some(ingredient),
        _ => {
            let mention = recipe.flow.mentions.iter().find(|mention| mention.measure == Some(index))?;
            mention.targets.first()?.ingredient()
        }
    }
}

/// The food that the measure of this index measures, where the larder knows it and the line names no other.
pub fn food_of(recipe: &Recipe, index: usize) -> Option<&'static Food> {
    let ingredient = recipe.ingredients.get(ingredient_of(recipe, index)?)?;
    let name = ingredient.names.iter().find(|name| !name.aside)?;
    // A part has a weight of its own: zest is not lemon.
    name.food.filter(|_| name.part.is_none())
}

/// The food's density as the line has it: packed, sifted, chopped, where the larder has a figure for that; else the usual one.
pub fn density_of(recipe: &Recipe, measure: &Measure, food: &'static Food) -> Option<Density> {
    let Place::Ingredient(index) = measure.place else { return food.density };
    let line =
        recipe.ingredients.get(index).map(|ingredient| recipe.at(ingredient.span).to_lowercase()).unwrap_or_default();
    let form = food.forms.iter().filter(|form| line.contains(form.name)).max_by_key(|form| form.name.len());
    form.map(|form| form.density).or(food.density)
}
