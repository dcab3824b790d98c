//! Who uses what: manuscripts of a few lines, and beside each ingredient the steps that must use it.
//!
//! The situations are common practice of recipe writing, no source; the wording and the kitchen are ours.

#[path = "uses/goes_in.rs"]
mod goes_in;
#[path = "uses/marked.rs"]
mod marked;

use tamis::{
    larder::larder,
    recipe::{Recipe, flow::Taken, read},
    syntax::Tree,
};

/// Ingredients with the steps that use them (`2` takes some, `(2)` only handles), a blank line, the steps.
/// A line `? food: steps` names what the list does not have.
fn check(case: &str) {
    let (list, method) = case.trim().split_once("\n\n").expect("a blank line stands between list and method");
    let mut text = String::from("Recipe: Trial\n\nIngredients:\n");
    let mut expected = Vec::new();
    let mut unlisted = Vec::new();
    for line in list.lines().map(str::trim) {
        let (name, steps) = line.rsplit_once("->").unwrap_or_else(|| panic!("no steps in {line:?}"));
        let steps = steps.trim().to_owned();
        match name.trim().strip_prefix("? ") {
            Some(food) => unlisted.push(format!("{} -> {steps}", food.trim())),
            None => {
                text.push_str(&format!("- {}\n", name.trim()));
                expected.push(format!("{} -> {steps}", name.trim()));
            }
        }
    }
    text.push_str(&format!("\nMethod:\n\n{}\n", method.lines().map(str::trim).collect::<Vec<_>>().join("\n\n")));
    let recipe = recipe(&text);
    let found: Vec<String> = (0..recipe.ingredients.len()).map(|index| uses(&recipe, index)).collect();
    assert_eq!(found, expected, "in\n{text}");
    let foods: Vec<String> =
        recipe.flow.unlisted.iter().map(|found| format!("{} -> {}", recipe.at(found.span), found.step + 1)).collect();
    assert_eq!(foods, unlisted, "not in the list of\n{text}");
}

fn recipe(text: &str) -> Recipe {
    read(text, &Tree::parse(text).expect("the grammar fits the parser"), larder())
}

fn uses(recipe: &Recipe, index: usize) -> String {
    let mut steps: Vec<String> = Vec::new();
    for found in recipe.flow.uses(index) {
        let part = found.part.map(|part| format!(" {part}")).unwrap_or_default();
        let step = found.step + 1;
        steps.push(match found.taken {
            Taken::Nothing => format!("({step}{part})"),
            Taken::Whole => format!("{step}{part}"),
            Taken::Rest => format!("{step}{part} rest"),
            Taken::Some => format!("{step}{part} some"),
            Taken::Fraction(least, _) => format!("{step}{part} {:.0}%", least * 100.0),
            Taken::Amount(_, Some((least, _))) => format!("{step}{part} {:.0}%", least * 100.0),
            Taken::Amount(_, None) => format!("{step}{part} some"),
        });
    }
    let line = recipe.at(recipe.ingredients[index].span);
    format!("{line} -> {}", if steps.is_empty() { "none".to_owned() } else { steps.join(", ") })
}

#[test]
fn plain_names() {
    for case in [
        "
        2 cups (250 g) all-purpose flour -> 1
        7 tbsp (100 g) cold unsalted butter, cubed -> 1
        2 spring onions, sliced -> 2
        1 aubergine -> 2

        Rub the butter into the flour.
        Fry the scallions with the eggplant.",
        // A head noun is enough; what is made of a thing is not the thing.
        "
        1 cup chicken stock -> 2
        8 oz spaghetti -> 1
        2 tbsp extra-virgin olive oil -> 2

        Boil the pasta, then scoop out some of the pasta water.
        Warm the oil, pour in the stock and loosen it with pasta water.",
        // A mixture that bears the name of its parts uses none of them again.
        "
        1 cup flour -> 1
        1 cup sugar -> 1
        2 eggs -> 2

        Stir the flour and the sugar together.
        Beat the eggs into the flour mixture.",
        // Longer names are not their head: peanut butter, cream of tartar, coconut milk.
        "
        2 tbsp butter -> 2
        2 tbsp peanut butter -> 1
        1/2 tsp cream of tartar -> 1
        1 cup cream -> 2

        Beat the peanut butter with the cream of tartar.
        Melt the butter in the cream.",
        // Misspelt, in the list or in the method.
        "
        1 brocolli -> 1
        1 tsp cinnamon -> 1

        Cut the broccoli into florets and toss them with the cinammon.",
    ] {
        check(case);
    }
}

#[test]
fn verbs_that_are_foods() {
    for case in [
        "
        2 tbsp butter -> 1 some, 2
        1 lemon -> 2
        1 tsp salt -> 3 some

        Butter the dish.
        Zest the lemon and cream the butter.
        Salt the water generously.",
        "
        1 lb beets -> 1
        1 tbsp oil -> 2 some

        Peel the beets and steam them well.
        Oil the tin.",
    ] {
        check(case);
    }
}

#[test]
fn cues_take_nothing() {
    for case in [
        "
        2 onions -> 1
        3 cloves garlic -> 2
        1 cup rice -> 3

        Cook the onions gently.
        Once the onions are soft, add the garlic and cook until the onions and garlic are golden.
        Stir in the rice. The rice should be just tender.",
        // The pronoun brings the subject of the cue back into the pan.
        "
        12 oz linguine -> 1, (2)

        Boil the linguine.
        When the linguine is done, drain it.",
        "
        1 cup milk -> 1
        1 tbsp oil -> none

        Warm the milk without oil. Do not add the oil.",
    ] {
        check(case);
    }
}

#[test]
fn words_for_many() {
    for case in [
        "
        1 cup flour -> 1
        1 tsp baking powder -> 1
        1/2 cup milk -> 2
        1 egg -> 2
        1 tbsp honey -> 3

        Whisk the dry ingredients.
        Beat the wet ingredients together.
        Drizzle with the honey.",
        "
        1 carrot -> 1
        1 leek -> 1
        1 bunch parsley -> 2

        Put everything but the parsley in the pot.
        Scatter over the parsley.",
        "
        1 cabbage -> 1
        2 tbsp salt -> 1
        1 tbsp ginger -> 2 rest
        4 cloves garlic -> 2 rest

        Toss the cabbage with the salt.
        Mix in the remaining ingredients.",
        "
        1 cup oats -> 1
        1/2 cup raisins -> 1
        1/4 cup honey -> 2

        Stir the first two ingredients together.
        Pour over the honey.",
        // All of them, but those that come later by name.
        "
        1 cup lentils -> 1
        1 onion -> 1
        1 lemon -> 2 juice

        Simmer all the ingredients for 30 minutes.
        Sharpen with the lemon juice.",
    ] {
        check(case);
    }
}

#[test]
fn kinds_of_food() {
    check(
        "
        1 carrot -> 1
        2 parsnips -> 1
        1 tsp ground cumin -> 2
        1 tsp turmeric -> 2
        4 oz cheddar -> 3
        1/2 cup walnuts -> 4

        Roast the vegetables.
        Toast the spices.
        Grate the cheese.
        Chop the nuts.",
    );
}

#[test]
fn parts() {
    for case in [
        "
        4 eggs, separated -> 1 yolk, 2 white
        1 lemon, zest and juice -> 1 zest, 3 juice

        Beat the yolks with the zest.
        Whip the egg whites.
        Stir in the juice.",
        "
        zest of 1 orange -> 1 zest

        Rub in the orange zest.",
        "
        1 head garlic -> 1

        Peel the cloves.",
    ] {
        check(case);
    }
}

#[test]
fn shares() {
    for case in [
        "
        1 cup (200 g) sugar, divided -> 1 75%, 2 rest
        1 orange, zest and juice -> 2 juice 50%, 3 juice rest

        Beat 3/4 cup of the sugar with a fork.
        Stir in the rest of the sugar and half the juice.
        Serve with the rest of the juice.",
        // All of it is claimed by shares: chopping it takes nothing.
        "
        6 oz chocolate -> (1), 2 50%, 3 50%

        Chop the chocolate.
        Melt half the chocolate.
        Scatter over the other half of the chocolate.",
        "
        2 tbsp soy sauce -> 1 50%, 2 50%

        Add 1 tbsp soy sauce.
        Finish with 1 tbsp of the soy sauce.",
    ] {
        if case.contains("other half") {
            // "The other half" is what is left.
            check(&case.replace("3 50%", "3 rest"));
        } else {
            check(case);
        }
    }
}

#[test]
fn alternatives_and_pairs() {
    for case in [
        "
        butter or oil -> 1
        salt and pepper -> 2
        1 cup vegetable or chicken stock -> 2

        Heat the oil.
        Pour in the stock and season with salt and pepper.",
        "
        2 chicken breasts or thighs -> 1

        Brown the chicken.",
    ] {
        check(case);
    }
}

#[test]
fn results_have_names_of_their_own() {
    check(
        "
        2 lb rhubarb -> 1
        1 cup flour -> 2
        2 tbsp butter -> 2

        Toss the rhubarb. => fruit
        Rub the butter into the flour. => crumble
        Tip the fruit into a dish and scatter over the crumble.",
    );
}

#[test]
fn what_the_list_lacks() {
    for case in [
        "
        1 cup flour -> 1
        ? honey -> 1
        ? raisins -> 2

        Mix the flour with 2 tbsp honey and 1 cup water.
        Fold in the raisins.",
        // Remarks, parentheses and cues ask for nothing.
        "
        1 cup rice -> 1

        Boil the rice (or barley). Lots of other grains can be added, such as quinoa.",
    ] {
        check(case);
    }
}
