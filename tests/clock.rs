//! The clock: what a method does, for how long and until what, and what that comes to.

use std::sync::Arc;

use tamis::{
    recipe::{
        Recipe,
        clock::{ActKind, End, OvenTurn, Run, stated},
    },
    workspace::Manuscript,
};

/// A recipe with this method, and with this line `Time:` where it is not empty.
fn recipe(time: &str, method: &str) -> Arc<Recipe> {
    let time = if time.is_empty() { String::new() } else { format!("Time: {time}\n") };
    let list = "- 2 cups flour\n- 1 lb leeks\n- 1 cup rice\n- 2 eggs\n- 4 plums";
    let text = format!("Recipe: Supper\n{time}\nIngredients:\n{list}\n\nMethod:\n\n{method}\n");
    let manuscript = Manuscript::new(&text, Arc::default());
    let (_, recipe) = manuscript.recipes().next().expect("one recipe");
    recipe.clone()
}

/// Minutes of what comes from the clock in seconds.
fn minutes(recipe: &Recipe, end: End) -> f64 {
    (Run::of(recipe, end, &|_| true).total.value / 6.0).round() / 10.0
}

#[test]
fn a_verb_is_an_act_where_it_is_told() {
    use ActKind::*;
    let table: &[(&str, &[ActKind])] = &[
        ("Bake the rice.", &[Bake]),
        ("Boil, then simmer the rice and chill it.", &[Boil, Simmer, Chill]),
        ("Let the rice simmer. Leave to cool.", &[Simmer, Rest, Cool]),
        ("Continue baking. Keep frying.", &[Bake, Fry]),
        ("The rice should be baked.", &[]),
        ("The plums are boiled.", &[Boil]),
        ("Bring to a boil. Bring to boil.", &[Work, Work]),
        ("Serve the roast with cool plums.", &[Work]),
        ("Reduce the heat. Reduce the sauce.", &[Work, Reduce]),
        ("Put the rice in the refrigerator.", &[Chill]),
        ("Set the rice aside. Set it in the freezer.", &[Rest, Freeze]),
        ("Stir until it boils. Do not bake it.", &[Work]),
        ("Beat the eggs, flour, sugar, butter and salt.", &[Beat]),
        ("Deep-fry the leeks. Sauté the plums. Butter the tin.", &[Fry, Saute, Work]),
        ("Brown sugar melts. Brown the leeks.", &[Sear]),
    ];
    for (method, kinds) in table {
        let recipe = recipe("", method);
        let found: Vec<ActKind> = recipe.clock.acts.iter().map(|act| act.kind).collect();
        assert_eq!(found, *kinds, "{method}");
    }
}

#[test]
fn times_add_up_as_a_cook_means_them() {
    let table = [
        ("Bake for 20 to 30 minutes.", 20.0, 30.0),
        ("Bake 20 min. or until brown.", 20.0, 20.0),
        ("Bake for an hour and a half.", 90.0, 90.0),
        ("Simmer 4 hours, 30 minutes.", 270.0, 270.0),
        ("Fry 3 minutes a side.", 6.0, 6.0),
        ("Bake for 20 minutes, then for 5 minutes more.", 25.0, 25.0),
        ("Bake for 20 minutes. Uncover and bake for another 10 minutes.", 30.0, 30.0),
        ("Bake until brown. This takes about 15 minutes.", 15.0, 15.0),
        ("Chill for 2 hours or overnight.", 120.0, 720.0),
        ("Soak overnight.", 480.0, 720.0),
        ("Chill for up to 2 days.", 0.0, 2880.0),
        ("Bake for 40 minutes, turning every 10 minutes and covering for the last 5 minutes.", 40.0, 40.0),
        ("Add the plums 5 minutes before the end.", 0.0, 0.0),
        ("Cool for 1 hour before cutting.", 60.0, 60.0),
        ("Roast for 20 minutes a pound.", 0.0, 0.0),
        ("If it is pale, bake for 10 minutes.", 0.0, 0.0),
        ("Store in a tin for 3 weeks.", 0.0, 0.0),
        ("Boil the rice for 18 minutes.\n\nMeanwhile, fry the leeks for 10 minutes.", 18.0, 18.0),
        ("Boil the rice for 8 minutes.\n\nMeanwhile, fry the leeks for 10 minutes. Simmer for 5 minutes.", 15.0, 15.0),
        ("Boil the rice for 18 minutes.\n\nStir it into the plums and simmer for 10 minutes.", 28.0, 28.0),
        ("By hand: knead for 10 minutes.\n\nBy mixer: knead for 6 minutes.\n\nLet rise for 1 hour.", 70.0, 70.0),
        ("Boil the rice for 9 minutes. Meanwhile, fry the leeks for 2 minutes and simmer for 10 minutes.", 12.0, 12.0),
        ("Roast the leeks for 1 hour. Cook the rice for 20 minutes.", 60.0, 60.0),
        ("Roast the leeks for 1 hour. Stir in the rice and cook for 20 minutes.", 80.0, 80.0),
        ("Roast the leeks for 1 hour. As they roast, cook the rice for 20 minutes.", 60.0, 60.0),
        ("Fry the leeks for 10 minutes. Fry the rice for 10 minutes.", 20.0, 20.0),
        ("Bake the rice for 1 hour. Let it cool for 10 minutes.", 70.0, 70.0),
        ("Freeze for 3 weeks. Refrigerate leftovers for 3 days.", 0.0, 0.0),
        ("Chill the flour for 1 hour.\n\nIn another pan, cook the leeks for 20 minutes.", 60.0, 60.0),
    ];
    for (method, least, most) in table {
        let recipe = recipe("", method);
        assert_eq!((minutes(&recipe, End::Least), minutes(&recipe, End::Most)), (least, most), "{method}");
    }
}

#[test]
fn the_line_says_how_long_and_how_much_of_it_is_work() {
    let table = [
        ("35 min", Some(35.0), None),
        ("20 min active, 1 h 20 min total", Some(80.0), Some(20.0)),
        ("1 hour total (20 minutes active)", Some(60.0), Some(20.0)),
        ("Active: 15 min; Total: 2 hours", Some(120.0), Some(15.0)),
        ("20 min prep, 40 min cooking", Some(60.0), None),
        ("30 min plus chilling", None, None),
        ("30 min, plus overnight soaking", None, None),
        ("1 hour hands-on", None, Some(60.0)),
        ("1 day total", Some(1440.0), None),
    ];
    for (time, total, active) in table {
        let read = stated(&recipe(time, "Serve.")).expect(time);
        let found =
            (read.total.map(|total| total.least.value / 60.0), read.active.map(|(time, _)| time.least.value / 60.0));
        assert_eq!(found, (total, active), "{time}");
    }
}

#[test]
fn the_oven_is_followed() {
    use OvenTurn::*;
    let table: &[(&str, &[(OvenTurn, &str)])] = &[
        ("Heat the oven to 375°F (190°C).", &[(Heated, "375°F (190°C)")]),
        ("Preheat to 180°C and bake.", &[(Heated, "180°C"), (Used, "")]),
        ("Bake at 350 for 20 minutes.", &[(Used, "350")]),
        ("Bake in a moderate oven.", &[(Used, "")]),
        ("Bake for 10 minutes, then lower the oven to 160°C.", &[(Used, ""), (Changed, "160°C")]),
        ("Turn off the oven.", &[(Off, "")]),
        ("Roast to 165°F.", &[(Used, "")]),
        ("Roast until a thermometer reads 165°F.", &[(Used, "")]),
        ("Lower the heat and simmer.", &[]),
        ("Heat the oil to 350°F in a Dutch oven.", &[(MayBeUsed, "")]),
        ("Preheat the grill. Fry the leeks.", &[]),
        ("Oven: 400°F.", &[(Heated, "400°F")]),
        ("Put the plums in the oven and bake them at 200°C.", &[(Used, "200°C")]),
        ("Let the dough rise in the oven.", &[(MayBeUsed, "")]),
    ];
    for (method, expected) in table {
        let recipe = recipe("", method);
        let heat = |index: Option<usize>| {
            index.and_then(|index| recipe.measures.get(index)).map_or("", |measure| recipe.at(measure.span))
        };
        let found: Vec<(OvenTurn, &str)> =
            recipe.clock.oven.iter().map(|event| (event.turn, heat(event.heat))).collect();
        assert_eq!(found, *expected, "{method}");
    }
}
