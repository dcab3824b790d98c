//! What each line of the list puts into the dish: which food, and how many grams of it.

use super::{
    Ingredient, Name, Recipe,
    measures::{Measure, Stated},
};
use crate::{
    larder::{Food, Form, Weight, words},
    measure::{Measures, Quantity, UnitKind},
    text::Span,
};

/// What a line of the list puts into the dish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Portion {
    /// The food, and the state in which it is measured.
    pub what: Asked,
    /// What it weighs. The source is [`crate::larder::STATED`] where the line says so itself.
    pub weight: Weight,
}

/// The food that a line asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// The food.
    pub food: &'static Food,
    /// The part of it that is meant, where the line names one: the zest of a lemon.
    pub part: Option<&'static str>,
    /// The form that changes how much of it fills a measure: packed, sifted, chopped.
    pub form: Option<&'static Form>,
}

/// The food of a line that asks for one food only, or for alternatives, of which it is the first.
///
/// The whole line tells more than the name, by which the method speaks of the food: `1 can chickpeas` are canned chickpeas.
pub fn asked(recipe: &Recipe, line: &Ingredient) -> Option<Asked> {
    *line.learned.asked.get_or_init(|| read(recipe, line))
}

/// The name of the food that a line asks for.
fn name(line: &Ingredient) -> Option<&Name> {
    let mut names = line.names.iter().filter(|name| !name.aside && name.food.is_some());
    let first = names.next()?;
    (names.next().is_none() || line.alternatives).then_some(first)
}

fn read(recipe: &Recipe, line: &Ingredient) -> Option<Asked> {
    let first = name(line)?;
    let whole = recipe.larder.find(recipe.at(line.span)).filter(|found| found.certain && found.misspelt.is_none());
    let food = whole.as_ref().map(|found| found.food).or(first.food)?;
    let form = whole.and_then(|found| found.form).map(|(form, _)| form);
    Some(Asked { food, part: first.part.filter(|part| food.part(part).is_some()), form })
}

/// What the line of this index puts into the dish. Nothing where its amount is missing or loose, where it names several foods at
/// once, or where the larder has no figure for them.
pub fn portion_of(recipe: &Recipe, index: usize, measures: &Measures) -> Option<Portion> {
    let weight = weight_of(recipe, index, measures)?;
    Some(Portion { what: asked(recipe, recipe.ingredients.get(index)?)?, weight })
}

/// What that weighs. Where the line says so itself, the larder need not be asked which food it is.
pub fn weight_of(recipe: &Recipe, index: usize, measures: &Measures) -> Option<Weight> {
    let line = recipe.ingredients.get(index).filter(|line| name(line).is_some())?;
    stated(recipe, line, measures).or_else(|| looked_up(recipe, line, &asked(recipe, line)?, measures))
}

/// The weight that the line states, in whichever of its statements.
fn stated(recipe: &Recipe, line: &Ingredient, measures: &Measures) -> Option<Weight> {
    let amounts = || line.measures.iter().filter_map(|index| recipe.measures.get(*index));
    let weighed = |stated: &&Stated| stated.kind() == Some(UnitKind::Weight);
    let in_packs = amounts().find_map(|measure| of_packs(measure, UnitKind::Weight, measures));
    let quantity = in_packs.or_else(|| {
        let (measure, stated) = amounts().find_map(|measure| Some((measure, statements(measure).find(weighed)?)))?;
        let one = stated.quantity(measures)?;
        let each = recipe.text.get(measure.span.end..)?.trim_start().starts_with("each");
        let count = recipe.measures.get(line.amount?).and_then(Measure::count).filter(|_| each);
        Some(match (one, count) {
            (Quantity::Weight(one), Some(count)) => Quantity::Weight(one.scaled(&count)),
            (one, _) => one,
        })
    })?;
    let Quantity::Weight(weight) = quantity else { return None };
    Some(Weight::stated(&weight))
}

/// Every statement of the whole amount. `4 1/2 (650 g) cups` is one amount twice, as cups are no packs.
fn statements(measure: &Measure) -> impl Iterator<Item = &Stated> {
    let again = measure.each.iter().filter(|_| !counts(measure));
    measure.statements().filter(|stated| !stated.each).chain(again)
}

/// Whether it counts things, which may have a size each.
fn counts(measure: &Measure) -> bool {
    measure.stated.kind() == Some(UnitKind::Count)
}

/// `2 (14-oz) cans`, `4 chops (200 g each)`: so many of one.
fn of_packs(measure: &Measure, kind: UnitKind, measures: &Measures) -> Option<Quantity> {
    let count = measure.stated.terms.first()?.amount().filter(|_| counts(measure))?.number;
    let each = measure.each.iter().chain(measure.restated.iter().filter(|stated| stated.each));
    let mut one = each.filter(|stated| stated.kind() == Some(kind));
    match one.find_map(|stated| stated.quantity(measures))? {
        Quantity::Weight(one) => Some(Quantity::Weight(one.scaled(&count))),
        Quantity::Volume(one) => Some(Quantity::Volume(one.scaled(&count))),
        _ => None,
    }
}

/// Parts that weigh what the whole weighs: a cup of the leaves, a bunch of the stems. Common practice, no source.
const AS_THE_WHOLE: &[&str] = &["flesh", "floret", "green", "leaf", "meat", "stalk", "stem", "white"];

/// The weight by what the larder knows of the food: its density in the state that the line gives, or the weight of one.
fn looked_up(recipe: &Recipe, line: &Ingredient, what: &Asked, measures: &Measures) -> Option<Weight> {
    let quantity = quantity(recipe, line, measures)?;
    let Asked { food, part, form } = *what;
    // A size tells only what a bare number counts.
    let bare = matches!(quantity, Quantity::Count { unit: None, .. });
    let counted = || if bare { counted_by(recipe, line, food) } else { None };
    let Some(part) = part else { return food.weigh(&quantity, form, counted()) };
    if let Some(own) = recipe.larder.part_as_food(food, part) {
        return own.weigh(&quantity, None, counted());
    }
    match quantity {
        Quantity::Count { count, unit: None } => Some(food.part(part)?.weight?.times(count.middle())),
        _ if AS_THE_WHOLE.contains(&part) => food.weigh(&quantity, form, None),
        _ => None,
    }
}

/// How much the line asks for: by volume where it says so, for a cup is a surer measure than a count.
fn quantity(recipe: &Recipe, line: &Ingredient, measures: &Measures) -> Option<Quantity> {
    let measure = recipe.measures.get(line.amount?)?;
    let poured = statements(measure).find(|stated| stated.kind() == Some(UnitKind::Volume));
    let stated = || poured.or_else(|| statements(measure).next())?.quantity(measures);
    of_packs(measure, UnitKind::Volume, measures).or_else(stated)
}

const SIZES: &[&str] = &["small", "medium", "large", "jumbo"];

/// What a bare number counts: a size (`2 large eggs`, `1 onion (medium)`), or pieces that stand in the name (`2 garlic cloves`).
fn counted_by(recipe: &Recipe, line: &Ingredient, food: &Food) -> Option<&'static str> {
    let name = line.names.iter().find(|name| !name.aside)?;
    let behind = Span::new(name.span.start, line.span.end).of(&recipe.text);
    let end = behind.find([',', '(', ';']).unwrap_or(behind.len());
    let (own, behind) = (Span::new(line.span.start, name.span.start + end), behind.get(end + 1..).unwrap_or_default());
    let bracket = behind.split([')', ',']).next().unwrap_or_default();
    food_unit(recipe.at(own), food).or_else(|| food_unit(bracket, food).filter(|unit| SIZES.contains(unit)))
}

/// The last word of a text that the larder knows the food to be counted by.
fn food_unit(text: &str, food: &Food) -> Option<&'static str> {
    let words = words::split(text);
    let at = words.iter().rposition(|word| food.each(&word.folded).is_some())?;
    let extra = at.checked_sub(1).and_then(|at| words.get(at)).is_some_and(|word| word.folded == "extra");
    let unit = food.each.iter().find(|each| each.unit == words.get(at).map_or("", |word| &word.folded))?.unit;
    Some(if extra && unit == "large" { "extra-large" } else { unit })
}
