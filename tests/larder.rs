//! The larder's shelves as a whole: every figure possible, sourced and in agreement with the others of its row.

use tamis::larder::{Allergen, Density, Diet, Food, Larder, SHELVES, Weight, larder};
use uom::si::mass::gram;
use uom::si::mass_density::gram_per_cubic_centimeter;

fn densities(food: &Food) -> impl Iterator<Item = (&'static str, &Density)> {
    let cup = food.density.iter().map(|density| ("cup", density));
    cup.chain(food.forms.iter().map(|form| (form.name, &form.density)))
}

fn weights(food: &Food) -> impl Iterator<Item = (&'static str, Weight)> {
    let each = food.each.iter().map(|each| (each.unit, each.weight));
    each.chain(food.parts.iter().filter_map(|part| Some((part.name, part.weight?))))
}

#[test]
fn nothing_on_the_shelves_is_unreadable_and_no_name_means_two_foods() {
    assert_eq!(Larder::faults_of(SHELVES), []);
    assert!(larder().foods().count() > 2000);
}

/// `SR26 20081`, `SR26 02053 tbsp`, `SR26 11297 (as parsley)`, `SR Legacy 171942`, `FDC Foundation 790577`, or an honest word.
#[test]
fn every_figure_names_its_source() {
    let known = |source: &str| {
        let number = ["SR26 ", "SR Legacy ", "FDC Foundation "].iter().find_map(|table| source.strip_prefix(table));
        let digits = number.and_then(|number| number.split(' ').next());
        source == "common practice"
            || source == "memory"
            || digits.is_some_and(|digits| digits.len() >= 5 && digits.bytes().all(|byte| byte.is_ascii_digit()))
    };
    for food in larder().foods() {
        for (name, density) in densities(food) {
            assert!(known(density.source), "{} {name}: {}", food.name, density.source);
        }
        for (name, weight) in weights(food) {
            assert!(known(weight.source), "{} {name}: {}", food.name, weight.source);
        }
        for source in food.edible.iter().map(|edible| edible.source).chain(food.nutrients().map(|n| n.source)) {
            assert!(known(source), "{}: {source}", food.name);
        }
    }
}

/// The lightest food in a cup is popped corn, the heaviest a crystal of lye. (Common practice, no source.)
#[test]
fn every_density_is_possible_and_its_range_in_order() {
    for food in larder().foods() {
        for (name, density) in densities(food) {
            let value = |part: uom::si::f64::MassDensity| part.get::<gram_per_cubic_centimeter>();
            let (low, typical, high) = (value(density.low), value(density.typical), value(density.high));
            assert!(
                0.01 <= low && low <= typical && typical <= high && high <= 2.6,
                "{} {name}: {low}…{high}",
                food.name
            );
        }
        for (name, weight) in weights(food) {
            let value = |part: uom::si::f64::Mass| part.get::<gram>();
            let (low, typical, high) = (value(weight.low), value(weight.typical), value(weight.high));
            assert!(0.0 < low && low <= typical && typical <= high && high < 20_000.0, "{} {name}", food.name);
        }
        assert!(food.edible.is_none_or(|edible| 0.05 < edible.share && edible.share <= 1.0), "{}", food.name);
    }
}

/// A bare count means a size that is sold, and a larger size weighs more.
#[test]
fn one_lies_among_the_sizes_and_they_rise() {
    for food in larder().foods() {
        let sizes = ["mini", "small", "medium", "large", "extra-large", "jumbo"];
        let weights: Vec<_> = sizes.iter().filter_map(|size| Some(food.each(size)?.typical)).collect();
        assert!(weights.is_sorted(), "{}", food.name);
        let (Some(one), [smallest, .., largest]) = (food.each("one"), weights.as_slice()) else { continue };
        assert!((smallest..=largest).contains(&&one.typical), "{}", food.name);
    }
}

/// Foods whose energy the USDA reckons by specific factors (Agriculture Handbook 74, 1955) that lie far from the general ones, and why.
const OWN_FACTORS: &[(&str, &[&str])] = &[
    (
        "acetic acid gives energy and is no carbohydrate by difference",
        &["white vinegar", "cider vinegar", "red wine vinegar", "balsamic vinegar"],
    ),
    (
        "cocoa is counted with 1.8 kcal for protein and 1.3 for carbohydrate",
        &["cocoa powder", "Dutch-process cocoa powder"],
    ),
    ("bran is counted with 1.8 kcal for protein and 2.4 for carbohydrate", &["oat bran"]),
    ("algae are counted as fungi are", &["spirulina"]),
    (
        "carbonate and phosphate are what is left of the weight, and count as carbohydrate by difference",
        &["baking powder"],
    ),
];

/// 21 CFR 101.9(c)(1)(i)(B): 4 kcal a gram of protein and carbohydrate, 9 of fat; alcohol 7. Fibre may count for nothing or in full.
/// What holds next to nothing (leaves, coffee) is given in whole kcal and by factors of its own, so 5 kcal off is no disagreement.
#[test]
fn energy_follows_from_what_a_food_is_made_of() {
    let mut apart = Vec::new();
    for food in larder().foods() {
        let Some(n) = food.nutrients() else { continue };
        let rest = 4.0 * n.protein + 9.0 * n.fat + 7.0 * n.alcohol.unwrap_or(0.0);
        let most = rest + 4.0 * n.carbohydrate;
        let least = most - 4.0 * n.fibre.unwrap_or(0.0);
        if n.kcal < least * 0.85 - 5.0 || n.kcal > most * 1.15 + 5.0 {
            apart.push((food.name, n.kcal, least, most));
        }
        let sum = n.protein + n.fat + n.carbohydrate + n.alcohol.unwrap_or(0.0);
        assert!((0.0..=101.5).contains(&sum), "{}: {sum} g of 100", food.name);
        assert!(
            n.sugars.unwrap_or(0.0) + n.fibre.unwrap_or(0.0) <= n.carbohydrate.max(0.0) * 1.1 + 1.0,
            "{}",
            food.name
        );
    }
    let excepted: Vec<&str> = OWN_FACTORS.iter().flat_map(|(_, foods)| foods.iter().copied()).collect();
    let unexplained: Vec<_> = apart.iter().filter(|(name, ..)| !excepted.contains(name)).collect();
    assert!(unexplained.is_empty(), "{unexplained:?}");
    for name in excepted {
        assert!(apart.iter().any(|(food, ..)| *food == name), "{name} is no exception any more");
    }
}

#[test]
fn diets_follow_from_allergens() {
    let rules: &[(Allergen, &[Diet])] = &[
        (Allergen::Milk, &[Diet::DairyFree, Diet::Vegan]),
        (Allergen::Egg, &[Diet::EggFree, Diet::Vegan]),
        (Allergen::Fish, &[Diet::Vegetarian, Diet::Vegan]),
        (Allergen::Crustacean, &[Diet::Vegetarian, Diet::Vegan, Diet::Kosher]),
        (Allergen::Mollusc, &[Diet::Vegetarian, Diet::Vegan, Diet::Kosher]),
        (Allergen::TreeNut, &[Diet::NutFree]),
        (Allergen::Peanut, &[Diet::NutFree]),
        (Allergen::Wheat, &[Diet::GlutenFree]),
    ];
    for food in larder().foods() {
        for (allergen, diets) in rules.iter().filter(|(allergen, _)| food.holds(*allergen)) {
            for diet in *diets {
                assert!(
                    food.breaks(*diet),
                    "{} holds {} and does not break {}",
                    food.name,
                    allergen.name(),
                    diet.name()
                );
            }
        }
        assert!(!food.holds(Allergen::Wheat) || food.holds(Allergen::Gluten), "{} has wheat and no gluten", food.name);
        assert!(!food.breaks(Diet::Pescatarian) || food.breaks(Diet::Vegetarian), "{}", food.name);
        assert!(!food.breaks(Diet::Vegetarian) || food.breaks(Diet::Vegan), "{}", food.name);
    }
}

/// Kinds decide what a food is made of.
#[test]
fn kinds_agree_with_allergens_and_diets() {
    for food in larder().foods() {
        let plant = food.name.contains("vegan") || food.name.contains("veggie") || food.name.contains("vegetarian");
        let holds = |allergen: Allergen| food.holds(allergen) || plant;
        assert!(!food.is("dairy") || holds(Allergen::Milk), "{} is dairy without milk", food.name);
        assert!(!food.is("egg") || holds(Allergen::Egg), "{} is egg without egg", food.name);
        assert!(
            !(food.is("meat") || food.is("poultry")) || plant || food.breaks(Diet::Vegetarian),
            "{} is meat",
            food.name
        );
        assert!(
            !food.is("pork") || plant || food.breaks(Diet::Halal) && food.breaks(Diet::Kosher),
            "{} is pork",
            food.name
        );
        assert!(!food.is("fish") || holds(Allergen::Fish), "{} is fish", food.name);
        assert!(!food.is("alcohol") || food.breaks(Diet::Halal), "{} is alcohol", food.name);
    }
}
