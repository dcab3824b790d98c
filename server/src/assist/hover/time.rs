//! A time in hours or in minutes, and where on the clock of the method it lies.

use uom::si::{f64::Time, time::minute};

use super::{
    super::clock::{self, at},
    amount::answer,
};
use crate::{
    book::House,
    checks::support::words,
    measure::{Amount, Interval, Quantity, Style, System, Unit, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
    },
};

/// The time in the other units, and the window of its step.
pub fn answer_for(recipe: &Recipe, house: &House, measure: &Measure, stated: &Stated) -> Vec<String> {
    let Some(quantity) = stated.quantity(&house.measures) else { return Vec::new() };
    let own: Vec<Option<Unit>> =
        stated.terms.iter().filter_map(|term| term.amount()).map(|amount| amount.unit).collect();
    let printed = print(&quantity, house, &own);
    let clock = match measure.place {
        Place::Step(step) => of_step(recipe, step),
        Place::Header(_) => whole(recipe),
        _ => None,
    };
    answer(&printed).into_iter().chain(clock).collect()
}

/// Hours in minutes, minutes in hours where they make one.
fn print(quantity: &Quantity, house: &House, own: &[Option<Unit>]) -> Vec<String> {
    let Quantity::Time(time) = quantity else { return Vec::new() };
    let style = Style::default();
    let minutes = time.map(|time| time.get::<minute>());
    let [first, ..] = own else { return Vec::new() };
    match first {
        Some(Unit::Hour) => vec![print_amounts(&[Amount::new(minutes.map(f64::round), Some(Unit::Minute))], &style)],
        Some(Unit::Minute) if minutes.least >= HOUR => {
            let end = |minutes: f64| {
                let exact = Quantity::Time(Interval::exactly(Time::new::<minute>(minutes)));
                print_amounts(&kitchen_amounts(&exact, System::Metric, &house.measures), &style)
            };
            let most = minutes.most.filter(|_| !minutes.is_exact()).map(|most| format!(" to {}", end(most)));
            vec![format!("{}{}", end(minutes.least), most.unwrap_or_default())]
        }
        _ => Vec::new(),
    }
}

/// In minutes.
const HOUR: f64 = 60.0;

fn of_step(recipe: &Recipe, step: usize) -> Option<String> {
    let windows = clock::windows(recipe);
    let window = windows.get(step).copied().flatten().filter(|window| window.from != window.to)?;
    let step = format!("On the clock, {}", words::step(recipe, step));
    let (from, to) = (at(&window.from), at(&window.to));
    Some(if window.from.is_exact() && window.to.is_exact() {
        format!("{step} runs from {from} to {to}. {COUNTED}")
    } else {
        format!("{step} starts at {from} and ends at {to}. {COUNTED}")
    })
}

const COUNTED: &str = "Only times that are written count.";

/// What the times of all steps come to.
fn whole(recipe: &Recipe) -> Option<String> {
    let window = clock::windows(recipe).last().copied().flatten().filter(|window| window.to.least > 0.0)?;
    Some(format!("The times written in the method come to {} in all.", at(&window.to)))
}
