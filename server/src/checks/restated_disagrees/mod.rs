//! `restated-disagrees`: an amount and the same amount again in other units do not agree.

use uom::si::length::centimeter;

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{
        liquids,
        restated::{Compared, Side, compared, plain},
        setting,
    },
};
use crate::{
    measure::{Off, Quantity, difference, print_amounts, print_decimal},
    recipe::weights,
};

/// The check.
pub const CHECK: Check =
    Check { code: "restated-disagrees", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    out.extend(compared(view).iter().filter_map(|compared| finding(view, compared)));
}

fn finding(view: &View<'_>, compared: &Compared<'_>) -> Option<Finding> {
    let agreement = compared.agreement()?;
    // Other cups, and ounces that are fluid ounces, have a check of their own.
    if agreement.other.is_some() || liquids::are_fluid_ounces(view, compared).is_some() {
        return None;
    }
    let severity = compared.severity(view)?;
    if severity != Severity::Error && is_thin(view, compared) {
        return None;
    }
    let by_density = matches!(agreement.off, Off::BeyondDensity(_));
    let mut found =
        Finding::new(CHECK.code, severity, compared.pair.restated.span, message(view, compared, agreement.off))
            .certainty(if by_density { Certainty::Likely } else { Certainty::Sure })
            .related(compared.pair.written.span, "the same amount");
    let (written, restated) = (plain(view.recipe, compared.pair.written), plain(view.recipe, compared.pair.restated));
    if is_one_pack(view, compared) {
        let each = crate::text::Edit::insert(compared.pair.restated.span.end, " each");
        found = found.fix(Fix::new(format!("Write {restated} each"), vec![each]));
    }
    if let Some((edit, text)) = compared.rewritten(view, Side::Restated) {
        found = found.fix(Fix::new(format!("Restate {} as {text}", whole(view, compared)), vec![edit]));
    }
    if let Some((edit, text)) = compared.rewritten(view, Side::Written) {
        found = found.fix(Fix::new(format!("Keep {restated} and write {text} instead of {written}"), vec![edit]));
    }
    Some(found)
}

/// A thickness of an inch or less: rulers of both kinds are coarser than the tolerance.
fn is_thin(view: &View<'_>, compared: &Compared<'_>) -> bool {
    let quantity = compared.pair.written.quantity(&view.house.measures);
    matches!(quantity, Some(Quantity::Length(length)) if length.least.get::<centimeter>() < 2.6)
}

/// Whether what stands behind the name is what one of the packs holds: `2 (14-oz) cans tomatoes (400 g)`.
fn is_one_pack(view: &View<'_>, compared: &Compared<'_>) -> bool {
    let measures = &view.house.measures;
    let both = compared.pair.written.quantity(measures).zip(compared.pair.restated.quantity(measures));
    let off = both.and_then(|(one, again)| difference(&one, &again, None));
    compared.pair.apart && compared.pair.times.is_some() && off.is_some_and(|off| off.size() < 0.05)
}

/// The first amount, with the number of packs where it is that of one.
fn whole(view: &View<'_>, compared: &Compared<'_>) -> String {
    let written = plain(view.recipe, compared.pair.written);
    match compared.pair.times.and_then(|times| times.most) {
        Some(times) => format!("{} x {}", print_decimal(times), written.replace('-', " ")),
        None => written,
    }
}

fn message(view: &View<'_>, compared: &Compared<'_>, off: Off) -> String {
    let (written, restated) = (whole(view, compared), plain(view.recipe, compared.pair.restated));
    let meant =
        compared.as_other_says(view, Side::Restated).map(|(_, amounts)| print_amounts(&amounts, &setting::style(view)));
    let about = meant.map_or(format!("not {restated}"), |meant| format!("about {meant}, not {restated}"));
    match off {
        _ if is_one_pack(view, compared) => {
            format!("{written} is {about}. If {restated} is what one holds, write “{restated} each”.")
        }
        Off::BeyondDensity(_) => {
            let food = weights::food_of(view.recipe, compared.pair.measure);
            let of = food.map(|food| format!(" of {}", food.name)).unwrap_or_default();
            format!(
                "{written}{of} is {about}. A cook who weighs and a cook who measures would make two different dishes."
            )
        }
        Off::Degrees(off) => {
            let way = if off > 0.0 { "hotter" } else { "cooler" };
            let off = print_decimal(off.abs().round());
            format!("{written} is {about}: {off} °C {way}. Some readers will cook it too hot, and some too cool.")
        }
        Off::Share(off) => {
            let more = if off > 0.0 { "more" } else { "less" };
            let percent = (off.abs() * 100.0).max(1.0);
            format!("{written} is {about}: {percent:.0} % {more}. Correct the one that is wrong.")
        }
    }
}
