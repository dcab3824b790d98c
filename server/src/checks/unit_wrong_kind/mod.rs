//! `unit-wrong-kind`: a weight restated as a length, a liquid by ounces of weight where fluid ounces are meant.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{
        liquids,
        restated::{Compared, compared, plain},
    },
};
use crate::{
    measure::{Agreement, Amount, Comparison, Unit, UnitKind, Verdict, compare},
    recipe::{
        measures::{Place, Stated},
        weights,
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "unit-wrong-kind", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for compared in compared(view) {
        out.extend(other_kind(view, compared).or_else(|| fluid_ounces(view, compared)));
    }
}

fn other_kind(view: &View<'_>, compared: &Compared<'_>) -> Option<Finding> {
    let Comparison::OtherKind { written: mine, restated: theirs } = compared.comparison else { return None };
    // A piece may be told by its length and its weight, and a step by its heat and its time.
    let measured = matches!(mine, UnitKind::Volume | UnitKind::Weight);
    let in_list = matches!(compared.measure.place, Place::Ingredient(_));
    let never = matches!(theirs, UnitKind::Length | UnitKind::Temperature) || in_list && theirs == UnitKind::Time;
    if !measured || !never {
        return None;
    }
    let recipe = view.recipe;
    let (written, restated) = (plain(recipe, compared.pair.written), plain(recipe, compared.pair.restated));
    let message = format!(
        "{restated} is a {}, but {written} is a {}: the unit is wrong, and a cook in the other system has nothing to measure by.",
        theirs.name(),
        mine.name()
    );
    let found = Finding::new(CHECK.code, CHECK.severity, compared.pair.restated.span, message)
        .related(compared.pair.written.span, "the amount that it restates");
    let fixes = meant(view, compared).into_iter().map(|unit| with_unit(view, compared.pair.restated, unit));
    Some(fixes.flatten().fold(found, Finding::fix))
}

/// The units with which the same number agrees: `57 cm` beside a quarter cup of butter is 57 g.
fn meant(view: &View<'_>, compared: &Compared<'_>) -> Vec<Unit> {
    let range = weights::range_of(view.recipe, compared.pair.measure);
    let (Some(written), [term]) = (compared.pair.written.amounts(), compared.pair.restated.terms.as_slice()) else {
        return Vec::new();
    };
    let Some(number) = term.amount().map(|amount| amount.number) else { return Vec::new() };
    let agrees = |unit: &Unit| {
        let restated = [Amount::new(number, Some(*unit))];
        match compare(&written, &restated, &view.house.measures, range.as_ref()) {
            Comparison::Compared(agreement) => is_right(view, &agreement),
            _ => false,
        }
    };
    [Unit::Gram, Unit::Millilitre, Unit::Kilogram, Unit::Litre, Unit::Ounce].into_iter().filter(agrees).collect()
}

fn is_right(view: &View<'_>, agreement: &Agreement) -> bool {
    agreement.other.is_none() && agreement.verdict(&view.house.tolerances) == Verdict::Agrees
}

fn with_unit(view: &View<'_>, stated: &Stated, unit: Unit) -> Option<Fix> {
    let [term] = stated.terms.as_slice() else { return None };
    let number = view.recipe.at(term.number);
    let text = format!("{number} {}", unit.symbol());
    Some(Fix::new(format!("Write {text}"), vec![Edit::replace(stated.span, text)]))
}

/// `8 oz (240 ml) milk`: as a weight the ounces are wrong, as fluid ounces they are right.
fn fluid_ounces(view: &View<'_>, compared: &Compared<'_>) -> Option<Finding> {
    let recipe = view.recipe;
    let (food, ounces, volume) = liquids::are_fluid_ounces(view, compared)?;
    let [term] = ounces.terms.as_slice() else { return None };
    let (written, other) = (plain(recipe, ounces), plain(recipe, volume));
    let message = format!(
        "{other} of {} beside it shows that {written} are fluid ounces. Plain “oz” is a weight, and a cook who puts the {} on the \
         scale gets another amount: write “fl oz”.",
        food.name, food.name
    );
    let found = Finding::new(CHECK.code, Severity::Warning, ounces.span, message)
        .certainty(Certainty::Likely)
        .related(volume.span, "a volume");
    Some(liquids::as_fluid_ounces(recipe, term).into_iter().fold(found, Finding::fix))
}
