//! Takes a sentence out of the method or puts one in, and leaves steps that read as before.

use super::{bracket::Place, list, steps};
use crate::{
    recipe::Recipe,
    text::{Edit, Span},
};

/// The edits that take out a sentence; its step goes with it where it holds nothing else, and those behind are numbered anew.
pub fn remove(recipe: &Recipe, step: usize, sentence: Span) -> Vec<Edit> {
    let Some(own) = recipe.steps.get(step) else { return Vec::new() };
    if own.body.of(&recipe.text).trim() == recipe.at(sentence).trim() && own.results.is_empty() {
        return remove_step(recipe, step);
    }
    let behind = recipe.text.get(sentence.end..own.span.end).unwrap_or_default();
    let blanks = behind.len() - behind.trim_start().len();
    if blanks < behind.len() {
        return vec![Edit::delete(Span::new(sentence.start, sentence.end + blanks))];
    }
    // The last sentence goes with the blanks before it.
    let before = recipe.text.get(own.body.start..sentence.start).unwrap_or_default();
    vec![Edit::delete(Span::new(own.body.start + before.trim_end().len(), sentence.end))]
}

fn remove_step(recipe: &Recipe, step: usize) -> Vec<Edit> {
    let Some(own) = recipe.steps.get(step).filter(|_| recipe.steps.len() > 1) else { return Vec::new() };
    let mut edits = list::delete(recipe, own.span);
    let number = super::words::written_number(recipe, own);
    if let Some(number) = number.filter(|_| step + 1 < recipe.steps.len() && !steps::restarts(recipe, step + 1)) {
        edits.extend(steps::renumber(recipe, step + 1, number));
    }
    edits
}

/// The edits that put `text` in as a step of its own before everything that is there.
pub fn first(recipe: &Recipe, text: &str) -> Vec<Edit> {
    steps::insert(recipe, Place::Before(0), text)
}
