//! The same amount again in the other system, behind the one that stands there.

use uom::si::volume::milliliter;

use super::{Change, One};
use crate::{
    assist::hover::in_other_system,
    book::House,
    checks::support::{around, heat},
    larder::Food,
    measure::{
        Amount, Comparison, Hedge, Quantity, Style, System, Unit, UnitKind, Verdict, compare, kitchen_amounts,
        print_amounts,
    },
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
        weights,
    },
    text::{Edit, Span},
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
            [pack] => of_pack(recipe, house, index, measure, pack),
            _ => None,
        };
        out.extend(one);
    }
    out
}

fn one(recipe: &Recipe, house: &House, index: usize, measure: &Measure, stated: &Stated) -> Option<One> {
    let system = stated.unit()?.system()?;
    if is_loosened(recipe, measure, stated) || stands_in_chain(recipe, stated) || has_figures_behind(recipe, stated) {
        return None;
    }
    let text = other(recipe, house, index, measure, stated)?;
    let inserted = if in_parentheses(recipe, stated) { format!(" / {text}") } else { format!(" ({text})") };
    let edits = vec![Edit::insert(as_written(recipe, stated).end, inserted)];
    let change = if system == System::Customary { Change::AddMetric } else { Change::AddCustomary };
    Some(One { change, place: measure.span, text, edits, only_here: is_spooned(house, stated) })
}

/// Whether a parenthesis with figures stands right behind: however it is read, a reader takes it for the same amount.
fn has_figures_behind(recipe: &Recipe, stated: &Stated) -> bool {
    let behind = recipe.text.get(as_written(recipe, stated).end..).unwrap_or_default().trim_start();
    let inside = behind.strip_prefix('(').and_then(|behind| behind.split(')').next());
    inside.is_some_and(|inside| inside.contains(|c: char| c.is_ascii_digit()))
}

/// `2 (14-oz) cans`: the size of one is restated inside its parentheses.
fn of_pack(recipe: &Recipe, house: &House, index: usize, measure: &Measure, pack: &Stated) -> Option<One> {
    let system = pack.unit()?.system()?;
    let amounts = pack.amounts()?;
    let other = kitchen_amounts(&Amount::total(&amounts, &house.measures)?, opposite(system), &house.measures);
    let weighed = matches!(pack.kind(), Some(UnitKind::Volume | UnitKind::Weight));
    if other.is_empty() || !weighed || !agrees(recipe, house, index, &amounts, &other) {
        return None;
    }
    let text = print_amounts(&other, &Style::default());
    let inside = recipe.text.get(pack.span.end..)?.trim_start().starts_with([')', ']']);
    let inserted = if inside { format!(" / {text}") } else { format!(" ({text})") };
    let edits = vec![Edit::insert(pack.span.end, inserted)];
    let change = if system == System::Customary { Change::AddMetric } else { Change::AddCustomary };
    Some(One { change, place: measure.span, text, edits, only_here: false })
}

fn opposite(system: System) -> System {
    match system {
        System::Customary => System::Metric,
        System::Metric => System::Customary,
    }
}

/// What to write beside a stated amount. Nothing where that is not known, or would not agree with it.
fn other(recipe: &Recipe, house: &House, index: usize, measure: &Measure, stated: &Stated) -> Option<String> {
    match stated.kind()? {
        UnitKind::Length if stated.sides => in_other_system(stated),
        UnitKind::Length => converted(recipe, house, index, stated),
        UnitKind::Temperature => degrees(recipe, house, index, measure, stated),
        UnitKind::Volume | UnitKind::Weight => amount(recipe, house, index, measure, stated),
        UnitKind::Time | UnitKind::Count | UnitKind::Loose => None,
    }
}

fn degrees(recipe: &Recipe, house: &House, index: usize, measure: &Measure, stated: &Stated) -> Option<String> {
    let scaled = matches!(stated.unit()?, Unit::DegreeFahrenheit | Unit::DegreeCelsius);
    let absolute = scaled && !heat::is_difference(recipe, measure.span);
    absolute.then(|| converted(recipe, house, index, stated)).flatten()
}

/// In the other system, rounded; nothing where the rounding would mislead: a millimetre in eighths of an inch.
fn converted(recipe: &Recipe, house: &House, index: usize, stated: &Stated) -> Option<String> {
    let system = opposite(stated.unit()?.system()?);
    let amounts = kitchen_amounts(&stated.quantity(&house.measures)?, system, &house.measures);
    let agrees = !amounts.is_empty() && agrees(recipe, house, index, &stated.amounts()?, &amounts);
    agrees.then(|| print_amounts(&amounts, &Style::default()))
}

/// Volumes of liquids as volumes, those of other foods as weights; weights as weights, small ones in spoons.
fn amount(recipe: &Recipe, house: &House, index: usize, measure: &Measure, stated: &Stated) -> Option<String> {
    let system = opposite(stated.unit()?.system()?);
    let quantity = stated.quantity(&house.measures)?;
    let density = weights::range_of(recipe, index).and(weights::density_of(recipe, index));
    let liquid = measured_by_volume(recipe, index, measure);
    let by_weight = || match (&quantity, density) {
        (Quantity::Volume(volume), Some(density)) => {
            Some(Quantity::Weight(volume.map(|volume| volume * density.typical)))
        }
        _ => None,
    };
    let other = match &quantity {
        Quantity::Volume(_) if liquid => quantity,
        Quantity::Volume(_) => by_weight()?,
        Quantity::Weight(_) => quantity,
        _ => return None,
    };
    let amounts = kitchen_amounts(&other, system, &house.measures);
    let written = stated.amounts()?;
    (!amounts.is_empty() && agrees(recipe, house, index, &written, &amounts))
        .then(|| print_amounts(&amounts, &Style::default()))
}

/// Whether a volume stays one in the other system: a liquid's, a pot's, what a recipe makes.
fn measured_by_volume(recipe: &Recipe, index: usize, measure: &Measure) -> bool {
    let is_liquid = |food: &Food| food.is("liquid");
    match measure.place {
        Place::Header(_) | Place::Equipment(_) | Place::Result(_) => true,
        Place::Ingredient(_) => weights::food_of(recipe, index).is_some_and(is_liquid),
        Place::Step(_) => match weights::food_of(recipe, index) {
            Some(food) => is_liquid(food),
            None => {
                let behind = around::behind(recipe, measure.span.end, 4).join(" ");
                recipe.larder.find(&behind).is_some_and(|found| found.certain && is_liquid(found.food))
            }
        },
        Place::Prose | Place::Test(_) => false,
    }
}

/// A stated amount without the blank behind the full stop of an abbreviation.
pub fn as_written(recipe: &Recipe, stated: &Stated) -> Span {
    Span::new(stated.span.start, stated.span.start + recipe.at(stated.span).trim_end().len())
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

fn in_parentheses(recipe: &Recipe, stated: &Stated) -> bool {
    let before = recipe.text.get(..stated.span.start).unwrap_or_default();
    let line = before.rfind("\n\n").map_or(before, |at| before.get(at..).unwrap_or_default());
    line.matches('(').count() > line.matches(')').count()
}

/// Whether every kitchen has a spoon for it, so that it need not be said twice.
fn is_spooned(house: &House, stated: &Stated) -> bool {
    match stated.quantity(&house.measures) {
        Some(Quantity::Volume(volume)) => volume.most.is_some_and(|most| most.get::<milliliter>() < SPOONED),
        _ => false,
    }
}
