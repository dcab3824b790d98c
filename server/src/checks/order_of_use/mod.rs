//! `order-of-use`: the list does not go in the order in which the steps use it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, order, words},
};
use crate::{
    recipe::{Ingredient, Recipe, flow::Use},
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "order-of-use", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let mut groups: Vec<Option<usize>> = recipe.ingredients.iter().map(|line| line.group).collect();
    groups.dedup();
    for group in groups {
        let lines: Vec<(usize, Use)> =
            (0..recipe.ingredients.len()).filter_map(|index| placed(recipe, index, group)).collect();
        let kept = in_order(&lines);
        let astray: Vec<&(usize, Use)> = lines.iter().filter(|line| !kept.contains(&line.0)).collect();
        // A list that goes by another order altogether (the main thing first, by shelf of the shop) is a choice.
        let chosen = astray.len() * 3 > lines.len();
        if let Some(first) = astray.first().filter(|_| !chosen) {
            out.extend(finding(recipe, group, &lines, first, astray.len() - 1));
        }
    }
}

/// A line of a group whose place in the list means something: its first use is sure, and it is no staple.
fn placed(recipe: &Recipe, index: usize, group: Option<usize>) -> Option<(usize, Use)> {
    let line = recipe.ingredient(index).filter(|line| line.group == group)?;
    let tags = line.tags;
    let counts = !(tags.pan || tags.serving || tags.optional || tags.taste || is_staple(line));
    let found = order::first_sure_use(recipe, index).filter(|_| counts)?;
    // Oil that greases the pan in step 1 and goes into the batter in step 3 may stand in either place.
    let twice = recipe.flow.uses(index).iter().any(|earlier| earlier.step < found.step);
    (!twice).then_some((index, found))
}

/// Houses put salt, pepper and water first or last (common practice, no source).
fn is_staple(line: &Ingredient) -> bool {
    line.names.iter().filter_map(|name| name.food).any(|food| {
        food.is("salt")
            || food.is("water")
            || food.name == "water"
            || food.name.ends_with("pepper") && food.is("seasoning")
    })
}

/// The most lines that can stay where they are: the longest run of steps that never goes back.
fn in_order(lines: &[(usize, Use)]) -> Vec<usize> {
    // best[i]: the longest run that ends with line i, as (length, line before it).
    let mut best: Vec<(usize, Option<usize>)> = Vec::with_capacity(lines.len());
    for (at, (_, found)) in lines.iter().enumerate() {
        let before =
            lines.iter().zip(&best).enumerate().take(at).filter(|(_, ((_, other), _))| other.step <= found.step);
        let longest = before.max_by_key(|(other, (_, (length, _)))| (*length, *other));
        best.push(longest.map_or((1, None), |(other, (_, (length, _)))| (length + 1, Some(other))));
    }
    let mut at = (0..best.len()).max_by_key(|at| (best.get(*at).map(|(length, _)| *length), *at));
    let mut kept = Vec::new();
    while let Some(line) = at {
        kept.extend(lines.get(line).map(|(index, _)| *index));
        at = best.get(line).and_then(|(_, before)| *before);
    }
    kept
}

fn finding(
    recipe: &Recipe,
    group: Option<usize>,
    lines: &[(usize, Use)],
    astray: &(usize, Use),
    others: usize,
) -> Option<Finding> {
    let line = recipe.ingredient(astray.0)?;
    let name = words::ingredient(recipe, line);
    let also = match others {
        0 => String::new(),
        1 => "; one more line is out of order".to_owned(),
        _ => format!("; {others} more lines are out of order"),
    };
    let message = format!(
        "The list does not go in the order of use: {} is the first to use the {name}{also}. A cook sets things out by the \
         list and looks for the next one in the next line.",
        words::step(recipe, astray.1.step)
    );
    let mention = recipe.flow.mentions.get(astray.1.mention)?;
    let found = Finding::new(CHECK.code, CHECK.severity, line.mark, message).certainty(Certainty::Likely);
    let title = match group.and_then(|group| recipe.groups.get(group)) {
        Some(group) => format!("Put “{}” in the order of use", words::plain(recipe.at(group.name))),
        None => "Put the list in the order of use".to_owned(),
    };
    Some(found.related(mention.span, "first used here").fix(Fix::new(title, reorder(recipe, group, lines))))
}

/// The lines of the group sorted by first use. One whose place means nothing stays behind the line above it.
fn reorder(recipe: &Recipe, group: Option<usize>, lines: &[(usize, Use)]) -> Vec<Edit> {
    let own = || recipe.ingredients.iter().enumerate().filter(|(_, line)| line.group == group);
    let blocks: Vec<Span> = own().map(|(_, line)| list::block(recipe, line.span)).collect();
    let (Some(first), Some(last)) = (blocks.first(), blocks.last()) else { return Vec::new() };
    // Blank lines, comments and queries between the items would lose their neighbours.
    let joined: usize = blocks.iter().map(|block| block.len()).sum();
    let whole = Span::new(first.start, last.end);
    if joined != whole.len() {
        return Vec::new();
    }
    let mut step = 0;
    let mut keyed: Vec<(usize, Span)> = own()
        .zip(&blocks)
        .map(|((index, _), block)| {
            step = lines.iter().find(|(line, _)| *line == index).map_or(step, |(_, found)| found.step);
            (step, *block)
        })
        .collect();
    keyed.sort_by_key(|(step, _)| *step);
    let ended = whole.of(&recipe.text).ends_with(['\n', '\r']);
    let texts: Vec<&str> = keyed.iter().map(|(_, block)| recipe.at(*block).trim_end_matches(['\n', '\r'])).collect();
    let text = texts.join("\n") + if ended { "\n" } else { "" };
    vec![Edit::replace(whole, text)]
}
