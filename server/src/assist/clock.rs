//! The running clock of the method: when each step starts and ends, as far as the manuscript gives times.

use uom::si::time::minute;

use crate::{
    checks::support::around,
    measure::{Hedge, Interval, Measures, Quantity, Unit, UnitKind},
    recipe::{
        Recipe, Step,
        measures::{Measure, Place},
    },
};

/// When a step starts and ends, in minutes from the start of the method. Work that gives no time takes none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// When it starts.
    pub from: Interval,
    /// When it ends.
    pub to: Interval,
}

/// The window of every step; `None` behind a time that cannot be told.
pub fn windows(recipe: &Recipe) -> Vec<Option<Window>> {
    let mut out: Vec<Option<Window>> = Vec::with_capacity(recipe.steps.len());
    let mut now = Some(Interval::exactly(0.0));
    for (index, step) in recipe.steps.iter().enumerate() {
        let before = out.last().copied().flatten();
        let beside = step.tokens.first().is_some_and(|first| first.one_of(&["meanwhile", "while"]));
        let from = if beside { before.map(|before| before.from) } else { now };
        let window = from.zip(own_time(recipe, index, step)).map(|(from, own)| Window { from, to: from.plus(&own) });
        now = match (window, before) {
            (Some(window), Some(before)) if beside => Some(later(window.to, before.to)),
            (window, _) => window.map(|window| window.to),
        };
        out.push(window);
    }
    out
}

fn later(one: Interval, other: Interval) -> Interval {
    let most = one.most.zip(other.most).map(|(one, other)| one.max(other));
    Interval { least: one.least.max(other.least), most }
}

/// The minutes that a step says it takes, all its times together.
fn own_time(recipe: &Recipe, index: usize, step: &Step) -> Option<Interval> {
    if step.tokens.first().is_some_and(|first| first.one_of(&["if", "or"])) {
        // One of two ways: what it adds is told by the other.
        return Some(Interval::exactly(0.0));
    }
    let times = recipe.measures.iter().filter(|measure| measure.place == Place::Step(index));
    times
        .filter(|measure| measure.stated.kind() == Some(UnitKind::Time))
        .try_fold(Interval::exactly(0.0), |sum, measure| Some(sum.plus(&counted(recipe, measure)?)))
}

/// What one time adds to the clock: nothing where it lies within another (`for the last 20 minutes`), or only tells how often,
/// or how long something keeps.
fn counted(recipe: &Recipe, measure: &Measure) -> Option<Interval> {
    const WITHIN: &[&str] = &["every", "last", "final", "first", "after", "within", "next"];
    let nothing = Some(Interval::exactly(0.0));
    let before = around::before(recipe, measure.span.start, 2);
    let behind = around::behind(recipe, measure.span.end, 3);
    let within = before.iter().any(|word| WITHIN.contains(&&**word));
    let earlier = behind.first().is_some_and(|word| ["before", "ahead", "earlier", "in", "into"].contains(&&**word));
    let keeps = measure.hedge.and_then(|hedge| Hedge::find(recipe.at(hedge))) == Some(Hedge::UpTo);
    let adjective = recipe.at(measure.stated.span).contains("-min") || recipe.at(measure.stated.span).contains("-hour");
    if within || earlier || keeps || adjective {
        return nothing;
    }
    let days = measure.stated.unit().is_some_and(|unit| matches!(unit, Unit::Day | Unit::Week | Unit::Month));
    let Quantity::Time(time) = measure.quantity(&Measures::default()).filter(|_| !days)? else { return None };
    let minutes = time.map(|time| time.get::<minute>());
    let words = |wanted: &[&str]| behind.iter().any(|word| wanted.contains(&&**word));
    Some(match () {
        () if words(&["side"]) => minutes.times(2.0),
        () if words(&["sheet", "batch", "each", "piece", "overnight"]) => Interval { most: None, ..minutes },
        () => minutes,
    })
}

/// `1:05`, `1:05 to 1:20`, `1:05 or later`.
pub fn at(minutes: &Interval) -> String {
    let one = |minutes: f64| format!("{}:{:02}", (minutes / 60.0).floor(), (minutes % 60.0).floor());
    let least = one(minutes.least);
    match minutes.most.map(one) {
        None => format!("{least} or later"),
        Some(most) if most == least => least,
        Some(most) => format!("{least} to {most}"),
    }
}
