//! `section-empty`: a section has its label and nothing behind it.

use super::{Check, Finding, Severity, View};
use crate::recipe::SectionKind;

/// The check.
pub const CHECK: Check =
    Check { code: "section-empty", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for section in &recipe.sections {
        // A section that is repeated may be empty in one place; prose holds what the reader does not keep.
        let again = recipe.sections.iter().filter(|other| other.kind == section.kind).count() > 1;
        let inside = |span: crate::text::Span| section.span.contains(span);
        let full = match section.kind {
            SectionKind::Ingredients => recipe.ingredients.iter().any(|line| inside(line.span)),
            SectionKind::Equipment => recipe.equipment.iter().any(|line| inside(line.span)),
            SectionKind::Method => recipe.steps.iter().any(|step| inside(step.span)),
            SectionKind::Tests => recipe.tests.iter().any(|test| inside(*test)),
            SectionKind::Prose => recipe.at(section.span).trim_end().len() > recipe.at(section.heading).len() + 1,
        };
        if full || again {
            continue;
        }
        let name = recipe.at(section.heading);
        let message = format!(
            "Nothing stands under {name}. Fill it in, or take the label out: a reader looks for what is missing."
        );
        out.push(Finding::new(CHECK.code, CHECK.severity, section.heading, message));
    }
}
