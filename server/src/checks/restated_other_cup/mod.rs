//! `restated-other-cup`: the restatement is right for another cup, tablespoon or pint than the book's.

use super::{
    Check, Finding, Fix, Severity, View,
    support::restated::{Pair, pairs, rewritten},
};
use crate::measure::{Comparison, OtherMeasure};

/// The check.
pub const CHECK: Check =
    Check { code: "restated-other-cup", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    out.extend(pairs(view).iter().filter_map(|pair| finding(view, pair)));
}

fn finding(view: &View<'_>, pair: &Pair<'_>) -> Option<Finding> {
    let Comparison::Compared(agreement) = pair.comparison else { return None };
    let house = &view.house.measures;
    let named = |name: &str, of: &str, millilitres: f64| {
        let name = name.split(" (").next().unwrap_or(name);
        format!("{name} {of} of {millilitres:.0} ml")
    };
    let (other, own) = match agreement.other? {
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
    };
    let recipe = view.recipe;
    let (written, restated) = (recipe.at(pair.written.span), recipe.at(pair.restated.span));
    let message = format!(
        "{restated} is right for the {other}, and this book measures with the {own}. Two cooks would not pour the same {written}."
    );
    let mut found = Finding::new(CHECK.code, CHECK.severity, pair.restated.span, message)
        .related(pair.written.span, "the same amount");
    if let Some((edit, text)) = rewritten(view.house, pair.written, pair.restated, pair.density.as_ref()) {
        found = found.fix(Fix::new(format!("Restate {written} as {text}"), vec![edit]));
    }
    Some(found)
}
