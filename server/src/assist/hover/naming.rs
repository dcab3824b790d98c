//! What things are called, with the amount that the list gives.

use crate::{
    checks::support::words,
    larder::words::fold,
    recipe::{
        Ingredient, Recipe,
        language::lexicon::{Roles, roles},
        mentions::Target,
    },
};

/// A line of the list as it names its food, with the word for its pieces behind it: `basil leaves`, `red pepper flakes`.
pub fn line(recipe: &Recipe, line: &Ingredient) -> String {
    let name = words::ingredient(recipe, line);
    let behind = recipe.text.get(line.mark.end..line.span.end).unwrap_or_default();
    let word =
        behind.split([',', '(', ';', '[', ':', '\n', '\r']).next().and_then(|rest| rest.split_whitespace().next());
    let piece = word.filter(|word| roles(&fold(word)).any(Roles::PIECE));
    match piece.filter(|_| behind.starts_with(' ')) {
        Some(piece) => format!("{name} {piece}"),
        None => name,
    }
}

/// What a mention means, by the name that the manuscript gives it.
pub fn target(recipe: &Recipe, target: Target) -> String {
    let own = |index: usize| recipe.ingredient(index).and_then(|line| line.names.first()?.part);
    match target {
        Target::Ingredient(index, part) if part.is_none() || part == own(index) => {
            recipe.ingredient(index).map(|listed| line(recipe, listed)).unwrap_or_default()
        }
        Target::Ingredient(index, Some(part)) => {
            let name = recipe.ingredient(index).map(|listed| line(recipe, listed)).unwrap_or_default();
            if name.contains(part) { name } else { format!("{} of the {name}", part_of(part, words::is_plural(&name))) }
        }
        target => words::target(recipe, target),
    }
}

/// Parts that are counted stand in the plural where several are taken apart: the whites of the eggs.
pub fn part_of(part: &str, many: bool) -> &str {
    match part {
        "white" if many => "whites",
        "yolk" if many => "yolks",
        "leaf" => "leaves",
        part => part,
    }
}

/// `2 cloves garlic`, `zest of the lemon`.
pub fn with_amount(recipe: &Recipe, of: Target) -> String {
    let name = target(recipe, of);
    let Target::Ingredient(index, part) = of else { return name };
    let Some(listed) = recipe.ingredient(index) else { return name };
    let whole = part.is_none() || listed.names.first().is_some_and(|name| name.part == part);
    match listed.amount.filter(|_| whole).and_then(|index| recipe.measures.get(index)) {
        Some(measure) => format!("{} {name}", words::plain(recipe.at(measure.stated.span))),
        None => name,
    }
}

/// A group of the list stands for its lines.
pub fn expanded(recipe: &Recipe, targets: &[Target]) -> Vec<Target> {
    let mut out = Vec::new();
    for target in targets {
        match target {
            Target::Group(group) => {
                let lines = recipe.ingredients.iter().enumerate().filter(|(_, line)| line.group == Some(*group));
                out.extend(
                    lines.filter(|(_, line)| !line.tags.remark).map(|(index, _)| Target::Ingredient(index, None)),
                );
            }
            other => out.push(*other),
        }
    }
    out
}
