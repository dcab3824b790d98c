//! `optional-needed`: the list says optional, and the method uses it without an if.

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{orders, shares, words},
};
use crate::recipe::{
    Ingredient, Recipe,
    language::clause::Sense,
    mentions::{Link, Mention},
};

/// The check.
pub const CHECK: Check =
    Check { code: "optional-needed", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

/// Words with which a step leaves it to the cook, folded.
const LEAVES_OPEN: &[&str] = &[
    "if", "optional", "optionally", "desired", "using", "like", "or", "may", "can", "could", "any", "wish", "want", "prefer",
];

/// What comes on top, and can be left off without a word.
const ON_TOP: &[&str] = &["serve", "garnish", "top", "sprinkle", "scatter", "dust", "drizzle", "decorate", "finish", "crumble", "pass"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let optional = recipe.ingredients.iter().enumerate().filter(|(_, line)| line.tags.optional && !line.tags.serving);
    for (index, line) in optional {
        let uses: Vec<&Mention> = recipe.flow.mentions.iter().filter(|mention| means(mention, index)).collect();
        if let Some(first) = uses.first().filter(|_| uses.iter().all(|mention| is_needed(recipe, mention))) {
            out.push(finding(recipe, line, first));
        }
    }
}

fn means(mention: &Mention, index: usize) -> bool {
    let one = mention.targets.len() == 1 && mention.targets.iter().any(|target| target.ingredient() == Some(index));
    one && mention.sense == Sense::Use && mention.link <= Link::Part
}

fn is_needed(recipe: &Recipe, mention: &Mention) -> bool {
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    let open = sentence.iter().any(|token| token.one_of(LEAVES_OPEN));
    !open && orders::verb(recipe, mention).is_some_and(|verb| !verb.one_of(ON_TOP))
}

fn finding(recipe: &Recipe, line: &Ingredient, mention: &Mention) -> Finding {
    let name = words::ingredient(recipe, line);
    let message = format!(
        "The list calls the {name} optional, and {} uses {it} like anything else. A cook who has left {it} out wonders \
         whether the step still holds: add “if using”.",
        words::step(recipe, mention.step),
        it = words::it(&name),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, mention.span, message).certainty(Certainty::Guess);
    found.related(line.mark, "optional here")
}
