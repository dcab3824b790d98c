//! `result-unused`: a step makes something and names it, and no later step uses it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{bracket, shares, steps, words},
};
use crate::{
    recipe::{
        Recipe, StepResult,
        language::{clause::Sense, lexicon::Roles, token::Token},
        mentions::{Link, Target},
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "result-unused", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, known) in recipe.flow.results.iter().enumerate() {
        // What the last step makes is the dish.
        let last = known.step + 1 >= recipe.steps.len();
        if last || is_mentioned(recipe, index) || goes_on(recipe, known.step) || may_be_meant(recipe, known.step) {
            continue;
        }
        let written = recipe
            .steps
            .get(known.step)
            .and_then(|step| step.results.iter().find(|result| result.words == known.words));
        out.extend(written.map(|result| finding(recipe, known.step, result)));
    }
}

fn is_mentioned(recipe: &Recipe, index: usize) -> bool {
    recipe.flow.mentions.iter().any(|mention| mention.targets.contains(&Target::Result(index)))
}

/// A next step that names nothing of its own goes on with what this one has made; so does one that speaks of 'it'.
fn goes_on(recipe: &Recipe, step: usize) -> bool {
    let Some(next) = recipe.steps.get(step + 1) else { return true };
    let elsewhere = next.tokens.first().is_some_and(|first| first.one_of(&["meanwhile", "separately"]));
    let names = recipe.flow.mentions.iter().any(|mention| {
        mention.step == step + 1
            && mention.sense == Sense::Use
            && mention.link < Link::Act
            && !mention.targets.is_empty()
            && !adds_to_it(shares::sentence(recipe, step + 1, mention.span))
    });
    let names = names || recipe.flow.unlisted.iter().any(|unlisted| unlisted.step == step + 1);
    let single = recipe.steps.get(step).is_some_and(|step| step.results.len() == 1);
    let pronoun = next.tokens.iter().take(4).any(|token| token.one_of(&["it", "them"]));
    single && !elsewhere && (!names || pronoun || adds_to_it(&next.tokens))
}

/// "Serve with the cream", "Stir in the sugar": an order that adds to what is there, and does not say to what.
fn adds_to_it(tokens: &[Token]) -> bool {
    let adds = tokens.first().is_some_and(|first| first.one_of(ADDS));
    adds || matches!(tokens, [verb, particle, ..] if verb.is(Roles::ADDING) && particle.word("in"))
}

const ADDS: &[&str] =
    &["add", "serve", "season", "garnish", "scatter", "sprinkle", "dust", "top", "drizzle", "dot", "brush", "finish"];

/// Words that may mean a result by another name: the mixture, everything, the filling.
fn may_be_meant(recipe: &Recipe, step: usize) -> bool {
    let later = recipe.steps.get(step + 1..).unwrap_or_default();
    let loose = recipe.flow.mentions.iter().any(|mention| mention.step > step && mention.link == Link::Loose);
    let mentioned = |span: Span| recipe.flow.mentions.iter().any(|mention| mention.span.contains(span));
    let product = later.iter().flat_map(|step| &step.tokens).any(|token| {
        token.one_of(&["mixture", "mix", "combination", "blend", "everything", "all"])
            && token.is(Roles::PRODUCT.and(Roles::SMALL))
            && !mentioned(token.span)
    });
    loose || product
}

fn finding(recipe: &Recipe, step: usize, result: &StepResult) -> Finding {
    let name = words::plain(recipe.at(result.span));
    let message = format!(
        "{} makes the {name}, and no later step uses {it}. A cook will have {it} left over when the dish is done: say what \
         to do with {it}.",
        words::sentence(&words::step(recipe, step)),
        it = words::it(&name)
    );
    let found = Finding::new(CHECK.code, CHECK.severity, result.span, message).certainty(Certainty::Likely);
    let place = bracket::Place::Before(recipe.steps.len() - 1);
    let meant = recipe.marked_meaning(recipe.steps.len() - 1, &name);
    let known = matches!(meant.as_slice(), [Target::Result(index)] if recipe.flow.results.get(*index).is_some_and(|known| known.step == step));
    let add = known.then(|| {
        let edits = steps::insert(recipe, place, &format!("Add the [{name}]."));
        Fix::new(format!("Add a step that uses the {name}"), edits)
    });
    add.into_iter().chain(unname(recipe, step, &name)).fold(found, Finding::fix)
}

/// The step without the name of its result, where it names only this one.
fn unname(recipe: &Recipe, step: usize, name: &str) -> Option<Fix> {
    let step = recipe.steps.get(step).filter(|step| step.results.len() == 1)?;
    let behind = Span::new(step.body.end, step.span.end);
    let starts = behind.of(&recipe.text).trim_start().starts_with("=>");
    starts.then(|| Fix::new(format!("Do not name the {name}"), vec![Edit::delete(behind)]))
}
