//! What a measure measures: its food, and how heavy that is in the state that the line gives.

use uom::si::f64::MassDensity;

use super::{
    Ingredient, Name, Recipe,
    measures::{Measure, Place},
};
use crate::{
    larder::{Density, Food, Found, Larder, words::fold},
    measure::Interval,
    text::{Span, Words},
};

/// Words for what changes how much of a food fills a measure, folded. Where a line says one and the larder has no figure for
/// the food in that state, nothing is known. Common practice, no source.
const CHANGES_VOLUME: Words = Words::new(
    "beaten boiled chopped cooked crumb crumbled crushed cubed diced drained flaked grated ground \
                              heaped heaping mashed melted minced packed popped puffed pureed roasted shaved shredded sifted \
                              sliced soaked strained thawed torn whipped",
);

/// Forms that a food has only where the line says so.
const ONLY_WHERE_SAID: Words =
    Words::new("baked boiled canned cooked mashed melted pulp pureed thawed undrained whipped");

/// The ingredient that the measure of this index belongs to: that of its line, or of the mention it stands with.
pub fn ingredient_of(recipe: &Recipe, index: usize) -> Option<usize> {
    match recipe.measures.get(index)?.place {
        Place::Ingredient(ingredient) => Some(ingredient),
        _ => {
            let mention = recipe.flow.mentions.iter().find(|mention| mention.measure == Some(index))?;
            mention.targets.first()?.ingredient()
        }
    }
}

/// The food that the measure of this index measures, where the larder knows it and the line names no other.
pub fn food_of(recipe: &Recipe, index: usize) -> Option<&'static Food> {
    let ingredient = recipe.ingredients.get(ingredient_of(recipe, index)?)?;
    let name = ingredient.names.iter().find(|name| !name.aside)?;
    // A part has a weight of its own: zest is not lemon.
    name.food.filter(|_| name.part.is_none())
}

/// The density of what the measure of this index measures, as the line has it: packed, sifted, chopped, where the larder has
/// a figure for that; else the usual one.
pub fn density_of(recipe: &Recipe, index: usize) -> Option<Density> {
    let food = food_of(recipe, index)?;
    let ingredient = recipe.ingredients.get(ingredient_of(recipe, index)?)?;
    let found =
        recipe.larder.find(&without_measures(recipe, ingredient)).filter(|found| std::ptr::eq(found.food, food));
    let form = found.and_then(|found| found.form).map(|(form, _)| form.density);
    form.or(food.density)
}

/// What the measure of this index measures, and the state that the line says it is in: flour, sifted.
pub fn state_of(recipe: &Recipe, index: usize) -> Option<(&'static str, Option<&'static str>)> {
    let food = food_of(recipe, index)?;
    let ingredient = recipe.ingredients.get(ingredient_of(recipe, index)?)?;
    let found = recipe.larder.find(&without_measures(recipe, ingredient))?;
    std::ptr::eq(found.food, food).then(|| (food.name, found.form.map(|(form, _)| form.name)))
}

/// From the lightest to the heaviest that a volume of what is measured can weigh, by everything that the words leave open.
/// Nothing where it is not sure which food is meant, or in what state.
pub fn range_of(recipe: &Recipe, index: usize) -> Option<Interval<MassDensity>> {
    let measure = recipe.measures.get(index)?;
    match measure.place {
        Place::Ingredient(line) => of_line(recipe, recipe.ingredients.get(line)?),
        Place::Step(_) => of_mention(recipe, index).or_else(|| of_words_behind(recipe, measure)),
        Place::Prose => of_words_behind(recipe, measure),
        // A test says what was found, and that need not be what is usual.
        Place::Test(_) | Place::Result(_) | Place::Equipment(_) | Place::Header(_) => None,
    }
}

fn of_line(recipe: &Recipe, line: &Ingredient) -> Option<Interval<MassDensity>> {
    *line.learned.density.get_or_init(|| of_words(recipe, line))
}

fn of_words(recipe: &Recipe, line: &Ingredient) -> Option<Interval<MassDensity>> {
    let names: Vec<&Name> = line.names.iter().filter(|name| !name.aside).collect();
    match names.as_slice() {
        [name] => of_name(recipe.larder, &without_measures(recipe, line), name),
        // Alternatives weigh what any of them weighs; 'salt and pepper' together are nobody's guess.
        [_, ..] if line.alternatives => {
            let ranges: Option<Vec<_>> = names.iter().map(|name| any_form(name.food?)).collect();
            ranges?.into_iter().reduce(spanning)
        }
        _ => None,
    }
}

/// The line with blanks in the place of its measures, so that offsets stay the same.
fn without_measures(recipe: &Recipe, line: &Ingredient) -> String {
    let text = recipe.at(line.span);
    let mut bytes = text.as_bytes().to_vec();
    for measure in line.measures.iter().filter_map(|index| recipe.measures.get(*index)) {
        let start = measure.span.start.saturating_sub(line.span.start);
        let end = measure.span.end.saturating_sub(line.span.start).min(text.len());
        let whole = text.is_char_boundary(start) && text.is_char_boundary(end);
        if let Some(own) = bytes.get_mut(start..end).filter(|_| whole) {
            own.fill(b' ');
        }
    }
    String::from_utf8(bytes).unwrap_or_default()
}

fn of_name(larder: &'static Larder, line: &str, name: &Name) -> Option<Interval<MassDensity>> {
    let food = name.food?;
    let found = larder.find(line).filter(|found| std::ptr::eq(found.food, food) && found.certain)?;
    if let Some(part) = name.part.or(found.parts.first().copied()) {
        return any_form(larder.part_as_food(food, part)?);
    }
    let usual = food.density.map(range);
    match found.form {
        Some((form, place)) => {
            let form = range(form.density);
            let usual = usual.filter(|_| stands_behind_comma(line, &found, place));
            Some(usual.map_or(form, |usual| spanning(usual, form)))
        }
        None if !food.is("liquid") && changes_volume(line, found.span) => None,
        None => {
            let said = |name: &str| ONLY_WHERE_SAID.iter().any(|word| name.contains(word));
            let forms = food.forms.iter().filter(|form| !said(form.name)).map(|form| range(form.density));
            usual.into_iter().chain(forms).reduce(spanning)
        }
    }
}

/// `1 cup walnuts, chopped` is measured before or after, as its author thinks; `1 cup chopped walnuts` only after.
fn stands_behind_comma(line: &str, found: &Found<'_>, form: Span) -> bool {
    Span::new(found.span.end.min(form.start), form.start).of(line).contains(',')
}

fn changes_volume(line: &str, name: Span) -> bool {
    let outside = [line.get(..name.start), line.get(name.end..)];
    let mut words = outside.into_iter().flatten().flat_map(|text| text.split(|c: char| !c.is_alphabetic()));
    words.any(|word| !word.is_empty() && CHANGES_VOLUME.contains(&fold(word)))
}

/// The range of the one ingredient that a mention means. By then it may be cut, cooked or melted: any form will do.
fn of_mention(recipe: &Recipe, index: usize) -> Option<Interval<MassDensity>> {
    let mention = recipe.flow.mentions.iter().find(|mention| mention.measure == Some(index))?;
    let [target] = mention.targets.as_slice() else { return None };
    let line = recipe.ingredients.get(target.ingredient()?)?;
    match line.names.iter().filter(|name| !name.aside).collect::<Vec<_>>().as_slice() {
        [name] if name.part.is_none() => any_form(name.food?),
        _ => None,
    }
}

/// The range of the food that is named right behind a measure in prose: `2 cups (470 g) of heavy cream`.
fn of_words_behind(recipe: &Recipe, measure: &Measure) -> Option<Interval<MassDensity>> {
    let rest = recipe.text.get(measure.span.end..)?;
    let rest = rest.get(..rest.find(['.', ',', ';', ':', '(', ')', '[', ']', '\n', '\r']).unwrap_or(rest.len()))?;
    let found = recipe.larder.find(rest)?;
    let near = rest.get(..found.span.start)?.split_whitespace().all(|word| word == "of" || word == "the");
    (found.certain && found.parts.is_empty() && near).then(|| any_form(found.food)).flatten()
}

fn range(density: Density) -> Interval<MassDensity> {
    Interval::between(density.low, density.high)
}

/// From the lightest to the heaviest form of a food.
fn any_form(food: &Food) -> Option<Interval<MassDensity>> {
    let forms = food.forms.iter().map(|form| range(form.density));
    food.density.map(range).into_iter().chain(forms).reduce(spanning)
}

/// The shortest range that holds both.
fn spanning(one: Interval<MassDensity>, other: Interval<MassDensity>) -> Interval<MassDensity> {
    let least = if other.least < one.least { other.least } else { one.least };
    let most = one.most.zip(other.most).map(|(one, other)| if one < other { other } else { one });
    Interval { least, most }
}
