//! `section-order`: what a cook needs first stands below what comes later.

use super::{Check, Finding, Fix, Severity, View, support::lines};
use crate::{
    recipe::{Recipe, Section, SectionKind},
    text::{Edit, LineEnding, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "section-order", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let Some(method) = recipe.sections.iter().find(|section| section.kind == SectionKind::Method) else { return };
    let late = |kind, message: &str| {
        // A recipe in several parts, each with a list and a method of its own, goes by the parts.
        let mut own = recipe.sections.iter().filter(|section| section.kind == kind);
        let section = own.next().filter(|section| section.span.start > method.span.start && own.next().is_none())?;
        let found = Finding::new(CHECK.code, CHECK.severity, section.heading, message);
        let found = found.related(method.heading, "the method stands here");
        let title = format!("Put “{}” above “{}”", recipe.at(section.heading), recipe.at(method.heading));
        Some(match moved(recipe, section, method) {
            Some(edits) => found.fix(Fix::new(title, edits)),
            None => found,
        })
    };
    let list = "The list stands below the method. A cook shops and sets things out by the list before the first step is read: put it above.";
    let tools = "The equipment stands below the method, where a cook finds out too late what to borrow: put it above.";
    out.extend(late(SectionKind::Ingredients, list));
    out.extend(late(SectionKind::Equipment, tools));
}

/// The edits that put a section before another. Nothing where lines hang on it that speak for what stands below them.
fn moved(recipe: &Recipe, section: &Section, before: &Section) -> Option<Vec<Edit>> {
    let text = &recipe.text;
    let start = lines::start(text, section.heading.start);
    let target = lines::start(text, before.heading.start);
    let end = start + Span::new(start, section.span.end).of(text).trim_end().len();
    let stands_free = |at: usize| at == 0 || lines::is_blank(text, at - 1);
    if !stands_free(start) || !stands_free(target) {
        return None;
    }
    let own = LineEnding::taken_out_of(Span::new(start, end).of(text));
    let above = text.get(..start)?.trim_end().len();
    Some(vec![Edit::insert(target, format!("{own}\n\n")), Edit::delete(Span::new(above, end))])
}
