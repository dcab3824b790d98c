//! A name that says what is in a food: the shelves have to say the same. Chicken cubes are no cubes for vegetarians.

use tamis::larder::{Allergen, Diet, Food, larder, words};

/// What a word in a name brings with it.
enum Brings {
    Allergen(Allergen),
    /// What the food has no place in.
    Breaks(Diet),
}

/// Folded words, what they bring, and the names in which they mean something else. A `*` stands for any words.
type Rule = (&'static str, Brings, &'static str);

const RULES: &[Rule] = &[
    (
        "chicken beef pork lamb veal turkey duck goose meat bone ham bacon lard suet prosciutto pancetta chorizo sausage",
        Brings::Breaks(Diet::Vegetarian),
        "butter chicken sauce; chicken egg; chicken seasoning; turkey seasoning; duck egg; salted duck egg; salted duck egg \
         yolk; goose egg; duck sauce; brown turkey fig; longan meat; fresh coconut meat; wheat gluten meat; mock duck; lamb \
         lettuce; lamb quarter; beef tomato; vegetable suet; chinese barbecue pork sauce; chicken stuffing mix; chicken coating \
         mix; meat rub",
    ),
    (
        "pork ham bacon lard prosciutto pancetta chorizo pepperoni",
        Brings::Breaks(Diet::Halal),
        "turkey bacon; turkey ham; chinese barbecue pork sauce",
    ),
    (
        "fish anchovy tuna salmon cod sardine mackerel bonito worcestershire",
        Brings::Allergen(Allergen::Fish),
        "fish shaped cracker; fish fry mix; fish batter mix",
    ),
    (
        "shrimp prawn crab lobster crayfish langoustine",
        Brings::Allergen(Allergen::Crustacean),
        "crab apple; crab stick; imitation crab; imitation crabmeat; lobster roll bun; crab boil seasoning; shrimp seasoning",
    ),
    (
        "oyster clam mussel scallop squid octopus",
        Brings::Allergen(Allergen::Mollusc),
        "oyster cracker; oyster plant; vegetable oyster; oyster mushroom; yellow oyster mushroom; pink oyster mushroom; pearl \
         oyster mushroom; king oyster mushroom; scallop squash; veal scallop; oyster blade steak",
    ),
    (
        "egg meringue mayonnaise",
        Brings::Allergen(Allergen::Egg),
        "tofu mayonnaise; chia egg; egg replacer; egg replacement; egg replacement powder; flax egg; egg plant; egg tomato; \
         chocolate egg; egg roll wrapper; egg roll skin",
    ),
    (
        "almond hazelnut walnut pecan cashew pistachio macadamia",
        Brings::Allergen(Allergen::TreeNut),
        "almond extract; bitter almond extract; natural almond extract; pure almond extract; almond essence; almond flavoring; \
         almond aroma; hazelnut extract; walnut extract; almond bark; white almond bark; almond liqueur; almond flavored \
         liqueur; earth almond",
    ),
    ("peanut groundnut", Brings::Allergen(Allergen::Peanut), ""),
    ("sesame tahini", Brings::Allergen(Allergen::Sesame), "sesame leaf"),
    ("soy soya tofu edamame", Brings::Allergen(Allergen::Soy), ""),
    (
        "mustard",
        Brings::Allergen(Allergen::Mustard),
        "mustard green; gai choy; indian mustard leaf; mustard leaf; leaf mustard; canned mustard greens; mustard greens; sea \
         mustard; spinach mustard; japanese mustard; potherb mustard; mustard spinach; japanese mustard spinach; mustard and \
         cress",
    ),
    ("celery celeriac", Brings::Allergen(Allergen::Celery), "celery cabbage; celery lettuce"),
    (
        "milk cheese yogurt buttermilk ghee mozzarella parmesan ricotta feta mascarpone custard",
        Brings::Allergen(Allergen::Milk),
        "*almond milk; *rice milk; *cashew milk; *hazelnut milk; *macadamia milk; *walnut milk; *pistachio milk; *nut milk; \
         *hemp milk; *pea milk; *flax milk; *almond yogurt; *cashew yogurt; *coconut yogurt; milk thistle; milk thistle seed; \
         quince cheese; fruit cheese; head cheese; bread cheese; tofu cheese; yogurt culture; yogurt starter; cheese culture; \
         buttermilk culture; milk alternative; custard powder; vanilla custard powder; custard mix; custard apple; custard \
         squash; coconut milk beverage; coconut drinking milk; carton coconut milk; can of coconut milk; coconut milk yogurt; cocount milk",
    ),
    (
        "wheat semolina couscous bulgur seitan spelt barley rye malt",
        Brings::Allergen(Allergen::Gluten),
        "wheat free tamari; wheat germ oil; rye whiskey; single malt whiskey; rice malt syrup; chinese pearl barley; barley \
         sugar; cauliflower couscous",
    ),
    (
        "wine sherry",
        Brings::Allergen(Allergen::Sulphite),
        "*rice wine; *wine vinegar; sherry vinegar; shaoxing wine; shaohsing wine; shao hsing wine; rice cooking \
         wine; sweet rice wine; chinese cooking wine; mirin rice wine; shao xing wine; shaoxing cooking wine; xiaoxing wine; \
         chinese rice cooking wine; yellow wine; mulled wine spice; mulled wine spice bag; sweet cooking rice wine",
    ),
];

/// Words that take back what stands behind them: `vegan mayonnaise`, `plant-based milk`, `anchovy-free …`.
const WITHOUT: &[&str] =
    &["vegan", "vegetarian", "free", "plant", "nondairy", "non", "mock", "soy", "soya", "oat", "coconut"];

fn brings(food: &Food, what: &Brings) -> bool {
    match what {
        Brings::Allergen(allergen) => food.holds(*allergen),
        Brings::Breaks(diet) => food.breaks(*diet),
    }
}

fn means_something_else(name: &str, exceptions: &str) -> bool {
    exceptions.split(';').map(str::trim).any(|exception| match exception.strip_prefix('*') {
        Some(end) => name.ends_with(end),
        None => exception == name,
    })
}

/// All names of a food, each as its folded words.
fn folded_names(food: &Food) -> impl Iterator<Item = Vec<String>> {
    let names = std::iter::once(food.name).chain(food.synonyms.iter().copied());
    names.map(|name| words::split(name).into_iter().map(|word| word.folded.into_owned()).collect())
}

#[test]
fn a_food_brings_what_its_names_say() {
    let mut silent = Vec::new();
    for food in larder().foods() {
        for name in folded_names(food) {
            if name.iter().any(|word| WITHOUT.contains(&word.as_str())) {
                continue;
            }
            let whole = name.join(" ");
            for (told, what, exceptions) in RULES {
                let says = name.iter().any(|word| told.split(' ').any(|told| told == word));
                if says && !brings(food, what) && !means_something_else(&whole, exceptions) {
                    silent.push(format!("`{whole}` is `{}`, which does not bring what {told} bring", food.name));
                }
            }
        }
    }
    assert!(silent.is_empty(), "{silent:#?}");
}

/// Every exception stands for a name on the shelves: none is left over from a row that has gone.
#[test]
fn the_exceptions_are_needed() {
    let names: Vec<String> = larder().foods().flat_map(folded_names).map(|name| name.join(" ")).collect();
    let exceptions = RULES.iter().flat_map(|(.., exceptions)| exceptions.split(';')).map(str::trim);
    let unneeded: Vec<&str> = exceptions
        .filter(|exception| !exception.is_empty() && !names.iter().any(|name| means_something_else(name, exception)))
        .collect();
    assert!(unneeded.is_empty(), "{unneeded:?}");
}

#[test]
fn what_stock_is_made_of_is_told_by_its_name() {
    let table = [
        ("1 chicken stock cube", "chicken bouillon cube", false),
        ("1 fish stock cube", "fish bouillon cube", false),
        ("1 vegetable stock cube", "vegetable bouillon cube", true),
        ("1 stock cube", "bouillon cube", true),
        ("beef bouillon granules", "beef bouillon powder", false),
        ("bone broth", "meat stock", false),
    ];
    for (name, food, vegetarian) in table {
        let found = larder().find(name).map(|found| (found.food.name, !found.breaks(Diet::Vegetarian)));
        assert_eq!(found, Some((food, vegetarian)), "{name}");
    }
}
