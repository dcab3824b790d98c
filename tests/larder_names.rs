//! Looking foods up by the names that cooks give them. What a name means is common practice, no source.

use tamis::larder::{Allergen, Diet, Found, larder, words};

#[track_caller]
fn find(name: &str) -> Found<'static> {
    larder().find(name).unwrap_or_else(|| panic!("`{name}` is no food"))
}

#[track_caller]
fn each_means(table: &[(&str, &str)]) {
    let wrong: Vec<_> = table
        .iter()
        .filter_map(|(name, food)| {
            let found = larder().find(name).map_or("-", |found| found.food.name);
            (found != *food).then(|| format!("`{name}` is {found}, not {food}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn states_amounts_and_preparation_are_passed_over() {
    each_means(&[
        ("cold unsalted butter, cubed", "butter"),
        ("butter (unsalted), at room temperature", "butter"),
        ("1 stick (½ cup / 113g) unsalted butter", "butter"),
        ("boneless, skinless chicken thighs", "boneless chicken thigh"),
        ("bone-in, skin-on chicken thighs", "chicken thigh"),
        ("freshly ground black pepper", "black pepper"),
        ("extra virgin olive oil (plus more for drizzling)", "olive oil"),
        ("Italian flat-leaf parsley leaves", "parsley"),
        ("canned chopped tomatoes", "diced tomato"),
        ("kosher salt", "kosher salt"),
        ("2% milk", "reduced-fat milk"),
        ("eggs", "egg"),
        ("egg whites", "egg white"),
        ("2 large egg yolks", "egg yolk"),
        ("1.5% milk", "reduced-fat milk"),
        ("10 oz. chickpeas", "chickpea"),
        ("cloves garlic", "garlic"),
        ("3 garlic cloves, minced", "garlic"),
        ("about 2 to 3 carrots (peeled and sliced)", "carrot"),
        ("2 and 1/4 teaspoons active dry yeast", "active dry yeast"),
        ("from 30g to 70g of sugar", "granulated sugar"),
        ("Sugar (100 g)", "granulated sugar"),
        ("onions: 400g | 1lb", "onion"),
        ("roughly chopped walnut pieces", "walnut"),
        ("high-quality melted pork lard", "lard"),
        ("3/4 cup cold whole milk", "milk"),
        ("very ripe bananas", "banana"),
        ("one 14-oz can full-fat coconut milk", "coconut milk"),
        ("400 ml can coconut milk", "coconut milk"),
        ("smooth peanut butter", "peanut butter"),
        ("hot water", "water"),
        ("nonstick cooking spray", "cooking spray"),
        ("small fresh basil leaves", "basil"),
        ("4 stalks of celery", "celery"),
        ("1 head of cauliflower, in florets", "cauliflower"),
        ("dried bay leaves", "bay leaf"),
        ("dry white wine", "white wine"),
        ("stale bread, torn", "bread"),
    ]);
}

#[test]
fn what_comes_out_of_a_tin_is_canned_and_what_was_cooked_is_weighed_cooked() {
    each_means(&[
        ("1 can chickpeas", "canned chickpea"),
        ("2 (15-ounce) cans black beans, drained", "canned black bean"),
        ("28 oz can chickpeas, rinsed", "canned chickpea"),
        ("1 tin (400 g) chopped tomatoes", "diced tomato"),
        ("1 can tomatoes", "canned tomato"),
        ("2 cans of corn", "canned corn"),
        ("1 can tuna in water", "canned tuna"),
        ("1 can coconut milk", "coconut milk"),
        ("1 can beer", "beer"),
        ("chickpeas", "chickpea"),
        ("2 cups chicken, cooked and shredded", "cooked chicken"),
        // Measured before it was cooked, or in a form that the larder has.
        ("1 cup rice, cooked", "white rice"),
    ]);
}

#[test]
fn the_food_stands_behind_of() {
    each_means(&[
        ("finely grated zest of 1 lemon", "lemon"),
        ("juice of half a lemon", "lemon"),
        ("cloves of garlic", "garlic"),
        ("a bunch of fresh parsley", "parsley"),
        ("a glass of cream or milk", "heavy cream"),
        ("a quarter of a pound of powdered white sugar", "powdered sugar"),
        ("one can of condensed milk", "sweetened condensed milk"),
        ("leg of lamb", "leg of lamb"),
        ("breast of duck", "duck breast"),
        ("fillet of beef", "beef tenderloin"),
        ("sticks of cinnamon", "cinnamon stick"),
        ("whites of 4 eggs", "egg"),
        ("leaves from 1 bunch mint", "mint"),
        ("cream of tartar", "cream of tartar"),
        ("beer of your choice", "beer"),
    ]);
}

#[test]
fn inverted_and_qualified_names_find_the_narrower_food() {
    each_means(&[
        ("sugar, brown", "brown sugar"),
        ("ginger, ground", "ground ginger"),
        ("thyme (dried)", "dried thyme"),
        ("chickpeas (canned)", "canned chickpea"),
        ("peas, frozen", "frozen peas"),
        ("salmon, smoked", "smoked salmon"),
        ("dried Greek oregano", "dried oregano"),
        // A form is no other food.
        ("Parmesan, grated", "parmesan"),
        ("rice, cooked", "white rice"),
    ]);
}

#[test]
fn alternatives_share_a_head() {
    each_means(&[
        ("chicken or vegetable stock", "chicken stock"),
        ("red or yellow onion", "yellow onion"),
        ("red or white wine", "white wine"),
        ("apple/pear syrup", "apple syrup"),
        ("Kalamon/Kalamata olives", "Kalamata olive"),
        ("crème fraîche or heavy cream", "creme fraiche"),
    ]);
}

#[test]
fn british_australian_and_american_names_meet() {
    each_means(&[
        ("spring onions", "scallion"),
        ("green onions", "scallion"),
        ("courgette", "zucchini"),
        ("aubergine", "eggplant"),
        ("capsicum", "bell pepper"),
        ("mangetout", "snow pea"),
        ("swede", "rutabaga"),
        ("beetroot", "beet"),
        ("rocket", "arugula"),
        ("cos lettuce", "romaine lettuce"),
        ("fresh coriander", "cilantro"),
        ("caster sugar", "superfine sugar"),
        ("icing sugar", "powdered sugar"),
        ("demerara", "demerara sugar"),
        ("treacle", "molasses"),
        ("plain flour", "all-purpose flour"),
        ("self-raising flour", "self-rising flour"),
        ("strong white bread flour", "bread flour"),
        ("wholemeal flour", "whole-wheat flour"),
        ("cornflour", "cornstarch"),
        ("corn flour", "corn flour"),
        ("bicarbonate of soda", "baking soda"),
        ("fast-action dried yeast", "instant yeast"),
        ("double cream", "heavy cream"),
        ("single cream", "light cream"),
        ("natural yoghurt", "yogurt"),
        ("minced beef", "ground beef"),
        ("tinned chickpeas", "canned chickpea"),
        ("garbanzo beans", "chickpea"),
        ("passata", "tomato purée"),
        ("sultanas", "golden raisin"),
        ("prawns", "shrimp"),
        ("gelatine leaves", "leaf gelatin"),
        ("digestive biscuits", "digestive biscuit"),
        ("red chilli flakes", "red pepper flakes"),
        ("porridge oats", "rolled oats"),
        ("groundnut oil", "peanut oil"),
        ("filo pastry", "phyllo dough"),
        ("rockmelon", "cantaloupe"),
        ("pak choi", "bok choy"),
    ]);
}

#[test]
fn accents_case_hyphens_and_unicode_forms_do_not_matter() {
    each_means(&[
        ("CRÈME FRAÎCHE", "creme fraiche"),
        ("cre\u{300}me frai\u{302}che", "creme fraiche"),
        ("jalapeno", "jalapeño"),
        ("Jalapeños", "jalapeño"),
        ("half and half", "half-and-half"),
        ("half & half", "half-and-half"),
        ("all purpose flour", "all-purpose flour"),
        ("confectioners’ sugar", "powdered sugar"),
        ("confectioner's sugar", "powdered sugar"),
        ("gruyere", "Gruyère"),
    ]);
}

/// Names that hold the name of another food.
#[test]
fn compounds_are_one_word() {
    each_means(&[
        ("butter lettuce", "butter lettuce"),
        ("apple butter", "apple butter"),
        ("peanut butter", "peanut butter"),
        ("cocoa butter", "cocoa butter"),
        ("shea butter", "shea butter"),
        ("milk thistle", "milk thistle"),
        ("buttermilk", "buttermilk"),
        ("butternut squash", "butternut squash"),
        ("buttercup squash", "buttercup squash"),
        ("cream cheese", "cream cheese"),
        ("ice cream", "ice cream"),
        ("coconut cream", "coconut cream"),
        ("cream sherry", "sherry"),
        ("coconut milk", "coconut milk"),
        ("oat milk", "oat milk"),
        ("eggplant", "eggplant"),
        ("egg noodles", "egg noodles"),
        ("egg roll wrappers", "egg roll wrapper"),
        ("nutmeg", "nutmeg"),
        ("coconut", "coconut"),
        ("peppercorns", "black peppercorn"),
        ("cornstarch", "cornstarch"),
        ("corned beef", "corned beef"),
        ("cornichons", "cornichon"),
        ("popcorn", "popped popcorn"),
        ("rice vinegar", "rice vinegar"),
        ("brown rice vinegar", "rice vinegar"),
        ("rice paper", "rice paper"),
        ("red wine vinegar", "red wine vinegar"),
        ("sugar snap peas", "sugar snap pea"),
        ("hamburger buns", "hamburger bun"),
        ("tea bags", "tea bag"),
        ("kale", "kale"),
        ("pears", "pear"),
        ("peanuts", "peanut"),
        ("oyster mushrooms", "oyster mushroom"),
        ("crab apples", "crab apple"),
        ("shell pasta", "small shells"),
        ("buckwheat flour", "buckwheat flour"),
        ("water chestnuts", "water chestnut"),
        ("pepper jack", "pepper jack"),
        ("dried ancho chili peppers", "ancho chile"),
        ("cheddar cheese", "cheddar"),
        ("fusilli pasta", "fusilli"),
        ("fusilli noodles", "fusilli"),
    ]);
}

#[test]
fn the_rest_of_the_line_tells_senses_apart() {
    each_means(&[
        ("pepper", "black pepper"),
        ("2 peppers", "bell pepper"),
        ("1 pepper", "bell pepper"),
        ("pepper, cored and sliced", "bell pepper"),
        ("1 red pepper", "red bell pepper"),
        ("1 tsp coriander", "ground coriander"),
        ("1 bunch coriander", "cilantro"),
        ("coriander stems", "cilantro"),
        ("5 cloves", "clove"),
        ("5 cloves garlic", "garlic"),
    ]);
}

/// `(as written, food, word that was meant)`: one slip in a word of five letters and more, two from eight.
#[test]
fn a_small_slip_is_forgiven_and_named() {
    for (name, food, meant) in [
        ("brocoli", "broccoli", "broccoli"),
        ("1/2 Broccli (chopped small)", "broccoli", "broccoli"),
        ("zuchini", "zucchini", "zucchini"),
        ("cinammon", "cinnamon", "cinnamon"),
        ("avacado", "avocado", "avocado"),
        ("chopped cilanto", "cilantro", "cilantro"),
        ("fresh rosmary", "rosemary", "rosemary"),
        ("garlick", "garlic", "garlic"),
        ("onoin powder", "onion powder", "onion"),
        ("strawbery halves", "strawberry", "strawberry"),
    ] {
        let found = find(name);
        let slip = found.misspelt.unwrap_or_else(|| panic!("{name} is no known slip"));
        assert_eq!((found.food.name, slip.meant.as_str(), found.certain), (food, meant, true), "{name}");
        assert_ne!(words::fold(slip.span.of(name)), meant);
    }
    // Slips so common that the shelves list them need no correction, and are found all the same.
    each_means(&[
        ("parmesean cheese", "parmesan"),
        ("tumeric", "turmeric"),
        ("mozarella", "mozzarella"),
        ("worchestershire sauce", "Worcestershire sauce"),
        ("margerine", "margarine"),
    ]);
}

#[test]
fn what_is_no_food_is_not_found() {
    for name in [
        "",
        "   ",
        "12",
        "baking parchment",
        "toothpicks",
        "a large cooking pot",
        "kitchen twine",
        "skewers",
        "doughnuts",
        "1 pastry brush",
        "a candy thermometer",
        "cake pan, 9 in (23 cm)",
        "for the filling",
        "such as a good one",
        "Serves around 3 people",
        "🙂",
    ] {
        assert_eq!(larder().find(name).map(|found| found.food.name), None, "{name}");
    }
}

#[test]
fn a_name_that_may_mean_something_else_is_uncertain() {
    for (name, food) in [("chicken gizmo", "chicken"), ("6 cups couscous fine semolina", "semolina")] {
        let found = find(name);
        assert_eq!((found.food.name, found.certain), (food, false), "{name}");
    }
    for name in ["fresh lemon juice", "2 cloves garlic", "grated cheddar cheese", "Yukon gold potatoes", "egg yolks"] {
        assert!(find(name).certain, "{name}");
    }
}

#[test]
fn parts_are_told() {
    for (name, food, parts) in [
        ("zest of 1 lemon", "lemon", &["zest"][..]),
        ("zest and juice of 1 orange", "orange", &["zest", "juice"]),
        ("whites of 4 eggs", "egg", &["white"]),
        ("scallion greens", "scallion", &["green"]),
        ("cilantro stems, chopped", "cilantro", &["stem"]),
        ("2 lemons", "lemon", &[]),
        ("egg yolks", "egg yolk", &[]),
    ] {
        let found = find(name);
        assert_eq!((found.food.name, found.parts.as_slice()), (food, parts), "{name}");
    }
    let egg = larder().food("egg").unwrap();
    assert_eq!(larder().part_as_food(egg, "yolk").map(|food| food.name), Some("egg yolk"));
    assert_eq!(larder().part_as_food(egg, "shell"), None);
}

#[test]
fn forms_are_told() {
    for (name, form) in [
        ("light brown sugar, packed", Some("packed")),
        ("sifted powdered sugar", Some("sifted")),
        ("heavy cream, whipped", Some("whipped")),
        ("shredded cheddar", Some("shredded")),
        ("butter, melted", Some("melted")),
        ("granulated sugar", None),
    ] {
        let found = find(name);
        assert_eq!(found.form.map(|(form, _)| form.name), form, "{name}");
        assert!(found.form.is_none_or(|(form, span)| span.of(name) == form.name), "{name}");
    }
}

#[test]
fn the_span_covers_the_words_that_name_the_food() {
    for (name, words) in [
        ("cold unsalted butter, cubed", "unsalted butter"),
        ("1 cup (240 ml) crème fraîche or cream", "crème fraîche"),
        ("juice of 2 limes", "limes"),
        ("cheddar cheese, grated", "cheddar cheese"),
        ("🙂 two tomatoes", "tomatoes"),
    ] {
        assert_eq!(find(name).span.of(name), words);
    }
}

#[test]
fn a_claim_cancels_what_it_denies_and_nothing_else() {
    let table = [
        ("vegan ground beef", Diet::Vegetarian, false),
        ("ground beef", Diet::Vegetarian, true),
        ("plant-based chicken breast", Diet::Vegan, false),
        ("gluten-free rolled oats", Diet::GlutenFree, false),
        ("gluten-free bread flour", Diet::GlutenFree, false),
        ("bread flour", Diet::GlutenFree, true),
        ("dairy-free dark chocolate", Diet::DairyFree, false),
        ("lactose-free cream", Diet::DairyFree, true),
        ("fat-free milk", Diet::Vegan, true),
        ("kosher salt", Diet::Vegan, false),
    ];
    for (name, diet, breaks) in table {
        assert_eq!(find(name).breaks(diet), breaks, "{name} {}", diet.name());
    }
    let soy = find("gluten-free soy sauce");
    assert!(soy.holds(Allergen::Soy) && !soy.holds(Allergen::Wheat));
    let spaghetti = find("gluten-free fresh pasta");
    assert!(!spaghetti.holds(Allergen::Wheat));
    assert!(!find("egg-free mayonnaise").holds(Allergen::Egg));
    assert!(find("mayonnaise").holds(Allergen::Egg));
}
