//! The same amount again in the other system, behind the one that stands there.

use uom::si::volume::milliliter;

use super::{Change, One};
use crate::{
    book::House,
    checks::support::{around, heat, liquids::is_liquid, restating},
    measure::{Amount, Comparison, Hedge, Quantity, System, Unit, UnitKind, Verdict, compare},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
        weights,
    },
    text::Span,
};

/// From this many millilitres on a metric kitchen wants more than a spoon: a tablespoon (common practice, no source).
const SPOONED: f64 = 14.0;

/// Every measure that can be restated, with what stands behind it then.
pub fn all(recipe: &Recipe, house: &House) -> Vec<One> {
    let paired: Vec<Span> = recipe.pairs().iter().flat_map(|pair| [pair.written.span, pair.restated.span]).collect();
    let mut out = Vec::new();
    for (index, measure) in recipe.measures.iter().enumerate() {
        let told = !measure.restated.is_empty() || measure.statements().any(|stated| paired.contains(&stated.span));
        if told || matches!(measure.place, Place::Prose | Place::Test(_)) {
            continue;
        }
        let one = match measure.each.as_slice() {
            [] => one(recipe, house, index, measure, &measure.stated),
            [pack] => one(recipe, house, index, measure, pack),
            _ => None,
        };
        out.extend(one);
    }
    out
}

fn one(recipe: &Recipe, house: &House, index: usize, measure: &Measure, stated: &Stated) -> Option<One> {
    let system = stated.unit()?.system()?;
    let pack = !std::ptr::eq(stated, &measure.stated);
    if is_loosened(recipe, measure, stated) || stands_in_chain(recipe, stated) || has_figures_behind(recipe, stated) {
        return None;
    }
    let other = system.other();
    if !(stated.sides || agrees_in(recipe, house, index, stated, other)) || !is_known(recipe, index, measure, pack) {
        return None;
    }
    let text = restating::text_in(recipe, house, index, stated, other)?;
    let edits = vec![restating::beside(recipe, stated, &text)];
    let change = if system == System::Customary { Change::AddMetric } else { Change::AddCustomary };
    Some(One { change, place: measure.span, text, edits, only_here: is_spooned(house, stated) })
}

/// Whether a parenthesis with figures stands right behind: however it is read, a reader takes it for the same amount.
fn has_figures_behind(recipe: &Recipe, stated: &Stated) -> bool {
    let end = restating::as_written(recipe, stated).end;
    let behind = recipe.text.get(end..).unwrap_or_default().trim_start();
    let inside = behind.strip_prefix('(').and_then(|behind| behind.split(')').next());
    inside.is_some_and(|inside| inside.contains(|c: char| c.is_ascii_digit()))
}

/// Whether it is rounded to something that still agrees with it: not a millimetre in eighths of an inch.
fn agrees_in(recipe: &Recipe, house: &House, index: usize, stated: &Stated, system: System) -> bool {
    let amounts = restating::amounts_in(recipe, house, index, stated, system);
    let written = stated.amounts().filter(|_| !amounts.is_empty());
    written.is_some_and(|written| agrees(recipe, house, index, &written, &amounts))
}

/// Whether it is clear what is measured, and how that is measured elsewhere: volumes of what is poured, weights of what is
/// scooped where the state of it is told; no time, no count, no difference of temperature, no sizes of packs but what they hold.
fn is_known(recipe: &Recipe, index: usize, measure: &Measure, pack: bool) -> bool {
    let stated = if pack { measure.each.first() } else { Some(&measure.stated) };
    let Some(unit) = stated.and_then(Stated::unit) else { return false };
    match unit.kind() {
        UnitKind::Length => !pack,
        UnitKind::Temperature => {
            matches!(unit, Unit::DegreeFahrenheit | Unit::DegreeCelsius) && !heat::is_difference(recipe, measure.span)
        }
        UnitKind::Weight => true,
        UnitKind::Volume => pack || is_poured(recipe, index, measure) || weights::range_of(recipe, index).is_some(),
        UnitKind::Time | UnitKind::Count | UnitKind::Loose => false,
    }
}

/// Whether a volume stays one in the other system: a liquid's, a pot's, what a recipe makes.
fn is_poured(recipe: &Recipe, index: usize, measure: &Measure) -> bool {
    match measure.place {
        Place::Header(_) | Place::Equipment(_) | Place::Result(_) => true,
        Place::Ingredient(_) => weights::food_of(recipe, index).is_some_and(is_liquid),
        Place::Step(_) => weights::food_of(recipe, index).map_or_else(
            || {
                let behind = around::behind(recipe, measure.span.end, 4).join(" ");
                recipe.larder.find(&behind).is_some_and(|found| found.certain && is_liquid(found.food))
            },
            is_liquid,
        ),
        Place::Prose | Place::Test(_) => false,
    }
}

/// Whether two statements agree as the house compares them: what the check of restatements would say.
pub fn agrees(recipe: &Recipe, house: &House, index: usize, written: &[Amount], restated: &[Amount]) -> bool {
    verdict(recipe, house, index, written, restated) == Some(true)
}

/// Whether they disagree; not so where nobody can say.
pub fn disagrees(recipe: &Recipe, house: &House, index: usize, written: &[Amount], restated: &[Amount]) -> bool {
    verdict(recipe, house, index, written, restated) == Some(false)
}

fn verdict(recipe: &Recipe, house: &House, index: usize, written: &[Amount], restated: &[Amount]) -> Option<bool> {
    let range = weights::range_of(recipe, index);
    match compare(written, restated, &house.measures, range.as_ref()) {
        Comparison::Compared(agreement) => {
            Some(agreement.other.is_none() && agreement.verdict(&house.tolerances) == Verdict::Agrees)
        }
        _ => None,
    }
}

/// `a scant cup`, `heaping`: what comes beside it would say something else.
pub fn is_loosened(recipe: &Recipe, measure: &Measure, stated: &Stated) -> bool {
    let within = stated.terms.iter().filter_map(|term| {
        let unit = term.unit.filter(|unit| unit.start >= term.number.end)?;
        Some(Span::new(term.number.end, unit.start))
    });
    within
        .chain(measure.hedge)
        .filter_map(|span| Hedge::find(recipe.at(span).trim()))
        .any(|hedge| matches!(hedge, Hedge::Scant | Hedge::Generous | Hedge::Heaping))
}

/// `180°C/160°C fan/gas mark 4`: one of several settings.
fn stands_in_chain(recipe: &Recipe, stated: &Stated) -> bool {
    let before = recipe.text.get(..stated.span.start).unwrap_or_default();
    let behind = recipe.text.get(stated.span.end..).unwrap_or_default();
    before.trim_end().ends_with('/') || behind.trim_start().starts_with(['/', '('])
}

/// Whether every kitchen has a spoon for it, so that it need not be said twice.
fn is_spooned(house: &House, stated: &Stated) -> bool {
    match stated.quantity(&house.measures) {
        Some(Quantity::Volume(volume)) => volume.most.is_some_and(|most| most.get::<milliliter>() < SPOONED),
        _ => false,
    }
}
