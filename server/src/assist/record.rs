//! The beginning of a new line in the tests: the day, and what was cooked.

use crate::{
    checks::support::lines,
    recipe::{Recipe, SectionKind, fingerprint::fingerprint},
    text::Edit,
};

/// The edit that records a test on `day` (`2026-04-21`) of the recipe as it is now, up to where what was tried and measured goes.
pub fn record_test(recipe: &Recipe, day: &str) -> Edit {
    let line = format!("- {day} ({}): ", fingerprint(recipe));
    let text = &recipe.text;
    let section = recipe.sections.iter().rev().find(|section| section.kind == SectionKind::Tests);
    let last = recipe.tests.last().map(|test| test.start + recipe.at(*test).trim_end().len());
    match last.or(section.map(|section| section.heading.end)) {
        Some(above) => Edit::insert(lines::end(text, above), format!("\n{line}")),
        None => Edit::insert(text.trim_end().len(), format!("\n\nTests:\n{line}")),
    }
}
