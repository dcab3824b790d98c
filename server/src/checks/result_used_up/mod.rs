//! `result-used-up`: a share of a result is taken after the rest of it has been.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{shares, words},
};
use crate::{
    recipe::{
        Recipe,
        flow::{Balance, Taken},
        mentions::{Share, Target},
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "result-used-up", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let results = view.recipe.flow.balances.iter().filter(|balance| matches!(balance.target, Target::Result(_)));
    for balance in results {
        let rest = balance.claims.iter().position(|claim| claim.taken == Taken::Rest);
        let behind = rest.map_or(balance.claims.len(), |rest| rest + 1);
        out.extend((behind..balance.claims.len()).filter_map(|at| finding(view.recipe, balance, at)));
    }
}

fn finding(recipe: &Recipe, balance: &Balance, at: usize) -> Option<Finding> {
    let claim = balance.claims.get(at)?;
    let mention = recipe.flow.mentions.get(claim.mention)?;
    // 'The rest' after the rest is told by another check; a mention without a share never runs out.
    let takes = matches!(claim.taken, Taken::Fraction(..) | Taken::Amount(..) | Taken::Some)
        && mention.share != Share::RestAgain;
    let rest = balance.claims.get(..at)?.iter().rev().find(|claim| claim.taken == Taken::Rest)?;
    let rest = recipe.flow.mentions.get(rest.mention)?;
    if !takes || [mention, rest].into_iter().any(|mention| !mention.marked || shares::is_doubtful(recipe, mention)) {
        return None;
    }
    let name = words::target(recipe, balance.target);
    let message = format!(
        "{} takes some of the {name}, but {} has taken what was left. A cook has none here: take less there, or use \
         something else.",
        words::sentence(&words::step(recipe, mention.step)),
        words::step(recipe, rest.step)
    );
    let found = Finding::new(CHECK.code, CHECK.severity, mention.span, message).certainty(Certainty::Likely);
    // The earlier one takes what this one took, and this one what is left.
    let moved = shares::said(recipe, rest).zip(shares::said(recipe, mention));
    let earlier = moved.map(|(here, there)| Edit::replace(here, recipe.at(there)));
    let edits = earlier.into_iter().chain(shares::take_rest(recipe, mention)).collect();
    let title = format!("Take the rest of the {name} only in {}", words::step(recipe, mention.step));
    Some(found.related(rest.span, "the rest is taken here").fix(Fix::new(title, edits)))
}
