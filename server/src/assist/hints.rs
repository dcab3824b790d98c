//! What a reader of the text would reckon out: grams for cups, what a mention takes, when a step ends.

use uom::si::mass_density::gram_per_cubic_centimeter;

use super::{clock, ledger, left::share_of, wording::one_line};
use crate::{
    book::House,
    larder::{CUP_MILLILITRES, Density, Food},
    measure::{Interval, Quantity, Style, System, Unit, UnitKind, kitchen_amounts, print_amounts},
    recipe::{
        Recipe,
        flow::Taken,
        measures::{Measure, Place},
        mentions::{Link, Mention, Target},
        weights,
    },
    text::Span,
};

/// What a hint says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HintKind {
    /// What a volume weighs, where the text does not say.
    Weight,
    /// How much a mention takes.
    Share,
    /// When a step ends, on the clock of the method.
    Clock,
}

/// Something that can be shown beside the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// Behind which byte of the recipe's text.
    pub offset: usize,
    /// What it says.
    pub kind: HintKind,
    /// In a few words.
    pub label: String,
    /// What could be written there to say the same.
    pub insertion: Option<String>,
    /// What it rests on.
    pub reason: String,
}

/// The hints within a stretch of the recipe, in its order, of the kinds that are wanted.
pub fn hints(recipe: &Recipe, house: &House, within: Span, wanted: impl Fn(HintKind) -> bool) -> Vec<Hint> {
    let mut out = Vec::new();
    if wanted(HintKind::Weight) {
        out.extend(weighed(recipe, house, within));
    }
    if wanted(HintKind::Share) {
        let mentions = recipe.flow.mentions.iter().enumerate().filter(|(_, mention)| within.contains(mention.span));
        out.extend(mentions.filter_map(|(index, mention)| taken(recipe, house, index, mention)));
    }
    if wanted(HintKind::Clock) {
        out.extend(clock(recipe).into_iter().filter(|hint| within.touches(hint.offset)));
    }
    out.sort_by_key(|hint| hint.offset);
    out
}

/// Customary volumes of at least a tablespoon that nothing restates, where the larder knows the food in that state.
fn weighed(recipe: &Recipe, house: &House, within: Span) -> Vec<Hint> {
    let restated: Vec<usize> = recipe.pairs().iter().map(|pair| pair.measure).collect();
    let plain = |(index, measure): &(usize, &Measure)| {
        let listed = matches!(measure.place, Place::Ingredient(_) | Place::Step(_));
        let alone = measure.restated.is_empty() && measure.each.is_empty() && !measure.open;
        listed && alone && within.contains(measure.span) && !restated.contains(index)
    };
    let measures = recipe.measures.iter().enumerate().filter(plain);
    measures.filter_map(|(index, measure)| weight(recipe, house, index, measure)).collect()
}

fn weight(recipe: &Recipe, house: &House, index: usize, measure: &Measure) -> Option<Hint> {
    let volume = measure.stated.quantity(&house.measures).filter(|quantity| quantity.kind() == UnitKind::Volume)?;
    let customary = measure.stated.unit().and_then(Unit::system) == Some(System::Customary);
    let spoons = volume.number_of(Unit::Tablespoon, &house.measures)?;
    let food = weights::food_of(recipe, index)?;
    let line = weights::ingredient_of(recipe, index).and_then(|line| recipe.ingredients.get(line))?;
    let one = line.names.iter().filter(|name| !name.aside).count() == 1;
    if !customary || !one || spoons.least < 1.0 {
        return None;
    }
    let density = weights::density_of(recipe, index).filter(|_| weights::range_of(recipe, index).is_some())?;
    // What is poured is measured, what is not is weighed.
    let (quantity, reason) = if food.is("liquid") {
        (volume, "The same volume in a metric jug.".to_owned())
    } else {
        let Quantity::Volume(volume) = volume else { return None };
        (Quantity::Weight(volume.map(|volume| volume * density.typical)), rests_on(&density, food))
    };
    let amount = print_amounts(&kitchen_amounts(&quantity, System::Metric, &house.measures), &Style::default());
    Some(Hint {
        offset: measure.span.end,
        kind: HintKind::Weight,
        label: format!("≈ {amount}"),
        insertion: Some(format!(" ({amount})")),
        reason,
    })
}

/// From how much a cup of it is reckoned to weigh.
fn rests_on(density: &Density, food: &Food) -> String {
    let grams = |density: uom::si::f64::MassDensity| density.get::<gram_per_cubic_centimeter>() * CUP_MILLILITRES;
    let [low, typical, high] = [density.low, density.typical, density.high].map(|one| grams(one).round());
    let range = if low < high { format!("; {low} to {high} g, by how it is filled") } else { String::new() };
    format!("Reckoned with {typical} g in a US cup of {}{range} ({}).", food.name, density.source)
}

/// What a mention takes, where its own words do not say it.
fn taken(recipe: &Recipe, house: &House, index: usize, mention: &Mention) -> Option<Hint> {
    let [target @ Target::Ingredient(line, None)] = mention.targets.as_slice() else { return None };
    let ingredient = recipe.ingredients.get(*line).filter(|own| own.names.len() == 1 && !own.tags.taste)?;
    let amount = ingredient.amount.filter(|_| mention.link <= Link::Partial)?;
    let entry = ledger::entry(recipe, *target, index)?;
    let share = entry.share.filter(|share| share.least > 0.0 && !ingredient.tags.more)?;
    let label = match entry.taken {
        Taken::Nothing | Taken::Amount(..) | Taken::Some => return None,
        Taken::Whole if share == Interval::exactly(1.0) => one_line(recipe.at(recipe.measures.get(amount)?.span)),
        Taken::Whole | Taken::Rest | Taken::Fraction(..) => share_of(recipe, house, amount, &share)?,
    };
    let reason = format!("From the list: {}.", one_line(recipe.at(ingredient.span)));
    Some(Hint { offset: mention.span.end, kind: HintKind::Share, label, insertion: None, reason })
}

/// When a step that says how long it takes ends, where steps before it said so too.
fn clock(recipe: &Recipe) -> Vec<Hint> {
    let mut timed = 0;
    let mut out = Vec::new();
    for (step, window) in recipe.steps.iter().zip(clock::windows(recipe)) {
        let Some(window) = window else { break };
        if window.from == window.to {
            continue;
        }
        timed += 1;
        if timed > 1 {
            out.push(Hint {
                offset: step.body.end,
                kind: HintKind::Clock,
                label: format!("at {}", clock::at(&window.to)),
                insertion: None,
                reason: "On the clock of the method. Only times that are written count.".to_owned(),
            });
        }
    }
    out
}
