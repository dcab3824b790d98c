//! `form-disagrees`: the list has it in one form, and a step asks for another.

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{orders, words},
};
use crate::{
    larder::words::fold,
    recipe::{
        Ingredient, Recipe,
        language::{clause::Sense, token::Token},
        mentions::{Link, Mention, Target},
    },
};

/// The check.
pub const CHECK: Check =
    Check { code: "form-disagrees", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Forms that no food has at once; folded. Common practice, no source.
const OPPOSITE: &[(&str, &str)] = &[
    ("fresh", "dried"),
    ("ground", "whole"),
    ("salted", "unsalted"),
    ("sweetened", "unsweetened"),
    ("frozen", "fresh"),
    ("canned", "dried"),
    ("boneless", "bone-in"),
    ("skinless", "skin-on"),
];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for mention in &recipe.flow.mentions {
        let [Target::Ingredient(index, _)] = mention.targets.as_slice() else { continue };
        let Some(line) = recipe.ingredient(*index).filter(|line| !line.alternatives) else { continue };
        if mention.sense == Sense::Use && mention.link <= Link::Part {
            let fault = form(recipe, line, mention).or_else(|| taken_apart(recipe, line, mention)).or_else(|| with_juice(recipe, line, mention));
            out.extend(fault.map(|(listed, asked)| finding(recipe, line, mention, &listed, &asked)));
        }
    }
}

/// The words of a line that say its form: those of the first name, and those behind it.
fn says(recipe: &Recipe, line: &Ingredient, word: &str) -> bool {
    recipe.at(line.span).split(|c: char| !(c.is_alphabetic() || c == '-')).any(|own| fold(own) == word)
}

/// "Fresh" in the list, "dried" before the name in the step; or the other way round.
fn form(recipe: &Recipe, line: &Ingredient, mention: &Mention) -> Option<(String, String)> {
    let before: Vec<&Token> = orders::words_before(recipe, mention).take(2).collect();
    let inside = recipe.at(mention.span);
    let asks = |word: &str| {
        before.iter().any(|token| token.word(word)) || inside.split(' ').any(|own| fold(own.trim_matches('[')) == word)
    };
    OPPOSITE.iter().flat_map(|(one, other)| [(*one, *other), (*other, *one)]).find_map(|(listed, asked)| {
        let differs = says(recipe, line, listed) && !says(recipe, line, asked) && asks(asked) && !asks(listed);
        differs.then(|| (listed.to_owned(), asked.to_owned()))
    })
}

/// "1 egg, beaten" in the list, "separate the egg" in the step.
fn taken_apart(recipe: &Recipe, line: &Ingredient, mention: &Mention) -> Option<(String, String)> {
    let egg = line.names.iter().filter_map(|name| name.food).any(|food| food.is("egg"));
    let beaten = ["beaten", "whisked"].into_iter().find(|word| says(recipe, line, word))?;
    let separate = orders::words_before(recipe, mention).find(|token| token.word("separate"));
    (egg && separate.is_some()).then(|| (beaten.to_owned(), "whole, to take apart".to_owned()))
}

/// "1 can tomatoes, drained" in the list, "the tomatoes and their juice" in the step.
fn with_juice(recipe: &Recipe, line: &Ingredient, mention: &Mention) -> Option<(String, String)> {
    let juice = match orders::behind(recipe, mention) {
        [and, their, juice, ..] => {
            and.one_of(&["and", "with"])
                && their.one_of(&["their", "its", "the"])
                && juice.one_of(&["juice", "liquid", "brine"])
        }
        _ => false,
    };
    (juice && says(recipe, line, "drained") && !says(recipe, line, "reserved"))
        .then(|| ("drained".to_owned(), "with its juice".to_owned()))
}

fn finding(recipe: &Recipe, line: &Ingredient, mention: &Mention, listed: &str, asked: &str) -> Finding {
    let name = words::ingredient(recipe, line);
    let message = format!(
        "The list has the {name} {listed}, and {} wants {it} {asked}. Whoever has bought or prepared {it} by the list cannot \
         do that: make the two agree.",
        words::step(recipe, mention.step),
        it = words::it(&name),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, mention.span, message).certainty(Certainty::Likely);
    found.related(line.mark, "listed here")
}
