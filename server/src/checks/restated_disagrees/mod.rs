//! `restated-disagrees`: an amount and the same amount again in other units do not agree.

use uom::si::length::centimeter;

use super::{
    Check, Finding, Fix, Severity, View,
    support::restated::{Pair, pairs, rewritten, severity},
};
use crate::{
    larder::Food,
    measure::{Comparison, Off, Quantity},
    recipe::weights,
};

/// The check.
pub const CHECK: Check =
    Check { code: "restated-disagrees", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    out.extend(pairs(view).iter().filter_map(|pair| finding(view, pair)));
}

fn finding(view: &View<'_>, pair: &Pair<'_>) -> Option<Finding> {
    let Comparison::Compared(agreement) = pair.comparison else { return None };
    if agreement.other.is_some() {
        return None; // restated-other-cup has more to say
    }
    let severity = severity(agreement.verdict(&view.house.tolerances))?;
    let recipe = view.recipe;
    if severity != Severity::Error && is_thin(view, pair) {
        return None;
    }
    let (written, restated) = (recipe.at(pair.written.span), recipe.at(pair.restated.span));
    let index = recipe.measures.iter().position(|measure| std::ptr::eq(measure, pair.measure));
    let food = index.and_then(|index| weights::food_of(recipe, index));
    let meant = rewritten(view.house, pair.written, pair.restated, pair.density.as_ref());
    let message = message(written, restated, meant.as_ref().map(|(_, text)| text.as_str()), agreement.off, food);
    let mut found =
        Finding::new(CHECK.code, severity, pair.restated.span, message).related(pair.written.span, "the same amount");
    if let Some((edit, text)) = meant {
        found = found.fix(Fix::new(format!("Restate {written} as {text}"), vec![edit]));
    }
    if let Some((edit, text)) = rewritten(view.house, pair.restated, pair.written, pair.density.as_ref()) {
        found = found.fix(Fix::new(format!("Keep {restated} and write {text} before it"), vec![edit]));
    }
    Some(found)
}

/// A thickness under an inch or so: rulers of both kinds are coarser than the tolerance.
fn is_thin(view: &View<'_>, pair: &Pair<'_>) -> bool {
    matches!(pair.written.quantity(&view.house.measures), Some(Quantity::Length(length)) if length.least.get::<centimeter>() < 2.6)
}

fn message(written: &str, restated: &str, meant: Option<&str>, off: Off, food: Option<&Food>) -> String {
    let about =
        meant.map(|meant| format!("about {meant}, not {restated}")).unwrap_or_else(|| format!("not {restated}"));
    match off {
        Off::BeyondDensity(_) => {
            let of = food.map(|food| format!(" of {}", food.name)).unwrap_or_default();
            format!(
                "{written}{of} is {about}. A cook who weighs and a cook who measures would make two different dishes."
            )
        }
        Off::Degrees(_) => format!("{written} is {about}. One of two ovens is set wrong."),
        Off::Share(off) => {
            let more = if off > 0.0 { "more" } else { "less" };
            format!(
                "{written} is {about}: {:.0} % {more}. Correct the one that is wrong.",
                (off.abs() * 100.0).max(1.0)
            )
        }
    }
}
