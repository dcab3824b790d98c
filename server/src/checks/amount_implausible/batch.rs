//! What a recipe weighs: its flour, and all that goes in. Nothing where a line leaves it open.

use uom::si::mass::gram;

use crate::{
    larder::Food,
    measure::{Measures, UnitKind},
    recipe::{
        Ingredient, Recipe,
        portions::{asked, weight_of},
    },
};

/// The weights that amounts are held against, in grams.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Batch {
    /// The flour, where something makes it rise.
    pub flour: Option<f64>,
    /// The same, where it is a good part of all that goes in.
    pub dough: Option<f64>,
    /// Everything that goes in.
    pub everything: Option<f64>,
    /// What of it has a known weight.
    pub known: f64,
}

/// Less flour than this, in grams, thickens and is no dough.
const LEAST_FLOUR: f64 = 60.0;
/// Less than this share of all that is known coats it, or is boiled in it as dumplings.
const LEAST_SHARE: f64 = 0.3;

impl Batch {
    pub fn of(recipe: &Recipe, measures: &Measures) -> Self {
        let food = |line: &Ingredient| asked(recipe, line).map(|asked| asked.food);
        let lines: Vec<(&Ingredient, Option<f64>)> = weighed(recipe, measures).collect();
        let known: f64 = lines.iter().filter_map(|(_, weight)| *weight).sum();
        let floury = lines.iter().filter(|(line, _)| food(line).is_some_and(is_flour));
        let flour: Option<f64> = floury.map(|(_, weight)| *weight).sum();
        let rises = lines.iter().any(|(line, _)| food(line).is_some_and(|food| food.is("leavening")));
        let hidden = lines.iter().any(|(line, _)| food(line).is_some_and(holds_flour));
        let flour = flour.filter(|flour| rises && !hidden && *flour >= LEAST_FLOUR);
        let counted = |(line, weight): &(&Ingredient, Option<f64>)| {
            weight.or_else(|| next_to_nothing(recipe, line).then_some(0.0))
        };
        let everything: Option<f64> = lines.iter().map(counted).sum();
        let dough = flour.filter(|flour| *flour >= LEAST_SHARE * known);
        Batch { flour, dough, everything: everything.filter(|_| !pours_unlisted_water(recipe, &food)), known }
    }

    /// What the lines come to up to each of them, taken for all there is: what is known of the whole is not less.
    pub fn line_by_line(recipe: &Recipe, measures: &Measures) -> impl Iterator<Item = Self> {
        let (mut flour, mut known) = (0.0, 0.0);
        weighed(recipe, measures).map(move |(line, weight)| {
            let grams = weight.unwrap_or_default();
            known += grams;
            // Of a line whose name has no flour the larder need not be asked: less flour than there is allows less.
            let mut names = line.names.iter().filter_map(|name| name.food);
            if names.any(is_flour) && asked(recipe, line).is_some_and(|asked| is_flour(asked.food)) {
                flour += grams;
            }
            Batch { flour: Some(flour), dough: Some(flour), everything: Some(known), known }
        })
    }
}

/// The lines that go in, each with its weight in grams where that is known.
fn weighed<'r>(recipe: &'r Recipe, measures: &Measures) -> impl Iterator<Item = (&'r Ingredient, Option<f64>)> {
    let lines = recipe.ingredients.iter().enumerate().filter(|(_, line)| goes_in(line));
    lines.map(|(index, line)| (line, weight_of(recipe, index, measures).map(|weight| weight.typical.get::<gram>())))
}

/// What is served beside, or only greases, is left aside.
fn goes_in(line: &Ingredient) -> bool {
    !line.tags.remark && !line.tags.serving && !line.tags.pan
}

/// What a dough or a batter gets its body from.
fn is_flour(food: &'static Food) -> bool {
    let body = ["flour", "starch", "meal", "bran", "crumb", "oats"].iter().any(|kind| food.is(kind));
    body || food.name.contains("cocoa powder") || food.name.ends_with(" oats")
}

/// Foods that bring flour, salt or leavening that the list does not tell: mixes, starters, doughs.
fn holds_flour(food: &'static Food) -> bool {
    let mixed = food.is("flour") && food.name.ends_with(" mix");
    mixed || food.is("culture") || food.is("dough") || food.is("pastry")
}

/// An amount that does not count: none, by eye, or something optional.
fn next_to_nothing(recipe: &Recipe, line: &Ingredient) -> bool {
    let seasons = || {
        asked(recipe, line).is_some_and(|asked| ["spice", "herb", "seasoning"].iter().any(|kind| asked.food.is(kind)))
    };
    let named = line.names.iter().filter_map(|name| name.food).all(|food| food.is("seasoning") || food.is("spice"));
    let kind = line.amount.and_then(|index| recipe.measures.get(index)).and_then(|measure| measure.stated.kind());
    match kind {
        Some(UnitKind::Loose) => true,
        None => !line.names.is_empty() && (named || seasons()),
        _ => seasons() || line.tags.optional,
    }
}

/// Water or stock in the method that no line of the list tells the amount of.
fn pours_unlisted_water(recipe: &Recipe, food: &impl Fn(&Ingredient) -> Option<&'static Food>) -> bool {
    const POURED: [&str; 4] = ["water", "stock", "broth", "ice"];
    let listed = recipe.ingredients.iter().filter_map(food).any(|food| food.name == "water" || food.is("stock"));
    let said = |word: &str| recipe.steps.iter().flat_map(|step| &step.tokens).any(|token| token.word(word));
    !listed && POURED.into_iter().any(said)
}
