//! Who uses what, for another program.

use serde::Serialize;

use crate::cli::report::{Other, RecipeUses, Takes};

/// The recipes of the manuscript at `path`: objects of a JSON array, a line each, with commas between.
pub fn show(recipes: &[RecipeUses], path: &str) -> String {
    let one = |recipe: &RecipeUses| {
        // Nothing in it can fail: its keys are strings and its numbers whole.
        serde_json::to_string(&RecipeJson::of(recipe, path)).unwrap_or_default()
    };
    recipes.iter().map(one).collect::<Vec<_>>().join(",\n")
}

#[derive(Serialize)]
struct RecipeJson<'a> {
    path: &'a str,
    recipe: &'a str,
    ingredients: Vec<IngredientJson<'a>>,
    steps: Vec<StepJson<'a>>,
    unlisted: Vec<UnlistedJson<'a>>,
}

#[derive(Serialize)]
struct IngredientJson<'a> {
    line: usize,
    text: &'a str,
    name: &'a str,
    others: Vec<OtherJson<'a>>,
    food: Option<&'a str>,
    amount: Option<&'a str>,
    uses: Vec<UseJson<'a>>,
    left: Option<&'a str>,
}

#[derive(Serialize)]
struct OtherJson<'a> {
    name: &'a str,
    amount: Option<&'a str>,
    instead: bool,
}

#[derive(Serialize)]
struct UseJson<'a> {
    step: usize,
    part: Option<&'a str>,
    share: Option<&'a str>,
    collective: bool,
    marked: bool,
}

#[derive(Serialize)]
struct StepJson<'a> {
    step: usize,
    line: usize,
    takes: Vec<TakesJson<'a>>,
}

#[derive(Serialize)]
struct TakesJson<'a> {
    name: &'a str,
    line: Option<usize>,
    amount: Option<&'a str>,
    left: Option<&'a str>,
}

#[derive(Serialize)]
struct UnlistedJson<'a> {
    step: usize,
    line: usize,
    food: &'a str,
    amount: Option<&'a str>,
}

impl<'a> OtherJson<'a> {
    fn of(other: &'a Other) -> Self {
        OtherJson { name: &other.name, amount: other.amount.as_deref(), instead: other.instead }
    }
}

impl<'a> RecipeJson<'a> {
    fn of(recipe: &'a RecipeUses, path: &'a str) -> Self {
        let ingredients = recipe.ingredients.iter().map(|ingredient| IngredientJson {
            line: ingredient.line,
            text: &ingredient.text,
            name: &ingredient.name,
            others: ingredient.others.iter().map(OtherJson::of).collect(),
            food: ingredient.food.as_deref(),
            amount: ingredient.amount.as_deref(),
            uses: ingredient
                .uses
                .iter()
                .map(|used| UseJson {
                    step: used.step,
                    part: used.part,
                    share: used.share.as_deref(),
                    collective: used.collective,
                    marked: used.marked,
                })
                .collect(),
            left: ingredient.left.as_deref(),
        });
        let takes = |one: &'a Takes| TakesJson {
            name: &one.name,
            line: one.line,
            amount: one.amount.as_deref(),
            left: one.left.as_deref(),
        };
        let steps = recipe.steps.iter().map(|step| StepJson {
            step: step.step,
            line: step.line,
            takes: step.takes.iter().map(takes).collect(),
        });
        let unlisted = recipe.unlisted.iter().map(|unlisted| UnlistedJson {
            step: unlisted.step,
            line: unlisted.line,
            food: &unlisted.food,
            amount: unlisted.amount.as_deref(),
        });
        RecipeJson {
            path,
            recipe: &recipe.title,
            ingredients: ingredients.collect(),
            steps: steps.collect(),
            unlisted: unlisted.collect(),
        }
    }
}
