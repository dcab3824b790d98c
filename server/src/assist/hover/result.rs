//! A result of a step: what went into it, and where it goes.

use smol_str::SmolStr;

use super::{Said, naming};
use crate::{
    checks::support::words,
    recipe::{
        Recipe, Step,
        flow::Taken,
        language::clause::Sense,
        mentions::{Link, Target},
    },
};

/// What is said of the result whose name stands at `offset`, and where that name stands.
pub fn at(recipe: &Recipe, offset: usize) -> Option<Said> {
    recipe.steps.iter().enumerate().find_map(|(index, step)| {
        let result = step.results.iter().find(|result| result.span.touches(offset))?;
        let known = recipe.flow.results.iter().position(|known| known.step == index && known.words == result.words)?;
        let name = words::plain(recipe.at(result.span));
        let went_in = went_in(recipe, index).filter(|_| !drawn_off(&result.words)).unwrap_or_default();
        let title = if went_in.is_empty() { format!("**{name}**") } else { format!("**{name}**: {went_in}") };
        Some((result.span, vec![title, goes(recipe, known)]))
    })
}

/// What is poured off or kept back is not made of all that the step had in the pot: pasta water, juices.
pub fn drawn_off(words: &[SmolStr]) -> bool {
    words.last().is_some_and(|head| ["water", "liquid", "juice", "fat", "dripping"].contains(&&**head))
}

/// `2 cups flour, 1 tsp salt and the egg base`: what the step that makes it takes, and the steps that it goes on with.
pub fn went_in(recipe: &Recipe, step: usize) -> Option<String> {
    let mut first = step;
    while first > 0 && goes_on(recipe, first) {
        first -= 1;
    }
    let mut seen: Vec<Target> = Vec::new();
    let mut named: Vec<String> = Vec::new();
    for (index, mention) in recipe.flow.mentions.iter().enumerate() {
        let inside = (first..=step).contains(&mention.step);
        if !inside || mention.sense != Sense::Use || mention.link >= Link::Loose {
            continue;
        }
        for target in naming::expanded(recipe, &mention.targets) {
            let group = !mention.targets.contains(&target);
            let idle = !group && takes_nothing(recipe, target, index);
            if seen.contains(&target) || idle || made_within(recipe, target, first..=step) {
                continue;
            }
            seen.push(target);
            named.push(name(recipe, target, index));
        }
    }
    (!named.is_empty()).then(|| words::and(&named))
}

/// Whether a step goes on with what the one before it had: it names no result of its own before it, and puts things in.
fn goes_on(recipe: &Recipe, step: usize) -> bool {
    let Some((before, own)) = recipe.steps.get(step - 1).zip(recipe.steps.get(step)) else { return false };
    before.results.is_empty() && before.group == own.group && adds(own)
}

/// "Add the flour", "Stir in the oats", "Then beat …": a step that opens with what is put in.
fn adds(step: &Step) -> bool {
    let word = |at: usize, words: &[&str]| step.tokens.get(at).is_some_and(|token| token.one_of(words));
    word(0, &["add", "then"]) || word(1, &["in", "into"])
}

fn takes_nothing(recipe: &Recipe, target: Target, mention: usize) -> bool {
    let balance = recipe.flow.balances.iter().find(|balance| balance.target == target);
    let claim = balance.and_then(|balance| balance.claims.iter().find(|claim| claim.mention == mention));
    claim.is_none_or(|claim| claim.taken == Taken::Nothing)
}

fn made_within(recipe: &Recipe, target: Target, steps: std::ops::RangeInclusive<usize>) -> bool {
    match target {
        Target::Result(index) => recipe.flow.results.get(index).is_some_and(|result| steps.contains(&result.step)),
        _ => false,
    }
}

/// `1/2 cup sugar`, `1/4 of the tomato sauce`.
fn name(recipe: &Recipe, target: Target, mention: usize) -> String {
    let balance = recipe.flow.balances.iter().find(|balance| balance.target == target);
    let claim = balance.and_then(|balance| balance.claims.iter().find(|claim| claim.mention == mention));
    let share = claim.and_then(|claim| words::share(recipe, claim.taken));
    match (target, share) {
        (target, Some(share)) => format!("{share} of the {}", naming::target(recipe, target)),
        (target, None) if claim.is_some_and(|claim| claim.taken == Taken::Rest) => {
            format!("the rest of the {}", naming::target(recipe, target))
        }
        (target, None) => naming::with_amount(recipe, target),
    }
}

/// `Used in step 4 (1/4) and step 5 (the rest).`
fn goes(recipe: &Recipe, result: usize) -> String {
    let target = Target::Result(result);
    let balance = recipe.flow.balances.iter().find(|balance| balance.target == target);
    let claims = balance.map(|balance| balance.claims.as_slice()).unwrap_or_default();
    let mut steps: Vec<(usize, Vec<String>)> = Vec::new();
    for claim in claims.iter().filter(|claim| claim.taken != Taken::Nothing) {
        let Some(mention) = recipe.flow.mentions.get(claim.mention) else { continue };
        let share = match claim.taken {
            Taken::Rest => Some("the rest".to_owned()),
            Taken::Some => Some("some".to_owned()),
            taken => words::share(recipe, taken),
        };
        match steps.last_mut().filter(|(step, _)| *step == mention.step) {
            Some((_, shares)) => shares.extend(share),
            None => steps.push((mention.step, share.into_iter().collect())),
        }
    }
    let said: Vec<String> = steps.iter().map(|(step, shares)| in_step(recipe, *step, shares)).collect();
    if said.is_empty() { "No later step names it.".to_owned() } else { format!("Used in {}.", words::and(&said)) }
}

/// `step 5 (1/3, then the rest)`
fn in_step(recipe: &Recipe, step: usize, shares: &[String]) -> String {
    let shares = if shares.is_empty() { String::new() } else { format!(" ({})", shares.join(", then ")) };
    format!("{}{shares}", words::step(recipe, step))
}
