//! `divided-needless`: the line says that it is divided, and one step takes all of it.

use super::{Check, Finding, Fix, Severity, View, finding::Certainty, support::words};
use crate::{
    recipe::{Ingredient, Recipe, language::clause::Sense},
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "divided-needless", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| line.tags.divided) {
        let takes = recipe.flow.mentions.iter().filter(|mention| {
            let means = mention.targets.iter().any(|target| match target {
                crate::recipe::mentions::Target::Group(group) => line.group == Some(*group),
                target => target.ingredient() == Some(index),
            });
            mention.sense == Sense::Use && means
        });
        let takes: Vec<_> = takes.collect();
        if let [only] = takes.as_slice() {
            out.extend(word(recipe, line).map(|word| finding(recipe, line, only.step, word)));
        }
    }
}

/// The word that says so.
fn word(recipe: &Recipe, line: &Ingredient) -> Option<Span> {
    let at = recipe.at(line.span).to_lowercase().find("divided")?;
    let start = line.span.start + at;
    let word = Span::new(start, start + "divided".len());
    word.of(&recipe.text).eq_ignore_ascii_case("divided").then_some(word)
}

fn finding(recipe: &Recipe, line: &Ingredient, step: usize, word: Span) -> Finding {
    let name = words::ingredient(recipe, line);
    let message = format!(
        "The list says “divided” of the {name}, but only {} takes of {it}. A cook will keep some back and wait for a step \
         that does not come.",
        words::step(recipe, step),
        it = words::it(&name)
    );
    let before = Span::new(line.span.start, word.start).of(&recipe.text).trim_end();
    let start = line.span.start + before.strip_suffix(',').unwrap_or(before).trim_end().len();
    let found = Finding::new(CHECK.code, CHECK.severity, word, message).certainty(Certainty::Likely);
    found.fix(Fix::new(format!("Take out “divided” of the {name}"), vec![Edit::delete(Span::new(start, word.end))]))
}
