//! `metric-missing`: a customary measure has no metric one beside it, in a house that asks for it.

use uom::si::volume::milliliter;

use super::{
    Check, Finding, Fix, Severity, View,
    support::{heat, restating, words},
};
use crate::{
    measure::{Quantity, System, Unit, UnitKind},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
    },
};

/// The check.
pub const CHECK: Check =
    Check { code: "metric-missing", severity: Severity::Hint, on: false, docs: include_str!("docs.md"), find };

/// Spoons below a quarter cup are the same in every kitchen, near enough; nobody weighs a teaspoon. Common practice, no source.
const WORTH_RESTATING: f64 = 55.0;

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let pairs = view.pairs();
    let is_metric = |stated: &Stated| stated.unit().and_then(Unit::system) == Some(System::Metric);
    let restated = |index: usize| {
        pairs.iter().any(|pair| pair.measure == index && (is_metric(pair.written) || is_metric(pair.restated)))
    };
    for (index, measure) in recipe.measures.iter().enumerate() {
        let own = measure.statements().chain(&measure.each).any(is_metric);
        if own || restated(index) || !is_asked(recipe, index, measure) {
            continue;
        }
        // What has been restated once need not be each time it comes again.
        let told = recipe.measures.iter().enumerate().any(|(other, earlier)| {
            other < index && earlier.same_amount(measure) && (restated(other) || earlier.restated.iter().any(is_metric))
        });
        let in_step = matches!(measure.place, Place::Step(_));
        let Some(stated) = customary(view, measure).filter(|_| !(told && in_step)) else { continue };
        let Some(metric) = restating::text_in(recipe, view.house, index, stated, System::Metric) else { continue };
        let written = words::plain(recipe.at(stated.span));
        let message = format!(
            "No metric measure stands beside {written}, and the house asks for one: a cook with scales, or in another \
             country, has to convert it."
        );
        let found = Finding::new(CHECK.code, CHECK.severity, stated.span, message);
        out.push(
            found.fix(Fix::new(format!("Restate it as {metric}"), vec![restating::beside(recipe, stated, &metric)])),
        );
    }
}

/// Whether a book restates a measure of this kind in this place: amounts of the list, lengths, sizes of pans, and temperatures.
fn is_asked(recipe: &Recipe, index: usize, measure: &Measure) -> bool {
    let kind = measure.statements().chain(&measure.each).filter_map(Stated::kind).find(|kind| *kind != UnitKind::Count);
    let hot_or_long = matches!(kind, Some(UnitKind::Length | UnitKind::Temperature));
    match measure.place {
        Place::Ingredient(line) => {
            recipe.ingredient(line).is_some_and(|line| line.amount == Some(index)) || hot_or_long
        }
        Place::Step(_) => hot_or_long && !heat::is_difference(recipe, measure.stated.span),
        Place::Equipment(_) => kind == Some(UnitKind::Length),
        Place::Result(_) | Place::Test(_) | Place::Header(_) | Place::Prose => false,
    }
}

/// The last customary amount that the measure states, where it is worth restating: of packs, the size of one.
fn customary<'m>(view: &View<'_>, measure: &'m Measure) -> Option<&'m Stated> {
    let stated = measure.each.last().or_else(|| {
        measure.statements().filter(|stated| stated.unit().and_then(Unit::system) == Some(System::Customary)).last()
    })?;
    let customary = stated
        .terms
        .iter()
        .all(|term| term.amount().and_then(|amount| amount.unit).and_then(Unit::system) == Some(System::Customary));
    let small = match stated.quantity(&view.house.measures) {
        Some(Quantity::Volume(volume)) => volume.least.get::<milliliter>() < WORTH_RESTATING,
        Some(_) => false,
        None => !stated.sides,
    };
    (customary && !small).then_some(stated)
}
