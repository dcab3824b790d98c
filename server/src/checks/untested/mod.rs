//! `untested`: a recipe without a test, in a book that records them.

use super::{Check, Finding, Severity, View};
use crate::recipe::{SectionKind, trials};

/// The check.
pub const CHECK: Check =
    Check { code: "untested", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let asked = view.house.grade(CHECK.code).is_some() || view.habits.records_tests();
    let cooked = !recipe.ingredients.is_empty() && !recipe.steps.is_empty();
    // Where the house wants the section, that it is missing has been said.
    let said = view.house.required.contains(&SectionKind::Tests) && !recipe.has(SectionKind::Tests);
    let Some(title) = recipe.title.filter(|_| asked && cooked && !said && !trials::is_tried(recipe)) else { return };
    let message = "Nobody has written down a test of this recipe. Cook it from the page, and record the day and what was measured \
                   under “Tests:”.";
    out.push(Finding::new(CHECK.code, CHECK.severity, title, message));
}
