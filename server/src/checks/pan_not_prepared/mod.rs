//! `pan-not-prepared`: a step reaches for the prepared pan, and nobody has prepared one.

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::words,
};
use crate::{
    larder::words::fold,
    recipe::{Recipe, language::token::Token},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "pan-not-prepared", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// How a pan is called that has been seen to.
const SEEN_TO: &[&str] = &["prepared", "greased", "buttered", "oiled", "lined", "floured"];
/// What is seen to.
const PANS: &[&str] = &["pan", "tin", "dish", "mold", "mould", "sheet", "tray", "ramekin", "plate"];
/// Words that speak of seeing to it, wherever they stand before.
const PREPARES: &[&str] = &[
    "grease", "butter", "oil", "line", "lined", "flour", "spray", "brush", "rub", "coat", "prepare", "dust", "greased", "buttered",
    "oiled", "floured", "parchment", "paper", "foil", "season", "liner", "base", "pastry", "shell", "crust", "dough",
];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, step) in recipe.steps.iter().enumerate() {
        let reached = step.tokens.windows(2).enumerate().find_map(|(at, _)| reaches(&step.tokens, at));
        if let Some((at, span)) = reached {
            let earlier = recipe.steps.iter().take(index).flat_map(|step| &step.tokens);
            let here = step.tokens.iter().take(at);
            if !earlier.chain(here).any(|token| token.one_of(PREPARES)) && !is_told_elsewhere(recipe) {
                out.push(finding(recipe, index, span));
            }
            return;
        }
    }
}

/// "The prepared pan", at the article.
fn reaches(tokens: &[Token], at: usize) -> Option<(usize, Span)> {
    let [the, state, rest @ ..] = tokens.get(at..)? else { return None };
    let pan = rest.iter().take(3).find(|token| token.one_of(PANS))?;
    (the.one_of(&["the", "your"]) && state.one_of(SEEN_TO)).then(|| (at, state.span.joined(pan.span)))
}

/// Whether the list, the equipment or the notes speak of it.
fn is_told_elsewhere(recipe: &Recipe) -> bool {
    let lines = recipe.ingredients.iter().map(|line| line.span).chain(recipe.equipment.iter().map(|line| line.span));
    let told = lines.chain(recipe.headnotes.iter().copied()).any(|span| {
        let mut words = recipe.at(span).split(|c: char| !c.is_alphabetic()).map(fold);
        words.any(|word| matches!(&*word, "grease" | "greasing" | "greased" | "lined" | "buttered" | "prepared"))
    });
    told || recipe.ingredients.iter().any(|line| line.tags.pan)
}

fn finding(recipe: &Recipe, step: usize, span: Span) -> Finding {
    let pan = words::plain(recipe.at(span));
    let message = format!(
        "{} reaches for the {pan}, and nothing before says how to prepare it. A cook stands there with a full bowl: say at the \
         start how the pan is greased or lined.",
        words::sentence(&words::step(recipe, step)),
    );
    Finding::new(CHECK.code, CHECK.severity, span, message).certainty(Certainty::Likely)
}
