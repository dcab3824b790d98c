//! Plain mentions that can stand in brackets.

use super::shares;
use crate::{
    recipe::{
        Recipe,
        flow::{NEARLY, Taken},
        language::clause::Sense,
        mentions::{Link, Mention, Share, Target},
    },
    text::{Edit, Span},
};

/// Every plain mention that brackets would make exact, with what goes into them: the name, with its share where it has one.
pub fn markable(recipe: &Recipe) -> Vec<(&Mention, Span)> {
    let mentions = recipe.flow.mentions.iter();
    mentions.filter_map(|mention| Some((mention, brackets(recipe, mention)?))).collect()
}

/// The edits that put brackets around a stretch.
pub fn bracketed(span: Span) -> Vec<Edit> {
    vec![Edit::insert(span.start, "["), Edit::insert(span.end, "]")]
}

/// What goes into the brackets: the name, with its share where it has one; nothing where marked it would mean something else.
fn brackets(recipe: &Recipe, mention: &Mention) -> Option<Span> {
    let sure = !mention.marked && mention.sense == Sense::Use && mention.link <= Link::Part;
    let [target] = mention.targets.as_slice() else { return None };
    if !sure || matches!(target, Target::Group(_)) {
        return None;
    }
    let span = match mention.share {
        Share::Whole => mention.span,
        Share::Fraction(..) | Share::Amount(_) => recipe.with_share(mention),
        Share::Rest => with_article(recipe, recipe.with_share(mention)),
        Share::RestAgain | Share::RestAmount(_) | Share::Some | Share::AllBut(_) => return None,
    };
    let same = |span: Span| recipe.marked_meaning(mention.step, recipe.at(span)).as_slice() == [*target];
    // An amount is only told from words in the manuscript itself.
    let amount = matches!(mention.share, Share::Amount(_));
    (same(mention.span) && (amount || same(span)) && balances(recipe, mention, *target)).then_some(span)
}

/// Whether a share comes out even. Prose is read with indulgence: in brackets what it takes too much, or leaves, would be said.
fn balances(recipe: &Recipe, mention: &Mention, target: Target) -> bool {
    let Some(balance) = recipe.flow.balances.iter().find(|balance| balance.target == target) else { return true };
    let own = balance
        .claims
        .iter()
        .position(|claim| recipe.flow.mentions.get(claim.mention).is_some_and(|other| std::ptr::eq(other, mention)));
    let earlier = own.and_then(|own| balance.claims.get(..own)).unwrap_or_default();
    let shared: f64 = earlier.iter().filter_map(shares::fraction).map(|(least, _)| least).sum();
    let gone = shared >= 1.0 - NEARLY || earlier.iter().any(|claim| matches!(claim.taken, Taken::Whole | Taken::Rest));
    match mention.share {
        Share::Whole => true,
        Share::Rest => !gone,
        _ => !balance.exceeds() && !balance.left_over(),
    }
}

/// "the rest of the sugar": its article goes into the brackets too.
fn with_article(recipe: &Recipe, span: Span) -> Span {
    let before = recipe.text.get(..span.start).unwrap_or_default();
    let article = before.strip_suffix("the ").filter(|before| !before.ends_with(char::is_alphanumeric));
    Span::new(article.map_or(span.start, str::len), span.end)
}
