//! What may be in the bowl, and what that comes to at most.

use uom::si::{
    f64::{Mass, MassDensity, Volume},
    mass_density::gram_per_cubic_centimeter,
};

use super::weigh::{self, Stock, Stocks};
use crate::{
    larder::Food,
    measure::{Interval, Measures, Quantity},
    recipe::{
        Ingredient, Recipe,
        language::{clause::sentences, token::Token},
        mentions::Unlisted,
    },
};

/// The lightest way to fill a measure with a food that nobody knows: leaves weigh a tenth of water (SR26 11457, spinach: 30 g a cup).
const LIGHTEST: f64 = 0.1;

/// What a batch comes to at most; nothing where that has no end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Most {
    /// Its weight.
    pub weight: Option<Mass>,
    /// What the lines that are surely used by then weigh at least.
    pub least: Mass,
    /// The volume that its parts take up when each is measured by itself, with the air between its pieces: what is mixed of them
    /// takes up less, unless it is whipped or rises.
    pub volume: Option<Volume>,
}

/// Everything that may have gone in by the end of this step: each line of the list that is not used only later, and what the
/// steps add without listing it.
pub fn everything_by(recipe: &Recipe, stocks: &Stocks<'_>, step: usize) -> Most {
    let mut most = Most { weight: Some(Mass::default()), least: Mass::default(), volume: Some(Volume::default()) };
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| !line.tags.remark) {
        if recipe.flow.first_use(index).is_some_and(|first| first > step) {
            continue;
        }
        let stock = stocks.of(index, None);
        most.add(stock.weight.most, volume(line, &stock));
        if recipe.flow.is_used(index) && !line.tags.serving && !line.tags.pan {
            most.least += stock.weight.least;
        }
    }
    for unlisted in recipe.flow.unlisted.iter().filter(|unlisted| unlisted.step <= step) {
        let (weight, volume) = of_unlisted(recipe, stocks.measures, unlisted);
        most.add(weight, volume);
    }
    if adds_water(recipe, step) {
        most.add(None, None);
    }
    most
}

impl Most {
    fn add(&mut self, weight: Option<Mass>, volume: Option<Volume>) {
        self.weight = self.weight.zip(weight).map(|(sum, more)| sum + more);
        self.volume = self.volume.zip(volume).map(|(sum, more)| sum + more);
    }
}

fn volume(line: &Ingredient, stock: &Stock) -> Option<Volume> {
    match stock.volume {
        Some(volume) => volume.most,
        None => {
            let food = weigh::name(line).and_then(|name| name.food);
            stock.weight.most.map(|weight| weight / lightest(food))
        }
    }
}

fn lightest(food: Option<&Food>) -> MassDensity {
    let usual = food.and_then(|food| food.density).map(|density| density.low);
    usual.unwrap_or_else(|| MassDensity::new::<gram_per_cubic_centimeter>(LIGHTEST))
}

fn of_unlisted(recipe: &Recipe, measures: &Measures, unlisted: &Unlisted) -> (Option<Mass>, Option<Volume>) {
    let seasons = unlisted.food.is_some_and(|food| {
        ["salt", "spice", "seasoning", "herb", "flavoring", "coloring"].iter().any(|kind| food.is(kind))
    });
    let quantity =
        unlisted.measure.and_then(|index| recipe.measures.get(index)).and_then(|measure| measure.quantity(measures));
    let density =
        unlisted.food.and_then(|food| food.density).map(|density| Interval::between(density.low, density.high));
    match (quantity, density) {
        (Some(quantity @ (Quantity::Weight(_) | Quantity::Volume(_))), Some(density)) => (
            quantity.weight(&density).and_then(|weight| weight.most),
            quantity.volume(&density).and_then(|volume| volume.most),
        ),
        _ if seasons => (Some(Mass::default()), Some(Volume::default())),
        _ => (None, None),
    }
}

/// Whether a step up to this one speaks of water that is no ingredient: nobody can say how much of it goes in. Water around the
/// vessels goes into none of them.
fn adds_water(recipe: &Recipe, step: usize) -> bool {
    let bath =
        |tokens: &[Token]| tokens.iter().any(|token| token.one_of(&["halfway", "half-way", "bath", "side", "around"]));
    let linked = |token: &Token| recipe.flow.mentions.iter().any(|mention| mention.span.touches(token.span.start));
    let adds =
        |tokens: &[Token]| tokens.iter().any(|token| token.one_of(&["water", "ice", "liquid"]) && !linked(token));
    recipe.steps.iter().take(step + 1).any(|own| {
        let all = sentences(&own.tokens);
        let mut stretches = all.filter_map(|sentence| own.tokens.get(sentence.start..sentence.end));
        stretches.any(|tokens| adds(tokens) && !bath(tokens))
    })
}
