//! `label-unknown`: a line that looks like a label and is a slip away from one.

use super::{Check, Finding, Fix, Severity, View};
use crate::{
    larder::spelling::{slips, slips_allowed},
    recipe::Recipe,
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "label-unknown", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Labels with text behind them.
const HEADERS: &[&str] = &[
    "Recipe",
    "Yield",
    "Serves",
    "Time",
    "Course",
    "Cuisine",
    "Diet",
    "Allergens",
    "Author",
    "Photo",
    "Keywords",
    "Status",
    "Notes",
    "Storage",
    "Variations",
    "Sidebar",
];

/// Labels that stand alone on their line.
const SECTIONS: &[&str] = &["Ingredients", "Equipment", "Method", "Directions", "Instructions", "Preparation", "Tests"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let mut at = Vec::new();
    for headnote in &recipe.headnotes {
        at.extend(lines(recipe, *headnote).filter_map(|line| slip(recipe, line)));
    }
    at.extend(
        recipe.groups.iter().filter_map(|group| near(recipe.at(group.name), SECTIONS).map(|label| (group.name, label))),
    );
    for (span, label) in at {
        let message = format!(
            "“{}” is nearly the label {label}, and is read as plain text. What stands behind it is not checked.",
            recipe.at(span)
        );
        out.push(
            Finding::new(CHECK.code, CHECK.severity, span, message)
                .fix(Fix::new(format!("Write {label}"), vec![Edit::replace(span, label)])),
        );
    }
}

fn lines(recipe: &Recipe, span: Span) -> impl Iterator<Item = Span> {
    let mut start = span.start;
    recipe.at(span).split_inclusive(['\n', '\r']).map(move |line| {
        let own = Span::new(start, start + line.trim_end().len());
        start += line.len();
        own
    })
}

/// The word before the colon of a line, and the label that it nearly is.
fn slip(recipe: &Recipe, line: Span) -> Option<(Span, &'static str)> {
    let text = recipe.at(line);
    let colon = text.find(':')?;
    let word = text.get(..colon)?;
    let alone = text.get(colon + 1..)?.trim().is_empty();
    let label = near(word, if alone { SECTIONS } else { HEADERS })?;
    Some((Span::new(line.start, line.start + word.len()), label))
}

fn near(word: &str, labels: &'static [&'static str]) -> Option<&'static str> {
    let lower = word.to_lowercase();
    if word.contains(char::is_whitespace) || labels.iter().any(|label| label.eq_ignore_ascii_case(word)) {
        return None;
    }
    let allowed = slips_allowed(&lower).min(2);
    labels.iter().copied().find(|label| allowed > 0 && slips(&label.to_lowercase(), &lower, allowed).is_some())
}
