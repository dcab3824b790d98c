//! `section-missing`: a section that every recipe of the house must have is not there.

use super::{Check, Finding, Severity, View};
use crate::{recipe::SectionKind, text::Span};

/// The check.
pub const CHECK: Check =
    Check { code: "section-missing", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let headed =
        |name: &&&str| recipe.sections.iter().any(|section| recipe.at(section.heading).eq_ignore_ascii_case(name));
    for kind in view.house.required.iter().filter(|kind| !recipe.has(**kind)) {
        let (name, why) = match kind {
            SectionKind::Ingredients => ("Ingredients", "A cook cannot shop for it"),
            SectionKind::Method => ("Method", "A cook cannot follow it"),
            SectionKind::Equipment => ("Equipment", "The house asks for one"),
            SectionKind::Tests => ("Tests", "The house asks for one"),
            SectionKind::Prose => ("Notes", "The house asks for one"),
        };
        out.push(finding(view, name, why));
    }
    for name in view.house.required_prose.iter().filter(|name| !headed(name)) {
        out.push(finding(view, name, "The house asks for one"));
    }
}

fn finding(view: &View<'_>, name: &str, why: &str) -> Finding {
    let place = view.recipe.title.unwrap_or(Span::at(0));
    let message = format!("This recipe has no section {name}. {why}. Put “{name}:” on a line of its own above it.");
    Finding::new(CHECK.code, CHECK.severity, place, message)
}
