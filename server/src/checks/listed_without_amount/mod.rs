//! `listed-without-amount`: a food that makes or breaks the dish stands in the list without an amount.

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{around, words},
};
use crate::recipe::{
    Ingredient, Recipe,
    batch::weigh,
    language::clause::Sense,
    mentions::{Link, Mention, Share},
};
use crate::text::Words;

/// The check.
pub const CHECK: Check =
    Check { code: "listed-without-amount", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// Kinds of food that a cook has to know how much of (common practice, no source). Oil, herbs, spices, salt, and vegetables that go
/// in by the piece are often left to the cook.
const NEEDED: &str = "flour; sugar; sweetener; syrup; starch; leavening; yeast; butter; milk; cream; yogurt; \
                      egg; meat; poultry; fish; rice; pasta; grain; stock; chocolate; cocoa; gelling agent";

/// Foods of those kinds that are served with a dish, or dust it, as often as they go into it.
const AT_WILL: &[&str] = &["herb", "spice", "cured meat", "decoration", "cooking spray", "salt", "wrapper"];

/// Words of a line that say that the cook decides. Folded.
const LOOSE: Words = Words::new(
    "some little few bit enough any plenty several handful pinch dash splash drizzle knob sprinkle \
    sprinkling taste needed desired required choice like for to or optional dusting extra more leftover \
    if serving such accompaniment topping a an one half dozen",
);

/// Words of a step with which it leaves the amount to the cook, or finishes a dish. Folded.
const AT_TABLE: Words = Words::new(
    "serve garnish sprinkle dust top drizzle scatter taste brush glaze grease dollop some little enough \
    few bit until desired want like optionally optional roll dip coat fry frying saute sauteing sweat \
    sweating sear searing brown browning soften baste basting",
);

/// So many lines of a list must have an amount, and so large a share of those that could, before it is one that gives amounts:
/// an old typescript that leaves them out does so throughout.
const LINES: usize = 3;
const SHARE: f64 = 0.7;

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let lines = || recipe.ingredients.iter().enumerate().filter(|(_, line)| !line.tags.remark);
    let bare: Vec<_> = lines().filter(|(_, line)| is_bare(recipe, line) && is_needed(line)).collect();
    if bare.is_empty() {
        return;
    }
    let measured = lines().filter(|(_, line)| line.amount.is_some()).count();
    let weighable = lines().filter(|(_, line)| line.amount.is_some() || is_needed(line)).count();
    if measured < LINES || (measured as f64) < SHARE * weighable as f64 || recipe.steps.is_empty() {
        return;
    }
    let bare = bare.into_iter().filter(|(index, _)| needs_amount(recipe, *index));
    out.extend(bare.map(|(_, line)| {
        let name = words::ingredient(recipe, line);
        let message = format!(
            "The list gives no amount of {name}, and it gives one of nearly everything else. A cook can neither shop for it nor \
             know when it is enough: write the amount, or “to taste” or “for the pan” where that is meant."
        );
        Finding::new(CHECK.code, CHECK.severity, line.mark, message).certainty(Certainty::Likely)
    }));
}

/// Whether a line is nothing but a name: no amount, no measure, no word that leaves it to the cook, no other recipe.
fn is_bare(recipe: &Recipe, line: &Ingredient) -> bool {
    let tags = line.tags;
    let tagged = tags.optional || tags.serving || tags.pan || tags.taste || tags.more || tags.remark;
    if tagged || !line.measures.is_empty() || line.reference.is_some() || line.alternatives {
        return false;
    }
    let text = recipe.at(line.span);
    let loose = text.split(|c: char| !c.is_alphabetic()).any(|word| LOOSE.contains_in_any_case(word));
    let numbers = text.contains(|c: char| c.is_numeric());
    !loose && !numbers
}

/// Whether the one food of a line is of a kind that needs an amount.
fn is_needed(line: &Ingredient) -> bool {
    let food = weigh::name(line).filter(|name| name.part.is_none()).and_then(|name| name.food);
    food.is_some_and(|food| NEEDED.split("; ").any(|kind| food.is(kind)) && !AT_WILL.iter().any(|kind| food.is(kind)))
}

/// Whether some step puts it in, and none says how much or leaves it to the cook.
fn needs_amount(recipe: &Recipe, index: usize) -> bool {
    let own = recipe
        .flow
        .mentions
        .iter()
        .filter(|mention| mention.targets.iter().any(|target| target.ingredient() == Some(index)));
    let used: Vec<&Mention> = own.filter(|mention| mention.sense == Sense::Use).collect();
    let sure = used.iter().any(|mention| mention.link < Link::Act);
    let told =
        used.iter().any(|mention| mention.measure.is_some() || !matches!(mention.share, Share::Whole | Share::Rest));
    sure && !told && !used.iter().any(|mention| at_will(recipe, mention))
}

fn at_will(recipe: &Recipe, mention: &Mention) -> bool {
    let words = around::words_in(recipe, around::sentence(recipe, mention.span));
    mention.link == Link::Act || words.iter().any(|word| AT_TABLE.contains(word))
}
