//! The volume that a food takes up when no air is left in it: what it comes to at least, however it is mixed.

use uom::si::{
    f64::{Mass, MassDensity, Volume},
    mass_density::gram_per_cubic_centimeter,
};

use crate::larder::{Food, Nutrients};

// Densities of what foods are made of, in g/cm³ at 20 °C: Y. Choi and M. R. Okos, "Effects of temperature and composition on the
// thermal properties of foods" (1986), as the ASHRAE Handbook, Refrigeration, chapter "Thermal properties of foods", gives them
// (from memory).
const PROTEIN: f64 = 1.32;
const FAT: f64 = 0.92;
const CARBOHYDRATE: f64 = 1.59;
const WATER: f64 = 0.998;
const ASH: f64 = 2.42;
/// Ethanol at 20 °C: CRC Handbook of Chemistry and Physics (from memory).
const ALCOHOL: f64 = 0.789;

/// Sodium in milligrams for each gram of table salt: 38 758 mg in 100 g (SR26 02047).
const SODIUM_OF_SALT: f64 = 387.58;

/// The volume of a weight of this food without any air. A liquid has none. A food that nobody knows is taken to be all sugar, which
/// is the densest that a kitchen has much of, so that the answer is never too large.
pub fn volume(food: Option<&Food>, weight: Mass) -> Volume {
    let liquid = || food.filter(|food| food.is("liquid"))?.density.map(|density| density.high);
    let composed = food.and_then(Food::nutrients).map(|nutrients| density(&nutrients));
    weight / composed.or_else(liquid).unwrap_or(grams_per_millilitre(CARBOHYDRATE))
}

/// The density of the food itself, from what it is made of.
fn density(nutrients: &Nutrients) -> MassDensity {
    let alcohol = nutrients.alcohol.unwrap_or_default();
    let salt = nutrients.sodium.unwrap_or_default() / SODIUM_OF_SALT;
    let others = nutrients.protein + nutrients.fat + nutrients.carbohydrate + alcohol + salt;
    let water = (100.0 - others).max(0.0);
    let parts = [
        (nutrients.protein, PROTEIN),
        (nutrients.fat, FAT),
        (nutrients.carbohydrate, CARBOHYDRATE),
        (alcohol, ALCOHOL),
        (salt, ASH),
        (water, WATER),
    ];
    let volume: f64 = parts.iter().map(|(grams, density)| grams / density).sum();
    let weight: f64 = parts.iter().map(|(grams, _)| grams).sum();
    grams_per_millilitre(if volume > 0.0 { weight / volume } else { CARBOHYDRATE })
}

fn grams_per_millilitre(density: f64) -> MassDensity {
    MassDensity::new::<gram_per_cubic_centimeter>(density)
}

#[cfg(test)]
mod tests {
    use uom::si::{mass::gram, volume::milliliter};

    use super::*;
    use crate::larder::{CUP_MILLILITRES, larder};

    /// Foods that hold no air weigh by the cup what the USDA National Nutrient Database, release 26, says: two sources that know
    /// nothing of each other, composition and weighed cups, agree within 4 %.
    #[test]
    fn what_holds_no_air_fills_the_cup_that_the_usda_weighed() {
        let table = [
            ("milk", 244.0),
            ("heavy cream", 238.0),
            ("buttermilk", 245.0),
            ("sweetened condensed milk", 306.0),
            ("egg", 243.0),
            ("honey", 339.0),
            ("maple syrup", 315.0),
            ("molasses", 337.0),
            ("olive oil", 216.0),
            ("butter", 227.0),
            ("water", 237.0),
            ("vegetable stock", 240.0),
        ];
        for (name, grams) in table {
            let food = larder().food(name).unwrap_or_else(|| panic!("no {name}"));
            let found = volume(Some(food), Mass::new::<gram>(grams)).get::<milliliter>();
            assert!((found / CUP_MILLILITRES - 1.0).abs() < 0.04, "a cup of {name} takes {found} ml");
        }
    }

    #[test]
    fn flour_and_sugar_lose_the_air_between_their_grains() {
        for (name, grams) in [("all-purpose flour", 125.0), ("granulated sugar", 200.0), ("rolled oats", 85.0)] {
            let found = volume(larder().food(name), Mass::new::<gram>(grams)).get::<milliliter>();
            assert!(found < 0.6 * CUP_MILLILITRES && found > 0.2 * CUP_MILLILITRES, "{name}: {found} ml");
        }
        assert!(volume(None, Mass::new::<gram>(100.0)).get::<milliliter>() < 63.0);
    }
}
