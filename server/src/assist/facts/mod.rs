//! What is known of a food, each figure with its source, and what an amount of it comes to in every measure of a kitchen.

mod amounts;
mod asked;

pub use amounts::{Amounts, Spread, tidy};
pub use asked::NotKnown;

use uom::si::{f64::MassDensity, mass_density::gram_per_cubic_centimeter};

use crate::{
    book::House,
    larder::{AllergenList, Density, Diet, Edible, Food, Found, Nutrients, Weight, larder},
    measure::Cup,
};

/// What is known of a food.
#[derive(Debug, Clone)]
pub struct Facts {
    /// The food.
    pub food: &'static Food,
    /// Whether only the house knows it: what its style sheet leaves out is not known.
    pub own: bool,
    /// The part of it that was asked for, where the larder has no row for that.
    pub part: Option<&'static str>,
    /// The state that was asked for: `sifted`.
    pub form: Option<&'static str>,
    /// The amount that was asked for.
    pub amounts: Option<Amounts>,
    /// The cup of the house.
    pub cup: Cup,
    /// What that cup holds of it: as it comes, and in each state that is known.
    pub cupfuls: Vec<Sourced>,
    /// What one of it weighs, by size, by what it is counted in, or `one`.
    pub each: Vec<Sourced>,
    /// What a method may take it apart into, with the weight of what one gives where that is known.
    pub parts: Vec<(&'static str, Option<Sourced>)>,
    /// How much of it is eaten.
    pub edible: Option<Edible>,
    /// What each list of allergens would have declared: that of the United States, of the European Union, and of the house where
    /// it goes by another.
    pub allergens: Vec<(AllergenList, Vec<&'static str>)>,
    /// The diets that it has no place in.
    pub breaks: Vec<Diet>,
    /// Nutrients per 100 g of what is eaten.
    pub nutrients: Option<Nutrients>,
}

/// A weight in grams with its spread and its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced {
    /// What weighs so much: a state, a size. `None` for the food as it comes.
    pub what: Option<&'static str>,
    /// The lightest usually met.
    pub low: f64,
    /// The figure to reckon with.
    pub typical: f64,
    /// The heaviest usually met.
    pub high: f64,
    /// Where the typical figure is from.
    pub source: &'static str,
}

/// What is known of the food that `question` names, and of the amount, if it gives one: `rye flour`, `rye flour 1 1/2 cups`,
/// `2 large eggs`, `1 cup sifted flour`.
pub fn facts(house: &House, question: &str) -> Result<Facts, NotKnown> {
    let asked = asked::read(house, question)?;
    let found = &asked.found;
    let part = found.parts.first().copied();
    let own_row = part.and_then(|part| house.larder().part_as_food(found.food, part));
    let food = own_row.unwrap_or(found.food);
    let form = found.form.map(|(form, _)| form.name).filter(|_| own_row.is_none());
    let amounts = match &asked.amount {
        Some(amount) => Some(amounts::of(house, food, form, amount)?),
        None => None,
    };
    Ok(Facts {
        food,
        own: larder().food(food.name).is_none(),
        part: part.filter(|_| own_row.is_none()),
        form,
        amounts,
        cup: house.measures.cup,
        cupfuls: cupfuls(food, house.measures.cup),
        each: food.each.iter().map(|each| sourced(Some(each.unit), &each.weight)).collect(),
        parts: food.parts.iter().map(|part| (part.name, part.weight.map(|weight| sourced(None, &weight)))).collect(),
        edible: food.edible,
        allergens: allergens(house, found, own_row),
        breaks: Diet::ALL.into_iter().filter(|diet| breaks(found, own_row, *diet)).collect(),
        nutrients: food.nutrients(),
    })
}

fn cupfuls(food: &Food, cup: Cup) -> Vec<Sourced> {
    let usual = food.density.map(|density| cupful(None, &density, cup));
    let forms = food.forms.iter().map(|form| cupful(Some(form.name), &form.density, cup));
    usual.into_iter().chain(forms).collect()
}

fn cupful(what: Option<&'static str>, density: &Density, cup: Cup) -> Sourced {
    let grams = |density: MassDensity| density.get::<gram_per_cubic_centimeter>() * cup.millilitres();
    let (low, typical, high) = (grams(density.low), grams(density.typical), grams(density.high));
    Sourced { what, low, typical, high, source: density.source }
}

fn sourced(what: Option<&'static str>, weight: &Weight) -> Sourced {
    let grams = |mass: uom::si::f64::Mass| mass.get::<uom::si::mass::gram>();
    let (low, typical, high) = (grams(weight.low), grams(weight.typical), grams(weight.high));
    Sourced { what, low, typical, high, source: weight.source }
}

/// A part with a row of its own brings what that row says; what the name claims to be made without counts in either case.
fn allergens(house: &House, found: &Found<'_>, own_row: Option<&Food>) -> Vec<(AllergenList, Vec<&'static str>)> {
    let mut lists = vec![AllergenList::Us, AllergenList::Eu];
    // The list of the United Kingdom is that of the Union.
    if !lists.contains(&house.allergens) && house.allergens != AllergenList::Uk {
        lists.push(house.allergens);
    }
    let brings = |list: AllergenList| {
        let held = list
            .allergens()
            .into_iter()
            .filter(|allergen| own_row.map_or_else(|| found.holds(*allergen), |food| food.holds(*allergen)));
        held.map(|allergen| allergen.name()).collect()
    };
    lists.into_iter().map(|list| (list, brings(list))).collect()
}

fn breaks(found: &Found<'_>, own_row: Option<&Food>, diet: Diet) -> bool {
    own_row.map_or_else(|| found.breaks(diet), |food| food.breaks(diet))
}
