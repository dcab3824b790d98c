//! `divided-missing`: several steps take of it, and the line does not say so.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, orders, shares, words},
};
use crate::{
    recipe::{
        Ingredient, Recipe,
        flow::Taken,
        mentions::{Link, Mention, Target},
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "divided-missing", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for balance in &recipe.flow.balances {
        let Target::Ingredient(index, None) = balance.target else { continue };
        let Some(line) = recipe.ingredient(index).filter(|line| !says_so(recipe, line)) else { continue };
        let taking: Vec<&Mention> = balance
            .claims
            .iter()
            .filter(|claim| claim.taken != Taken::Nothing)
            .filter_map(|claim| recipe.flow.mentions.get(claim.mention))
            .filter(|mention| mention.link <= Link::Part && !is_taken_out(recipe, mention))
            .collect();
        let shared = balance.claims.iter().any(|claim| match claim.taken {
            Taken::Fraction(..) | Taken::Rest => true,
            Taken::Amount(_, fraction) => fraction.is_some_and(|(_, most)| most < 1.0),
            _ => false,
        });
        let mut steps: Vec<usize> = taking.iter().map(|mention| mention.step).collect();
        steps.dedup();
        let doubtful =
            |mention: &&Mention| shares::is_doubtful(recipe, mention) || shares::is_poured_off(recipe, mention);
        if steps.len() > 1 && shared && !taking.iter().any(doubtful) {
            out.push(finding(recipe, line, &steps, &taking));
        }
    }
}

/// "Remove the raisins": what has gone in before comes out again.
fn is_taken_out(recipe: &Recipe, mention: &Mention) -> bool {
    orders::verb(recipe, mention).is_some_and(|verb| verb.one_of(&["remove", "discard"]))
}

/// Whether the line already says that it is used more than once, or lists what nobody measures into one bowl: things that are
/// counted, another recipe, an amount to taste.
fn says_so(recipe: &Recipe, line: &Ingredient) -> bool {
    let tags = line.tags;
    let counted =
        line.amount.and_then(|index| recipe.measures.get(index)).is_some_and(|measure| measure.count().is_some());
    counted
        || tags.divided
        || tags.more
        || tags.taste
        || tags.serving
        || tags.pan
        || line.reference.is_some()
        || line.amount.is_none()
}

fn finding(recipe: &Recipe, line: &Ingredient, steps: &[usize], taking: &[&Mention]) -> Finding {
    let name = words::ingredient(recipe, line);
    let message = format!(
        "{} take of the {name}, and the line does not say “divided”. A cook who measures all of it into the first bowl has \
         none for the next.",
        words::sentence(&words::steps(recipe, steps.iter().copied()))
    );
    let mut found = Finding::new(CHECK.code, CHECK.severity, line.mark, message).certainty(Certainty::Likely);
    for mention in taking {
        found = found.related(mention.span, "taken here");
    }
    let end = list::end_of_words(recipe, line.span);
    found.fix(Fix::safe(format!("Say that the {name} is divided"), vec![Edit::insert(end, ", divided")]))
}
