//! What is left of a food, at least, when it has been cooked, strained or drained.

use super::Content;
use crate::{larder::Food, recipe::Recipe};

/// What happens to all that is in the bowl.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loss {
    /// Cooked, fried, simmered: water boils away, and what holds much of it shrinks.
    Cooked,
    /// Boiled down until nobody can say how much is left.
    Reduced,
    /// Poured through a sieve: what does not run through is gone.
    Strained,
    /// Rid of its liquid, or of something else that nobody can measure.
    Drained,
}

/// Onions that are cooked until brown lose up to three quarters of their weight, mushrooms and spinach half; meat keeps three
/// fifths at the least: USDA Table of Cooking Yields for Meat and Poultry, release 2 (2014), and common practice for vegetables.
/// One figure for all of them, the smallest.
const COOKED_SOLID: f64 = 0.25;
/// A pot that simmers open loses 5 to 15 % of its liquid in an hour (common practice, no source); this allows for several.
const COOKED_LIQUID: f64 = 0.5;
/// What has little water to lose: sugar, fat, flour, eggs in a sauce.
const COOKED_DRY: f64 = 0.9;
/// What stays in the sieve of something that runs through it.
const STRAINED: f64 = 0.9;
/// What is left of a solid that is drained or wrung out (zucchini, spinach, tofu).
const DRAINED: f64 = 0.4;

/// What is left of a content.
pub fn left(recipe: &Recipe, content: Content, loss: Loss) -> Content {
    let foods = || recipe.ingredient(content.ingredient).into_iter().flat_map(|line| &line.names);
    let is = |kinds: &[&str]| {
        let mut foods = foods().filter(|name| !name.aside).map(|name| name.food).peekable();
        foods.peek().is_some() && foods.all(|food| food.is_some_and(|food| of(food, kinds)))
    };
    let liquid = || is(LIQUID) || content.part == Some("juice");
    let dry = || is(DRY);
    let share = match loss {
        Loss::Cooked if dry() => COOKED_DRY,
        Loss::Cooked if liquid() => COOKED_LIQUID,
        Loss::Cooked => COOKED_SOLID,
        Loss::Reduced if dry() => COOKED_DRY,
        Loss::Reduced => 0.0,
        Loss::Strained if liquid() || is(RUNS_THROUGH) => STRAINED,
        Loss::Strained => 0.0,
        Loss::Drained if liquid() => 0.0,
        Loss::Drained => DRAINED,
    };
    content.times(share)
}

const LIQUID: &[&str] =
    &["liquid", "juice", "milk", "cream", "stock", "wine", "beer", "water", "plant milk", "yogurt", "vinegar"];
const DRY: &[&str] =
    &["sugar", "sweetener", "flour", "starch", "fat", "butter", "oil", "egg", "chocolate", "grain", "salt", "cheese"];
const RUNS_THROUGH: &[&str] = &["sugar", "sweetener", "syrup", "egg", "butter", "oil", "starch", "salt"];

fn of(food: &Food, kinds: &[&str]) -> bool {
    kinds.iter().any(|kind| food.is(kind) || food.name == *kind)
}
