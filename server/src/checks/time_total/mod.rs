//! `time-total`: the steps take longer than the line `Time:` says, or more of it is work than there is time.

use uom::si::{
    f64::Time,
    ratio::ratio,
    time::{day, minute},
};

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{bands, words},
};
use crate::{
    measure::{Interval, Measures, Quantity, Style, System, kitchen_amounts, print_amounts},
    recipe::clock::{Act, End, Run, Stated, stated},
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "time-total", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// A total is rounded: it may fall short by this share, by more where it says "about", and by so many minutes (common practice,
/// no source).
const ROUNDED: f64 = 0.05;
const HEDGED: f64 = 0.15;
const MINUTES: f64 = 2.0;

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let Some(stated) = stated(view.recipe) else { return };
    let found = active(view, &stated).or_else(|| total(view, &stated));
    out.extend(found);
}

/// More work than there is time.
fn active(view: &View<'_>, stated: &Stated) -> Option<Finding> {
    let (active, place) = stated.active?;
    let total = stated.total?;
    let most = total.most.filter(|most| *most < active.least)?;
    let message = format!(
        "{} of work do not fit into {} altogether. Nobody can plan an evening by this: correct one of the two.",
        words::sentence(&print(active.least)),
        print(most),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, place, message);
    let least = run(view, End::Most).total;
    Some(match stated.total_at {
        Some(at) => found.related(at, "The total.").fix(write(view, at, later(least, active.least))),
        None => found,
    })
}

/// More time in the steps than there is altogether.
fn total(view: &View<'_>, stated: &Stated) -> Option<Finding> {
    let recipe = view.recipe;
    let most = stated.total?.most?;
    let slack = if stated.hedged { HEDGED } else { ROUNDED };
    let fits = |time: Time| time <= most * (1.0 + slack) || time <= most + Time::new::<minute>(MINUTES);
    // Whatever goes on beside something else: one after the other is the longest that it can take.
    let times = recipe.clock.acts.iter().filter_map(Act::time);
    if fits(times.fold(Time::default(), |sum, time| sum + time.least)) {
        return None;
    }
    let quickest = run(view, End::Least);
    if fits(quickest.total) {
        return None;
    }
    let longest = run(view, End::Most).total;
    let message = format!(
        "The steps take at least {}, without any chopping, and the line says {}. Who starts late eats late: correct the line.",
        print(quickest.total),
        print(most),
    );
    let place = stated.total_at.unwrap_or(stated.span);
    let mut found = Finding::new(CHECK.code, CHECK.severity, place, message).certainty(Certainty::Likely);
    for (step, span, time) in longest_first(quickest.counted) {
        found = found.related(span, format!("{}: {}", words::sentence(&words::step(recipe, step)), print(time)));
    }
    Some(match stated.total_at {
        Some(at) => found.fix(write(view, at, longest)),
        None => found,
    })
}

/// The recipe cooked once; a time that nobody means is left out, since it is mended first.
fn run(view: &View<'_>, end: End) -> Run {
    let recipe = view.recipe;
    Run::of(recipe, end, &|act| act.times.iter().all(|time| bands::slip(recipe, act, time).is_none()))
}

/// The three that take longest, in the order of the method.
fn longest_first(mut counted: Vec<(usize, Span, Time)>) -> Vec<(usize, Span, Time)> {
    counted.sort_by(|one, two| two.2.partial_cmp(&one.2).unwrap_or(std::cmp::Ordering::Equal));
    counted.truncate(3);
    counted.sort_by_key(|(_, span, _)| span.start);
    counted
}

fn write(view: &View<'_>, at: Span, time: Time) -> Fix {
    let step = if time < Time::new::<day>(DAYS) { Time::new::<minute>(5.0) } else { Time::new::<day>(1.0) };
    let rounded = step * (time / step).get::<ratio>().ceil();
    let hedge = view.recipe.measures.iter().find(|measure| measure.span == at).and_then(|measure| measure.hedge);
    let hedge = hedge.map_or(String::new(), |hedge| format!("{} ", view.recipe.at(hedge)));
    let text = format!("{hedge}{}", print(rounded));
    Fix::new(format!("Write {text}"), vec![Edit::replace(at, text)])
}

fn later(one: Time, other: Time) -> Time {
    if one < other { other } else { one }
}

/// From so many days on, hours are of no interest.
const DAYS: f64 = 2.0;

fn print(time: Time) -> String {
    let whole = Time::new::<day>(time.get::<day>().floor());
    let shown = if time < Time::new::<day>(DAYS) { time } else { whole };
    let quantity = Quantity::Time(Interval::exactly(shown));
    print_amounts(&kitchen_amounts(&quantity, System::Metric, &Measures::default()), &Style::default())
}
