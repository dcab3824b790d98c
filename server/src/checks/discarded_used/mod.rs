//! `discarded-used`: a step throws something away, and a later one uses it.

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{orders, shares, words},
};
use crate::recipe::{
    Ingredient, Recipe,
    language::clause::Sense,
    measures::Measure,
    mentions::{Link, Mention, Share, Target},
};

/// The check.
pub const CHECK: Check =
    Check { code: "discarded-used", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Verbs that throw something away; folded.
const DISCARDS: &[&str] = &["discard", "bin", "compost"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (at, mention) in recipe.flow.mentions.iter().enumerate().filter(|(_, mention)| is_thrown_away(recipe, mention))
    {
        let later = recipe.flow.mentions.get(at + 1..).unwrap_or_default();
        let again = later.iter().find(|later| is_used_again(recipe, mention, later));
        out.extend(again.map(|again| finding(recipe, mention, again)));
    }
}

/// "Discard the zest": all of one thing, of which there is one, and no liquid, that comes anew from the tap or the bottle.
fn is_thrown_away(recipe: &Recipe, mention: &Mention) -> bool {
    let [target @ Target::Ingredient(index, _)] = mention.targets.as_slice() else { return false };
    let mut before = orders::words_before(recipe, mention);
    let mut next_is = |words: &[&str]| before.next().is_some_and(|token| token.one_of(words));
    mention.sense == Sense::Use
        && mention.share == Share::Whole
        && mention.link <= Link::Part
        && next_is(&["the"])
        && next_is(DISCARDS)
        && recipe.ingredient(*index).is_some_and(|line| is_one(recipe, line))
        && !shares::are_taken(recipe, *target)
}

/// Whether the line is of one piece, or of nothing that is counted: of two onions, one may go and the other stay.
fn is_one(recipe: &Recipe, line: &Ingredient) -> bool {
    let liquid = line.names.iter().filter_map(|name| name.food).any(|food| food.is("liquid") || food.is("fat"));
    let count = line.amount.and_then(|index| recipe.measures.get(index)).and_then(Measure::amount);
    let several =
        count.is_some_and(|amount| amount.unit.is_none_or(|unit| unit.system().is_none()) && amount.number.least > 1.0);
    !liquid && !several && !line.tags.divided && !line.tags.more
}

fn is_used_again(recipe: &Recipe, gone: &Mention, later: &Mention) -> bool {
    let orders = orders::verb(recipe, later).is_some_and(|verb| !verb.one_of(DISCARDS));
    later.targets == gone.targets
        && later.sense == Sense::Use
        && later.share == Share::Whole
        && later.link <= Link::Part
        && orders
        && words::plain(recipe.at(later.span)).eq_ignore_ascii_case(&words::plain(recipe.at(gone.span)))
}

fn finding(recipe: &Recipe, gone: &Mention, again: &Mention) -> Finding {
    let name = words::plain(recipe.at(again.span).trim_matches(['[', ']']));
    let message = format!(
        "{} uses the {name}, and {} has thrown {it} away. A cook has none left: keep {it} there, or list more.",
        words::sentence(&words::step(recipe, again.step)),
        words::step(recipe, gone.step),
        it = words::it(&name),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, again.span, message).certainty(Certainty::Likely);
    found.related(gone.span, "thrown away here")
}
