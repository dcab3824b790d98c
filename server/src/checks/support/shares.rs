//! Shares in the words of a step: whether they can be added up, and how to write another share in their place.

use super::words;
use crate::{
    larder::words::fold,
    measure::{Amount, Measures, Quantity},
    recipe::{
        Recipe,
        flow::{Balance, Claim, Taken},
        language::token::{Token, TokenKind},
        measures::Stated,
        mentions::{Mention, Target},
    },
    text::{Edit, Span},
};

/// Words of a step that does something several times over, or for each of several: what it takes cannot be added up.
const REPEATS: &[&str] = &[
    "each",
    "every",
    "per",
    "batch",
    "time",
    "repeat",
    "again",
    "divide",
    "among",
    "between",
    "another",
    "alternate",
    "alternately",
    "alternating",
    "layer",
    "continue",
    "apiece",
    "both",
    "turn",
    "next",
    "serving",
];

/// Words with which a step is only one of several ways to go on, or is cooked only by some.
const BRANCHES: &[&str] = &["if", "or", "alternatively", "optional", "optionally", "otherwise", "desired", "instead"];

/// Words that make even a marked share one of several: `[1/3 of the batter] in each pan`.
const FOR_EACH: &[&str] = &["each", "every", "per", "apiece"];

/// The most words that a step may have for its shares to be added up. Nobody reads a longer one, or adds up what it takes.
const LONGEST_STEP: usize = 2_000;

/// Whether what a mention takes may be taken more than once, or by nobody. A marked mention is meant as it stands, unless its
/// sentence does something for each of several.
pub fn is_doubtful(recipe: &Recipe, mention: &Mention) -> bool {
    let whole = recipe.steps.get(mention.step).map(|step| step.tokens.as_slice()).unwrap_or_default();
    if whole.len() > LONGEST_STEP {
        return true;
    }
    let sentence = sentence(recipe, mention.step, mention.span);
    if mention.marked {
        return sentence.iter().any(|token| token.one_of(FOR_EACH));
    }
    sentence.iter().any(|token| token.one_of(REPEATS) || token.one_of(BRANCHES))
        || whole.iter().any(|token| token.one_of(&["repeat", "batch", "each", "alternate", "alternately"]))
}

/// Whether the sentence of a mention pours some off: "pour out half of the oil and brown the leeks in the other half".
pub fn is_poured_off(recipe: &Recipe, mention: &Mention) -> bool {
    sentence(recipe, mention.step, mention.span).windows(2).any(|pair| match pair {
        [pour, off] => pour.one_of(&["pour", "drain", "spoon", "tip", "skim"]) && off.one_of(&["off", "out", "away"]),
        _ => false,
    })
}

/// Whether the method goes on behind a mention with "repeat", or "continue layering", which takes the same again.
pub fn are_repeated(recipe: &Recipe, mention: &Mention) -> bool {
    let behind = recipe.steps.iter().skip(mention.step).flat_map(|step| &step.tokens);
    let mut behind = behind.filter(|token| token.span.start >= mention.span.end).take(LONGEST_STEP);
    behind.any(|token| token.one_of(&["repeat", "layering", "alternate", "alternately", "alternating"]))
}

/// The words of the sentence of a step that `span` stands in.
pub fn sentence(recipe: &Recipe, step: usize, span: Span) -> &[Token] {
    let tokens = recipe.steps.get(step).map(|step| step.tokens.as_slice()).unwrap_or_default();
    let (before, behind) = tokens.split_at(tokens.partition_point(|token| token.span.end <= span.start));
    let stops = |token: &Token| token.kind == TokenKind::Stop;
    let start = before.iter().rposition(stops).map_or(0, |stop| stop + 1);
    let end = behind.iter().position(stops).map_or(tokens.len(), |stop| before.len() + stop + 1);
    tokens.get(start..end).filter(|_| !behind.is_empty()).unwrap_or_default()
}

/// Whether steps take shares of a thing: then no single one of them speaks for all of it.
pub fn are_taken(recipe: &Recipe, target: Target) -> bool {
    let claims = recipe.flow.balances.iter().filter(|balance| balance.target == target).flat_map(|own| &own.claims);
    claims.into_iter().any(|claim| !matches!(claim.taken, Taken::Nothing | Taken::Whole))
}

/// The claims of a balance that say how much they take, with their mentions, in the order of the text.
pub fn definite<'r>(recipe: &'r Recipe, balance: &'r Balance) -> Vec<(&'r Claim, &'r Mention)> {
    let with_mention =
        balance.claims.iter().filter_map(|claim| Some((claim, recipe.flow.mentions.get(claim.mention)?)));
    with_mention.filter(|(claim, _)| matches!(claim.taken, Taken::Fraction(..) | Taken::Amount(..))).collect()
}

/// What a claim takes as a fraction of the whole, least and most, where that can be told.
pub fn fraction(claim: &Claim) -> Option<(f64, f64)> {
    match claim.taken {
        Taken::Fraction(least, most) => Some((least, most)),
        Taken::Amount(_, fraction) => fraction,
        _ => None,
    }
}

/// What the claims take, each as it is written: `1/2 cup and 3/4 cup`, `1/3 twice`.
pub fn spelt(recipe: &Recipe, claims: &[(&Claim, &Mention)]) -> String {
    let shares: Vec<String> = claims.iter().filter_map(|(claim, _)| words::share(recipe, claim.taken)).collect();
    let same = shares.first().filter(|first| shares.iter().all(|share| share == *first));
    match (same, shares.len()) {
        (Some(share), 2) => format!("{share} twice"),
        (Some(share), 3..) => format!("{share} {} times", shares.len()),
        _ => words::and(&shares),
    }
}

/// The claims as the subject of a sentence: `Step 3 takes half and 2/3 of the dough`.
pub fn taking(recipe: &Recipe, claims: &[(&Claim, &Mention)], name: &str) -> String {
    let steps = words::steps(recipe, claims.iter().map(|(_, mention)| mention.step));
    let takes = if steps.starts_with("steps") { "take" } else { "takes" };
    // "1/3 twice of the cream" is no English.
    let spelt = spelt(recipe, claims);
    match spelt.split_once(' ').filter(|(_, times)| *times == "twice" || times.ends_with(" times")) {
        Some((share, times)) => format!("{} {takes} {share} of the {name} {times}", words::sentence(&steps)),
        None => format!("{} {takes} {spelt} of the {name}", words::sentence(&steps)),
    }
}

/// What the list says that there is of an ingredient, as stated first.
pub fn listed<'r>(recipe: &'r Recipe, balance: &Balance) -> Option<&'r Stated> {
    let Target::Ingredient(index, None) = balance.target else { return None };
    let measure = recipe.ingredient(index)?.amount?;
    recipe.measures.get(measure).map(|measure| &measure.stated)
}

/// What the claims come to in the unit of the list, where all of them are amounts.
pub fn total(recipe: &Recipe, house: &Measures, listed: &Stated, claims: &[(&Claim, &Mention)]) -> Option<Amount> {
    in_unit(&sum(recipe, house, claims)?, listed, house)
}

/// What the claims leave of the list, in the unit of the list, where all of them are amounts.
pub fn left(recipe: &Recipe, house: &Measures, listed: &Stated, claims: &[(&Claim, &Mention)]) -> Option<Amount> {
    in_unit(&listed.quantity(house)?.minus(&sum(recipe, house, claims)?)?, listed, house)
}

fn sum(recipe: &Recipe, house: &Measures, claims: &[(&Claim, &Mention)]) -> Option<Quantity> {
    let quantities: Option<Vec<Quantity>> = claims.iter().map(|(claim, _)| amount(recipe, house, claim)).collect();
    let (first, others) = quantities.as_deref().and_then(<[Quantity]>::split_first)?;
    others.iter().try_fold(*first, |sum, quantity| sum.plus(quantity))
}

fn amount(recipe: &Recipe, house: &Measures, claim: &Claim) -> Option<Quantity> {
    let Taken::Amount(measure, _) = claim.taken else { return None };
    recipe.measures.get(measure)?.stated.quantity(house)
}

fn in_unit(quantity: &Quantity, listed: &Stated, house: &Measures) -> Option<Amount> {
    words::amount_in(quantity, listed.terms.first()?.amount()?.unit, house)
}

/// The edit that makes a mention take what is left: `[3/4 cup of the sugar]` becomes `[the rest of the sugar]`.
pub fn take_rest(recipe: &Recipe, mention: &Mention) -> Vec<Edit> {
    let Some(share) = said(recipe, mention) else { return Vec::new() };
    let bracket = if mention.marked { "[" } else { "" };
    vec![Edit::replace(share, format!("{bracket}the rest of the "))]
}

/// The edit that makes a mention take all: `[the rest of the dill]` becomes `the [dill]`.
pub fn take_all(recipe: &Recipe, mention: &Mention) -> Vec<Edit> {
    let Some(share) = said(recipe, mention) else { return Vec::new() };
    let before = recipe.text.get(..share.start).unwrap_or_default();
    let article = if before.ends_with("the ") { "" } else { "the " };
    let bracket = if mention.marked { "[" } else { "" };
    vec![Edit::replace(share, format!("{article}{bracket}"))]
}

/// The share that a mention says: from its first word, or from the bracket, up to the name.
pub fn said(recipe: &Recipe, mention: &Mention) -> Option<Span> {
    if mention.marked {
        let name = recipe.mark_name(mention.step, mention.span)?;
        return Some(Span::new(mention.span.start, name.start));
    }
    let whole = recipe.with_share(mention);
    let before = recipe.text.get(..whole.start)?;
    // "the remaining butter", "a third of the cheese": the little words before the share go with it.
    let mut start = whole.start;
    loop {
        let above = before.get(..start)?.trim_end();
        let word_start = above.rfind(char::is_whitespace).map_or(0, |at| at + 1);
        if !LITTLE.contains(&&*fold(above.get(word_start..)?)) {
            return Some(Span::new(start, mention.span.start));
        }
        start = word_start;
    }
}

/// Words that may stand before a share and go with it.
const LITTLE: &[&str] = &["the", "a", "one", "two", "three", "another", "other", "last", "about"];
