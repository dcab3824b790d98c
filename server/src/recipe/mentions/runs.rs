//! A run of words that could be one name, and what it means.

use std::collections::HashSet;

use super::{
    Link, Target,
    find::{Kitchen, Place, Walk},
    made::{after_pieces, is_made, part_verb, product_follows, verb_use},
    resolve::{self, Fit, Query, Rank},
};
use crate::{
    larder::{Food, larder, spelling},
    recipe::{
        language::{
            lexicon::{Roles, roles},
            token::{Token, TokenKind},
        },
        names,
    },
};

/// A run that has been read.
#[derive(Debug)]
pub struct Run {
    /// Index of its first token.
    pub start: usize,
    /// Index after the last token it takes up.
    pub end: usize,
    /// What it means; empty where it means nothing listed.
    pub targets: Vec<Target>,
    /// How sure that is.
    pub link: Link,
    /// Whether several things fit equally.
    pub tied: bool,
    /// The food it is, where the list does not have it.
    pub unlisted: Option<&'static Food>,
}

/// Every word by which something of this recipe can be named.
pub fn vocabulary<'k>(kitchen: &'k Kitchen<'_>) -> HashSet<&'k str> {
    let mut out: HashSet<&str> = HashSet::new();
    for name in kitchen.ingredients.iter().flat_map(|ingredient| &ingredient.names) {
        out.extend(name.words.iter().chain(&name.all_words).map(|word| &**word));
        if let Some(food) = name.food {
            out.extend(food.part_words().map(|word| -> &'k str { word }));
        }
    }
    out.extend(kitchen.groups.iter().flat_map(|group| &group.words).map(|word| &**word));
    out.extend(
        kitchen.steps.iter().flat_map(|step| &step.results).flat_map(|result| &result.words).map(|word| &**word),
    );
    out.retain(|word| {
        !roles(word).any(Roles::SMALL.and(Roles::STATE).and(Roles::SIZE).and(Roles::PIECE)) || kept(kitchen, word)
    });
    out
}

/// Words of the lists that are a name here: the clove that is a spice, the custard that a step makes.
fn kept(kitchen: &Kitchen<'_>, word: &str) -> bool {
    let head = kitchen.ingredients.iter().flat_map(|ingredient| &ingredient.names).any(|name| name.head() == word);
    head || kitchen
        .steps
        .iter()
        .flat_map(|step| &step.results)
        .any(|result| result.words.iter().any(|own| &**own == word))
}

/// Colours, tastes and origins: they tell two foods apart but name none (common practice, no source).
const TELLS_APART: &[&str] = &[
    "red",
    "white",
    "green",
    "black",
    "yellow",
    "brown",
    "blue",
    "dark",
    "light",
    "golden",
    "purple",
    "orange",
    "whole",
    "extra",
    "virgin",
    "purpose",
    "baby",
    "sweet",
    "sour",
    "bitter",
    "strong",
    "wild",
    "spicy",
    "heavy",
    "double",
    "single",
    "full",
    "low",
    "high",
    "pure",
    "real",
    "style",
    "type",
    "hard",
    "sharp",
    "mild",
    "free",
    "self",
    "hot",
    "dry",
    "fat",
    "grade",
    "food",
    "kitchen",
    "table",
    "cooking",
    "baking",
    "home",
    "skin",
    "bone",
    "size",
    "set",
    "choice",
    "kind",
    "top",
    "bottom",
    "side",
    "can",
    "pan",
    "room",
    "temperature",
    "container",
    "liquid",
    "dairy",
    "water",
    "part",
    "stem",
    "root",
    "powder",
    "paste",
    "sauce",
    "oil",
    "fine",
    "cut",
    "head",
    "way",
    "time",
    "plus",
];

/// What a step makes and what is bought by the same word: alone, it means what was made (common practice, no source).
const MADE: &[&str] = &[
    "sauce", "mixture", "mix", "batter", "paste", "dressing", "filling", "topping", "marinade", "base", "layer",
    "blend", "rub", "glaze",
];

/// Reads the run that starts at `at`, if one does.
pub fn run(walk: &Walk<'_, '_>, place: &Place<'_>, at: usize) -> Option<Run> {
    if part_verb(place.tokens, at) || verb_use(place.tokens, at) {
        return None;
    }
    let units = units(walk, place, at);
    let (start, _) = *units.first()?;
    let (_, end) = *units.last()?;
    let after = after_pieces(place.tokens, end);
    for skip in 0..units.len() {
        let Some(&(from, _)) = units.get(skip) else { continue };
        let Some(name) = place.tokens.get(from..end) else { continue };
        let query = Query::new(walk.kitchen.larder, name);
        if skip > 0 && names_other(walk, place, &units, skip) {
            // "pasta water": made of something listed, and no listed thing itself.
            return Some(nothing(start, after));
        }
        if let Some(found) = meaning(walk, place, &query, name) {
            if is_made(place.tokens, start, end, &query, &found) {
                return Some(nothing(start, after));
            }
            if product_follows(place.tokens, end) && found.2 != Rank::Same {
                return Some(nothing(start, end + 1));
            }
            if (found.2 == Rank::BarePart || roles(query.head()).any(Roles::PIECE))
                && let Some(of) = part_of(walk, place, end, &query)
            {
                return Some(Run { start: from, ..of });
            }
            let (targets, tied, rank) = found;
            if product_follows(place.tokens, end) {
                return Some(nothing(start, end + 1));
            }
            return Some(Run { start: from, end: after, link: rank.link(), tied, targets, unlisted: None });
        }
        // What is already one food to the larder is not taken apart any further.
        if units.len() == 1 || query.food.is_some() && skip + 1 == units.len() {
            break;
        }
    }
    Some(unlisted(walk, place, &units, start, end, after))
}

fn nothing(start: usize, end: usize) -> Run {
    Run { start, end, targets: Vec::new(), link: Link::Exact, tied: false, unlisted: None }
}

/// The words of the run, those that the larder knows as one food together.
fn units(walk: &Walk<'_, '_>, place: &Place<'_>, at: usize) -> Vec<(usize, usize)> {
    let mut out: Vec<(usize, usize)> = Vec::new();
    let mut next = at;
    while let Some(token) = place.tokens.get(next) {
        if token.kind != TokenKind::Word {
            break;
        }
        if let Some(hit) = place.match_at(next) {
            out.push((hit.start, hit.end));
            next = hit.end;
        } else if !small(token)
            && (walk.vocabulary.contains(&*token.fold)
                || larder().is_kind(&token.fold) && !TELLS_APART.contains(&&*token.fold)
                || homophone(&token.fold).is_some()
                || near_name(walk, token))
        {
            out.push((next, next + 1));
            next += 1;
        } else {
            break;
        }
    }
    out
}

/// Words that are written for a food that sounds the same.
pub fn homophone(word: &str) -> Option<&'static str> {
    (word == "flower").then_some("flour")
}

/// A word that no list knows, and that is nearly a word of the ingredient list.
fn near_name(walk: &Walk<'_, '_>, token: &Token) -> bool {
    let allowed = spelling::slips_allowed(&token.fold);
    token.roles == Roles::default()
        && allowed > 0
        && walk.vocabulary.iter().any(|own| own.len() >= 5 && spelling::slips(own, &token.fold, allowed).is_some())
}

fn small(token: &Token) -> bool {
    token.is(Roles::SMALL)
}

/// Whether the words before `skip` name something of the list by themselves.
fn names_other(walk: &Walk<'_, '_>, place: &Place<'_>, units: &[(usize, usize)], skip: usize) -> bool {
    let Some((&(from, _), &(_, to))) = units.first().zip(units.get(skip - 1)) else { return false };
    let Some(name) = place.tokens.get(from..to) else { return false };
    let query = Query::new(walk.kitchen.larder, name);
    resolve::best(&query, walk.kitchen.ingredients).iter().any(|fit| fit.rank <= Rank::Shorter)
}

/// What a query means: targets, whether they tie, and by which rank.
fn meaning(
    walk: &Walk<'_, '_>,
    place: &Place<'_>,
    query: &Query<'_>,
    name: &[Token],
) -> Option<(Vec<Target>, bool, Rank)> {
    let fits = resolve::best(query, walk.kitchen.ingredients);
    let fits: Vec<Fit> = fits.into_iter().filter(|fit| believable(fit, query, name)).collect();
    let rank = fits.first().map(|fit| fit.rank);
    if let Some((result, of)) = resolve::result(query, &walk.out.results, place.step)
        && rank.is_none_or(|rank| of <= rank)
    {
        return Some((vec![Target::Result(result)], false, of));
    }
    if rank.is_none_or(|rank| rank > Rank::Shorter)
        && let Some(group) = resolve::group(query, walk.kitchen.groups)
    {
        return Some((vec![Target::Group(group)], false, Rank::Kind));
    }
    let rank = rank?;
    if rank == Rank::Kind && !query.plural {
        return Some((singular_kind(walk, place, &fits), false, rank));
    }
    let all = rank == Rank::Kind || query.plural && fits.len() > 1 && rank >= Rank::Shorter;
    let tied = fits.len() > 1 && !all;
    Some((fits.into_iter().map(Target::from).collect(), tied, rank))
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
        // "The sauce" is what the pan holds, though oyster sauce is listed.
        Rank::Shorter if single && MADE.contains(&word) => false,
        Rank::Kind if single && TELLS_APART.contains(&word) => false,
        Rank::Inner if single => {
            let verb =
                name.first().is_some_and(|token| token.is(Roles::VERB) && !token.inflected) && query.food.is_none();
            !TELLS_APART.contains(&word)
                && !word.ends_with("ing")
                && !word.ends_with("ed")
                && !verb
                && word.chars().count() > 2
        }
        Rank::Distant => query.food.is_some_and(|food| !food.is("staple") && food.name != "water"),
        Rank::Slip => !roles(word).any(Roles::VERB.and(Roles::PRODUCT).and(Roles::VESSEL).and(Roles::PREDICATE)),
        _ => true,
    }
}

/// "zest of the lemon", "cloves of garlic", "the juice of half a lime".
fn part_of(walk: &Walk<'_, '_>, place: &Place<'_>, end: usize, query: &Query<'_>) -> Option<Run> {
    place.tokens.get(end).filter(|token| token.word("of"))?;
    let mut at = end + 1;
    while place.tokens.get(at).is_some_and(|token| {
        token.is(Roles::SMALL.and(Roles::SIZE).and(Roles::STATE))
            || matches!(token.kind, TokenKind::Measure(_) | TokenKind::Number)
    }) {
        at += 1;
    }
    let of = run(walk, place, at)?;
    let part = |target: &Target| match target {
        Target::Ingredient(index, own) => {
            let food = walk
                .kitchen
                .ingredients
                .get(*index)
                .and_then(|ingredient| ingredient.names.first())
                .and_then(|name| name.food);
            Target::Ingredient(*index, food.and_then(|food| names::part(food, query.head())).or(*own))
        }
        other => *other,
    };
    let targets = of.targets.iter().map(part).collect();
    (!of.targets.is_empty()).then_some(Run { targets, ..of })
}

/// The food that the run is, where it is one that a list ought to have.
fn unlisted(
    walk: &Walk<'_, '_>,
    place: &Place<'_>,
    units: &[(usize, usize)],
    start: usize,
    end: usize,
    after: usize,
) -> Run {
    let none = nothing(start, after);
    if product_follows(place.tokens, end) {
        return nothing(start, end + 1);
    }
    let Some(&(from, to)) = units.last() else { return none };
    let Some(hit) = place.match_at(from).filter(|hit| hit.end == to) else { return none };
    let words: Vec<&str> = place.tokens.get(from..to).unwrap_or_default().iter().map(|token| &*token.fold).collect();
    let food = hit.food;
    let free = food.is("water") || food.is("ice") || food.name == "water" || food.name == "ice";
    let in_title = words.iter().all(|word| walk.kitchen.title.iter().any(|own| &**own == *word));
    let made = words.len() == 1 && words.iter().all(|word| roles(word).any(Roles::PRODUCT.and(Roles::VESSEL)));
    let verb = words.len() == 1 && verb_use(place.tokens, from);
    let like = place.tokens.get(end).is_some_and(|next| {
        next.one_of(&["like", "based", "style", "free"])
            || next.is(Roles::VESSEL) && !next.is(Roles::PIECE.and(Roles::SMALL))
    });
    let texture = start >= 2
        && place.tokens.get(start - 1).is_some_and(|token| token.word("a"))
        && place.tokens.get(start - 2).is_some_and(|token| token.one_of(&["to", "into"]));
    let juices = place.tokens.get(to - 1).is_some_and(|token| token.word("juice") && token.inflected);
    if free || in_title || made || verb || like || texture || juices {
        return none;
    }
    Run { start: from, end: after, unlisted: Some(food), ..none }
}
