//! Puts a line into a list or takes one out, written as the lines around it are.

use super::lines;
use crate::{
    recipe::{Recipe, Stet},
    text::{Edit, Span},
};

/// The marker and the white space before an item: `- `, or nothing.
pub fn marker(recipe: &Recipe, item: Span) -> &str {
    let start = lines::start(&recipe.text, item.start);
    Span::new(start, item.start).of(&recipe.text)
}

/// The edit that puts a new line in behind an item.
pub fn insert_after(recipe: &Recipe, item: Span, line: &str) -> Vec<Edit> {
    let marker = marker(recipe, item);
    vec![Edit::insert(lines::end(&recipe.text, item.end), format!("\n{marker}{line}"))]
}

/// The edit that puts a new line in before an item, and before the lines that let something of it stand.
pub fn insert_before(recipe: &Recipe, item: Span, line: &str) -> Vec<Edit> {
    let marker = marker(recipe, item);
    vec![Edit::insert(block(recipe, item).start, format!("{marker}{line}\n"))]
}

/// The edit that takes an item out, with the lines that let something of it stand.
pub fn delete(recipe: &Recipe, item: Span) -> Vec<Edit> {
    let mut out = block(recipe, item);
    let text = &recipe.text;
    // A list with blank lines between its items keeps one where two would meet.
    let blank_above = out.start > 0 && lines::is_blank(text, out.start - 1);
    if blank_above && out.end < text.len() && lines::is_blank(text, out.end) {
        out.end = lines::next(text, out.end);
    }
    vec![Edit::delete(out)]
}

/// The whole lines of an item, from the first line that lets something of it stand.
pub fn block(recipe: &Recipe, item: Span) -> Span {
    let own = |stet: &&Stet| stet.scope == item;
    let above = recipe.stets.iter().filter(own).map(|stet| stet.span).reduce(Span::joined);
    lines::whole(&recipe.text, above.map_or(item, |above| above.joined(item)))
}

/// Where words are added at the end of an item: before a comment that stands behind it.
pub fn end_of_words(recipe: &Recipe, item: Span) -> usize {
    let text = recipe.at(item);
    let comment = text.match_indices("//").map(|(at, _)| at);
    let comment = comment.filter(|at| text.get(..*at).is_some_and(|before| before.ends_with([' ', '\t']))).min();
    item.start + text.get(..comment.unwrap_or(text.len())).unwrap_or(text).trim_end().len()
}
