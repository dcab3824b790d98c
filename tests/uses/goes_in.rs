//! What goes in in each step, in both systems, and what is left: manuscripts of a few lines and the rows they give.
//!
//! A US cup holds 236.6 ml and an avoirdupois ounce weighs 28.35 g (NIST Handbook 44, Appendix C); what a cup of a food weighs is
//! the larder's. Amounts are rounded as a kitchen measures them (common practice, no source).

use tamis::{
    assist::{goes_in, left_over},
    book::House,
};

use super::recipe;

/// A list, a blank line and steps; then the rows `step | name | amount | left`, and `- | name | what is left in the end`.
fn check(list_and_method: &str, expected: &str) {
    let (list, method) =
        list_and_method.trim().split_once("\n\n").expect("a blank line stands between list and method");
    let lines = |text: &str| text.lines().map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>().join("\n");
    let steps = lines(method).replace('\n', "\n\n");
    let text = format!("Recipe: Trial\n\nIngredients:\n{}\n\nMethod:\n\n{steps}\n", lines(list));
    let (recipe, house) = (recipe(&text), House::default());
    let said = |words: Option<String>| words.unwrap_or_else(|| "?".to_owned());
    let mut rows = Vec::new();
    for step in 0..recipe.steps.len() {
        for one in goes_in(&recipe, &house, step) {
            let all = if one.all { " (all)" } else { "" };
            rows.push(format!("{} | {} | {}{all} | {}", step + 1, one.name, said(one.amount), said(one.left)));
        }
    }
    for index in 0..recipe.ingredients.len() {
        let left = left_over(&recipe, &house, index);
        let name = recipe.at(recipe.ingredients[index].mark);
        rows.extend(left.filter(|left| left != "nothing").map(|left| format!("- | {name} | {left}")));
    }
    assert_eq!(rows.join("\n"), lines(expected), "in\n{text}");
}

#[test]
fn shares_and_rests_in_both_systems() {
    check(
        "
        - 1 cup (200 g) sugar
        - 8 oz butter
        - 2 cups milk

        Beat the butter with half the sugar.
        Pour in 1/2 cup of the milk and 100 g of the sugar.
        Warm the rest of the milk.",
        "
        1 | butter | 8 oz (225 g) (all) | nothing
        1 | sugar | 1/2 cup (100 g) | 1/2 cup (100 g)
        2 | milk | 1/2 cup (120 ml) | 1 1/2 cups (350 ml)
        2 | sugar | 100 g (3 1/2 oz) | nothing
        3 | milk | 1 1/2 cups (350 ml) | nothing",
    );
}

#[test]
fn parts_and_what_has_no_amount() {
    check(
        "
        - 4 eggs, separated
        - 1 lemon, zest and juice
        - 300 g flour
        - salt

        Whisk the yolks with the zest and half the juice.
        Stir in the flour and salt.
        Beat the whites and fold them in with the rest of the juice.",
        "
        1 | yolks of the eggs | ? (all) | nothing
        1 | zest of the lemon | ? (all) | nothing
        1 | juice of the lemon | half | half
        2 | flour | 300 g (10 1/2 oz) (all) | nothing
        2 | salt | ? (all) | nothing
        3 | whites of the eggs | ? (all) | nothing
        3 | juice of the lemon | half | nothing",
    );
}

#[test]
fn results_go_in_like_ingredients() {
    check(
        "
        - 1 lb (450 g) linguine
        - 2 tbsp olive oil

        Boil the linguine. => pasta, 1 cup pasta water
        Toss the pasta with the oil and half the pasta water.",
        "
        1 | linguine | 1 lb (450 g) (all) | nothing
        2 | pasta | ? (all) | nothing
        2 | olive oil | 2 tbsp (30 ml) (all) | nothing
        2 | pasta water | 1/2 cup (120 ml) | 1/2 cup (120 ml)",
    );
}

/// A word for many stands for its lines, and a step that only handles what is in the bowl takes nothing.
#[test]
fn words_for_many_line_by_line() {
    check(
        "
        - 1 cup (100 g) rye flour
        - 7 tbsp (100 g) butter

        Rub all the ingredients together.
        Scatter it over a tray.",
        "
        1 | rye flour | 1 cup (100 g) (all) | nothing
        1 | butter | 7 tbsp (100 g) (all) | nothing",
    );
}

/// What nobody can say is not said, and what no step takes stays at the end.
#[test]
fn some_of_it_and_too_little_of_it() {
    check(
        "
        - 1 cup walnuts
        - 1/2 cup (120 ml) cider
        - 2 leeks

        Scatter some of the walnuts over.
        Pour in 1/4 cup of the cider.",
        "
        1 | walnuts | some | ?
        2 | cider | 1/4 cup (60 ml) | 1/4 cup (60 ml)
        - | cider | 1/4 cup (60 ml)",
    );
}
