//! `optional-needed`: the list says optional, and the method uses it without an if.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{orders, shares, words},
};
use crate::{
    recipe::{
        Ingredient, Recipe,
        language::{
            clause::Sense,
            lexicon::Roles,
            token::{Token, TokenKind},
        },
        mentions::{Link, Mention},
    },
    text::{Edit, Words},
};

/// The check.
pub const CHECK: Check =
    Check { code: "optional-needed", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

/// Words with which a step leaves it to the cook, folded.
const LEAVES_OPEN: Words =
    Words::new("if optional optionally desired using like or may can could any wish want prefer");

/// What comes on top, and can be left off without a word.
const ON_TOP: Words = Words::new("serve garnish top sprinkle scatter dust drizzle decorate finish crumble pass");

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
    let open = sentence.iter().any(|token| token.one_among(&LEAVES_OPEN)) || has_company(recipe, mention, sentence);
    !open && orders::verb(recipe, mention).is_some_and(|verb| !verb.one_among(&ON_TOP))
}

/// Whether its sentence has another thing of the list to go on with: one fewer in the bowl needs no word.
fn has_company(recipe: &Recipe, mention: &Mention, sentence: &[Token]) -> bool {
    recipe.flow.mentions.iter().any(|other| {
        let here = other.step == mention.step && sentence.iter().any(|token| other.span.contains(token.span));
        let listed = other.targets.iter().any(|target| target.ingredient().is_some());
        here && listed && other.targets != mention.targets
    })
}

/// "(if using)" behind the name, where the name ends there.
fn left_open(recipe: &Recipe, mention: &Mention) -> Option<Fix> {
    let next = orders::behind(recipe, mention).first();
    let ends = next.is_none_or(|next| {
        next.kind != TokenKind::Word || next.is(Roles::SMALL.and(Roles::CUE)) || next.fold.ends_with("ly")
    });
    let edit = Edit::insert(mention.span.end, " (if using)");
    ends.then(|| Fix::new("Add “(if using)”", vec![edit]))
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
    left_open(recipe, mention).into_iter().fold(found.related(line.mark, "optional here"), Finding::fix)
}
