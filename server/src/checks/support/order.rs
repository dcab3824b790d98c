//! Where a thing's place in the list puts it in the method.

use super::bracket::Place;
use crate::recipe::{Ingredient, Recipe, flow::Use, mentions::Link};

/// The first use of the nearest line above an ingredient that a step uses: under its heading, or in the whole list where no step
/// uses any other under it.
pub fn above(recipe: &Recipe, index: usize) -> Option<Use> {
    let group = recipe.ingredient(index).and_then(|line| line.group);
    let near = |other: usize, within: bool| {
        let line = recipe.ingredient(other).filter(|line| !within || line.group == group)?;
        (!line.tags.pan).then(|| first_sure_use(recipe, other)).flatten()
    };
    let below = (index + 1..recipe.ingredients.len()).any(|other| near(other, true).is_some());
    let own = (0..index).rev().find_map(|other| near(other, true));
    if own.is_some() || below { own } else { (0..index).rev().find_map(|other| near(other, false)) }
}

/// The first use of an ingredient by its own name, or by a part of it.
pub fn first_sure_use(recipe: &Recipe, index: usize) -> Option<Use> {
    recipe.flow.uses(index).into_iter().find(|found| found.link <= Link::Part)
}

/// A line of the list whose place means something, and its first use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// The line, as an index.
    pub line: usize,
    /// Its first use.
    pub first: Use,
}

/// The lines under a heading whose place in the list means something: their first use is sure, and they are no staples.
pub fn placed(recipe: &Recipe, group: Option<usize>) -> Vec<Placed> {
    let own = recipe.ingredients.iter().enumerate().filter(|(_, line)| line.group == group && !stands_anywhere(line));
    let placed = own.filter_map(|(line, _)| {
        let uses = recipe.flow.uses(line);
        let first = *uses.iter().find(|found| found.link <= Link::Part)?;
        // Oil that greases the pan in step 1 and goes into the batter in step 3 may stand in either place.
        let twice = uses.iter().any(|earlier| earlier.step < first.step);
        (!twice).then_some(Placed { line, first })
    });
    placed.collect()
}

/// Whether the place of this line in the list means nothing.
pub fn may_stand_anywhere(recipe: &Recipe, index: usize) -> bool {
    recipe.ingredient(index).is_some_and(stands_anywhere)
}

/// Houses put salt, pepper and water first or last, and what is optional, for the pan or the table last (common practice, no
/// source).
fn stands_anywhere(line: &Ingredient) -> bool {
    let tags = line.tags;
    let staple = line.names.iter().filter_map(|name| name.food).any(|food| {
        food.is("salt")
            || food.is("water")
            || food.name == "water"
            || food.name.ends_with("pepper") && food.is("seasoning")
    });
    staple || tags.pan || tags.serving || tags.optional || tags.taste
}

/// The most lines that can stay where they are: the longest run of steps that never goes back.
pub fn in_order(lines: &[Placed]) -> Vec<Placed> {
    let steps: Vec<usize> = lines.iter().map(|line| line.first.step).collect();
    longest_run(&steps).into_iter().filter_map(|at| lines.get(at).copied()).collect()
}

/// The places of the longest run that never goes back, in order.
fn longest_run(steps: &[usize]) -> Vec<usize> {
    // The longest run that ends with each line: its length, and the line before it.
    let mut best: Vec<(usize, Option<usize>)> = Vec::with_capacity(steps.len());
    for (at, step) in steps.iter().enumerate() {
        let earlier = steps.iter().zip(&best).enumerate().take(at);
        let before = earlier.filter(|(_, (other, _))| *other <= step);
        let longest = before.max_by_key(|(other, (_, (length, _)))| (*length, *other));
        best.push(longest.map_or((1, None), |(other, (_, (length, _)))| (length + 1, Some(other))));
    }
    let mut at = (0..best.len()).max_by_key(|at| (best.get(*at).map(|(length, _)| *length), *at));
    let mut kept = Vec::new();
    while let Some(line) = at {
        kept.push(line);
        at = best.get(line).and_then(|(_, before)| *before);
    }
    kept.reverse();
    kept
}

/// The lines that stand out of the order in which the steps use them, as indices; `lines` are those under one heading with their
/// first steps. None where the order is the author's own: a list that opens with the main thing, or goes by another order
/// altogether (by shelf of the shop).
pub fn astray(recipe: &Recipe, lines: &[(usize, usize)]) -> Vec<usize> {
    let steps: Vec<usize> = lines.iter().map(|(_, step)| *step).collect();
    let kept = longest_run(&steps);
    let astray: Vec<usize> =
        lines.iter().enumerate().filter(|(at, _)| !kept.contains(at)).map(|(_, (line, _))| *line).collect();
    let group = |index: usize| recipe.ingredient(index).and_then(|line| line.group);
    let opens = astray.first().is_some_and(|first| *first == 0 || group(first - 1) != group(*first));
    if astray.len() > 2 || opens { Vec::new() } else { astray }
}

/// Whether a list that goes in the order of use no longer did so if the ingredient of this index, which no step uses, were first
/// used in this place. `placed` are the lines under its heading whose place means something.
pub fn is_upset_by(recipe: &Recipe, index: usize, place: Place, placed: &[Placed]) -> bool {
    // Room before and behind each step for a new one.
    let step = |step: usize| 2 * step + 1;
    let mut lines: Vec<(usize, usize)> = placed.iter().map(|line| (line.line, step(line.first.step))).collect();
    if may_stand_anywhere(recipe, index) || !astray(recipe, &lines).is_empty() {
        return false;
    }
    let own = match place {
        Place::Before(other) => step(other) - 1,
        Place::In(other) => step(other),
        Place::After(other) => step(other) + 1,
    };
    lines.insert(lines.partition_point(|(line, _)| *line < index), (index, own));
    !astray(recipe, &lines).is_empty()
}

/// The line of the list that something first used in a step goes behind, or else the one it goes before.
pub fn beside_in_list(recipe: &Recipe, step: usize) -> Option<(&Ingredient, bool)> {
    let every = recipe.ingredients.iter().enumerate();
    let uses = every.filter_map(|(index, line)| Some((first_sure_use(recipe, index)?.step, line)));
    // The heading whose lines are used nearest before, else nearest after.
    let nearest = uses.min_by_key(|(other, _)| (*other > step, other.abs_diff(step)));
    let Some((_, nearest)) = nearest else { return recipe.ingredients.last().map(|last| (last, true)) };
    let kept = in_order(&placed(recipe, nearest.group));
    let line = |placed: &Placed| recipe.ingredient(placed.line);
    let above = kept.iter().rfind(|placed| placed.first.step <= step).and_then(line);
    let below = kept.first().and_then(line);
    above.map(|above| (above, true)).or(below.map(|below| (below, false))).or(Some((nearest, true)))
}
