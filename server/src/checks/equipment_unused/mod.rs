//! `equipment-unused`: the equipment list has it, and no step needs it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, tools, words},
};
use crate::{
    recipe::{Equipment, Recipe},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "equipment-unused", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.steps.is_empty() {
        return;
    }
    let idle = recipe.equipment.iter().enumerate().filter(|(index, _)| !tools::is_used(recipe, *index));
    out.extend(idle.map(|(_, piece)| finding(recipe, piece)));
}

fn finding(recipe: &Recipe, piece: &Equipment) -> Finding {
    let line = recipe.at(piece.span);
    let name = line.split([',', '(']).next().unwrap_or(line).trim_end();
    let name = Span::new(piece.span.start, piece.span.start + name.len());
    let called = words::plain(recipe.at(name));
    let called = called.trim_start_matches(|c: char| c.is_ascii_digit() || c.is_whitespace());
    let message = format!(
        "No step uses the {called}. Whoever sets things out by the list will look for it, or buy it, for nothing: name it in a \
         step, or take it off the list."
    );
    let found = Finding::new(CHECK.code, CHECK.severity, name, message).certainty(Certainty::Likely);
    if recipe.equipment.len() < 2 {
        return found;
    }
    found.fix(Fix::new(format!("Take the {called} off the list"), list::delete(recipe, piece.span)))
}
