//! `yield-missing`: nothing says how much the recipe makes, or for how many.

use super::{Check, Finding, Severity, View, finding::Certainty};
use crate::{
    larder::words::fold,
    recipe::{Recipe, SectionKind},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "yield-missing", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// Words with which prose and titles say a yield: `makes about 24`, `enough for one pie`.
const SAYS: &[&str] = &["make", "serve", "yield", "feed", "enough", "portion", "serving", "people", "person", "dozen"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let cooks = recipe.has(SectionKind::Ingredients) && recipe.has(SectionKind::Method) && !recipe.steps.is_empty();
    let Some(title) = recipe.title.filter(|_| cooks && recipe.damage.is_empty()) else { return };
    // Some write it into the list: "Serves about 3; add a quarter for 4".
    let remarks = recipe.ingredients.iter().filter(|line| line.tags.remark).map(|line| line.span);
    let mut places = recipe.headnotes.iter().copied().chain([title]).chain(remarks);
    if has_header(recipe) || places.any(|place| says_how_much(recipe, place)) {
        return;
    }
    let message = "Nothing says how much this makes or how many it serves, so a cook can neither plan a meal nor scale it. \
                   Add a line such as “Serves: 4” or “Yield: 2 cups (475 ml)” under the title.";
    out.push(Finding::new(CHECK.code, CHECK.severity, title, message).certainty(Certainty::Sure));
}

fn has_header(recipe: &Recipe) -> bool {
    let labels = recipe.headers.iter().map(|header| recipe.at(header.label).to_lowercase());
    labels.into_iter().any(|label| matches!(label.as_str(), "yield" | "serves"))
}

/// Whether a place says a yield in words: one of them, with a number near it.
fn says_how_much(recipe: &Recipe, place: Span) -> bool {
    let words: Vec<String> =
        recipe.at(place).split(|c: char| !c.is_alphanumeric()).map(|word| fold(word).into_owned()).collect();
    let counts = |word: &String| word.starts_with(char::is_numeric) || crate::measure::read_number(word).is_ok();
    words.iter().enumerate().filter(|(_, word)| SAYS.contains(&&***word)).any(|(at, _)| {
        words.get(at.saturating_sub(3)..(at + 6).min(words.len())).is_some_and(|near| near.iter().any(counts))
    })
}
