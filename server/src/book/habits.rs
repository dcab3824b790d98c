//! What the recipes of one book take a cup of a food to weigh.

use std::collections::BTreeMap;

use uom::si::{mass::gram, volume::milliliter};

use crate::{
    measure::{Amount, Measures, Quantity},
    recipe::{Recipe, measures::Place, pairs::Pair, weights},
};

/// A food, and the state that it is measured in where that is said: flour, sifted.
pub type Measured = (&'static str, Option<&'static str>);

/// What one recipe takes a cup to weigh.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CupWeight {
    /// A cup of what.
    pub of: Measured,
    /// Grams in a cup of the house.
    pub grams: f64,
}

/// What most recipes of a book take a cup of a food to weigh.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// Grams in a cup of the house.
    pub grams: f64,
    /// How many recipes say so.
    pub recipes: usize,
}

/// The habits of a book: a summary of all its recipes, which costs the same to ask however many there are.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Habits {
    usual: BTreeMap<Measured, Usual>,
    records_tests: bool,
}

/// So many recipes have to agree before there is a habit, and so large a share of those that weigh the food at all. Common practice, no
/// source: three could be one author's.
const ENOUGH: usize = 4;
const MOST: f64 = 0.75;

/// A book records its tests where so large a share of its recipes have one: the others have been forgotten, or are still to be cooked.
/// Common practice, no source.
const TESTED: f64 = 0.5;

/// Two recipes mean one weight where they are no further apart than this: 1/3 cup is rounded to 40 g, of a cup of 125 g as of one of 120 g.
const ALIKE: f64 = 0.05;

/// Below a quarter of a cup the rounding says more than the weight does.
const LEAST_MILLILITRES: f64 = 55.0;

/// What a recipe takes a cup of each of its foods to weigh: one figure a food, the first.
pub fn cup_weights(recipe: &Recipe, measures: &Measures) -> Vec<CupWeight> {
    let mut found: Vec<CupWeight> = Vec::new();
    for pair in recipe.pairs() {
        let Some((millilitres, grams)) = volume_and_weight(recipe, &pair, measures) else { continue };
        let Some(of) = weights::state_of(recipe, pair.measure) else { continue };
        if found.iter().all(|weight| weight.of != of) {
            found.push(CupWeight { of, grams: grams * measures.cup.millilitres() / millilitres });
        }
    }
    found
}

/// The millilitres and the grams of a line of the list that states both, where it is sure what they are of.
pub fn volume_and_weight(recipe: &Recipe, pair: &Pair<'_>, measures: &Measures) -> Option<(f64, f64)> {
    let measure = recipe.measures.get(pair.measure)?;
    let listed = matches!(measure.place, Place::Ingredient(_)) && pair.times.is_none();
    listed.then(|| weights::range_of(recipe, pair.measure))??;
    let (written, restated) = recipe.amounts(pair)?;
    let (one, other) = (Amount::total(&written, measures)?, Amount::total(&restated, measures)?);
    let (volume, weight) = match (one, other) {
        (Quantity::Volume(volume), Quantity::Weight(weight)) | (Quantity::Weight(weight), Quantity::Volume(volume)) => {
            (volume, weight)
        }
        _ => return None,
    };
    let exact = volume.is_exact() && weight.is_exact();
    let (millilitres, grams) = (volume.least.get::<milliliter>(), weight.least.get::<gram>());
    (exact && millilitres >= LEAST_MILLILITRES && grams > 0.0).then_some((millilitres, grams))
}

impl Habits {
    /// The habits of recipes, each given by its cup weights.
    pub fn of<'w>(recipes: impl IntoIterator<Item = &'w [CupWeight]>) -> Self {
        let mut counted: BTreeMap<Measured, BTreeMap<u32, usize>> = BTreeMap::new();
        for weight in recipes.into_iter().flatten() {
            // Below 2^32 g, as a weight that the grammar reads is.
            let grams = weight.grams.round().clamp(0.0, f64::from(u32::MAX)) as u32;
            *counted.entry(weight.of).or_default().entry(grams).or_default() += 1;
        }
        let usual = counted.into_iter().filter_map(|(of, weights)| Some((of, usual(&weights)?)));
        Habits { usual: usual.collect(), records_tests: false }
    }

    /// The same for a book of `recipes` of which so many are `tested`.
    pub fn with_tests(self, tested: usize, recipes: usize) -> Self {
        Habits { records_tests: tested >= ENOUGH && tested as f64 >= TESTED * recipes as f64, ..self }
    }

    /// Whether this book records the tests of its recipes.
    pub fn records_tests(&self) -> bool {
        self.records_tests
    }

    /// What a cup of a food weighs in this book, where it has a habit.
    pub fn usual(&self, of: Measured) -> Option<Usual> {
        self.usual.get(&of).copied()
    }
}

/// The weight that most agree on.
fn usual(weights: &BTreeMap<u32, usize>) -> Option<Usual> {
    let all: usize = weights.values().sum();
    let agreeing = |grams: u32| -> usize {
        let near = |other: u32| f64::from(other.abs_diff(grams)) <= ALIKE * f64::from(grams);
        weights.iter().filter(|(other, _)| near(**other)).map(|(_, count)| count).sum()
    };
    let (grams, _) = weights.iter().max_by_key(|(grams, count)| (agreeing(**grams), **count))?;
    let recipes = agreeing(*grams);
    let enough = recipes >= ENOUGH && recipes as f64 >= MOST * all as f64;
    enough.then_some(Usual { grams: f64::from(*grams), recipes })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn habits(weights: &[f64]) -> Option<Usual> {
        let flour = ("all-purpose flour", None);
        let recipes: Vec<[CupWeight; 1]> =
            weights.iter().map(|grams| [CupWeight { of: flour, grams: *grams }]).collect();
        Habits::of(recipes.iter().map(|recipe| &recipe[..])).usual(flour)
    }

    #[test]
    fn tests_are_a_habit_where_half_of_the_recipes_have_one() {
        for (tested, recipes, habit) in [(4, 8, true), (4, 9, false), (3, 3, false), (0, 0, false)] {
            assert_eq!(Habits::default().with_tests(tested, recipes).records_tests(), habit, "{tested} of {recipes}");
        }
    }

    #[test]
    fn a_habit_is_what_enough_recipes_agree_on() {
        let usual = |grams, recipes| Some(Usual { grams, recipes });
        let table: [(&[f64], Option<Usual>); 7] = [
            (&[120.0, 120.0, 120.0, 120.0], usual(120.0, 4)),
            (&[120.0, 120.0, 120.0, 123.0, 117.0, 140.0], usual(120.0, 5)),
            (&[120.0, 120.0, 120.0], None),
            (&[120.0, 120.0, 120.0, 120.0, 150.0, 150.0, 150.0], None),
            (&[120.0, 120.0, 120.0, 120.0, 140.0], usual(120.0, 4)),
            (&[], None),
            (&[0.0, 0.0, 0.0, 0.0], usual(0.0, 4)),
        ];
        for (weights, expected) in table {
            assert_eq!(habits(weights), expected, "{weights:?}");
        }
    }
}
