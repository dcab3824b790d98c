//! What to say about the place under the cursor: the answer first, then the alternatives, then where a figure comes from.

mod food;
mod measure;

pub(super) use food::facts;

use super::share::share;
use crate::{
    book::House,
    recipe::{
        Recipe,
        mentions::{Mention, Target},
    },
    text::Span,
};

/// What there is to say about a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hover {
    /// How far the place reaches, in the recipe's text.
    pub span: Span,
    /// What to say, in Markdown.
    pub markdown: String,
}

/// What there is to say about the place at `offset` of the recipe's text: a measure, a mention or an ingredient's name.
pub fn hover(recipe: &Recipe, house: &House, offset: usize) -> Option<Hover> {
    let measure = recipe.measures.iter().position(|measure| measure.span.touches(offset));
    if let Some(found) = measure.and_then(|index| measure::hover(recipe, house, index)) {
        return Some(found);
    }
    if let Some(mention) = recipe.flow.mentions.iter().find(|mention| mention.span.touches(offset)) {
        return Some(Hover { span: mention.span, markdown: mentioned(recipe, house, mention) });
    }
    let named = |ingredient: &crate::recipe::Ingredient| {
        ingredient.names.iter().find(|name| name.span.touches(offset)).map(|name| (name.span, name.food))
    };
    let (index, (span, food)) =
        recipe.ingredients.iter().enumerate().find_map(|(index, ingredient)| Some((index, named(ingredient)?)))?;
    let mut lines: Vec<String> = food.map(food::facts).unwrap_or_default();
    lines.push(used(recipe, index));
    Some(Hover { span, markdown: lines.join("\n\n") })
}

/// What a mention means: the listed line, what this step takes of it, and what else does.
fn mentioned(recipe: &Recipe, house: &House, mention: &Mention) -> String {
    let mut lines = Vec::new();
    for target in mention.targets.iter().take(8) {
        match target {
            Target::Ingredient(index, part) => {
                let Some(ingredient) = recipe.ingredients.get(*index) else { continue };
                let part = part.map(|part| format!("the {part} of ")).unwrap_or_default();
                lines.push(format!("{part}**{}**", one_line(recipe.at(ingredient.span))));
                if let Some(amount) = ingredient.amount.filter(|_| mention.targets.len() == 1) {
                    lines.extend(measure::answer(recipe, house, amount));
                }
                if mention.targets.len() == 1 {
                    lines.push(used(recipe, *index));
                }
            }
            Target::Result(index) => {
                let Some(result) = recipe.flow.results.get(*index) else { continue };
                lines.push(format!("**{}**, made in step {}", result.words.join(" "), result.step + 1));
            }
            Target::Group(index) => {
                let Some(group) = recipe.groups.get(*index) else { continue };
                lines.push(format!("**{}**", recipe.at(group.name)));
            }
        }
    }
    lines.join("\n\n")
}

/// In which steps an ingredient is used, and how much of it.
fn used(recipe: &Recipe, index: usize) -> String {
    let uses = recipe.flow.uses(index);
    if uses.is_empty() {
        return "Not used in any step.".to_owned();
    }
    let said = uses.iter().map(|found| {
        let part = found.part.map(|part| format!(" ({part})")).unwrap_or_default();
        let share =
            share(recipe, found).filter(|share| share != "all").map(|share| format!(": {share}")).unwrap_or_default();
        format!("step {}{part}{share}", found.step + 1)
    });
    format!("Used in {}.", said.collect::<Vec<_>>().join(", "))
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
