//! `unit-ambiguous`: a unit that two cooks read as two amounts: `T`, ounces of a liquid, somebody's pint.

use uom::si::{mass::gram, mass_density::gram_per_cubic_centimeter, volume::milliliter};

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{liquids, setting, words},
};
use crate::{
    larder::Food,
    measure::{Amount, Interval, Measures, Pint, Quantity, System, Unit, UnitKind, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated, Term},
        weights,
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "unit-ambiguous", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let measures = view.recipe.measures.iter().enumerate();
    for (index, measure) in measures.filter(|(_, measure)| !matches!(measure.place, Place::Test(_) | Place::Prose)) {
        let stated = measure.statements().chain(&measure.each);
        out.extend(stated.flat_map(|stated| &stated.terms).filter_map(|term| spoon(view.recipe, term)));
        out.extend(ounces(view, index, measure).or_else(|| pint(view, index, measure)));
    }
}

/// `T` and `t`: a slip of the shift key makes three times as much.
fn spoon(recipe: &Recipe, term: &Term) -> Option<Finding> {
    let unit = term.unit?;
    let written = recipe.at(unit).trim_end_matches('.');
    let (meant, other) = match written {
        "T" => (Unit::Tablespoon, Unit::Teaspoon),
        "t" => (Unit::Teaspoon, Unit::Tablespoon),
        _ => return None,
    };
    let message = format!(
        "“{written}” is a {} to those who know, but many read a {}, three times {}. Spell it out: {}.",
        meant.name(),
        other.name(),
        if meant == Unit::Tablespoon { "less" } else { "as much" },
        meant.symbol()
    );
    // `2T` has no space of its own.
    let gap = if term.number.end == unit.start { " " } else { "" };
    let text = format!("{gap}{}", meant.symbol());
    let fix = Fix::new(format!("Write {}", meant.symbol()), vec![Edit::replace(unit, text)]);
    Some(Finding::new(CHECK.code, CHECK.severity, unit, message).fix(fix))
}

/// Ounces of a liquid that nothing beside them explains, where weight and volume are far enough apart to matter.
fn ounces(view: &View<'_>, index: usize, measure: &Measure) -> Option<Finding> {
    let ([term], []) = (measure.stated.terms.as_slice(), measure.restated.as_slice()) else { return None };
    let recipe = view.recipe;
    let amount = term.amount().filter(|amount| amount.unit == Some(Unit::Ounce))?;
    let food = weights::food_of(recipe, index).filter(|food| liquids::is_liquid(food))?;
    if !measure.each.is_empty() || restated_behind_name(recipe, index) || is_bought_so(recipe, measure, food) {
        return None;
    }
    let density = food.density?.typical.get::<gram_per_cubic_centimeter>();
    let by_weight = quantity(&amount, Unit::Ounce, &view.house.measures)?;
    let by_volume = quantity(&amount, Unit::FluidOunce, &view.house.measures)?;
    let (weighed, poured) = (by_weight / density, by_volume);
    let apart = (poured - weighed).abs() / poured;
    let steps = &view.house.tolerances.same_kind;
    let severity = match apart {
        apart if apart > steps.misleading => Severity::Warning,
        apart if steps.query.is_some_and(|query| apart > query) => Severity::Info,
        _ => return None,
    };
    let millilitres = |number: f64| print_in(&Quantity::millilitres(Interval::exactly(number)), view);
    let written = words::plain(recipe.at(measure.stated.span));
    let message = format!(
        "{written} of {}: by weight that is {}, by fluid ounces {}. Say which, or restate it.",
        food.name,
        millilitres(weighed),
        millilitres(poured)
    );
    let found = Finding::new(CHECK.code, severity, measure.stated.span, message).certainty(Certainty::Likely);
    let grams = print_in(&amount.quantity(&view.house.measures), view);
    let restate = Edit::insert(measure.span.end, format!(" ({grams})"));
    let found = liquids::as_fluid_ounces(recipe, term).into_iter().fold(found, Finding::fix);
    Some(found.fix(Fix::new(format!("Restate it as {grams}"), vec![restate])))
}

/// The number of grams or millilitres in so many of a unit; at the upper end.
fn quantity(amount: &Amount, unit: Unit, measures: &Measures) -> Option<f64> {
    match Amount::new(amount.number, Some(unit)).quantity(measures) {
        Quantity::Weight(weight) => weight.most.map(|most| most.get::<gram>()),
        Quantity::Volume(volume) => volume.most.map(|most| most.get::<milliliter>()),
        _ => None,
    }
}

fn print_in(quantity: &Quantity, view: &View<'_>) -> String {
    print_amounts(&kitchen_amounts(quantity, System::Metric, &view.house.measures), &setting::style(view))
}

/// `8 oz cream (240 ml)`: the next measure of the line says what is meant.
fn restated_behind_name(recipe: &Recipe, index: usize) -> bool {
    let both = recipe.measures.get(index).zip(recipe.measures.get(index + 1));
    both.is_some_and(|(measure, next)| {
        let kind = next.stated.kind();
        let before = Span::new(measure.span.end, next.span.start.max(measure.span.end)).of(&recipe.text).trim_end();
        next.place == measure.place
            && before.ends_with(['(', '['])
            && matches!(kind, Some(UnitKind::Volume | UnitKind::Weight))
    })
}

/// What is bought or poured by the ounce: a bottle, a can, a drink.
fn is_bought_so(recipe: &Recipe, measure: &Measure, food: &Food) -> bool {
    const CONTAINERS: &[&str] = &["bottle", "can", "carton", "jar", "box", "tin", "packet", "tub", "pack", "container"];
    let next = super::support::around::behind(recipe, measure.span.end, 1);
    food.is("alcohol") || next.iter().any(|word| CONTAINERS.contains(&&**word))
}

/// A pint in a recipe that otherwise measures as the other side of the Atlantic does.
fn pint(view: &View<'_>, index: usize, measure: &Measure) -> Option<Finding> {
    let recipe = view.recipe;
    measure.stated.unit().filter(|unit| matches!(unit, Unit::Pint | Unit::Quart | Unit::Gill))?;
    let house = view.house.measures.pint;
    let foreign = match house {
        Pint::Us => is_british(recipe),
        Pint::Imperial => is_american(recipe),
    };
    let solid = weights::food_of(recipe, index).is_some_and(|food| !liquids::is_liquid(food));
    let listed = matches!(measure.place, Place::Ingredient(_) | Place::Step(_));
    if !foreign || solid || !listed || !measure.restated.is_empty() || restated_behind_name(recipe, index) {
        return None;
    }
    let by = |pint: Pint| {
        let measures = Measures { pint, ..view.house.measures };
        let quantity = measure.stated.quantity(&measures)?;
        Some(print_amounts(&kitchen_amounts(&quantity, System::Metric, &measures), &setting::style(view)))
    };
    let (american, british) = (by(Pint::Us)?, by(Pint::Imperial)?);
    let written = words::plain(recipe.at(measure.stated.span));
    let message = format!(
        "{written} is {american} in America and {british} in Britain, and this recipe measures otherwise than the house does. Say \
         in millilitres which is meant.",
    );
    let fix = |text: String| Fix::new(format!("Write {text}"), vec![Edit::replace(measure.stated.span, text)]);
    let found = Finding::new(CHECK.code, Severity::Info, measure.stated.span, message).certainty(Certainty::Guess);
    Some(found.fix(fix(british)).fix(fix(american)))
}

fn units(recipe: &Recipe) -> impl Iterator<Item = Unit> {
    let stated = recipe.measures.iter().flat_map(Measure::statements);
    stated.filter_map(Stated::unit)
}

const AMERICAN: &[Unit] = &[Unit::Cup, Unit::DegreeFahrenheit, Unit::Stick];

/// Gas marks, or weights in grams and no cup anywhere.
fn is_british(recipe: &Recipe) -> bool {
    let weighed = units(recipe).any(|unit| unit == Unit::Gram) && !units(recipe).any(|unit| AMERICAN.contains(&unit));
    weighed || units(recipe).any(|unit| unit == Unit::GasMark)
}

fn is_american(recipe: &Recipe) -> bool {
    units(recipe).any(|unit| AMERICAN.contains(&unit)) && !units(recipe).any(|unit| unit == Unit::Gram)
}
