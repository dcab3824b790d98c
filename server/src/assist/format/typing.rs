//! What is laid out while it is being typed: the number of the step that begins, the space before a restatement.

use super::{Place, edits, gaps, marks, may_number};
use crate::{
    checks::support::{lines, steps, words},
    recipe::{Recipe, SectionKind, Step},
    syntax::Tree,
    text::{Edit, Span},
};

/// Only what the sign that was typed is about.
const PLACE: Place = Place { first: false, last: false, number: true };

/// The edits that follow from typing `sign` right before `offset`: a line break, `.`, or `)`.
pub fn typed(recipe: &Recipe, tree: &Tree, offset: usize, sign: &str) -> Vec<Edit> {
    let line = Span::new(lines::start(&recipe.text, offset), lines::end(&recipe.text, offset));
    match sign {
        "\n" => new_step(recipe, offset),
        "." if ends_number(recipe, offset) => edits(recipe, tree, PLACE, &[marks::numbers]),
        ")" => {
            let mut edits = edits(recipe, tree, PLACE, &[gaps::restatements]);
            edits.retain(|edit| line.contains(edit.span) && edit.span.end < offset);
            edits
        }
        _ => Vec::new(),
    }
}

fn ends_number(recipe: &Recipe, offset: usize) -> bool {
    recipe.steps.iter().filter_map(|step| step.number).any(|number| number.start < offset && offset <= number.end)
}

/// The number of the step that begins on an empty line, behind a step with a number; those below it count on from there.
fn new_step(recipe: &Recipe, offset: usize) -> Vec<Edit> {
    let text = &*recipe.text;
    if !lines::is_blank(text, offset) || !in_method(recipe, offset) || !may_number(recipe) {
        return Vec::new();
    }
    let above = recipe.steps.iter().rposition(|step| step.span.end <= offset);
    let Some((index, step)) = above.and_then(|index| Some((index, recipe.steps.get(index)?))) else {
        return Vec::new();
    };
    let heading = recipe.groups.iter().any(|group| step.span.end <= group.name.start && group.name.start < offset);
    let parted = lines::blank_between(text, step.span.end, lines::start(text, offset));
    let Some(label) = label_behind(recipe, step).filter(|_| !heading && parted != stand_close(recipe)) else {
        return Vec::new();
    };
    let mut edits = vec![Edit::replace(Span::new(lines::start(text, offset), lines::end(text, offset)), label)];
    if let Some(number) = words::written_number(recipe, step).filter(|_| !steps::restarts(recipe, index + 1)) {
        edits.extend(steps::renumber(recipe, index + 1, number + 2));
    }
    edits
}

fn in_method(recipe: &Recipe, offset: usize) -> bool {
    let above = recipe.sections.iter().rfind(|section| section.heading.start <= offset);
    above.is_some_and(|section| section.kind == SectionKind::Method)
}

/// The number that the step behind this one has, written as this one's: `4. `, `4) `, `Step 4: `.
fn label_behind(recipe: &Recipe, step: &Step) -> Option<String> {
    let (digits, number) = words::digits(recipe, step).zip(words::written_number(recipe, step))?;
    let whole = step.number?;
    let lead = Span::new(whole.start, digits.start).of(&recipe.text);
    let tail = Span::new(digits.end, whole.end).of(&recipe.text).trim_end();
    Some(format!("{lead}{}{tail} ", number + 1))
}

/// Whether the steps of this method follow each other without blank lines.
fn stand_close(recipe: &Recipe) -> bool {
    recipe.steps.windows(2).any(|pair| match pair {
        [one, two] => !lines::blank_between(&recipe.text, one.span.end, two.span.start),
        _ => false,
    })
}
