//! What to write in brackets so that a step means this ingredient and no other.

use super::words;
use crate::{
    larder::words::fold,
    recipe::{Ingredient, Name, Recipe, mentions::Target},
};

/// Where something is to be written in the method.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// In the step of this index.
    In(usize),
    /// In a new step before it.
    Before(usize),
    /// In a new step behind it.
    After(usize),
}

impl Place {
    /// The steps as which the place counts when a name is resolved there: a new step has the results of the one before it
    /// and may stand under the heading of either neighbour.
    fn counts_as(self) -> (usize, usize) {
        match self {
            Place::In(step) | Place::Before(step) => (step, step),
            Place::After(step) => (step, step + 1),
        }
    }
}

/// Marked mentions for the whole of an ingredient: `[sugar]`, `[salt] and [pepper]`, `[[Rough Puff]]`. Nothing where no
/// wording means it alone.
pub fn ingredient(recipe: &Recipe, index: usize, place: Place) -> Option<String> {
    let line = recipe.ingredient(index)?;
    let names: Vec<&Name> = line.names.iter().filter(|name| !name.aside).collect();
    let marked: Option<Vec<String>> = names.iter().map(|name| one(recipe, index, line, name, place)).collect();
    let marked = marked.filter(|marked| !marked.is_empty())?;
    Some(if line.alternatives { words::or(&marked) } else { words::and(&marked) })
}

fn one(recipe: &Recipe, index: usize, line: &Ingredient, name: &Name, place: Place) -> Option<String> {
    let right = |target: Target| target.ingredient() == Some(index);
    wordings(recipe, line, name).iter().find_map(|words| only(recipe, place, words, right))
}

/// Ways to name it, the shortest that a cook would write first.
fn wordings(recipe: &Recipe, line: &Ingredient, name: &Name) -> Vec<String> {
    let written = words::plain(recipe.at(name.span));
    let head = written.rsplit(' ').next().unwrap_or_default().to_owned();
    let mut out = Vec::new();
    if let Some(part) = name.part.filter(|part| !written.contains(part)) {
        out.push(format!("{written} {part}"));
        out.push(format!("{part} of the {written}"));
    }
    // The head alone where it is itself a food of that kind: sugar, but not extract.
    let kind = name.food.is_some_and(|food| food.is(&fold(&head)) || food.name == fold(&head));
    if kind && recipe.larder.scan(&[fold(&head)]).next().is_some() {
        out.push(head.clone());
    }
    out.push(written.clone());
    let all = name.all_words.iter().map(|word| &**word).collect::<Vec<_>>().join(" ");
    out.push(all.clone());
    let heading = line.group.and_then(|group| recipe.groups.get(group));
    let heading = heading.map(|group| group.words.iter().map(|word| &**word).collect::<Vec<_>>().join(" "));
    if let Some(heading) = heading.filter(|heading| !heading.is_empty()) {
        out.push(format!("{heading} {head}"));
        out.push(format!("{heading} {written}"));
        out.push(format!("{heading} {all}"));
    }
    out
}

/// `[words]`, where in this place they mean one thing alone, and that is the right one.
pub fn only(recipe: &Recipe, place: Place, words: &str, right: impl Fn(Target) -> bool) -> Option<String> {
    let (first, second) = place.counts_as();
    let fits = [first, second].into_iter().all(|step| match recipe.marked_meaning(step, words).as_slice() {
        [target] => right(*target),
        _ => false,
    });
    fits.then(|| format!("[{words}]"))
}
