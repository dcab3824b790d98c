//! `restated-other-cup`: the restatement is right for another cup, tablespoon or pint than the book's.

use uom::si::volume::milliliter;

use super::{
    Check, Finding, Fix, Severity, View,
    support::restated::{Compared, Side, compared, plain},
};
use crate::{
    measure::{Amount, Comparison, Measures, OtherMeasure, Quantity, compare},
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "restated-other-cup", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let pairs = compared(view);
    let foreign: Vec<(&Compared<'_>, OtherMeasure)> =
        pairs.iter().filter_map(|compared| Some((compared, other(view, compared)?))).collect();
    let mut told: Vec<OtherMeasure> = Vec::new();
    for (compared, measure) in &foreign {
        let alike: Vec<&Compared<'_>> =
            foreign.iter().filter(|(_, other)| other == measure).map(|(compared, _)| *compared).collect();
        let throughout = alike.len() > 1 && !pairs.iter().any(|compared| is_our_own(view, compared, *measure));
        if !throughout {
            out.push(finding(view, compared, *measure));
        } else if !told.contains(measure) {
            told.push(*measure);
            out.push(of_the_recipe(view, &alike, *measure));
        }
    }
}

/// The other measure under which a pair agrees, where under the house's own it does not.
fn other(view: &View<'_>, compared: &Compared<'_>) -> Option<OtherMeasure> {
    compared.severity(view)?;
    compared.agreement()?.other
}

/// Below this difference a pair agrees but for a rounding.
const CLOSE: f64 = 0.02;

/// From this many millilitres on two cups are printed otherwise: a quarter cup is 60 ml in America and in Australia.
const TELLS_CUPS: f64 = 100.0;

/// Whether a pair agrees with the house and not with the other measure: the recipe is then of two minds.
fn is_our_own(view: &View<'_>, compared: &Compared<'_>, measure: OtherMeasure) -> bool {
    let house = &view.house.measures;
    let off = |measures: &Measures| match compare(&compared.written, &compared.restated, measures, None) {
        Comparison::Compared(agreement) => Some(agreement.off.size()),
        _ => None,
    };
    let large = match Amount::total(&compared.written, house) {
        Some(Quantity::Volume(volume)) => volume.least.get::<milliliter>() >= TELLS_CUPS,
        _ => false,
    };
    let tells = large || !matches!(measure, OtherMeasure::Cup(_));
    let both = off(house).zip(off(&under(house, measure)));
    tells && both.is_some_and(|(own, other)| own < CLOSE && other > CLOSE)
}

fn under(house: &Measures, measure: OtherMeasure) -> Measures {
    match measure {
        OtherMeasure::Cup(cup) => Measures { cup, ..*house },
        OtherMeasure::Tablespoon(tablespoon) => Measures { tablespoon, ..*house },
        OtherMeasure::Pint(pint) => Measures { pint, ..*house },
    }
}

fn finding(view: &View<'_>, compared: &Compared<'_>, measure: OtherMeasure) -> Finding {
    let (foreign, own) = named(view, measure);
    let (written, restated) = (plain(view.recipe, compared.pair.written), plain(view.recipe, compared.pair.restated));
    let message = format!(
        "{restated} is right for the {foreign}, and this book measures with the {own}. Two cooks would not pour the same {written}."
    );
    let found = Finding::new(CHECK.code, CHECK.severity, compared.pair.restated.span, message)
        .related(compared.pair.written.span, "the same amount");
    match compared.rewritten(view, Side::Restated) {
        Some((edit, text)) => found.fix(Fix::new(format!("Restate {written} as {text}"), vec![edit])),
        None => found,
    }
}

/// A recipe that keeps to another measure throughout is asked about once: nothing in it is out of proportion.
fn of_the_recipe(view: &View<'_>, alike: &[&Compared<'_>], measure: OtherMeasure) -> Finding {
    let (foreign, own) = named(view, measure);
    let mut places = alike.iter().map(|compared| compared.pair.restated.span);
    let first = places.next().unwrap_or_default();
    let message = format!(
        "This recipe is restated for the {foreign} throughout, and this book measures with the {own}. Restate it, or say in the house \
         style which one the book means."
    );
    let found = Finding::new(CHECK.code, Severity::Info, first, message);
    let found = places.fold(found, |found, place| found.related(place, "here too"));
    let edits: Option<Vec<Edit>> =
        alike.iter().map(|compared| compared.rewritten(view, Side::Restated).map(|(edit, _)| edit)).collect();
    let title = format!("Restate {} amounts for the {own}", alike.len());
    edits.into_iter().fold(found, |found, edits| found.fix(Fix::new(title.clone(), edits)))
}

/// The other measure and the house's own, as a sentence names them.
fn named(view: &View<'_>, measure: OtherMeasure) -> (String, String) {
    let house = &view.house.measures;
    let named = |name: &str, of: &str, millilitres: f64| {
        let name = name.split(" (").next().unwrap_or(name);
        format!("{name} {of} of {millilitres:.0} ml")
    };
    match measure {
        OtherMeasure::Cup(cup) => {
            (named(cup.name(), "cup", cup.millilitres()), named(house.cup.name(), "cup", house.cup.millilitres()))
        }
        OtherMeasure::Tablespoon(spoon) => (
            named(spoon.name(), "tablespoon", spoon.millilitres()),
            named(house.tablespoon.name(), "tablespoon", house.tablespoon.millilitres()),
        ),
        OtherMeasure::Pint(pint) => {
            (named(pint.name(), "pint", pint.millilitres()), named(house.pint.name(), "pint", house.pint.millilitres()))
        }
    }
}
