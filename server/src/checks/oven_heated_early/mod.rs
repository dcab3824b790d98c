//! `oven-heated-early`: the oven is heated before hours in which something only chills or rises.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{around, sentences, waits, words},
};
use crate::{
    recipe::{
        Recipe,
        clock::{Act, OvenEvent, OvenTurn},
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "oven-heated-early", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let events = &view.recipe.clock.oven;
    for (at, heated) in events.iter().enumerate().filter(|(_, event)| event.turn == OvenTurn::Heated) {
        let behind = events.get(at + 1..).unwrap_or_default();
        let next = behind.iter().find(|event| event.turn != OvenTurn::MayBeUsed);
        let Some(next) = next.filter(|next| next.turn == OvenTurn::Used) else { continue };
        // What may be in the oven before the wait has a use for it.
        let used = behind.iter().take_while(|event| event.span.start < next.span.start).map(|event| event.span.start);
        out.extend(finding(view, heated, next, used.min().unwrap_or(usize::MAX)));
    }
}

/// Words of a sentence that knows when it is to be done, or heats something that needs long.
const KNOWS_WHEN: &[&str] = &[
    "before",
    "last",
    "when",
    "once",
    "toward",
    "towards",
    "end",
    "later",
    "while",
    "during",
    "after",
    "until",
    "meanwhile",
    "minute",
    "hour",
    "stone",
    "steel",
    "pot",
    "casserole",
    "ready",
    "time",
    "just",
];

fn finding(view: &View<'_>, heated: &OvenEvent, next: &OvenEvent, used: usize) -> Option<Finding> {
    let recipe = view.recipe;
    if around::sentence_has(recipe, heated.span, KNOWS_WHEN) {
        return None;
    }
    let between = |act: &&Act| heated.sentence.end <= act.span.start && act.span.start < next.span.start;
    let waits: Vec<&Act> = recipe.clock.acts.iter().filter(between).filter(|act| waits::is_long(act)).collect();
    let wait = waits.first().filter(|wait| wait.span.start < used)?;
    let long = wait.times.first().map(|time| words::plain(recipe.at(time.span)))?;
    let message = format!(
        "The oven is heated here, and then {} waits: {long}. It burns for nothing, or the cook turns it off and forgets to heat it \
         again. An oven needs 15 to 20 minutes: heat it when the wait is nearly over.",
        words::step(recipe, wait.step),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, heated.span, message).certainty(Certainty::Likely);
    let last = waits.last()?;
    let title = format!("Heat the oven after {}", words::step(recipe, last.step));
    Some(found.related(wait.span, "The wait.").fix(Fix::new(title, moved(recipe, heated, last, next))))
}

/// The edits that move the sentence to where the wait is over; none where that is in the midst of a sentence.
fn moved(recipe: &Recipe, heated: &OvenEvent, wait: &Act, next: &OvenEvent) -> Vec<Edit> {
    let behind = recipe.clock.sentences.iter().find(|(_, span)| span.start >= wait.sentence.end);
    let Some((_, place)) = behind.filter(|(_, span)| span.start <= next.sentence.start) else { return Vec::new() };
    let mut edits = sentences::remove(recipe, heated.step, heated.sentence);
    if !edits.is_empty() {
        edits.push(Edit::insert(place.start, format!("{} ", words::plain(recipe.at(heated.sentence)))));
    }
    edits
}
