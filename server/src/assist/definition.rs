//! Where what stands under the cursor comes from: a mention from its line, a result from the step that makes it, a title from its
//! recipe.

use super::{
    things::{Named, Thing, named_at, results_named, stated},
    tools,
};
use crate::{
    recipe::{Recipe, mentions::Target},
    text::Span,
};

/// Where something comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Origin {
    /// A place in the same recipe: all of it, and the part that names it.
    Here(Span, Span),
    /// A recipe, by the [key](crate::book::title_key) of its title.
    Recipe(String),
}

/// Where what stands at `offset` comes from, and the words there that say it.
pub fn definition(recipe: &Recipe, offset: usize) -> Option<(Span, Vec<Origin>)> {
    let Named { span, things } = named_at(recipe, offset)?;
    let mut origins: Vec<Origin> = Vec::new();
    for origin in things.iter().flat_map(|thing| origins_of(recipe, thing)) {
        if !origins.contains(&origin) {
            origins.push(origin);
        }
    }
    (!origins.is_empty()).then_some((span, origins))
}

/// The same; but what is made by another recipe comes from there, and not from the line that asks for it.
pub fn type_definition(recipe: &Recipe, offset: usize) -> Option<(Span, Vec<Origin>)> {
    let Named { span, things } = named_at(recipe, offset)?;
    let asked = things.iter().filter_map(|thing| match thing {
        Thing::Kitchen(Target::Ingredient(index, _)) => {
            let reference = recipe.references.get(recipe.ingredients.get(*index)?.reference?)?;
            Some(Origin::Recipe(crate::book::title_key(recipe.at(reference.title))))
        }
        _ => None,
    });
    let asked: Vec<Origin> = asked.collect();
    if asked.is_empty() { definition(recipe, offset) } else { Some((span, asked)) }
}

fn origins_of(recipe: &Recipe, thing: &Thing) -> Vec<Origin> {
    match thing {
        Thing::Kitchen(Target::Ingredient(index, _)) => {
            let line = recipe.ingredients.get(*index).map(|line| line.span);
            let name = stated(recipe, thing).into_iter().reduce(Span::joined);
            line.zip(name).map(|(line, name)| Origin::Here(line.joined(name), name)).into_iter().collect()
        }
        Thing::Kitchen(Target::Result(index)) => {
            let Some(result) = recipe.flow.results.get(*index) else { return Vec::new() };
            let Some(step) = recipe.steps.get(result.step) else { return Vec::new() };
            // What is set aside has no arrow: the step is all there is to go to.
            let name = results_named(recipe, &result.words).find(|(made, _)| *made == result.step);
            vec![Origin::Here(step.span, name.map_or(step.body, |(_, name)| name))]
        }
        Thing::Kitchen(Target::Group(_)) => {
            stated(recipe, thing).into_iter().map(|name| Origin::Here(name, name)).collect()
        }
        Thing::Equipment(index) => {
            let line = recipe.equipment.get(*index).map(|piece| piece.span);
            line.zip(tools::name(recipe, *index)).map(|(line, name)| Origin::Here(line, name)).into_iter().collect()
        }
        Thing::Recipe(key) => vec![Origin::Recipe(key.clone())],
    }
}
