//! What the lines of a list come to in grams, by figures from outside the larder.

use tamis::{
    book::House,
    larder::STATED,
    measure::Measures,
    recipe::portions::{Portion, portion_of},
    workspace::Manuscript,
};
use uom::si::mass::gram;

fn portion(line: &str) -> Option<Portion> {
    let text = format!("Recipe: One Line\n\nIngredients:\n- {line}\n\nMethod:\n\n1. Cook.\n");
    let manuscript = Manuscript::new(&text, std::sync::Arc::new(House::default()));
    let (_, recipe) = manuscript.recipes().next().expect("a recipe");
    portion_of(recipe, 0, &Measures::default())
}

/// Line, food, grams, and where the grams are from. Numbers are of the USDA's SR26 (tests/larder/sr26_household_weights.tsv).
const LINES: &[(&str, &str, f64, &str)] = &[
    ("2 cups all-purpose flour", "all-purpose flour", 250.0, "20081: 125 g a cup"),
    ("1 cup all-purpose flour, sifted", "all-purpose flour", 115.0, "HERR 41: 116 g; the shelf has 115"),
    ("1/2 cup packed brown sugar", "brown sugar", 110.0, "19334: 220 g a cup, packed"),
    ("1/2 cup brown sugar, unpacked", "brown sugar", 72.5, "19334: 145 g a cup, unpacked"),
    ("1 cup powdered sugar, sifted", "powdered sugar", 100.0, "19336: 100 g a cup, sifted"),
    ("1 tbsp honey", "honey", 21.2, "19296: 339 g a cup"),
    ("1/4 cup melted butter", "butter", 56.75, "01145: 227 g a cup"),
    ("2 sticks butter", "butter", 226.0, "01145: 113 g a stick"),
    ("1 stick (113 g) butter", "butter", 113.0, "as stated"),
    ("3 large eggs", "egg", 150.0, "01123: 50 g"),
    ("3 medium eggs", "egg", 132.0, "01123: 44 g"),
    ("3 extra-large eggs", "egg", 168.0, "01123: 56 g"),
    ("1 cup eggs, beaten", "egg", 243.0, "01123: 243 g a cup"),
    ("4 large egg yolks", "egg yolk", 68.0, "01125: 17 g"),
    ("1 cup egg whites", "egg white", 243.0, "01124: 243 g a cup"),
    ("3 cloves garlic", "garlic", 9.0, "11215: 3 g"),
    ("3 garlic cloves, crushed", "garlic", 9.0, "11215: 3 g"),
    ("1 large onion, sliced", "onion", 150.0, "11282: 150 g"),
    ("1 onion (small)", "onion", 70.0, "11282: 70 g"),
    ("1 cup chopped onion", "onion", 160.0, "11282: 160 g a cup, chopped"),
    ("2 celery stalks", "celery", 80.0, "11143: 40 g"),
    ("2 to 3 medium carrots", "carrot", 152.5, "11124: 61 g, two and a half"),
    ("1 cup grated carrot", "carrot", 110.0, "11124: 110 g a cup, grated"),
    ("2 (14-oz / 400 g) cans chickpeas, drained", "canned chickpea", 793.8, "14 avoirdupois ounces, twice"),
    ("1 can (400 g) chopped tomatoes", "diced tomato", 400.0, "as stated"),
    ("2 chicken breasts (about 400 g)", "chicken breast", 400.0, "as stated"),
    ("4 pork chops, 200 g each", "pork chop", 800.0, "as stated, four times"),
    ("4 1/2 (650 g) cups flour", "all-purpose flour", 650.0, "as stated: cups are no packs"),
    ("1 lb 4 oz potatoes", "potato", 567.0, "20 avoirdupois ounces"),
    ("zest of 2 lemons", "lemon", 12.0, "09156: 6 g a tablespoon, which is a lemon's"),
    ("juice of 1 lemon", "lemon", 48.0, "09152: 48 g from one lemon"),
    ("1 tsp salt", "salt", 6.1, "02047: 292 g a cup"),
    ("1 packet (7 g) instant yeast", "instant yeast", 7.0, "as stated"),
    ("2 tbsp chopped parsley", "parsley", 7.5, "11297: 60 g a cup, chopped"),
    ("1 cup (2 dl) cooked rice", "cooked white rice", 158.0, "20045: 158 g a cup"),
    ("3/4 cup walnuts, chopped", "walnut", 87.75, "12155: 117 g a cup, chopped"),
    ("Flour, 200 g", "all-purpose flour", 200.0, "as stated"),
    ("1 cup plus 2 tbsp sugar", "granulated sugar", 225.0, "19335: 200 g a cup"),
];

#[test]
fn lines_come_to_what_is_published() {
    let mut wrong = Vec::new();
    for (line, food, grams, source) in LINES {
        match portion(line) {
            None => wrong.push(format!("{line}: nothing")),
            Some(found) => {
                let typical = found.weight.typical.get::<gram>();
                if found.what.food.name != *food || (typical - grams).abs() > 0.01 * grams + 0.1 {
                    wrong.push(format!(
                        "{line}: {typical} g of {}, not {grams} of {food} ({source})",
                        found.what.food.name
                    ));
                }
                let stated = found.weight.source == STATED;
                if stated && found.weight.low != found.weight.high {
                    wrong.push(format!("{line}: stated and not sure"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn what_nobody_can_weigh_comes_to_nothing() {
    for line in
        ["salt", "a pinch of salt", "a splash of milk", "salt and pepper", "2 tins", "1 cup joy", "3 glugs of oil", ""]
    {
        assert_eq!(portion(line), None, "{line}");
    }
}
