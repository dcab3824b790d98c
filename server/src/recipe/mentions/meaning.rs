//! What a name in prose means: which targets it fits, and whether a cook would believe it.

use super::{
    Target,
    find::{Place, Walk},
    resolve::{self, Fit, Query, Rank},
};
use crate::recipe::language::{
    lexicon::{Roles, roles},
    token::{Token, TokenKind},
};
use crate::text::Words;

/// Colours, tastes and origins: they tell two foods apart but name none (common practice, no source).
const TELLS_APART: Words = Words::new(
    "red white green black yellow brown blue dark light golden purple orange whole extra virgin purpose baby sweet \
                          sour bitter strong wild spicy heavy double single full low high pure real style type hard sharp mild free self \
                          hot dry fat grade food kitchen table cooking baking home skin bone size set choice kind top bottom side can pan \
                          room temperature container liquid dairy water part stem root powder paste sauce oil fine cut cereal head way \
                          time plus",
);

/// Whether a word only tells two foods apart, and names none: red, strong, baby.
pub fn tells_apart(word: &str) -> bool {
    TELLS_APART.contains(word)
}

/// What a step makes and what is bought by the same word: alone, it means what was made (common practice, no source).
const MADE: &[&str] = &[
    "sauce", "mixture", "mix", "batter", "paste", "dressing", "filling", "topping", "marinade", "base", "layer",
    "blend", "rub", "glaze",
];

/// What a query means: targets, whether they tie, and by which rank.
pub fn meaning(
    walk: &Walk<'_, '_>,
    place: &Place<'_>,
    query: &Query<'_>,
    name: &[Token],
) -> Option<(Vec<Target>, bool, Rank)> {
    let fits = resolve::best(query, walk.kitchen.ingredients);
    let mut fits: Vec<Fit> = fits.into_iter().filter(|fit| believable(fit, query, name)).collect();
    let in_doubt = fits.first().is_some_and(|fit| match fit.rank {
        Rank::LoosePart => fits.len() > 1,
        Rank::Distant => query.words == ["pepper"] && seasons(place.tokens),
        _ => false,
    });
    if in_doubt {
        fits.clear();
    }
    let rank = fits.first().map(|fit| fit.rank);
    if let Some((result, of)) = resolve::result(query, &walk.out.results, place.step)
        && rank.is_none_or(|rank| of <= rank)
    {
        return Some((vec![Target::Result(result)], false, of));
    }
    if rank.is_none_or(|rank| rank >= Rank::Kind)
        && let Some(group) = resolve::group(query, walk.kitchen.groups)
    {
        return Some((vec![Target::Group(group)], false, Rank::Kind));
    }
    let rank = rank?;
    if query.plural && every_one(place.tokens, name, query) {
        let all = resolve::headed(query, walk.kitchen.ingredients);
        if all.len() > 1 {
            return Some((all.into_iter().map(Target::from).collect(), false, rank));
        }
    }
    if rank == Rank::Kind && !query.plural {
        return Some((singular_kind(walk, place, &fits), false, rank));
    }
    let all = rank == Rank::Kind || query.plural && fits.len() > 1 && rank >= Rank::Shorter;
    let tied = fits.len() > 1 && !all;
    if tied && rank == Rank::Shorter && is_what_the_pan_holds(query) {
        return None;
    }
    Some((fits.into_iter().map(Target::from).collect(), tied, rank))
}

/// Whether a sentence speaks of the pepper that is ground and not of the one that is sliced.
fn seasons(tokens: &[Token]) -> bool {
    const SEASONING: &[&str] =
        &["salt", "season", "seasoning", "taste", "grind", "grinding", "black", "ground", "freshly"];
    tokens.iter().any(|token| token.one_of(SEASONING))
}

/// "Both sugars", "the flours": all that bear the name, however near.
fn every_one(tokens: &[Token], name: &[Token], query: &Query<'_>) -> bool {
    const NEVER_COUNTED: &[&str] =
        &["sugar", "flour", "oil", "salt", "vinegar", "milk", "cream", "butter", "stock", "wine"];
    let first = name.first().map_or(0, |first| first.span.start);
    let before = tokens.partition_point(|token| token.span.start < first);
    let before = tokens.get(..before).unwrap_or_default().iter().rev().take(2);
    let both = before
        .take_while(|token| token.kind == TokenKind::Word)
        .any(|token| token.one_of(&["both", "all", "two", "three", "four", "different"]));
    both || NEVER_COUNTED.contains(&query.head())
}

/// "The sauce" is what the pan holds, though oyster sauce is listed.
pub fn is_what_the_pan_holds(query: &Query<'_>) -> bool {
    query.words.len() == 1 && !query.plural && MADE.contains(&query.head())
}

/// "The meat", "the cheese": the one that was named last in this step, else each whose own line is of that kind; cured meats
/// and stocks only where there is nothing fresh.
fn singular_kind(walk: &Walk<'_, '_>, place: &Place<'_>, fits: &[Fit]) -> Vec<Target> {
    let last = walk
        .out
        .mentions
        .iter()
        .rev()
        .take_while(|mention| mention.step == place.step)
        .flat_map(|mention| &mention.targets);
    let named = last.copied().find(|target| fits.iter().any(|fit| target.ingredient() == Some(fit.ingredient)));
    if let Some(named) = named {
        return vec![named];
    }
    let food = |fit: &&Fit| {
        walk.kitchen
            .ingredients
            .get(fit.ingredient)
            .and_then(|ingredient| ingredient.names.iter().find(|name| !name.aside))
            .and_then(|name| name.food)
    };
    let fresh: Vec<Fit> = fits
        .iter()
        .filter(|fit| food(fit).is_none_or(|food| !(food.is("cured meat") || food.is("sausage") || food.is("stock"))))
        .copied()
        .collect();
    let kept = if fresh.is_empty() { fits.to_vec() } else { fresh };
    kept.into_iter().map(Target::from).collect()
}

/// Single words of a name without its head mean it only where they are names themselves.
fn believable(fit: &Fit, query: &Query<'_>, name: &[Token]) -> bool {
    let single = query.words.len() == 1;
    let word = query.head();
    match fit.rank {
        Rank::Kind if single && tells_apart(word) => false,
        Rank::Inner if single => {
            let verb =
                name.first().is_some_and(|token| token.is(Roles::VERB) && !token.inflected) && query.food.is_none();
            !tells_apart(word) && !word.ends_with("ing") && !word.ends_with("ed") && !verb && word.chars().count() > 2
        }
        Rank::Distant => query.food.is_some_and(|food| !food.is("staple") && food.name != "water"),
        Rank::Slip => !roles(word).any(Roles::VERB.and(Roles::PRODUCT).and(Roles::VESSEL).and(Roles::PREDICATE)),
        _ => true,
    }
}
