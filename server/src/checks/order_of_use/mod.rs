//! `order-of-use`: the list does not go in the order in which the steps use it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{
        list,
        order::{self, Placed},
        words,
    },
};
use crate::{
    recipe::Recipe,
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
        let lines = order::placed(recipe, group);
        let steps: Vec<(usize, usize)> = lines.iter().map(|line| (line.line, line.first.step)).collect();
        let astray = order::astray(recipe, &steps);
        let first = astray.first().and_then(|first| lines.iter().find(|line| line.line == *first));
        out.extend(first.and_then(|first| finding(recipe, group, &lines, first, astray.len() - 1)));
    }
}

fn finding(recipe: &Recipe, group: Option<usize>, lines: &[Placed], astray: &Placed, others: usize) -> Option<Finding> {
    let line = recipe.ingredient(astray.line)?;
    let name = words::ingredient(recipe, line);
    let also = if others > 0 { "; one more line is out of order" } else { "" };
    let message = format!(
        "The list does not go in the order of use: {} is the first to use the {name}{also}. A cook sets things out by the \
         list and looks for the next one in the next line.",
        words::step(recipe, astray.first.step)
    );
    let mention = recipe.flow.mentions.get(astray.first.mention)?;
    let found = Finding::new(CHECK.code, CHECK.severity, line.mark, message).certainty(Certainty::Likely);
    let title = match group.and_then(|group| recipe.groups.get(group)) {
        Some(group) => format!("Put “{}” in the order of use", words::plain(recipe.at(group.name))),
        None => "Put the list in the order of use".to_owned(),
    };
    Some(found.related(mention.span, "first used here").fix(Fix::new(title, reorder(recipe, group, lines))))
}

/// The lines of the group sorted by first use. One whose place means nothing stays behind the line above it.
fn reorder(recipe: &Recipe, group: Option<usize>, lines: &[Placed]) -> Vec<Edit> {
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
            step = lines.iter().find(|placed| placed.line == index).map_or(step, |placed| placed.first.step);
            (step, *block)
        })
        .collect();
    keyed.sort_by_key(|(step, _)| *step);
    let ended = whole.of(&recipe.text).ends_with(['\n', '\r']);
    let texts: Vec<&str> = keyed.iter().map(|(_, block)| recipe.at(*block).trim_end_matches(['\n', '\r'])).collect();
    let text = texts.join("\n") + if ended { "\n" } else { "" };
    vec![Edit::replace(whole, text)]
}
