//! A run of words that could be one name, and what it means.

use std::collections::HashSet;

use super::{
    Link, Target,
    find::{Kitchen, Place, Walk},
    fit::PIECES,
    loosely,
    made::{after_pieces, is_first_made, is_made, is_mixed, part_verb, product_follows, verb_use},
    resolve::{self, Fit, Query, Rank},
};
use crate::{
    larder::{Food, Match, larder, spelling},
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
    /// Whether it counts only where nothing else uses what it means.
    pub fallback: bool,
    /// Whether it names a kind of food.
    pub kind: bool,
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
    "cereal",
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
            let product = product_follows(place.tokens, end);
            if product || is_mixed(place.tokens, start, end) {
                let end = if product { end + 1 } else { after };
                let fallback = is_first_made(place.tokens, start, end);
                let targets = if fallback { found.0 } else { Vec::new() };
                return Some(Run { targets, fallback, link: Link::Kind, ..nothing(start, end) });
            }
            if (found.2 == Rank::BarePart || roles(query.head()).any(Roles::PIECE))
                && let Some(of) = part_of(walk, place, end, &query)
            {
                return Some(Run { start: from, ..of });
            }
            let (targets, tied, rank) = found;
            let kind = targets.len() > 1 && !tied;
            // "The fat" is what the pan holds as often as what the list has.
            let fat = rank == Rank::Loosely && query.words == ["fat"];
            let fallback = fat || rank == Rank::Shorter && is_what_the_pan_holds(&query);
            return Some(Run { link: rank.link(), tied, targets, kind, fallback, ..nothing(from, after) });
        }
        // What is already one food to the larder is not taken apart any further.
        if units.len() == 1 || query.food.is_some() && skip + 1 == units.len() {
            break;
        }
    }
    Some(unlisted(walk, place, &units, start, end, after))
}

fn nothing(start: usize, end: usize) -> Run {
    Run {
        start,
        end,
        targets: Vec::new(),
        link: Link::Exact,
        tied: false,
        unlisted: None,
        fallback: false,
        kind: false,
    }
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
            let end = own_name_end(walk, place.tokens, hit);
            out.push((hit.start, end));
            next = end;
            if end < hit.end {
                break;
            }
        } else if next == at && named_by_piece(walk, place.tokens, at) {
            return vec![(at, at + 1)];
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

/// "The wedges", "the florets", "the mince": a piece or a word in need of an article, and no name behind it.
fn named_by_piece(walk: &Walk<'_, '_>, tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else { return false };
    let before = |by: usize| at.checked_sub(by).and_then(|before| tokens.get(before));
    let state = usize::from(before(1).is_some_and(|token| token.is(Roles::STATE)));
    let definite = before(state + 1).is_some_and(|token| token.one_of(&["the", "your", "these"]));
    let alone = tokens.get(at + 1).is_none_or(|next| !next.word("of"));
    definite
        && alone
        && (loosely::is_loose(&token.fold)
            || token.is(Roles::PIECE) && (walk.pieces.contains(&*token.fold) || PIECES.contains(&&*token.fold)))
}

/// "Melt the anchovies in oil", where the list has both: two things, though a larder knows anchovies in oil as one.
fn own_name_end(walk: &Walk<'_, '_>, tokens: &[Token], hit: &Match<'static>) -> usize {
    let joint = (hit.start + 1..hit.end.saturating_sub(1)).find(|at| {
        tokens.get(*at).is_some_and(|token| token.one_of(&["in", "and", "with"]) || token.kind == TokenKind::And)
    });
    let Some(joint) = joint else { return hit.end };
    let best = |from: usize, to: usize| {
        let query = Query::new(walk.kitchen.larder, tokens.get(from..to).unwrap_or_default());
        resolve::best(&query, walk.kitchen.ingredients).into_iter().find(|fit| fit.rank <= Rank::Shorter)
    };
    let (Some(first), Some(second)) = (best(hit.start, joint), best(joint + 1, hit.end)) else { return hit.end };
    if first.ingredient == second.ingredient { hit.end } else { joint }
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
        && !token.fold.ends_with("ly")
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
fn is_what_the_pan_holds(query: &Query<'_>) -> bool {
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
    let juices = place.tokens.get(to - 1).is_some_and(|token| token.word("juice") && token.inflected);
    if free || in_title || made || verb || like || juices || made_here(walk, place.tokens, start, from, to, after) {
        return none;
    }
    Run { start: from, end: after, unlisted: Some(food), ..none }
}

/// Foods that the method makes itself, by what stands around their names: "make a simple syrup", "stir to a paste", "the chili
/// sauce we made", "the sugar syrup" of the sugar in the list, "baking beans".
fn made_here(walk: &Walk<'_, '_>, tokens: &[Token], start: usize, from: usize, to: usize, after: usize) -> bool {
    let word =
        |at: Option<usize>, words: &[&str]| at.and_then(|at| tokens.get(at)).is_some_and(|token| token.one_of(words));
    let before = |by: usize| start.checked_sub(by);
    let article = usize::from(word(before(1), &["a", "an", "the", "your"])) + 1;
    let making = word(
        before(article),
        &["make", "making", "form", "create", "get", "obtain", "become", "resemble", "called", "blind"],
    );
    let texture = word(before(1), &["a"]) && word(before(2), &["to", "into"]);
    let weights = word(before(1), &["baking", "ceramic"]) && word(to.checked_sub(1), &["bean", "weight"]);
    let told = word(Some(after), &["we", "you"])
        && word(Some(after + 1), &["make", "made", "prepared", "cooked", "kept", "saved"])
        || word(Some(after), &["made", "prepared"]) && !word(Some(after + 1), &["of", "from", "with"])
        || word(Some(after), &["from"]) && word(Some(after + 1), &["step", "before", "earlier", "above"]);
    // The head tells what was made, and the words before it of what.
    let (Some(name), Some(head)) = (tokens.get(from..to), to.checked_sub(1).and_then(|last| tokens.get(last))) else {
        return false;
    };
    let definite = word(before(1), &["the"]);
    let product =
        |token: &Token| token.is(Roles::PRODUCT.and(Roles::VESSEL)) || token.one_of(&["case", "shell", "crust"]);
    let of_the_list = name.len() > 1
        && head.is(Roles::PRODUCT)
        && name.split_last().is_some_and(|(_, rest)| {
            let fits = resolve::best(&Query::new(walk.kitchen.larder, rest), walk.kitchen.ingredients);
            fits.iter().any(|fit| fit.rank <= Rank::Shorter)
        });
    making || texture || weights || told || definite && (of_the_list || name.iter().all(product))
}
