//! What a house knows of foods, on top of the larder that comes with the program.

use uom::si::f64::MassDensity;

use super::food::{Density, Each, Food, Part, Weight};
use super::names::Names;
use super::shelf::Row;
use super::table::Table;
use super::{Allergen, Diet, Larder, part_words};

/// The source that the figures of a house name.
pub const HOUSE_SOURCE: &str = "house style";

/// A food that the house knows, or what it knows better than the larder of one that is there already.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OwnFood {
    /// Its name; that of a food of the larder adds to that food.
    pub name: String,
    /// Its other names. One that meant another food means this one from now on.
    pub synonyms: Vec<String>,
    /// Its kinds, as the larder names them, the narrowest first.
    pub kinds: Vec<&'static str>,
    /// What it weighs by volume.
    pub density: Option<MassDensity>,
    /// Weights of one in grams, by size, counted unit, or `one`.
    pub each: Vec<(String, f64)>,
    /// What a method may take it apart into.
    pub parts: Vec<String>,
    /// The allergens it holds; `None` leaves those that the larder knows.
    pub allergens: Option<Vec<Allergen>>,
    /// The diets it has no place in; `None` leaves those that the larder knows.
    pub breaks: Option<Vec<Diet>>,
}

impl Larder {
    /// The larder of a house that knows these foods besides. Foods are `&'static` all through the model, so that larder and
    /// foods are kept as long as the program runs: some hundred bytes a food, each time a house style takes effect.
    pub fn with(&'static self, own: &[OwnFood]) -> &'static Larder {
        let foods: Vec<Food> = own.iter().map(|own| own.food(self.food(&own.name))).collect();
        // Of two that claim a name the first keeps it; whoever read the style sheet has said so.
        let own = (self.count()..).zip(&foods).flat_map(|(position, food)| {
            let names = std::iter::once(food.name).chain(food.synonyms.iter().copied());
            names.map(move |name| (name, position))
        });
        let names = Names::of_table(Table::of(own), Some(&self.names));
        let parts = foods.iter().flat_map(|food| &food.parts).map(|part| part.name);
        let part_words = part_words(parts);
        let rows = foods.into_iter().map(Row::of).collect();
        let larder = Larder { base: Some(self), rows, names, kinds: self.kinds.clone(), part_words };
        Box::leak(Box::new(larder))
    }
}

impl OwnFood {
    /// The row: that of the larder where it has one, with what the house says in its place or added to it.
    fn food(&self, known: Option<&Food>) -> Food {
        let mut food = known.cloned().unwrap_or_else(|| Food::named(kept(&self.name)));
        food.synonyms.extend(self.synonyms.iter().map(|name| kept(name)));
        food.kinds.splice(0..0, self.kinds.iter().copied());
        if let Some(density) = self.density {
            food.density = Some(Density { low: density, typical: density, high: density, source: HOUSE_SOURCE });
        }
        for (unit, grams) in &self.each {
            food.each.retain(|each| each.unit != unit);
            food.each.push(Each { unit: kept(unit), weight: Weight::of_grams(*grams, *grams, *grams, HOUSE_SOURCE) });
        }
        for part in &self.parts {
            if food.parts.iter().all(|known| known.name != part) {
                food.parts.push(Part { name: kept(part), weight: None });
            }
        }
        if let Some(allergens) = &self.allergens {
            food.allergens.clone_from(allergens);
        }
        if let Some(breaks) = &self.breaks {
            food.breaks.clone_from(breaks);
        }
        food
    }
}

/// A text that is kept as long as the program runs.
fn kept(text: &str) -> &'static str {
    Box::leak(text.into())
}

#[cfg(test)]
mod tests {
    use super::super::larder;
    use super::*;
    use crate::larder::CUP_MILLILITRES;
    use uom::si::mass_density::gram_per_cubic_centimeter;

    #[test]
    fn a_house_knows_foods_of_its_own_and_others_by_more_names() {
        let density = MassDensity::new::<gram_per_cubic_centimeter>(120.0 / CUP_MILLILITRES);
        let own = [
            OwnFood {
                name: "nettle flour".into(),
                synonyms: vec!["stinging nettle meal".into()],
                kinds: vec!["flour"],
                each: vec![("scoop".into(), 30.0)],
                parts: vec!["husk".into()],
                allergens: Some(vec![Allergen::Wheat]),
                ..OwnFood::default()
            },
            OwnFood {
                name: "all-purpose flour".into(),
                synonyms: vec!["society flour".into(), "butter".into()],
                density: Some(density),
                ..OwnFood::default()
            },
        ];
        let house = larder().with(&own);
        let table = [
            ("sifted nettle flour", "nettle flour"),
            ("stinging-nettle meals", "nettle flour"),
            ("nettel flour", "nettle flour"),
            ("husks of nettle flour", "nettle flour"),
            ("society flour", "all-purpose flour"),
            ("plain flour", "all-purpose flour"),
            ("butter", "all-purpose flour"),
            ("unsalted butter", "butter"),
            ("peanut butter", "peanut butter"),
            ("rye flour", "rye flour"),
        ];
        for (name, food) in table {
            assert_eq!(house.find(name).map(|found| found.food.name), Some(food), "{name}");
        }
        let flour = house.food("plain flour").unwrap();
        assert_eq!(flour.density.map(|density| (density.low, density.high)), Some((density, density)));
        assert!(flour.holds(Allergen::Wheat) && flour.forms == larder().food("plain flour").unwrap().forms);
        assert_eq!(house.find("husks of nettle flour").unwrap().parts, ["husk"]);
        assert_eq!(house.foods().filter(|food| food.name == "all-purpose flour").count(), 1);
        assert_eq!(house.foods().count(), larder().foods().count() + 1);
        assert!(larder().food("nettle flour").is_none());
    }
}
