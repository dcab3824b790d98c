//! Weights in the place of volumes, and beside what is counted, where the larder knows them.

use uom::si::{
    f64::{Mass, MassDensity, Volume},
    mass::gram,
    volume::milliliter,
};

use super::{
    Change, One,
    restate::{agrees, disagrees, is_loosened},
};
use crate::{
    book::House,
    checks::support::restating,
    measure::{Amount, Interval, Quantity, System, UnitKind, kitchen_amounts, print_amounts},
    recipe::{
        Ingredient, Recipe,
        flow::NEARLY,
        measures::{Measure, Stated},
        mentions::{Mention, Share, Target},
        weights,
    },
    text::{Edit, Span},
};

/// Below a tablespoon a kitchen scale is no help: spoons stay spoons (common practice, no source).
const SMALLEST_MILLILITRES: f64 = 14.0;

/// A food that may weigh half as much again, or half as little, is not weighed by its typical figure: chopped herbs, grated
/// cheese. As a part of the typical weight.
const WIDEST: f64 = 0.5;

/// The lines of the list that can be given by weight, each with the steps that take a measured share of it.
pub fn volumes(recipe: &Recipe, house: &House) -> Vec<One> {
    (0..recipe.ingredients.len()).filter_map(|line| volume(recipe, house, line)).collect()
}

fn volume(recipe: &Recipe, house: &House, line: usize) -> Option<One> {
    let listed = recipe.ingredient(line).filter(|listed| names_one(listed))?;
    let (index, measure) = listed.amount.and_then(|index| Some((index, recipe.measures.get(index)?)))?;
    let Quantity::Volume(volume) = measure.stated.quantity(&house.measures)? else { return None };
    let told = recipe.pairs().into_iter().any(|pair| pair.measure == index && pair.apart);
    let spooned = volume.least.get::<milliliter>() < SMALLEST_MILLILITRES;
    if spooned || told || !measure.each.is_empty() || is_loosened(recipe, measure, &measure.stated) {
        return None;
    }
    let (text, edit, density) = match measure.restated.as_slice() {
        [] => from_larder(recipe, house, index, measure, &volume)?,
        restated => from_page(recipe, house, index, measure, restated, &volume)?,
    };
    let mut edits = vec![edit];
    edits.extend(shares(recipe, house, line, &volume, density)?);
    Some(One { change: Change::Weigh, place: listed.span, text, edits, only_here: false })
}

/// Alternatives and pairs weigh nobody knows what.
fn names_one(listed: &Ingredient) -> bool {
    listed.names.iter().filter(|name| !name.aside).count() == 1 && listed.reference.is_none()
}

/// By the larder's typical figure.
fn from_larder(
    recipe: &Recipe,
    house: &House,
    index: usize,
    measure: &Measure,
    volume: &Interval<Volume>,
) -> Option<(String, Edit, MassDensity)> {
    let range = weights::range_of(recipe, index)?;
    let density = weights::density_of(recipe, index)?.typical;
    let wide = range.most.is_none_or(|most| most - range.least > density * WIDEST);
    let weight = Quantity::Weight(volume.map(|volume| volume * density));
    let amounts = kitchen_amounts(&weight, System::Metric, &house.measures);
    let written = measure.stated.amounts()?;
    if wide || !agrees(recipe, house, index, &written, &amounts) {
        return None;
    }
    let text = print_amounts(&amounts, &house.style());
    Some((text.clone(), Edit::replace(restating::as_written(recipe, &measure.stated), text), density))
}

/// By the weight that stands beside it already: that one comes to stand alone, unless the two disagree.
fn from_page(
    recipe: &Recipe,
    house: &House,
    index: usize,
    measure: &Measure,
    restated: &[Stated],
    volume: &Interval<Volume>,
) -> Option<(String, Edit, MassDensity)> {
    let [again] = restated else { return None };
    let grams = again.unit().filter(|unit| unit.system() == Some(System::Metric))?;
    let Quantity::Weight(weight) = again.quantity(&house.measures).filter(|_| grams.kind() == UnitKind::Weight)? else {
        return None;
    };
    let text = recipe.at(again.span).to_owned();
    if disagrees(recipe, house, index, &measure.stated.amounts()?, &again.amounts()?) {
        return None;
    }
    let density = weight.least / volume.least;
    let whole = Span::new(measure.stated.span.start, closed(recipe, again.span.end));
    Some((text.clone(), Edit::replace(whole, text), density))
}

/// Behind the parenthesis that closes right behind `end`, if one does.
fn closed(recipe: &Recipe, end: usize) -> usize {
    let rest = recipe.text.get(end..).unwrap_or_default();
    let blanks = rest.len() - rest.trim_start().len();
    if rest.trim_start().starts_with([')', ']']) { end + blanks + 1 } else { end }
}

/// The edits that give by weight, too, what the steps take of a line. Nothing where the rounded shares would no longer make the
/// whole, or one of them cannot be weighed.
fn shares(
    recipe: &Recipe,
    house: &House,
    line: usize,
    whole: &Interval<Volume>,
    density: MassDensity,
) -> Option<Vec<Edit>> {
    let of_line = |mention: &&Mention| mention.targets.as_slice() == [Target::Ingredient(line, None)];
    let mut edits = Vec::new();
    let (mut taken, mut weighed) = (Volume::new::<milliliter>(0.0), Mass::new::<gram>(0.0));
    for mention in recipe.flow.mentions.iter().filter(of_line) {
        let Share::Amount(index) = mention.share else { continue };
        let measure = recipe.measures.get(index)?;
        let Quantity::Volume(share) = measure.stated.quantity(&house.measures)? else { return None };
        let plain = measure.restated.is_empty() && measure.each.is_empty() && share.is_exact();
        if !plain || is_loosened(recipe, measure, &measure.stated) {
            return None;
        }
        let amounts =
            kitchen_amounts(&Quantity::Weight(share.map(|volume| volume * density)), System::Metric, &house.measures);
        let Some(Quantity::Weight(rounded)) = Amount::total(&amounts, &house.measures) else { return None };
        taken += share.least;
        weighed += rounded.least;
        edits.push(Edit::replace(
            restating::as_written(recipe, &measure.stated),
            print_amounts(&amounts, &house.style()),
        ));
    }
    let used_up = (taken.value / whole.least.value - 1.0).abs() < NEARLY;
    let still = (weighed.value / (whole.least * density).value - 1.0).abs() < NEARLY / 2.0;
    (!used_up || still).then_some(edits)
}

/// Counted foods, with the weight of all of them behind the name: `2 large eggs (about 100 g)`.
pub fn counted(recipe: &Recipe, house: &House) -> Vec<One> {
    recipe.ingredients.iter().filter_map(|listed| count(recipe, house, listed)).collect()
}

fn count(recipe: &Recipe, house: &House, listed: &Ingredient) -> Option<One> {
    let name = listed.names.iter().find(|name| !name.aside).filter(|_| names_one(listed))?;
    let food = name.food.filter(|_| name.part.is_none() && listed.parts.is_empty())?;
    let measure = listed.amount.and_then(|index| recipe.measures.get(index))?;
    let Quantity::Count { count, unit } = measure.stated.quantity(&house.measures)? else { return None };
    let told = !measure.restated.is_empty() || !measure.each.is_empty() || listed.measures.len() > 1;
    let behind = measure.span.start > name.span.end;
    if told || behind || count.is_open() || is_loosened(recipe, measure, &measure.stated) {
        return None;
    }
    let size = SIZES.iter().find(|size| recipe.at(listed.span).to_lowercase().contains(**size));
    let weight = match unit {
        Some(unit) => food.each(unit.name())?,
        None => size.and_then(|size| food.each(size)).or_else(|| food.each("one").filter(|_| size.is_none()))?,
    };
    let grams = Quantity::Weight(count.map(|count| weight.typical * count));
    let text =
        format!("about {}", print_amounts(&kitchen_amounts(&grams, System::Metric, &house.measures), &house.style()));
    let behind = recipe.text.get(name.span.end..listed.span.end)?;
    // Behind the name only where nothing of it follows: not within `basil leaves`.
    let free = behind.trim_start().is_empty() || behind.trim_start().starts_with([',', ';']);
    let edits = vec![Edit::insert(name.span.end, format!(" ({text})"))];
    free.then_some(One { change: Change::WeighCounted, place: listed.span, text, edits, only_here: false })
}

/// Sizes that the larder knows foods by, the longest first.
const SIZES: &[&str] = &["extra-large", "jumbo", "medium", "small", "large"];
