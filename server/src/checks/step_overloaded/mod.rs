//! `step-overloaded`: one step holds more than a cook can keep in mind.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{lines, steps, words},
};
use crate::{
    recipe::{
        Recipe,
        clock::{Act, ActKind},
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "step-overloaded", severity: Severity::Hint, on: false, docs: include_str!("docs.md"), find };

/// Where the house does not say how many a step may hold: more orders than this are hard to keep in mind on the way from the page to the stove (common practice, no source).
const MOST: usize = 9;

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let most = view.house.actions.unwrap_or(MOST);
    out.extend((0..recipe.steps.len()).filter_map(|step| finding(recipe, step, most)));
}

fn finding(recipe: &Recipe, step: usize, most: usize) -> Option<Finding> {
    let orders: Vec<&Act> = recipe.clock.acts_of(step).filter(|act| act.kind != ActKind::Keep).collect();
    let mark = orders.first()?.span;
    if orders.len() <= most {
        return None;
    }
    let message = format!(
        "{} tells a cook to do {} things. Who looks up from the bowl does not find the place again: split it.",
        words::sentence(&words::step(recipe, step)),
        orders.len(),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, mark, message).certainty(Certainty::Likely);
    let Some(place) = middle(recipe, step, &orders) else { return Some(found) };
    let opening = recipe.at(place).split_whitespace().take(3).collect::<Vec<_>>().join(" ");
    let opening = opening.trim_end_matches([',', '.', ';']);
    Some(found.fix(Fix::new(format!("Start a new step at “{opening} …”"), split(recipe, step, place))))
}

/// The sentence that parts the orders of a step most evenly.
fn middle(recipe: &Recipe, step: usize, orders: &[&Act]) -> Option<Span> {
    let own = recipe.clock.sentences.iter().filter(|(of, _)| *of == step).map(|(_, span)| *span).skip(1);
    own.min_by_key(|sentence| {
        let before = orders.iter().filter(|act| act.span.start < sentence.start).count();
        (2 * before).abs_diff(orders.len())
    })
}

/// The edits that part a step before a sentence, and number what follows anew.
fn split(recipe: &Recipe, step: usize, sentence: Span) -> Vec<Edit> {
    let Some(own) = recipe.steps.get(step) else { return Vec::new() };
    let before = recipe.text.get(own.body.start..sentence.start).unwrap_or_default();
    let gap = Span::new(own.body.start + before.trim_end().len(), sentence.start);
    let blank =
        recipe.steps.get(step + 1).is_none_or(|next| lines::blank_between(&recipe.text, own.span.end, next.span.start));
    let numbered = words::digits(recipe, own).zip(words::written_number(recipe, own)).zip(own.number);
    let Some(((digits, number), whole)) = numbered else { return vec![Edit::replace(gap, "\n\n")] };
    let lead = Span::new(whole.start, digits.start).of(&recipe.text);
    let tail = Span::new(digits.end, whole.end).of(&recipe.text).trim_end();
    let line = if blank { "\n\n" } else { "\n" };
    let mut edits = vec![Edit::replace(gap, format!("{line}{lead}{}{tail} ", number + 1))];
    if step + 1 < recipe.steps.len() && !steps::restarts(recipe, step + 1) {
        edits.extend(steps::renumber(recipe, step + 1, number + 2));
    }
    edits
}
