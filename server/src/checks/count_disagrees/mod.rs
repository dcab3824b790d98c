//! `count-disagrees`: a step speaks of both, or of all three, and the list has another number.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{orders, shares, words},
};
use crate::{
    larder::words::fold,
    measure::{Amount, Interval, Quantity, Unit},
    recipe::{
        Recipe,
        language::{clause::Sense, lexicon::Roles, token::TokenKind},
        measures::Measure,
        mentions::{Link, Mention, Share, Target},
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "count-disagrees", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Numbers as words, from two on.
const NUMBERS: &[&str] = &["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    out.extend(view.recipe.flow.mentions.iter().filter_map(|mention| finding(view, mention)));
}

fn finding(view: &View<'_>, mention: &Mention) -> Option<Finding> {
    let recipe = view.recipe;
    let [target @ Target::Ingredient(index, None)] = mention.targets.as_slice() else { return None };
    let alone = mention.share != Share::Whole || !shares::are_taken(recipe, *target);
    if mention.sense != Sense::Use || mention.link >= Link::Kind || !alone {
        return None;
    }
    let (said, word) = said(recipe, mention)?;
    let line = recipe.ingredient(*index)?;
    let measure = recipe.measures.get(line.amount?)?;
    let Quantity::Count { count, unit } = measure.stated.quantity(&view.house.measures)? else { return None };
    // More than there is, or less than is used up, is told by the checks that add up.
    let added_up = said > count.least && said > 2.0 || is_left_over(recipe, *target);
    let open = added_up || !count.is_exact() || line.tags.more || line.alternatives || !measure.each.is_empty();
    if open || !counts_the_food(recipe, mention, unit) || (count.least - said).abs() < 0.01 {
        return None;
    }
    let name = words::plain(recipe.at(mention.span));
    let message = format!(
        "{} speaks of {} {name}, and the list has {}. A cook wonders which of the two is wrong: make them agree.",
        words::sentence(&words::step(recipe, mention.step)),
        recipe.at(word),
        words::plain(recipe.at(measure.stated.span)),
    );
    let marked = word.joined(mention.span);
    let found = Finding::new(CHECK.code, CHECK.severity, marked, message).certainty(Certainty::Likely);
    let fixes = in_step(word, count.least).into_iter().chain(in_list(view, measure, said, count.least));
    Some(fixes.fold(found.related(line.mark, "listed here"), Finding::fix))
}

fn is_left_over(recipe: &Recipe, target: Target) -> bool {
    recipe.flow.balances.iter().any(|balance| balance.target == target && balance.left_over())
}

/// Whether the line counts the food itself, or in pieces that the step names too: cloves, and not bunches or packs.
fn counts_the_food(recipe: &Recipe, mention: &Mention, unit: Option<Unit>) -> bool {
    unit.is_none_or(|unit| recipe.at(mention.span).split(' ').any(|word| fold(word) == unit.name()))
}

/// How many of it the words right before a mention say that there are: both, all three. Not "both the onion and the garlic",
/// nor "both sides", nor the halves of one.
fn said(recipe: &Recipe, mention: &Mention) -> Option<(f64, Span)> {
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    let before = sentence.get(..sentence.partition_point(|token| token.span.end <= mention.span.start))?;
    let (nearest, rest) = before.split_last()?;
    let (both, all) = (nearest.word("both"), rest.last().filter(|all| all.word("all")));
    if !both && all.is_none() || speaks_of_others(recipe, mention) {
        return None;
    }
    if both {
        return Some((2.0, nearest.span));
    }
    let number = match nearest.kind {
        TokenKind::Measure(index) => recipe.measures.get(index)?.count().filter(Interval::is_exact)?.least,
        _ => NUMBERS.iter().zip(2u8..).find(|(number, _)| recipe.at(nearest.span) == **number)?.1.into(),
    };
    Some((number, all?.span.joined(nearest.span)))
}

/// Whether the words right behind a mention say that the number is not that of the thing itself.
fn speaks_of_others(recipe: &Recipe, mention: &Mention) -> bool {
    let behind = orders::behind(recipe, mention);
    let goes_on = behind.get(1).is_some_and(|second| second.is(Roles::VERB) && !second.inflected);
    behind.first().is_some_and(|next| {
        next.is(Roles::PIECE.and(Roles::PRODUCT))
            || next.one_of(&["side", "end", "kind", "type"])
            || !goes_on && (next.one_of(&["and", "or"]) || matches!(next.kind, TokenKind::And | TokenKind::Slash))
    })
}

/// The words of the step as the list has it.
fn in_step(word: Span, listed: f64) -> Option<Fix> {
    let place = NUMBERS.iter().zip(2u8..).find(|(_, number)| f64::from(*number) == listed);
    let written = match place? {
        (&"two", _) => "both".to_owned(),
        (number, _) => format!("all {number}"),
    };
    Some(Fix::new(format!("Write “{written}” in the step"), vec![Edit::replace(word, written)]))
}

/// The number of the list as the step has it; of one, the name would have to change too.
fn in_list(view: &View<'_>, measure: &Measure, said: f64, listed: f64) -> Option<Fix> {
    let alone = measure.statements().count() == 1 && listed >= 2.0;
    let written = words::amount(view, &Amount::new(Interval::exactly(said), measure.stated.unit()));
    alone.then(|| Fix::new(format!("Write “{written}” in the list"), vec![Edit::replace(measure.stated.span, written)]))
}
