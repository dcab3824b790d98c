//! `rest-of-nothing`: 'the rest of' something of which nothing was taken before, or nothing is left.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{shares, words},
};
use crate::recipe::{
    Recipe,
    flow::{Balance, Claim, NEARLY, Taken},
    language::clause::Sense,
    mentions::{Link, Mention, Share, Target},
};

/// The check.
pub const CHECK: Check =
    Check { code: "rest-of-nothing", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for balance in &view.recipe.flow.balances {
        out.extend((0..balance.claims.len()).filter_map(|at| finding(view.recipe, balance, at)));
    }
}

/// What is wrong with a rest.
enum Fault {
    Untouched,
    Gone,
}

fn finding(recipe: &Recipe, balance: &Balance, at: usize) -> Option<Finding> {
    let claim = balance.claims.get(at)?;
    let mention = recipe.flow.mentions.get(claim.mention)?;
    let single = mention.targets.len() == 1 && mention.link < Link::Kind;
    let rest = matches!(mention.share, Share::Rest | Share::RestAmount(_));
    if !rest || mention.sense != Sense::Use || !single || only_kept(recipe, mention) {
        return None;
    }
    let fault = fault(recipe, balance, at, mention)?;
    let name = words::target(recipe, balance.target);
    let step = words::sentence(&words::step(recipe, mention.step));
    let message = match fault {
        Fault::Untouched => format!(
            "{step} takes the rest of the {name}, but no step before has used any. Either all of it is meant here, or an \
             earlier use is missing."
        ),
        Fault::Gone => format!(
            "{step} takes the rest of the {name}, but the steps before have taken all there was. A cook finds none left: \
             take less in an earlier step, or take this out."
        ),
    };
    let certainty = if mention.marked { Certainty::Sure } else { Certainty::Likely };
    let mut found = Finding::new(CHECK.code, CHECK.severity, mention.span, message).certainty(certainty);
    for earlier in balance.claims.get(..at)?.iter().filter(|claim| claim.taken != Taken::Nothing) {
        found = found.related(recipe.flow.mentions.get(earlier.mention)?.span, "used here");
    }
    let all = Fix::new(format!("Take all of the {name}"), shares::take_all(recipe, mention));
    Some(match fault {
        Fault::Untouched => found.fix(all),
        Fault::Gone => found,
    })
}

fn fault(recipe: &Recipe, balance: &Balance, at: usize, mention: &Mention) -> Option<Fault> {
    let earlier = balance.claims.get(..at)?;
    if earlier.is_empty() {
        return untouched(recipe, balance.target, mention).then_some(Fault::Untouched);
    }
    let took =
        |claim: &Claim| recipe.flow.mentions.get(claim.mention).is_some_and(|mention| mention.sense == Sense::Use);
    let all_marked =
        earlier.iter().all(|claim| recipe.flow.mentions.get(claim.mention).is_some_and(|mention| mention.marked));
    // Prose says 'the remaining butter' of what it has let melt before; only marks say exactly what is gone.
    if !mention.marked || !all_marked {
        return None;
    }
    let shared: f64 = earlier.iter().filter_map(shares::fraction).map(|(least, _)| least).sum();
    let gone = shared >= 1.0 - NEARLY || earlier.iter().any(|claim| matches!(claim.taken, Taken::Whole | Taken::Rest));
    (gone && earlier.iter().any(took)).then_some(Fault::Gone)
}

/// Whether nothing before the mention can have taken any of it: no part, no group, no act that needs such a food, no word for
/// many.
fn untouched(recipe: &Recipe, target: Target, mention: &Mention) -> bool {
    let before = recipe.flow.mentions.iter().take_while(|other| other.span.start < mention.span.start);
    let same = |other: &&Mention| match target {
        Target::Ingredient(index, _) => {
            other.link == Link::Loose || other.targets.iter().any(|target| target.ingredient() == Some(index))
        }
        _ => other.targets.contains(&target),
    };
    let food = target.ingredient().and_then(|index| recipe.ingredient(index)?.names.first()?.food);
    let acted = !mention.marked && food.is_some_and(|food| implied_before(recipe, mention, food));
    before.filter(same).count() == 0 && !acted
}

/// Acts that use some of a fat, a flour or a seasoning without naming it (common practice, no source).
fn implied_before(recipe: &Recipe, mention: &Mention, food: &crate::larder::Food) -> bool {
    let acts: &[&str] = match () {
        () if food.is("fat") || food.is("oil") => {
            &["grease", "greased", "butter", "buttered", "oil", "oiled", "fry", "saute", "brown"]
        }
        () if food.is("flour") || food.is("starch") => &["flour", "floured", "dust", "dredge", "knead"],
        () if food.is("seasoning") => &["season", "salt", "salted", "pepper"],
        () => return false,
    };
    let words =
        recipe.steps.iter().flat_map(|step| &step.tokens).take_while(|token| token.span.start < mention.span.start);
    words.into_iter().any(|token| token.one_of(acts))
}

/// 'Keep the remaining dough covered' takes nothing.
fn only_kept(recipe: &Recipe, mention: &Mention) -> bool {
    let Some(step) = recipe.steps.get(mention.step) else { return false };
    let before = step.tokens.iter().rev().skip_while(|token| token.span.start >= recipe.with_share(mention).start);
    let verb = before.into_iter().find(|token| token.is(crate::recipe::language::lexicon::Roles::VERB));
    verb.is_some_and(|verb| {
        verb.one_of(&[
            "keep",
            "cover",
            "keeping",
            "covering",
            "store",
            "leave",
            "reserve",
            "save",
            "refrigerate",
            "freeze",
        ])
    })
}
