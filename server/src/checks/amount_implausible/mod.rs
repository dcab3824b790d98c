//! `amount-implausible`: a tablespoon where a teaspoon is meant: more salt, leavening, yeast, gelatin or clove than the rest can carry.

mod batch;
mod ranges;

use uom::si::mass::gram;

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{around, words},
};
use crate::{
    measure::{Amount, Interval, Unit, print_decimal},
    recipe::{
        Ingredient, Recipe,
        measures::Measure,
        mentions::Target,
        portions::{Portion, portion_of},
    },
    text::{Edit, Span},
};

use batch::Batch;
use ranges::{RULES, Rule};

/// The check.
pub const CHECK: Check =
    Check { code: "amount-implausible", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let ruled = |(_, line): &(usize, &Ingredient)| {
        let foods = line.names.iter().filter_map(|name| name.food);
        line.amount.is_some() && foods.into_iter().any(|food| RULES.iter().any(|rule| rule.foods.contains(&food.name)))
    };
    let measures = &view.house.measures;
    let counts = |line: &Ingredient| !(line.tags.serving || line.tags.pan || line.tags.taste);
    let lines = recipe.ingredients.iter().enumerate().filter(ruled).filter(|(_, line)| counts(line));
    let portions: Vec<(usize, Portion)> =
        lines.filter_map(|(index, _)| Some((index, portion_of(recipe, index, measures)?))).collect();
    if portions.is_empty() {
        return;
    }
    // In most recipes the first few lines can carry them all, and the others need not be weighed.
    let carries = |batch: &Batch, portion: &Portion| rules(portion).all(|rule| rule.allows(grams(portion), batch));
    if Batch::line_by_line(recipe, measures).any(|batch| portions.iter().all(|(_, portion)| carries(&batch, portion))) {
        return;
    }
    let batch = Batch::of(recipe, measures);
    out.extend(portions.iter().filter_map(|(index, portion)| finding(view, &batch, *index, portion)));
}

fn finding(view: &View<'_>, batch: &Batch, index: usize, portion: &Portion) -> Option<Finding> {
    let recipe = view.recipe;
    let (rule, whole) = rules(portion).find_map(|rule| Some((rule, rule.against.of(batch)?)))?;
    if rule.allows(grams(portion), batch) || excused(recipe, index, rule) {
        return None;
    }
    let share = grams(portion) / whole;
    let measure = recipe.measures.get(recipe.ingredient(index)?.amount?)?;
    let meant = smaller_spoon(view, measure, share, rule);
    let guess = meant
        .as_ref()
        .map_or("Correct it, or say what becomes of the rest.".to_owned(), |(_, text)| format!("Is {text} meant?"));
    let message = format!(
        "{} of {} is {} % of the weight of {}; {}. {} {guess}",
        words::plain(recipe.at(measure.stated.span)),
        portion.what.food.name,
        print_decimal((share * 1000.0).round() / 10.0),
        rule.against.words(),
        rule.takes,
        rule.why,
    );
    let found = Finding::new(CHECK.code, CHECK.severity, measure.stated.span, message).certainty(Certainty::Likely);
    Some(match meant {
        Some((edit, text)) => found.fix(Fix::new(format!("Write {text}"), vec![edit])),
        None => found,
    })
}

/// The rules for this food. The first whose other side is known is the one that counts.
fn rules(portion: &Portion) -> impl Iterator<Item = &'static Rule> {
    RULES.iter().filter(|rule| rule.foods.contains(&portion.what.food.name))
}

fn grams(portion: &Portion) -> f64 {
    portion.weight.typical.get::<gram>()
}

/// Whether the title, a heading, or a step that uses the line tells that most of it is not eaten, or that so much is usual.
fn excused(recipe: &Recipe, index: usize, rule: &Rule) -> bool {
    let uses = |step: usize| {
        let here = recipe.flow.mentions.iter().filter(move |mention| mention.step == step);
        here.flat_map(|mention| &mention.targets)
            .any(|target| matches!(target, Target::Ingredient(own, _) if *own == index))
    };
    let used: Vec<Span> =
        recipe.steps.iter().enumerate().filter(|(step, _)| uses(*step)).map(|(_, step)| step.span).collect();
    let everywhere = recipe.steps.iter().map(|step| step.span);
    let steps: Vec<Span> = if used.is_empty() { everywhere.clone().collect() } else { used };
    let line = recipe.ingredients.get(index).map(|line| line.span);
    let has = |span: Span, unless: &str| {
        around::words_in(recipe, span).iter().any(|word| unless.split(' ').any(|excuse| excuse == word))
    };
    let titles = recipe.title.into_iter().chain(recipe.groups.iter().map(|group| group.name));
    titles.into_iter().any(|span| has(span, rule.unless_titled))
        || everywhere.into_iter().any(|span| has(span, rule.unless_told))
        || steps.into_iter().chain(line).any(|span| has(span, rule.unless_beside))
}

/// How much of what is too much may be guessed at.
const WELL_INSIDE: f64 = 0.7;

/// The same number of a smaller spoon, where that would be a usual amount: the edit, and what it comes to.
fn smaller_spoon(view: &View<'_>, measure: &Measure, share: f64, rule: &Rule) -> Option<(Edit, String)> {
    let [term] = measure.stated.terms.as_slice() else { return None };
    let (amount, unit) = (term.amount()?, term.unit?);
    // A weight beside it says the same: both are wrong, and only the author knows how.
    if !measure.restated.is_empty() {
        return None;
    }
    let size = |unit: Unit| {
        let one = Amount::new(Interval::exactly(1.0), Some(unit)).quantity(&view.house.measures);
        one.number_of(Unit::Teaspoon, &view.house.measures).map(|number| number.least)
    };
    let own = amount.unit?;
    let smaller: &[Unit] = match own {
        Unit::Tablespoon => &[Unit::Teaspoon],
        // No spoon measures a quarter of a tablespoon.
        Unit::Cup if amount.number.least >= 0.5 => &[Unit::Tablespoon, Unit::Teaspoon],
        Unit::Cup => &[Unit::Teaspoon],
        _ => return None,
    };
    let fits = |smaller: &&Unit| {
        size(**smaller).zip(size(own)).is_some_and(|(smaller, own)| share * smaller / own <= WELL_INSIDE * rule.most)
    };
    let meant = smaller.iter().find(fits)?;
    let written = view.recipe.at(unit);
    let spelled = match (written.trim().to_lowercase().starts_with("table"), amount.number.least > 1.0) {
        (true, true) => meant.plural(),
        (true, false) => meant.name(),
        _ => meant.symbol(),
    };
    let gap = if term.number.end == unit.start { " " } else { "" };
    let number = words::plain(view.recipe.at(term.number));
    Some((Edit::replace(unit, format!("{gap}{spelled}")), format!("{number} {spelled}")))
}
