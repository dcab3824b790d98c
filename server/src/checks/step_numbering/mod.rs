//! `step-numbering`: the steps are not numbered 1, 2, 3.

use super::{
    Check, Finding, Fix, Severity, View,
    support::{steps, words},
};
use crate::recipe::Recipe;

/// The check.
pub const CHECK: Check =
    Check { code: "step-numbering", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let mut expected = 1;
    let mut told = false;
    for (index, step) in recipe.steps.iter().enumerate() {
        if steps::restarts(recipe, index) {
            (expected, told) = (1, false);
        }
        let Some(number) = words::written_number(recipe, step) else { continue };
        if number != expected && !told {
            out.extend(finding(recipe, index, number, expected));
            told = true;
        }
        expected += 1;
    }
}

fn finding(recipe: &Recipe, index: usize, number: u64, expected: u64) -> Option<Finding> {
    let digits = words::digits(recipe, recipe.steps.get(index)?)?;
    let message = format!(
        "This is step {expected}, but it is numbered {number}. A cook who is told “see step {number}”, or looks up from the \
         pot, ends in the wrong place."
    );
    let found = Finding::new(CHECK.code, CHECK.severity, digits, message);
    let edits = steps::renumber(recipe, index, expected);
    let title = format!("Number the steps {expected}, {} … from here", expected + 1);
    Some(found.fix(if steps::are_spoken_of(recipe) { Fix::new(title, edits) } else { Fix::safe(title, edits) }))
}
