//! `time-implausible`: a time that nobody means: a loaf baked for 35 hours, meatballs for 14 seconds.

use uom::si::{f64::Time, time::minute};

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{
        bands::{self, Band, Slip},
        words,
    },
};
use crate::{
    measure::{Amount, Measures, Quantity, Unit, print_decimal},
    recipe::{
        Recipe,
        clock::{Act, Duration},
        measures::Term,
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "time-implausible", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for act in &recipe.clock.acts {
        let slips = act.times.iter().filter_map(|time| Some((time, bands::slip(recipe, act, time)?)));
        out.extend(slips.map(|(time, slip)| finding(recipe, act, time, &slip)));
    }
}

fn finding(recipe: &Recipe, act: &Act, time: &Duration, slip: &Slip) -> Finding {
    let band = slip.band;
    let (shortest, longest) = band.possible;
    let meant = meant(recipe, time, band);
    let guess =
        meant.as_ref().map_or("Correct the time or its unit.".to_owned(), |(_, text)| format!("Is {text} meant?"));
    let (limit, end) = if slip.short { (shortest, "least") } else { (longest, "most") };
    let message = format!(
        "{} for {}: {} takes {} at the very {end}. Who has never made it goes by the page. {guess}",
        words::sentence(recipe.at(act.span)),
        words::plain(recipe.at(time.span)),
        band.called,
        print(limit),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, time.span, message).certainty(Certainty::Likely);
    match meant {
        Some((edit, text)) => found.fix(Fix::new(format!("Write {text}"), vec![edit])),
        None => found,
    }
}

fn print(minutes: f64) -> String {
    match minutes {
        minutes if minutes < 1.0 => format!("{} seconds", print_decimal((minutes * 60.0).round())),
        minutes if minutes < 120.0 => format!("{} minutes", print_decimal(minutes)),
        minutes if minutes < 48.0 * 60.0 => format!("{} hours", print_decimal(minutes / 60.0)),
        minutes => format!("{} days", print_decimal(minutes / 60.0 / 24.0)),
    }
}

/// What was likely meant: the same number of another unit, where that is usual. Only for a time that has one unit.
fn meant(recipe: &Recipe, time: &Duration, band: &Band) -> Option<(Edit, String)> {
    let measure = recipe.measures.get(time.measure?)?;
    let ([term], []) = (measure.stated.terms.as_slice(), measure.restated.as_slice()) else { return None };
    let (amount, unit) = (term.amount()?, term.unit?);
    let others: &[Unit] = match amount.unit? {
        Unit::Second => &[Unit::Minute],
        Unit::Minute => &[Unit::Second, Unit::Hour],
        Unit::Hour => &[Unit::Minute],
        Unit::Day => &[Unit::Hour, Unit::Minute],
        _ => &[],
    };
    let fits = |other: &&Unit| match Amount::new(amount.number, Some(**other)).quantity(&Measures::default()) {
        Quantity::Time(time) => {
            let inside = |time: Time| (band.usual.0..=band.usual.1).contains(&time.get::<minute>());
            inside(time.least) && time.most.is_some_and(inside)
        }
        _ => false,
    };
    let other = *others.iter().find(fits)?;
    let text = in_its_manner(recipe, term, other)?;
    let before = recipe.text.get(measure.stated.span.start..unit.start)?;
    let reads = words::plain(&format!("{before}{text}"));
    Some((Edit::replace(unit, text), reads))
}

/// The unit as the author writes units: short or long, one or many.
fn in_its_manner(recipe: &Recipe, term: &Term, other: Unit) -> Option<String> {
    let (written, amount) = (recipe.at(term.unit?).trim_start_matches('-'), term.amount()?);
    let hyphen = if recipe.at(term.unit?).starts_with('-') { "-" } else { "" };
    let long = written.len() > 4;
    let many = long && written.ends_with('s') || !long && amount.number.most.is_none_or(|most| most > 1.0);
    let word = match (long, many) {
        (true, true) => other.plural(),
        (true, false) => other.name(),
        (false, _) => other.symbol(),
    };
    Some(format!("{hyphen}{word}"))
}
