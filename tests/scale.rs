//! A recipe for more or for fewer: what follows from the number does, what does not stays, and nothing else comes apart.

use std::sync::Arc;

use tamis::{
    assist::{self, Wanted},
    measure::UnitKind,
    recipe::{Recipe, measures::Place},
    text::Edit,
    workspace::Manuscript,
};
use tamis_tests::folder::samples;

fn read(text: &str) -> Manuscript {
    Manuscript::new(text, Arc::default())
}

/// The first recipe of a text for so many, and what is said of it.
fn scaled(text: &str, to: f64) -> Result<(String, String), String> {
    let manuscript = read(text);
    let (start, recipe) = manuscript.recipes().next().expect("a recipe");
    let scaled = assist::scale(recipe, manuscript.house(), Wanted::For(to))?;
    let edits: Vec<Edit> = scaled.edits.into_iter().map(|edit| edit.shifted(start)).collect();
    Ok((Edit::put_into(text, &edits), scaled.told))
}

/// A recipe for four in which a line and a step stand.
fn dish(serves: &str, line: &str, step: &str) -> String {
    format!("Recipe: Table Talk\n{serves}\n\nIngredients:\n- {line}\n- 1 cup (240 ml) milk\n\nMethod:\n\n1. {step}\n")
}

#[test]
fn lines_and_steps_are_taken_as_often() {
    let plain = "Stir everything together.";
    let table = [
        // Lines of the list.
        (2.0, "2 cups (250 g) flour", "4 cups (500 g) flour", plain, plain),
        (0.5, "1 cup plus 2 tbsp (225 g) sugar", "1/2 cup plus 1 tbsp (115 g) sugar", plain, plain),
        (2.0, "1 egg", "2 eggs", plain, plain),
        (0.5, "2 large eggs, beaten", "1 large egg, beaten", plain, plain),
        (0.5, "3 eggs", "1 1/2 eggs", plain, plain),
        (2.0, "1 tomato, diced", "2 tomatoes, diced", plain, plain),
        (3.0, "1 clove garlic, minced", "3 cloves garlic, minced", plain, plain),
        (2.0, "2 (14-oz / 400 g) cans tomatoes", "4 (14-oz / 400 g) cans tomatoes", plain, plain),
        (2.0, "1 medium onion (about 150 g), diced", "2 medium onions (about 300 g), diced", plain, plain),
        (2.0, "2 potatoes (200 g each)", "4 potatoes (200 g each)", plain, plain),
        (2.0, "2 lb potatoes, cut into 1-inch cubes", "4 lb potatoes, cut into 1-inch cubes", plain, plain),
        (
            2.0,
            "2 to 3 tbsp olive oil, plus 1 tbsp for the pan",
            "4 to 6 tbsp olive oil, plus 2 tbsp for the pan",
            plain,
            plain,
        ),
        (2.0, "1½ cups rice", "3 cups rice", plain, plain),
        (2.0, "salt", "salt", plain, plain),
        (2.0, "Flour, 200 g", "Flour, 400 g", plain, plain),
        // Steps.
        (
            2.0,
            "1/2 cup (100 g) sugar",
            "1 cup (200 g) sugar",
            "Whisk 1/4 cup of the sugar with the milk, then add [the rest of the sugar].",
            "Whisk 1/2 cup of the sugar with the milk, then add [the rest of the sugar].",
        ),
        (
            2.0,
            "1 cup flour",
            "2 cups flour",
            "Mix the flour and half the milk. Bake at 350°F (175°C) in a 9-inch pan for 20 to 25 minutes.",
            "Mix the flour and half the milk. Bake at 350°F (175°C) in a 9-inch pan for 20 to 25 minutes.",
        ),
        (
            3.0,
            "half an onion, diced",
            "1 1/2 onions, diced",
            "Fry the onion; add the milk.",
            "Fry the onion; add the milk.",
        ),
        (2.0, "Half a lemon", "1 lemon", "Heat the milk with the lemon.", "Heat the milk with the lemon."),
        (
            2.0,
            "2 cups flour",
            "4 cups flour",
            "Knead the flour and the milk. Divide the dough into 8 balls of 50 g each.",
            "Knead the flour and the milk. Divide the dough into 16 balls of 50 g each.",
        ),
        (
            2.0,
            "2 cups flour",
            "4 cups flour",
            "Mix the flour and the milk. Fry 1/4 cup of the batter for each pancake. => 1 cup scraps",
            "Mix the flour and the milk. Fry 1/4 cup of the batter for each pancake. => 2 cups scraps",
        ),
    ];
    for (times, line, expected_line, step, expected_step) in table {
        let serves = |number: f64| format!("Serves: {number}");
        let (now, _) = scaled(&dish(&serves(4.0), line, step), 4.0 * times).unwrap();
        let milk = if times == 2.0 {
            "2 cups (480 ml) milk"
        } else if times == 3.0 {
            "3 cups (720 ml) milk"
        } else {
            "1/2 cup (120 ml) milk"
        };
        let expected = dish(&serves(4.0 * times), expected_line, expected_step).replace("1 cup (240 ml) milk", milk);
        assert_eq!(now, expected, "{line} × {times}");
    }
}

#[test]
fn what_it_is_for_is_read_and_written_as_it_stands() {
    let table = [
        ("Serves: 4", 6.0, "Serves: 6"),
        ("Serves: 4 to 6", 10.0, "Serves: 8 to 12"),
        ("Serves: 4 people\nYield: 24 cookies", 2.0, "Serves: 2 people\nYield: 12 cookies"),
        ("Yield: about 3 cups (700 ml)\nServes: 4", 8.0, "Yield: about 6 cups (1.4 l)\nServes: 8"),
        ("Yield: 12 rolls", 18.0, "Yield: 18 rolls"),
        ("Yield: one 9-inch (23 cm) dish\nServes: 4", 8.0, "Yield: one 9-inch (23 cm) dish\nServes: 8"),
    ];
    for (before, to, after) in table {
        let (now, _) =
            scaled(&dish(before, "salt", "Boil the milk."), to).unwrap_or_else(|reason| panic!("{before}: {reason}"));
        assert!(now.contains(&format!("Recipe: Table Talk\n{after}\n\n")), "{before}:\n{now}");
    }
}

#[test]
fn what_stays_is_told() {
    let step = "Boil the milk in a 2-quart saucepan, 5 minutes.";
    let (_, told) = scaled(&dish("Serves: 4", "salt", step), 6.0).unwrap();
    assert!(told.starts_with("Now for 6 (1.5 times as much)."), "{told}");
    assert!(told.contains("step 1") && told.contains("2-quart saucepan"), "{told}");
    let (_, plain) = scaled(&dish("Serves: 4", "salt", "Stir the milk."), 6.0).unwrap();
    assert_eq!(plain, "Now for 6 (1.5 times as much).");
}

#[test]
fn what_cannot_be_done_is_said() {
    let nobody = dish("Time: 5 min", "salt", "Boil the milk.");
    assert!(scaled(&nobody, 6.0).unwrap_err().contains("Serves: 4"));
    for to in [0.0, -3.0, f64::NAN, f64::INFINITY, 1e9] {
        assert!(scaled(&dish("Serves: 4", "salt", "Boil the milk."), to).is_err(), "{to}");
    }
    let (same, _) = scaled(&dish("Serves: 4", "2 cups (250 g) flour", "Boil the milk."), 4.0).unwrap();
    assert_eq!(same, dish("Serves: 4", "2 cups (250 g) flour", "Boil the milk."));
}

/// What is said of vessels and of what comes out of them does not follow from numbers.
const LEFT_TO_THE_COOK: &[&str] = &[
    "vessel-overfilled",
    "vessel-nearly-empty",
    "portions-short",
    "portions-over",
    "pan-size-disagrees",
    "serves-implausible",
];

/// Every sound sample for twice, three times and half as many: the times, lengths and temperatures are as they were, lines and
/// restatements agree, the shares still make the whole.
#[test]
fn sound_recipes_stay_sound() {
    let mut tried = 0;
    for (_, text) in samples("") {
        for (_, recipe) in read(&text).recipes() {
            let text = recipe.text.to_string();
            let manuscript = read(&text);
            let Some(serves) = assist::serves(recipe, manuscript.house()) else { continue };
            for times in [2.0, 3.0, 0.5] {
                let (now, _) = scaled(&text, serves * times).unwrap();
                let fresh = read(&now);
                let (_, scaled) = fresh.recipes().next().unwrap();
                let what = format!("{} × {times}", recipe.name());
                assert_eq!(unscalable(scaled), unscalable(recipe), "{what}");
                assert_eq!(scaled.ingredients.len(), recipe.ingredients.len(), "{what}");
                let codes = |manuscript: &Manuscript| -> Vec<&str> {
                    let codes = manuscript.findings().into_iter().map(|finding| finding.code);
                    codes.filter(|code| !LEFT_TO_THE_COOK.contains(code)).collect()
                };
                assert_eq!(codes(&fresh), codes(&manuscript), "{what}:\n{now}");
                tried += 1;
            }
        }
    }
    assert!(tried > 60, "{tried}");
}

/// The times, temperatures and lengths of a recipe, and whatever stands in its notes and tests.
fn unscalable(recipe: &Recipe) -> Vec<String> {
    let own = |kind| matches!(kind, Some(UnitKind::Time | UnitKind::Temperature | UnitKind::Length));
    let prose = |place| matches!(place, Place::Prose | Place::Test(_) | Place::Equipment(_));
    let measures = recipe.measures.iter().filter(|measure| own(measure.stated.kind()) || prose(measure.place));
    measures.map(|measure| recipe.at(measure.span).to_owned()).collect()
}
