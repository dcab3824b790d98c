//! `part-used-up`: whole eggs have gone in, and then a step asks for their whites or yolks.

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{orders, shares, words},
};
use crate::recipe::{
    Ingredient, Recipe,
    flow::Taken,
    language::clause::Sense,
    mentions::{Link, Mention, Target},
};
use crate::text::Words;

/// The check.
pub const CHECK: Check =
    Check { code: "part-used-up", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Orders behind which no egg is whole any more. Eggs that are added to boiling water or broken into a pan still are.
const MIXES: Words = Words::new("beat whisk stir mix blend work fold whip combine knead");

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| is_eggs(line)) {
        let whole = recipe.flow.balances.iter().find(|balance| balance.target == Target::Ingredient(index, None));
        let whole = whole.into_iter().flat_map(|balance| &balance.claims).filter(|claim| claim.taken == Taken::Whole);
        let gone =
            whole.filter_map(|claim| recipe.flow.mentions.get(claim.mention)).find(|mention| goes_in(recipe, mention));
        let part = gone.and_then(|gone| Some((gone, first_part_behind(recipe, index, gone)?)));
        out.extend(part.map(|(gone, part)| finding(recipe, line, gone, part)));
    }
}

fn is_eggs(line: &Ingredient) -> bool {
    let part = |name: &str| line.parts.iter().any(|part| part.name == name);
    let egg =
        line.names.iter().any(|name| name.part.is_none() && name.food.is_some_and(|food| food.part("yolk").is_some()));
    // "3 eggs, separated", "plus 1 white": the list itself takes them apart.
    egg && !line.tags.more && !part("yolk") && !part("white")
}

/// Whether the eggs are beaten or stirred in as they are, and the step takes none apart.
fn goes_in(recipe: &Recipe, mention: &Mention) -> bool {
    let step = recipe.steps.get(mention.step).map(|step| step.tokens.as_slice()).unwrap_or_default();
    let apart = step.iter().any(|token| token.one_of(&["separate", "separated", "yolk", "white", "divide"]));
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    let open = sentence.iter().any(|token| token.one_of(&["or", "if", "some", "one"]));
    let put_in = orders::verb(recipe, mention).is_some_and(|verb| verb.one_among(&MIXES));
    put_in && !apart && !open && mention.link <= Link::Partial
}

fn first_part_behind<'r>(recipe: &'r Recipe, index: usize, gone: &Mention) -> Option<&'r Mention> {
    recipe.flow.mentions.iter().find(|mention| {
        mention.step > gone.step
            && mention.sense == Sense::Use
            && matches!(mention.targets.as_slice(), [Target::Ingredient(target, Some("yolk" | "white"))] if *target == index)
    })
}

fn finding(recipe: &Recipe, line: &Ingredient, gone: &Mention, part: &Mention) -> Finding {
    let name = words::ingredient(recipe, line);
    let asked = words::plain(recipe.at(part.span).trim_matches(['[', ']']));
    let message = format!(
        "{} asks for the {asked}, and {} has put in the whole {name}. A cook has none to take apart any more: separate {it} \
         first, or list more.",
        words::sentence(&words::step(recipe, part.step)),
        words::step(recipe, gone.step),
        it = words::it(&name),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, part.span, message).certainty(Certainty::Likely);
    found.related(gone.span, "all of it goes in here")
}
