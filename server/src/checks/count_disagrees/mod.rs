//! `count-disagrees`: a step speaks of both, or of all three, and the list has another number.

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{orders, words},
};
use crate::{
    measure::{Measures, Quantity},
    recipe::{
        Recipe,
        language::{clause::Sense, token::TokenKind},
        mentions::{Link, Mention, Target},
    },
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "count-disagrees", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    out.extend(view.recipe.flow.mentions.iter().filter_map(|mention| finding(view.recipe, mention)));
}

fn finding(recipe: &Recipe, mention: &Mention) -> Option<Finding> {
    let [Target::Ingredient(index, None)] = mention.targets.as_slice() else { return None };
    if mention.sense != Sense::Use || mention.link >= Link::Kind {
        return None;
    }
    let (said, word) = said(recipe, mention)?;
    let line = recipe.ingredient(*index)?;
    let measure = recipe.measures.get(line.amount?)?;
    let Quantity::Count { count, .. } = measure.stated.quantity(&Measures::default())? else { return None };
    if !count.is_exact() || line.tags.more || line.alternatives || (count.least - said).abs() < 0.01 {
        return None;
    }
    let name = words::plain(recipe.at(mention.span));
    let message = format!(
        "{} speaks of {} {name}, and the list has {}. A cook wonders which of the two is wrong: make them agree.",
        words::sentence(&words::step(recipe, mention.step)),
        recipe.at(word),
        words::plain(recipe.at(measure.stated.span)),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, word.joined(mention.span), message).certainty(Certainty::Likely);
    Some(found.related(line.mark, "listed here"))
}

/// How many of it the words right before a mention say that there are: both, all three. Not "both the onion and the garlic",
/// nor "both sides".
fn said(recipe: &Recipe, mention: &Mention) -> Option<(f64, Span)> {
    const NUMBERS: &[&str] = &["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    let joined = orders::behind(recipe, mention)
        .first()
        .is_some_and(|next| next.one_of(&["and", "or"]) || matches!(next.kind, TokenKind::And | TokenKind::Slash));
    let words: Vec<_> = orders::words_before(recipe, mention).take(3).collect();
    let [nearest, rest @ ..] = words.as_slice() else { return None };
    if nearest.word("both") {
        return (!joined).then_some((2.0, nearest.span));
    }
    let number = NUMBERS.iter().position(|number| nearest.word(number))?;
    let all = rest.first().filter(|all| all.word("all"))?;
    Some((number as f64 + 2.0, all.span.joined(nearest.span)))
}
