//! Lines: no blanks at their ends, no two blank ones in a row, and a line break behind the last.

use super::Place;
use crate::{
    checks::support::lines,
    recipe::Recipe,
    syntax::Tree,
    text::{Edit, Span},
};

/// Blank lines between two recipes may be two: some like to see from afar where one ends.
const BETWEEN_RECIPES: usize = 2;

/// What is changed about lines. Prose above the first recipe only loses the blanks that nobody sees.
pub fn lines(recipe: &Recipe, _: &Tree, place: Place) -> Vec<Edit> {
    let text = &*recipe.text;
    let mut edits = Vec::new();
    let mut blank: Vec<Span> = Vec::new();
    let mut seen = false;
    let mut at = 0;
    while at < text.len() {
        let (end, next) = (lines::end(text, at), lines::next(text, at));
        let words = Span::new(at, end).of(text);
        edits.extend(unseen(at, words));
        if words.trim().is_empty() {
            blank.push(Span::new(at, next));
        } else {
            let allowed = if seen || !place.first { 1 } else { 0 };
            edits.extend(superfluous(recipe, &mut blank, allowed));
            seen = true;
        }
        at = next;
    }
    if !seen && place.first && !place.last {
        return vec![Edit::delete(Span::new(0, text.len()))];
    }
    if seen {
        edits.extend(superfluous(recipe, &mut blank, if place.last { 0 } else { BETWEEN_RECIPES }));
    }
    if place.last && seen && !text.ends_with(['\n', '\r']) && !text.lines().last().unwrap_or_default().trim().is_empty()
    {
        edits.push(Edit::insert(text.len(), "\n"));
    }
    edits
}

fn unseen(start: usize, words: &str) -> Option<Edit> {
    let kept = words.trim_end_matches([' ', '\t']).len();
    (kept < words.len()).then(|| Edit::delete(Span::new(start + kept, start + words.len())))
}

/// The blank lines of a run beyond those that are allowed.
fn superfluous(recipe: &Recipe, blank: &mut Vec<Span>, allowed: usize) -> Option<Edit> {
    let run = std::mem::take(blank);
    let gone = run.get(allowed..)?;
    let span = gone.first()?.joined(*gone.last()?);
    recipe.is_recipe().then(|| Edit::delete(span))
}
