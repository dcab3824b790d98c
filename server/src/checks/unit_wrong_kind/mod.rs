//! `unit-wrong-kind`: a weight restated as a length, a liquid by ounces of weight where fluid ounces are meant.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{
        liquids,
        restated::{Pair, pairs},
        words,
    },
};
use crate::{
    measure::{Agreement, Amount, Comparison, Interval, Unit, UnitKind, Verdict, compare},
    recipe::{
        measures::{Place, Stated, Term},
        weights,
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "unit-wrong-kind", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for pair in pairs(view) {
        out.extend(other_kind(view, &pair).or_else(|| fluid_ounces(view, &pair)));
    }
}

fn other_kind(view: &View<'_>, pair: &Pair<'_>) -> Option<Finding> {
    let Comparison::OtherKind { written: mine, restated: theirs } = pair.comparison else { return None };
    // A piece may be told by its length and its weight, and a step by its heat and its time.
    let measured = matches!(mine, UnitKind::Volume | UnitKind::Weight);
    let in_list = matches!(pair.measure.place, Place::Ingredient(_));
    let never = matches!(theirs, UnitKind::Length | UnitKind::Temperature) || in_list && theirs == UnitKind::Time;
    if !measured || !never {
        return None;
    }
    let recipe = view.recipe;
    let (written, restated) = (words::plain(recipe.at(pair.written.span)), words::plain(recipe.at(pair.restated.span)));
    let message = format!(
        "{restated} is a {}, but {written} is a {}: the unit is wrong, and a cook in the other system has nothing to measure by.",
        theirs.name(),
        mine.name()
    );
    let found = Finding::new(CHECK.code, CHECK.severity, pair.restated.span, message)
        .related(pair.written.span, "the amount that it restates");
    let fixes = meant(view, pair).into_iter().map(|unit| with_unit(view, pair.restated, unit));
    Some(fixes.flatten().fold(found, Finding::fix))
}

/// The units with which the same number agrees: `57 cm` beside a quarter cup of butter is 57 g.
fn meant(view: &View<'_>, pair: &Pair<'_>) -> Vec<Unit> {
    let index = view.recipe.measures.iter().position(|measure| std::ptr::eq(measure, pair.measure));
    let food = index.and_then(|index| weights::food_of(view.recipe, index));
    let density = food.and_then(|food| weights::density_of(view.recipe, pair.measure, food));
    let range = density.map(|density| Interval::between(density.low, density.high));
    let (Some(written), [term]) = (amounts(pair.written), pair.restated.terms.as_slice()) else { return Vec::new() };
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

fn amounts(stated: &Stated) -> Option<Vec<Amount>> {
    stated.terms.iter().map(Term::amount).collect()
}

fn with_unit(view: &View<'_>, stated: &Stated, unit: Unit) -> Option<Fix> {
    let [term] = stated.terms.as_slice() else { return None };
    let number = view.recipe.at(term.number);
    let text = format!("{number} {}", unit.symbol());
    Some(Fix::new(format!("Write {text}"), vec![Edit::replace(stated.span, text)]))
}

/// `8 oz (240 ml) milk`: as a weight the ounces are wrong, as fluid ounces they are right.
fn fluid_ounces(view: &View<'_>, pair: &Pair<'_>) -> Option<Finding> {
    let recipe = view.recipe;
    let index = recipe.measures.iter().position(|measure| std::ptr::eq(measure, pair.measure))?;
    let food = weights::food_of(recipe, index).filter(|food| liquids::is_liquid(food))?;
    let is_ounces = |stated: &Stated| matches!(stated.terms.as_slice(), [term] if term.amount().is_some_and(|amount| amount.unit == Some(Unit::Ounce)));
    let (ounces, volume) = match (is_ounces(pair.written), is_ounces(pair.restated)) {
        (true, false) => (pair.written, pair.restated),
        (false, true) => (pair.restated, pair.written),
        _ => return None,
    };
    // '1 cup (8 oz) water' is right either way; millilitres beside ounces, and what is far from its weight, are not.
    // A pack is bought by what its label says.
    let pack = pair.measure.each.iter().any(|each| std::ptr::eq(each, pair.written));
    let by_volume = volume.kind() == Some(UnitKind::Volume);
    let metric = volume.unit().and_then(Unit::system) == Some(crate::measure::System::Metric);
    let by_weight = match pair.comparison {
        Comparison::Compared(agreement) => is_right(view, &agreement),
        _ => true,
    };
    if pack || !by_volume || by_weight && !metric {
        return None;
    }
    let [term] = ounces.terms.as_slice() else { return None };
    let fluid = [Amount::new(term.amount()?.number, Some(Unit::FluidOunce))];
    match compare(&fluid, &amounts(volume)?, &view.house.measures, None) {
        Comparison::Compared(agreement) if is_right(view, &agreement) => {}
        _ => return None,
    }
    let (written, other) = (words::plain(recipe.at(ounces.span)), words::plain(recipe.at(volume.span)));
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
