//! Puts a new step into the method, written as the others are, and numbers those behind it anew.

use super::{
    bracket::Place,
    lines,
    words::{digits, written_number},
};
use crate::{
    recipe::{Recipe, Step},
    text::{Edit, Span},
};

/// The edits that put `sentence` in as a step of its own. Nothing where the method has no step to stand beside.
pub fn insert(recipe: &Recipe, place: Place, sentence: &str) -> Vec<Edit> {
    let (beside, first_behind) = match place {
        Place::Before(step) => (step, step),
        Place::After(step) | Place::In(step) => (step, step + 1),
    };
    let Some(neighbour) = recipe.steps.get(beside) else { return Vec::new() };
    let gap = if blank_lines(recipe) { "\n\n" } else { "\n" };
    let own = digits(recipe, neighbour).zip(written_number(recipe, neighbour));
    let before = matches!(place, Place::Before(_));
    let label = own.map(|(digits, number)| {
        let number = if before { number } else { number + 1 };
        let whole = neighbour.number.unwrap_or(digits);
        let lead = Span::new(whole.start, digits.start).of(&recipe.text);
        let tail = Span::new(digits.end, whole.end).of(&recipe.text).trim_end();
        format!("{lead}{number}{tail} ")
    });
    let label = label.unwrap_or_default();
    let mut edits = vec![if before {
        Edit::insert(above(recipe, neighbour), format!("{label}{sentence}{gap}"))
    } else {
        Edit::insert(lines::end(&recipe.text, neighbour.span.end), format!("{gap}{label}{sentence}"))
    }];
    if let Some((_, number)) = own.filter(|_| before || !restarts(recipe, first_behind)) {
        let next = if before { number + 1 } else { number + 2 };
        edits.extend(renumber(recipe, first_behind, next));
    }
    edits
}

/// The edits that number the steps from `first` on `next`, `next + 1` …, up to where the manuscript starts again at 1.
pub fn renumber(recipe: &Recipe, first: usize, next: u64) -> Vec<Edit> {
    let run = (first..recipe.steps.len()).take_while(|index| *index == first || !restarts(recipe, *index));
    let numbered = run.filter_map(|index| digits(recipe, recipe.steps.get(index)?));
    let wanted = numbered.zip(next..).filter(|(digits, number)| digits.of(&recipe.text) != number.to_string());
    wanted.map(|(digits, number)| Edit::replace(digits, number.to_string())).collect()
}

/// Whether numbering starts again at the step of this index: its number is 1, and a heading stands before it.
pub fn restarts(recipe: &Recipe, index: usize) -> bool {
    let group = |index: usize| recipe.steps.get(index).and_then(|step| step.group);
    let number = recipe.steps.get(index).and_then(|step| written_number(recipe, step));
    index > 0 && number == Some(1) && group(index) != group(index - 1)
}

/// Whether the recipe speaks of its steps by number: `see step 3`. Then somebody has to look which of them is meant.
pub fn are_spoken_of(recipe: &Recipe) -> bool {
    let text = &*recipe.text;
    let own = |at: usize| recipe.steps.iter().filter_map(|step| step.number).any(|number| number.touches(at));
    let starts_word = |at: usize| !text.get(..at).is_some_and(|before| before.ends_with(char::is_alphanumeric));
    let numbered = |at: usize| {
        let behind = text.get(at + "step".len()..).unwrap_or_default();
        let number = behind.strip_prefix(['s', 'S']).unwrap_or(behind);
        let digits = number.trim_start_matches(|c: char| c.is_whitespace() || c == '#');
        digits.len() < number.len() && digits.starts_with(|c: char| c.is_ascii_digit())
    };
    let places = ["step", "Step", "STEP"].into_iter().flat_map(|word| text.match_indices(word));
    places.map(|(at, _)| at).any(|at| starts_word(at) && numbered(at) && !own(at))
}

/// Where a new step goes in before this one: before the lines that let something of it stand.
fn above(recipe: &Recipe, step: &Step) -> usize {
    let own = recipe.stets.iter().filter(|stet| stet.scope == step.span).map(|stet| stet.span.start);
    own.chain([step.span.start]).min().map_or(step.span.start, |start| lines::start(&recipe.text, start))
}

/// Whether blank lines stand between the steps; steps without a number need them.
fn blank_lines(recipe: &Recipe) -> bool {
    let numbered = recipe.steps.iter().all(|step| step.number.is_some());
    let pairs = recipe.steps.windows(2);
    let between = |pair: &[Step]| match pair {
        [one, two] => lines::blank_between(&recipe.text, one.span.end, two.span.start),
        _ => true,
    };
    !numbered || recipe.steps.len() < 2 || pairs.into_iter().any(between)
}
