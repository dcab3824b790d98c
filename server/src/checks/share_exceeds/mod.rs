//! `share-exceeds`: the shares that steps take add up to more than there is.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{shares, words},
};
use crate::{
    measure::{Amount, round_number},
    recipe::{
        Recipe,
        flow::{Balance, Claim, NEARLY},
        mentions::Mention,
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "share-exceeds", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let over = view.recipe.flow.balances.iter().filter(|balance| balance.exceeds());
    out.extend(over.filter_map(|balance| finding(view, balance)));
}

fn finding(view: &View<'_>, balance: &Balance) -> Option<Finding> {
    let recipe = view.recipe;
    let claims = shares::definite(recipe, balance);
    if claims.iter().any(|(_, mention)| shares::is_doubtful(recipe, mention)) {
        return None;
    }
    let too_much = claims.get(first_over(&claims)?..)?;
    let (_, last) = *too_much.first()?;
    let name = words::target(recipe, balance.target);
    let whole = shares::listed(recipe, balance);
    let sum = whole.and_then(|whole| shares::total(recipe, &view.house.measures, whole, &claims));
    let taking = shares::taking(recipe, &claims, &name);
    let message = match (&sum, whole.map(|whole| words::plain(recipe.at(whole.span)))) {
        (Some(_), Some(listed)) if claims.len() == 1 => format!("{taking}, and the list has {listed}."),
        (Some(sum), Some(listed)) => format!("{taking}, together {}; the list has {listed}.", words::amount(view, sum)),
        _ => format!("{taking}: more than there is."),
    };
    let message = format!("{message} A cook runs out here.");
    let certainty = if claims.iter().all(|(_, mention)| mention.marked) { Certainty::Sure } else { Certainty::Likely };
    let mut found = Finding::new(CHECK.code, CHECK.severity, last.span, message).certainty(certainty);
    for (claim, mention) in claims.iter().filter(|(_, mention)| mention.span != last.span) {
        found = found
            .related(mention.span, format!("{} is taken here", words::share(recipe, claim.taken).unwrap_or_default()));
    }
    if let Some(index) = balance.target.ingredient() {
        found = found.related(recipe.ingredient(index)?.mark, "this is all there is");
    }
    let fixes = set_list(view, balance, sum.as_ref()).into_iter().chain(rest(recipe, &claims, last, &name));
    Some(fixes.fold(found, Finding::fix))
}

/// The claim with which even the least that is meant comes to more than the whole.
fn first_over(claims: &[(&Claim, &Mention)]) -> Option<usize> {
    let mut sum = 0.0;
    claims.iter().position(|(claim, _)| {
        sum += shares::fraction(claim).map_or(0.0, |(least, _)| least);
        sum > 1.0 + NEARLY
    })
}

/// The list with the sum, and its restatements with as much more.
fn set_list(view: &View<'_>, balance: &Balance, sum: Option<&Amount>) -> Option<Fix> {
    let recipe = view.recipe;
    let index = balance.target.ingredient()?;
    let measure = recipe.measures.get(recipe.ingredient(index)?.amount?)?;
    let (sum, [term]) = (sum?, measure.stated.terms.as_slice()) else { return None };
    let had = term.amount()?.number;
    let factor = sum.number.least / had.least;
    if !factor.is_finite() || !had.is_exact() || !sum.number.is_exact() || !measure.each.is_empty() {
        return None;
    }
    let mut edits = vec![Edit::replace(measure.stated.span, words::amount(view, sum))];
    for stated in &measure.restated {
        let [term] = stated.terms.as_slice() else { return None };
        let amount = term.amount()?;
        let number =
            amount.number.map(|number| amount.unit.map_or(number * factor, |unit| round_number(number * factor, unit)));
        edits.push(Edit::replace(stated.span, words::amount(view, &Amount::new(number, amount.unit))));
    }
    let name = words::target(recipe, balance.target);
    Some(Fix::new(format!("List {} of the {name}", words::amount(view, sum)), edits))
}

/// The last share as the rest, where the others leave one.
fn rest(recipe: &Recipe, claims: &[(&Claim, &Mention)], last: &Mention, name: &str) -> Option<Fix> {
    let others = claims.iter().filter(|(_, mention)| mention.span != last.span);
    let taken: f64 = others.filter_map(|(claim, _)| shares::fraction(claim)).map(|(least, _)| least).sum();
    let leaves =
        taken > 0.0 && taken < 1.0 - NEARLY && claims.last().is_some_and(|(_, mention)| mention.span == last.span);
    leaves.then(|| {
        Fix::new(
            format!("Take the rest of the {name} in {}", words::step(recipe, last.step)),
            shares::take_rest(recipe, last),
        )
    })
}
