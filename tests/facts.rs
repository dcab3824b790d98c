//! What is known of a food, and what an amount of it comes to.

use std::sync::LazyLock;

use tamis::{
    assist::{Facts, NotKnown, facts},
    book::{House, sheet},
    larder::AllergenList,
};

static US: LazyLock<House> = LazyLock::new(House::default);

fn house(sheet: &str) -> House {
    let (house, faults) = sheet::read(sheet, &[]);
    assert_eq!(faults, [], "{sheet}");
    house
}

#[track_caller]
fn known(house: &House, question: &str) -> Facts {
    facts(house, question).unwrap_or_else(|unknown| panic!("{question}: {unknown}"))
}

/// Grams of USDA SR26 (2013), household weights: the number of the food stands behind each row.
#[test]
fn weights_are_those_of_the_published_table() {
    let table = [
        ("all-purpose flour 1 cup", 125.0),  // 20081
        ("granulated sugar 1 cup", 200.0),   // 19335
        ("butter 1 cup", 227.0),             // 01145
        ("butter 1 stick", 113.0),           // 01145
        ("honey 1 cup", 339.0),              // 19296
        ("whole milk 1 cup", 244.0),         // 01077
        ("egg 2 large", 100.0),              // 01123
        ("egg 3 jumbo", 189.0),              // 01123
        ("brown sugar 1 cup packed", 220.0), // 19334
        ("unpacked brown sugar 1 cup", 145.0),
    ];
    for (question, grams) in table {
        let weight = known(&US, question).amounts.unwrap().weight.unwrap();
        assert!((weight.typical.least - grams).abs() < 0.5, "{question}: {weight:?}");
        assert!(weight.low <= weight.typical.least && weight.typical.least <= weight.high, "{question}: {weight:?}");
    }
}

/// How a kitchen would measure them: common practice, no source.
#[test]
fn an_amount_is_told_in_every_measure_that_a_kitchen_has() {
    let table = [
        ("flour 1 1/2 cups", "190 g · 6 1/2 oz", "1 1/2 cups · 350 ml"),
        ("milk 500 ml", "525 g · 1 lb 2 oz", "2 cups plus 2 tbsp · 500 ml · 17 fl oz"),
        ("butter 1 stick", "115 g · 4 oz", "1/2 cup · 120 ml"),
        ("eggs 2-3", "100 to 150 g · 3 1/2 to 5 1/4 oz", "1/3 to 2/3 cup · 95 to 145 ml"),
        ("sugar 1 tbsp", "13 g · 0.44 oz", "1 tbsp · 15 ml"),
        ("2 (14-oz) cans chickpeas", "800 g · 1 3/4 lb", "4 cups · 950 ml"),
    ];
    for (question, weight, volume) in table {
        let amounts = known(&US, question).amounts.unwrap();
        let printed = |spread: Option<tamis::assist::Spread>| spread.map(|spread| spread.printed.join(" · "));
        assert_eq!(printed(amounts.weight).as_deref(), Some(weight), "{question}");
        assert_eq!(printed(amounts.volume).as_deref(), Some(volume), "{question}");
    }
    let onions = known(&US, "200 g onions").amounts.unwrap();
    assert!(onions.counts.contains(&(2.0, Some("medium"))), "{:?}", onions.counts);
}

#[test]
fn the_amount_may_stand_before_or_behind_the_food() {
    let table = [
        ("1 cup packed brown sugar", "brown sugar 1 cup packed"),
        ("200 g rye flour", "rye flour 200 g"),
        ("2 large eggs", "eggs 2 large"),
        ("a cup of milk", "milk a cup"),
        ("1 cup half and half", "half and half 1 cup"),
        ("1 cup 2% milk", "2% milk 1 cup"),
        ("200 g type 55 flour", "type 55 flour 200 g"),
        ("1 lb 4 oz potatoes", "potatoes 1 lb 4 oz"),
    ];
    for (one, other) in table {
        let (one, other) = (known(&US, one), known(&US, other));
        assert!(one.food == other.food && one.form == other.form, "{}, {}", one.food.name, other.food.name);
        let weight = |facts: &Facts| facts.amounts.clone().map(|amounts| (amounts.asked, amounts.weight));
        assert!(one.amounts.is_some());
        assert_eq!(weight(&one), weight(&other));
    }
    for name in ["00 flour", "type 55 flour", "2% milk", "half and half", "five-spice powder"] {
        assert!(known(&US, name).amounts.is_none(), "{name}");
    }
}

#[test]
fn a_part_with_a_row_of_its_own_is_that_food() {
    for (question, food) in [("lemon zest", "lemon zest"), ("zest of a lemon", "lemon zest"), ("egg yolks", "egg yolk")]
    {
        assert_eq!(known(&US, question).food.name, food, "{question}");
    }
}

#[test]
fn what_is_not_known_is_said_with_what_comes_near() {
    let table = [
        ("rie flour", "there is no food “rie flour”; did you mean rice flour, rye flour, "),
        ("zork", "there is no food “zork”; a house tells of one of its own in tamis.toml: [foods.\"zork\"]"),
        ("offal", "“offal” is a word for many foods; name one of them, such as "),
        ("flour 2 cusp", "“2 cusp” is no amount; did you mean “cups”?"),
        ("flour 2 widgets", "“2 widgets” is no amount; write a number and a unit, as in 1 1/2 cups, 200 g or 2 large"),
        ("flour 3/0 cups", "“3/0 cups” is no amount; "),
        ("flour -1 cup", "“-1 cup” is no amount; "),
        ("flour 3 minutes", "no food is measured in this: “3 minutes”; "),
        ("flour 2", "what “2” of all-purpose flour weighs is not known; ask for a volume or a weight"),
        ("eggs 2 bunches", "what “2 bunches” of egg weighs is not known; it is counted by small, medium, large"),
        ("  ", "name a food, such as egg or rye flour"),
    ];
    for (question, message) in table {
        let unknown = facts(&US, question).err().unwrap_or_else(|| panic!("{question} is known"));
        assert!(unknown.to_string().starts_with(message), "{question}: {unknown}");
    }
    for odd in [
        "1",
        "½",
        "((",
        "1 x 400 g can",
        "\u{301}",
        "- - -",
        "[[flour]]",
        "flour => 2 cups",
        "99999999999999999999 cups flour",
    ] {
        let _: Result<Facts, NotKnown> = facts(&US, odd);
    }
}

#[test]
fn the_house_says_which_cup_and_knows_foods_of_its_own() {
    let own =
        "measures.cup = 'metric'\n[weights]\nflour = 140\n[foods.'plot dust']\neach.scoop = 30\nkinds = ['herb']\n";
    let house = house(own);
    let flour = known(&house, "plain flour 2 cups");
    assert_eq!((flour.cup.millilitres(), flour.cupfuls[0].typical.round(), flour.own), (250.0, 140.0, false));
    let weight = flour.amounts.unwrap().weight.unwrap();
    assert!((weight.typical.least - 280.0).abs() < 0.5 && weight.range.is_none(), "{weight:?}");
    let dust = known(&house, "2 scoops of plot dust");
    assert!(dust.own && dust.amounts.unwrap().weight.unwrap().printed == ["60 g", "2 oz"]);
    assert!(facts(&US, "plot dust").is_err());
}

/// FALCPA and the FASTER Act for the United States; Regulation (EU) 1169/2011, annex II.
#[test]
fn allergens_go_by_the_list_of_each_law() {
    let table: [(&str, &[&str], &[&str]); 5] = [
        ("celery", &[], &["celery"]),
        ("whole-wheat flour", &["wheat"], &["gluten"]),
        ("tahini", &["sesame"], &["sesame"]),
        ("dijon mustard", &[], &["mustard"]),
        ("apple", &[], &[]),
    ];
    for (food, us, eu) in table {
        let facts = known(&US, food);
        let held = |wanted| facts.allergens.iter().find(|(list, _)| *list == wanted).unwrap().1.clone();
        assert!(us.iter().all(|allergen| held(AllergenList::Us).contains(allergen)), "{food}");
        assert!(eu.iter().all(|allergen| held(AllergenList::Eu).contains(allergen)), "{food}");
        assert!(!held(AllergenList::Us).contains(&"celery") && !held(AllergenList::Us).contains(&"gluten"), "{food}");
    }
    let lists = |house: &House| known(house, "celery").allergens.len();
    assert_eq!((lists(&US), lists(&house("allergens = 'uk'")), lists(&house("allergens = 'anz'"))), (2, 2, 3));
}
