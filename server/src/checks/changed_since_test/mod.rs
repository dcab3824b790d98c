//! `changed-since-test`: the amounts or the steps are no longer those that were cooked.

use super::{Check, Finding, Severity, View};
use crate::recipe::trials;

/// The check.
pub const CHECK: Check =
    Check { code: "changed-since-test", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if !trials::is_outdated(recipe) {
        return;
    }
    let signed = trials::tests(recipe).into_iter().filter(|test| test.fingerprint.is_some());
    let Some(latest) = signed.max_by_key(|test| (recipe.at(test.day), test.span.start)) else { return };
    let day = recipe.at(latest.day);
    let message = format!(
        "The amounts or the steps have changed since this test of {day}, so nobody has cooked the recipe as it stands. Cook it again and \
         record that, or take the change back."
    );
    out.push(Finding::new(CHECK.code, CHECK.severity, latest.day, message));
}
