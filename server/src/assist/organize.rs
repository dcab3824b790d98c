//! The list in the order in which the steps use it, where that order is certain.

use crate::{
    checks::support::{
        list,
        order::{self, Placed},
    },
    recipe::Recipe,
    text::{Edit, LineEnding, Span},
};

/// The edits that put the lines under each heading in the order of their first use. A comment stays above its line, and a line
/// that may stand anywhere behind the one above it. Nothing is moved under a heading where the first use of a line is not sure,
/// or where blank lines or queries part the list.
pub fn organize(recipe: &Recipe) -> Vec<Edit> {
    let mut groups: Vec<Option<usize>> = recipe.ingredients.iter().map(|line| line.group).collect();
    groups.dedup();
    groups.into_iter().filter_map(|group| under(recipe, group)).collect()
}

fn under(recipe: &Recipe, group: Option<usize>) -> Option<Edit> {
    let placed = order::placed(recipe, group);
    let own: Vec<usize> = (0..recipe.ingredients.len())
        .filter(|index| recipe.ingredient(*index).is_some_and(|line| line.group == group))
        .collect();
    let of_line = |index: usize| placed.iter().find(|placed| placed.line == index);
    let certain = own.iter().all(|index| of_line(*index).is_some() || order::may_stand_anywhere(recipe, *index));
    if !certain || order::in_order(&placed).len() == placed.len() {
        return None;
    }
    let blocks = blocks(recipe, &own)?;
    let whole = blocks.first()?.joined(*blocks.last()?);
    let mut keyed: Vec<(usize, Span)> = Vec::new();
    for (index, block) in own.iter().zip(blocks) {
        let above = keyed.last().map_or(0, |(step, _)| *step);
        keyed.push((of_line(*index).map_or(above, |placed: &Placed| placed.first.step), block));
    }
    keyed.sort_by_key(|(step, _)| *step);
    let texts: Vec<String> = keyed.iter().map(|(_, block)| plain(recipe.at(*block))).collect();
    let ended = if whole.of(&recipe.text).ends_with(['\n', '\r']) { "\n" } else { "" };
    Some(Edit::replace(whole, texts.join("\n") + ended))
}

/// The lines of each item, with the comments above it; together they are all lines from the first item to the last.
fn blocks(recipe: &Recipe, own: &[usize]) -> Option<Vec<Span>> {
    let mut out: Vec<Span> = Vec::new();
    for line in own.iter().filter_map(|index| recipe.ingredient(*index)) {
        let block = list::block(recipe, line.span);
        let start = out.last().map_or(block.start, |above| above.end);
        let between = LineEnding::taken_out_of(Span::new(start, block.start).of(&recipe.text));
        if block.start < start || between.lines().any(|line| !line.trim_start().starts_with("//")) {
            return None;
        }
        out.push(Span::new(start, block.end));
    }
    Some(out)
}

/// Lines without the last break, whose breaks are `\n`.
fn plain(lines: &str) -> String {
    LineEnding::taken_out_of(lines.trim_end_matches(['\n', '\r']))
}
