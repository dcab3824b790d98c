//! `equipment-unlisted`: a step needs it, and the equipment list does not have it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, tools, words},
};
use crate::{
    larder::words::fold,
    recipe::{
        Recipe, Step,
        language::token::{Token, TokenKind},
    },
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
        for thing in things(recipe, step) {
            if !named.contains(&thing.name) && !is_listed(recipe, &thing.name) {
                out.push(finding(recipe, index, &thing));
                named.push(thing.name);
            }
        }
    }
}

/// A tool or a vessel that a step needs.
struct Thing {
    /// Where the step names it, or the act that needs it.
    span: Span,
    /// What a list would call it.
    name: String,
}

/// What a step needs, plain or in brackets.
fn things(recipe: &Recipe, step: &Step) -> Vec<Thing> {
    let marked = step.marks.iter().map(|mark| mark.tokens.as_slice());
    let stretches = std::iter::once(step.tokens.as_slice()).chain(marked);
    let stretches = stretches.filter(|tokens| tokens.iter().any(|token| tools::may_need(&token.fold)));
    let mut out: Vec<Thing> =
        stretches.flat_map(|tokens| named(recipe, tokens).into_iter().chain(asked_for(recipe, tokens))).collect();
    out.sort_by_key(|thing| thing.span);
    out
}

fn named(recipe: &Recipe, tokens: &[Token]) -> Vec<Thing> {
    let found = tools::worth_listing(tokens).into_iter().filter_map(|(from, to)| match tokens.get(from..to)? {
        // One ramekin is listed, though a step fills the ramekins.
        [one] => Some(Thing { span: one.span, name: one.fold.to_string() }),
        [first, .., last] => {
            let span = first.span.joined(last.span);
            let name = words::plain(recipe.at(span));
            let opens = from.checked_sub(1).and_then(|before| tokens.get(before));
            let opens = opens.is_none_or(|before| before.kind == TokenKind::Stop);
            Some(Thing { span, name: if opens { words::small_first(&name) } else { name } })
        }
        [] => None,
    });
    found.collect()
}

/// What acts ask for, unless the method says somewhere with what they are done: *blitz with a stick blender*.
fn asked_for<'t>(recipe: &'t Recipe, tokens: &'t [Token]) -> impl Iterator<Item = Thing> + 't {
    let said = |tool: &str| {
        let mut all = recipe.steps.iter().flat_map(|step| &step.tokens);
        all.any(|token| tools::is_tool(&token.fold) && tools::same(&token.fold, noun(tool)))
    };
    let asks = tokens.iter().filter_map(|token| Some((token.span, tools::asked_for(&token.fold)?)));
    asks.filter(move |(_, tool)| !said(tool)).map(|(span, tool)| Thing { span, name: tool.to_owned() })
}

fn noun(name: &str) -> &str {
    name.rsplit(' ').next().unwrap_or(name)
}

/// Whether the list has the thing, under a name with the same last word, or says what kind of it.
fn is_listed(recipe: &Recipe, name: &str) -> bool {
    let noun = fold(noun(name));
    recipe.equipment.iter().any(|piece| {
        let line = recipe.at(piece.span);
        let says = |word: &str| line.split(|c: char| !c.is_alphabetic()).any(|own| fold(own) == word);
        says(&noun) || tools::noun(piece).is_some_and(|own| tools::same(own, &noun))
    })
}

fn finding(recipe: &Recipe, step: usize, thing: &Thing) -> Finding {
    let name = words::with_article(&thing.name);
    let message = format!(
        "{} needs {name}, and the equipment list has none. Whoever sets things out by the list will not have it at hand.",
        words::sentence(&words::step(recipe, step))
    );
    let found = Finding::new(CHECK.code, CHECK.severity, thing.span, message).certainty(Certainty::Likely);
    let Some(last) = recipe.equipment.last() else { return found };
    let line = list::insert_after(recipe, last.span, &format!("1 {}", thing.name));
    found.fix(Fix::new(format!("Add {name} to the equipment"), line))
}
