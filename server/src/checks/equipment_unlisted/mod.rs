//! `equipment-unlisted`: a step needs it, and the equipment list does not have it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, tools, words},
};
use crate::{
    larder::words::fold,
    recipe::{Recipe, Step, language::token::Token},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "equipment-unlisted", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.equipment.is_empty() {
        return;
    }
    let mut named: Vec<String> = Vec::new();
    for (index, step) in recipe.steps.iter().enumerate() {
        for (span, name) in things(step) {
            if !named.contains(&name) && !is_listed(recipe, &name) {
                out.push(finding(recipe, index, span));
                named.push(name);
            }
        }
    }
}

/// The tools and vessels that a step names, plain or in brackets.
fn things(step: &Step) -> Vec<(Span, String)> {
    let marked = step.marks.iter().map(|mark| mark.tokens.as_slice());
    let stretches = std::iter::once(step.tokens.as_slice()).chain(marked);
    let mut out: Vec<(Span, String)> = stretches.flat_map(named).collect();
    out.sort_by_key(|(span, _)| *span);
    out
}

fn named(tokens: &[Token]) -> Vec<(Span, String)> {
    let folded: Vec<&str> = tokens.iter().map(|token| &*token.fold).collect();
    let found = tools::worth_listing(&folded).into_iter().filter_map(|(from, to)| {
        let first = tokens.get(from)?;
        let last = tokens.get(to.checked_sub(1)?)?;
        Some((first.span.joined(last.span), folded.get(from..to)?.join(" ")))
    });
    found.collect()
}

/// Whether the list has the thing, under a name with the same last word, or says what kind of it.
fn is_listed(recipe: &Recipe, name: &str) -> bool {
    let noun = name.rsplit(' ').next().unwrap_or(name);
    recipe.equipment.iter().any(|piece| {
        let line = recipe.at(piece.span);
        let says = |word: &str| line.split(|c: char| !c.is_alphabetic()).any(|own| fold(own) == word);
        says(noun) || tools::noun(piece).is_some_and(|own| tools::same(own, noun))
    })
}

fn finding(recipe: &Recipe, step: usize, span: Span) -> Finding {
    let name = words::plain(recipe.at(span));
    let message = format!(
        "{} needs a {name}, and the equipment list has none. Whoever sets things out by the list will not have it at hand.",
        words::sentence(&words::step(recipe, step))
    );
    let found = Finding::new(CHECK.code, CHECK.severity, span, message).certainty(Certainty::Likely);
    let Some(last) = recipe.equipment.last() else { return found };
    let line = list::insert_after(recipe, last.span, &format!("1 {name}"));
    found.fix(Fix::new(format!("Add a {name} to the equipment"), line))
}
