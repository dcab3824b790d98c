//! A recipe in which every mention is marked is understood exactly: who takes how much of what, parts, groups and results; and
//! none of the checks that ask who uses what says a word.

use std::{collections::BTreeSet, sync::Arc};

use proptest::prelude::*;
use tamis::{book::House, recipe::mentions::Target, workspace::Manuscript};

use super::{Recipe, Taken, recipe};

const FOODS: &[&str] = &[
    "rye flour",
    "brown sugar",
    "unsalted butter",
    "whole milk",
    "sour cream",
    "white vinegar",
    "red onion",
    "leek",
    "parsnip",
    "green lentils",
    "pearl barley",
    "dried apricots",
    "walnuts",
    "goat cheese",
    "ground cumin",
    "cider",
    "honey",
    "olive oil",
    "plum jam",
    "cocoa powder",
];

/// What a step makes, by the number of the step.
const RESULTS: &[&str] = &["slurry", "base", "paste", "filling", "mixture"];

/// The checks that ask who uses what.
const LINKING: &[&str] =
    &["ingredient-unused", "ingredient-unlisted", "mention-ambiguous", "share-exceeds", "share-left-over"];

/// What is cooked: all that the text is written from, and what has to be read out of it again.
#[derive(Debug, Clone)]
struct Dish {
    steps: usize,
    /// The foods, and for each of them which step takes how many of its eight ounces; the last takes the rest.
    foods: Vec<(&'static str, Vec<(usize, u32)>)>,
    /// Foods under a heading of their own, and the step that takes them all together.
    topping: (Vec<&'static str>, usize),
    /// The steps that take the zest and the juice of the lemons.
    lemons: (usize, usize),
    /// The steps that name what they have made; the next one takes it.
    made: BTreeSet<usize>,
}

/// The shares of one ingredient: which step takes how many ounces.
fn shares(steps: usize) -> impl Strategy<Value = Vec<(usize, u32)>> {
    let places = proptest::sample::subsequence((0..steps).collect::<Vec<_>>(), 1..=steps.min(3));
    (places, proptest::collection::vec(1..3u32, 3))
        .prop_map(|(places, ounces)| places.into_iter().zip(ounces).collect())
}

fn dish() -> impl Strategy<Value = Dish> {
    (1..6usize, 2..12usize, 0..4usize).prop_flat_map(|(steps, plain, topped)| {
        let names =
            proptest::sample::subsequence(FOODS, plain + topped).prop_map(|names| names.to_vec()).prop_shuffle();
        let made = proptest::sample::subsequence((1..steps).collect::<Vec<_>>(), 0..steps);
        (names, proptest::collection::vec(shares(steps), plain), 0..steps, (0..steps, 0..steps), made).prop_map(
            move |(names, shares, at, lemons, made)| Dish {
                steps,
                foods: names.iter().copied().zip(shares).collect(),
                topping: (names[plain..].to_vec(), at),
                lemons,
                made: made.into_iter().map(|step| step - 1).collect(),
            },
        )
    })
}

impl Dish {
    fn text(&self) -> String {
        let mut text = String::from("Recipe: Trial\n\nIngredients:\n");
        for (name, _) in &self.foods {
            text.push_str(&format!("- 8 oz {name}\n"));
        }
        text.push_str("- 2 lemons, zest and juice\n");
        if !self.topping.0.is_empty() {
            text.push_str("\nFor the topping:\n");
            text.extend(self.topping.0.iter().map(|name| format!("- 8 oz {name}\n")));
        }
        text.push_str("\nMethod:\n");
        for (step, made) in RESULTS.iter().enumerate().take(self.steps) {
            let mentions: Vec<String> = self.mentions(step).iter().map(|words| format!("the [{words}], ")).collect();
            let result = if self.made.contains(&step) { format!(" => {made}") } else { String::new() };
            text.push_str(&format!("\n{}. Now work with {}and stir.{result}\n", step + 1, mentions.concat()));
        }
        text
    }

    fn mentions(&self, step: usize) -> Vec<String> {
        let mut out = Vec::new();
        if step > 0 && self.made.contains(&(step - 1)) {
            out.push(RESULTS[step - 1].to_owned());
        }
        for (name, shares) in &self.foods {
            let Some(place) = shares.iter().position(|(at, _)| *at == step) else { continue };
            out.push(match shares.len() {
                1 => (*name).to_owned(),
                all if place + 1 == all => format!("the rest of the {name}"),
                _ => format!("{} oz of the {name}", shares[place].1),
            });
        }
        let (zest, juice) = self.lemons;
        out.extend((zest == step).then(|| "lemon zest".to_owned()));
        out.extend((juice == step).then(|| "lemon juice".to_owned()));
        out.extend((!self.topping.0.is_empty() && self.topping.1 == step).then(|| "topping ingredients".to_owned()));
        out
    }

    /// For each line of the list the steps, with the part and the share that each of them takes.
    fn uses(&self) -> Vec<Vec<String>> {
        let food = |(_, shares): &(&str, Vec<(usize, u32)>)| {
            let shares = shares.iter().enumerate().map(|(place, (step, ounces))| match shares.len() {
                1 => format!("{step} all"),
                all if place + 1 == all => format!("{step} rest"),
                _ => format!("{step} {ounces}"),
            });
            shares.collect::<Vec<String>>()
        };
        let mut lemons = [(self.lemons.0, "zest"), (self.lemons.1, "juice")];
        lemons.sort_by_key(|(step, _)| *step);
        let lemons = lemons.iter().map(|(step, part)| format!("{step} {part} all")).collect();
        let topping = self.topping.0.iter().map(|_| vec![format!("{} all", self.topping.1)]);
        self.foods.iter().map(food).chain([lemons]).chain(topping).collect()
    }
}

fn read_uses(recipe: &Recipe, line: usize) -> Vec<String> {
    let uses = recipe.flow.uses(line).into_iter().map(|found| {
        let taken = match found.taken {
            Taken::Whole => "all".to_owned(),
            Taken::Rest => "rest".to_owned(),
            Taken::Amount(_, Some((least, _))) => format!("{}", (least * 8.0).round()),
            other => format!("{other:?}"),
        };
        let part = found.part.map(|part| format!(" {part}")).unwrap_or_default();
        format!("{}{part} {taken}", found.step)
    });
    uses.collect()
}

/// The steps that make something, each with the steps that take it.
fn read_results(recipe: &Recipe) -> Vec<(usize, Vec<usize>)> {
    let takers = |result: usize| {
        let own = recipe.flow.balances.iter().find(|balance| balance.target == Target::Result(result));
        let claims = own.into_iter().flat_map(|balance| &balance.claims);
        claims.filter_map(|claim| recipe.flow.mentions.get(claim.mention)).map(|mention| mention.step).collect()
    };
    recipe.flow.results.iter().enumerate().map(|(index, result)| (result.step, takers(index))).collect()
}

proptest! {
    #[test]
    fn every_marked_mention_is_exact(dish in dish()) {
        let text = dish.text();
        let recipe = recipe(&text);
        let found: Vec<Vec<String>> = (0..recipe.ingredients.len()).map(|line| read_uses(&recipe, line)).collect();
        prop_assert_eq!(found, dish.uses(), "in\n{}", &text);
        let made: Vec<(usize, Vec<usize>)> = dish.made.iter().map(|step| (*step, vec![step + 1])).collect();
        prop_assert_eq!(read_results(&recipe), made, "in\n{}", &text);
        let findings = Manuscript::new(&text, Arc::<House>::default()).findings();
        let said: Vec<&str> = findings.iter().filter(|one| LINKING.contains(&one.code)).map(|one| &*one.message).collect();
        prop_assert!(said.is_empty(), "{said:?} in\n{text}");
    }
}
