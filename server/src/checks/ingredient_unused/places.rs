//! Names an unused ingredient in a step that is there already.

use super::{Fix, bracket, sentence, words};
use crate::{
    checks::support::phrase,
    recipe::{Ingredient, Recipe, flow::Use, language::clause::Sense, mentions::Link},
    text::Edit,
};

/// The fix that names the ingredient in this step: beside the nearest of its neighbours in the list that the step uses, or in a
/// sentence of its own at the end. Nothing where no wording means it alone.
pub fn name_in(recipe: &Recipe, index: usize, step: usize) -> Option<Fix> {
    let line = recipe.ingredient(index)?;
    let marked = bracket::ingredient(recipe, index, bracket::Place::In(step))?;
    let edit = beside(recipe, index, line, step, &marked).or_else(|| at_the_end(recipe, line, step, &marked))?;
    let title = format!("Name the {} in {}", words::ingredient(recipe, line), words::step(recipe, step));
    Some(Fix::new(title, vec![edit]))
}

/// What goes on the table or into the pan has a sentence of its own.
fn beside(recipe: &Recipe, index: usize, line: &Ingredient, step: usize, marked: &str) -> Option<Edit> {
    if line.tags.serving || line.tags.pan {
        return None;
    }
    let used =
        |other: usize| recipe.flow.uses(other).into_iter().find(|found| found.step == step && is_name(recipe, found));
    let others = (0..recipe.ingredients.len()).filter(|other| *other != index);
    let near = others.filter_map(|other| Some((other, used(other)?)));
    let (other, found) = near.min_by_key(|(other, _)| (other.abs_diff(index), *other > index))?;
    phrase::beside(recipe, recipe.flow.mentions.get(found.mention)?, other < index, marked)
}

/// Whether it stands there by its name, and a second name can stand beside it.
fn is_name(recipe: &Recipe, found: &Use) -> bool {
    let mention = recipe.flow.mentions.get(found.mention);
    found.link <= Link::Part && mention.is_some_and(|mention| mention.sense == Sense::Use && mention.targets.len() == 1)
}

fn at_the_end(recipe: &Recipe, line: &Ingredient, step: usize, marked: &str) -> Option<Edit> {
    let body = recipe.steps.get(step)?.body;
    let written = recipe.at(body).trim_end();
    let end = body.start + written.len();
    let stop = if written.ends_with(['.', '!', '?', ')']) { "" } else { "." };
    let sentence = sentence(recipe, line, marked, bracket::Place::In(step));
    Some(Edit::insert(end, format!("{stop} {sentence}")))
}
