//! What the larder knows of a food, in a few lines.

use uom::si::{mass::gram, mass_density::gram_per_cubic_centimeter};

use crate::larder::{CUP_MILLILITRES, Food};

/// The food's name, its weights with their sources, and the allergens it brings.
pub fn facts(food: &Food) -> Vec<String> {
    let mut lines = vec![format!("**{}**", food.name)];
    let mut weights: Vec<String> = Vec::new();
    if let Some(density) = &food.density {
        let grams =
            |density: uom::si::f64::MassDensity| (density.get::<gram_per_cubic_centimeter>() * CUP_MILLILITRES).round();
        weights.push(format!(
            "1 cup {} g, {}–{} ({})",
            grams(density.typical),
            grams(density.low),
            grams(density.high),
            density.source
        ));
    }
    for each in food.each.iter().take(3) {
        weights.push(format!(
            "1 {} {} g ({})",
            each.unit,
            (each.weight.typical.get::<gram>() * 10.0).round() / 10.0,
            each.weight.source
        ));
    }
    if !weights.is_empty() {
        lines.push(weights.join(" · "));
    }
    if !food.allergens.is_empty() {
        let names: Vec<&str> = food.allergens.iter().map(|allergen| allergen.name()).collect();
        lines.push(format!("Contains {}. Check the label: makes differ.", names.join(", ")));
    }
    lines
}
