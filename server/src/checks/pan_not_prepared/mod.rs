//! `pan-not-prepared`: a step reaches for the prepared pan, and nobody has prepared one.

use super::{Check, Finding, Fix, Severity, View, finding::Certainty, support::words};
use crate::{
    larder::words::fold,
    recipe::{Recipe, language::token::Token},
    text::{Edit, Span, Words},
};

/// The check.
pub const CHECK: Check =
    Check { code: "pan-not-prepared", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// How a pan is called that has been seen to.
const SEEN_TO: Words = Words::new("prepared greased buttered oiled lined floured");
/// What is seen to.
const PANS: Words = Words::new("pan tin dish mold mould sheet tray ramekin plate");
/// Words that speak of seeing to it, wherever they stand before.
const PREPARES: Words = Words::new(
    "grease line lined spray brush rub coat prepare dust greased buttered oiled floured parchment paper foil \
     season liner base pastry shell crust dough",
);
/// Foods that are acts where a pan follows: "butter the tin".
const ACTS: Words = Words::new("butter oil flour");

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, step) in recipe.steps.iter().enumerate() {
        let reached = (0..step.tokens.len()).find_map(|at| reaches(&step.tokens, at));
        if let Some((at, span)) = reached {
            let earlier = recipe.steps.iter().take(index).map(|step| step.tokens.as_slice());
            let here = step.tokens.get(..at).unwrap_or_default();
            if !earlier.chain([here]).any(prepares) && !is_told_elsewhere(recipe) {
                out.push(finding(recipe, index, span));
            }
            return;
        }
    }
}

fn prepares(tokens: &[Token]) -> bool {
    let pan_follows = |at: usize| tokens.iter().skip(at + 1).take(4).any(|token| token.one_among(&PANS));
    tokens.iter().enumerate().any(|(at, token)| token.one_among(&PREPARES) || token.one_among(&ACTS) && pan_follows(at))
}

/// "The prepared pan", at the article.
fn reaches(tokens: &[Token], at: usize) -> Option<(usize, Span)> {
    let [the, state, rest @ ..] = tokens.get(at..)? else { return None };
    if !the.one_of(&["the", "your"]) || !state.one_among(&SEEN_TO) {
        return None;
    }
    let pan = rest.iter().take(3).find(|token| token.one_among(&PANS))?;
    Some((at, the.span.joined(pan.span)))
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
    let bare = pan.split_once(' ').map_or(&*pan, |(_, bare)| bare);
    let message = format!(
        "{} reaches for {pan}, and nothing before says how to prepare it. A cook stands there with a full bowl: say at the \
         start how the pan is greased or lined.",
        words::sentence(&words::step(recipe, step)),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, span, message).certainty(Certainty::Likely);
    // "Prepared" does not say how; "greased" does, and "a greased pan" is an order.
    let written = match bare {
        bare if bare.starts_with("prepared") => return found,
        bare if words::is_plural(bare) => bare.to_owned(),
        bare if bare.starts_with('o') => format!("an {bare}"),
        bare => format!("a {bare}"),
    };
    found.fix(Fix::new(format!("Write “{written}”"), vec![Edit::replace(span, written)]))
}
