//! The time that runs while a recipe is cooked: what waits for what, and what goes on meanwhile.
//!
//! One cook, two hands. What cooks or waits by itself goes on while a step that says so ("meanwhile"), or that starts something
//! new, is worked on. Where it is not certain that two things have to wait for each other they are taken to overlap, so that the
//! least time is never more than a quick cook needs.

use uom::si::{f64::Time, time::minute};

use super::{Act, ActKind, Clock};
use crate::{
    recipe::{
        Recipe,
        flow::Use,
        language::{clause::Sense, lexicon::Roles, token::Token},
        mentions::Target,
    },
    text::Span,
};

/// Which ends of the times are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The least of each.
    Least,
    /// The most of each; the least where that is open.
    Most,
}

/// A recipe as it is cooked once.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// From the first act to the last.
    pub total: Time,
    /// The times that were counted, each with its place and its step.
    pub counted: Vec<(usize, Span, Time)>,
}

/// The clock while the method is read: when the hands are free, and when everything that goes on alone is done.
#[derive(Debug, Clone, Copy, Default)]
struct Hands {
    /// When the cook can begin the next act.
    free: Time,
    /// When all that has been begun is done.
    ready: Time,
}

/// How a step starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Start {
    /// With what the steps before have made: it waits for that.
    After,
    /// While the step before is going on.
    Beside,
    /// Something new, while what was left to itself goes on.
    Anew,
}

impl Run {
    /// Cooks the recipe once. Only the acts that `counts` holds for take time.
    pub fn of(recipe: &Recipe, end: End, counts: &dyn Fn(&Act) -> bool) -> Run {
        let clock = &recipe.clock;
        let mut run = Run { total: Time::default(), counted: Vec::new() };
        let (mut hands, mut began) = (Hands::default(), Time::default());
        let mut other_ways = 0;
        for step in 0..recipe.steps.len() {
            if is_other_way(recipe, step) {
                other_ways += 1;
                if other_ways > 1 {
                    continue;
                }
            } else {
                other_ways = 0;
            }
            let start = start(recipe, step);
            let from = match start {
                Start::After => later(hands.free, hands.ready),
                Start::Beside => began,
                Start::Anew => hands.free,
            };
            began = from;
            let done = run.step(clock, step, from, end, counts);
            hands = Hands {
                free: if start == Start::After { done.free } else { later(hands.free, done.free) },
                ready: later(hands.ready, done.ready),
            };
        }
        run.total = later(hands.free, hands.ready);
        run
    }

    /// The acts of a step, one after the other, from `from` on.
    fn step(&mut self, clock: &Clock, step: usize, from: Time, end: End, counts: &dyn Fn(&Act) -> bool) -> Hands {
        let mut hands = Hands { free: from, ready: from };
        let mut before: Option<&Act> = None;
        for act in clock.acts_of(step).filter(|act| !act.perhaps && act.kind != ActKind::Keep && counts(act)) {
            let Some(time) = act.time() else { continue };
            let time = match end {
                End::Least => time.least,
                End::Most => time.most.unwrap_or(time.least),
            };
            let begin = later(hands.free, hands.ready);
            hands.ready = begin + time;
            if !(act.kind.goes_on_alone() || act.kind == ActKind::Work && time > Time::new::<minute>(5.0)) {
                hands.free = begin + time;
            }
            let at = act.times.first().map_or(act.span, |first| first.span);
            self.counted.push((step, act.span.joined(at), time));
            before = Some(act);
        }
        if before.is_some_and(|act| !act.kind.goes_on_alone()) {
            hands.free = later(hands.free, hands.ready);
        }
        hands
    }
}

fn later(one: Time, other: Time) -> Time {
    if one < other { other } else { one }
}

/// Whether a step is one of several ways to do the same: "By hand: …", "By mixer: …".
fn is_other_way(recipe: &Recipe, step: usize) -> bool {
    opening(recipe, step).first().is_some_and(|first| first.one_of(&["by", "or"]))
}

fn opening(recipe: &Recipe, step: usize) -> &[Token] {
    let tokens = recipe.steps.get(step).map_or(&[][..], |step| &step.tokens);
    tokens.get(..tokens.len().min(8)).unwrap_or_default()
}

fn start(recipe: &Recipe, step: usize) -> Start {
    let opening = opening(recipe, step);
    let beside =
        opening.iter().take(4).any(|word| word.one_of(&["meanwhile", "meantime", "while", "whilst", "during"]));
    if beside {
        return Start::Beside;
    }
    let group = |step: usize| recipe.steps.get(step).and_then(|step| step.group);
    let new_group = step > 0 && group(step) != group(step - 1);
    if step > 0 && (new_group || names_a_part(opening) || !adds(opening)) && is_new(recipe, step) {
        return Start::Anew;
    }
    Start::After
}

/// "In another bowl", "for the sauce", "make the filling".
fn names_a_part(opening: &[Token]) -> bool {
    opening.iter().any(|word| word.one_of(&["another", "separate", "clean"]))
        || opening.first().is_some_and(|first| first.one_of(&["for", "make", "prepare", "to"]))
}

/// Whether the step puts something to what there is.
fn adds(opening: &[Token]) -> bool {
    opening.iter().take(3).any(|word| {
        word.one_of(&[
            "add", "stir", "pour", "fold", "return", "top", "sprinkle", "spread", "brush", "scatter", "cover", "spoon",
            "drizzle", "serve",
        ])
    })
}

/// Whether the first thing that a step names is used for the first time, and nothing that was made before is named in it.
fn is_new(recipe: &Recipe, step: usize) -> bool {
    let opening = recipe.steps.get(step).map_or(&[][..], |step| &step.tokens);
    let own = || recipe.flow.mentions.iter().filter(|mention| mention.step == step && mention.sense == Sense::Use);
    let first_used = |target: &Target| match target {
        Target::Ingredient(index, _) => {
            recipe.flow.uses(*index).iter().map(|found: &Use| found.step).min().is_some_and(|first| first == step)
        }
        _ => false,
    };
    let named = own().flat_map(|mention| &mention.targets).peekable();
    let mut named = named;
    named.peek().is_some()
        && named.all(first_used)
        && !opening
            .iter()
            .take(10)
            .any(|word| word.is(Roles::PRONOUN) || word.is(Roles::PRODUCT) && !word.word("water"))
}
