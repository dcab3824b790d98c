//! A run of words that could be one name, and what it means.

use rustc_hash::{FxBuildHasher, FxHashSet};
use smol_str::SmolStr;

use super::{
    Link, Target,
    find::{Kitchen, Place, Walk},
    fit::PIECES,
    loosely,
    made::{after_pieces, is_first_made, is_made, is_mixed, part_verb, product_follows, verb_use},
    meaning::{is_what_the_pan_holds, meaning, tells_apart},
    resolve::{self, Query, Rank},
    unlisted::unlisted,
};
use crate::{
    larder::{
        Food, Match, larder,
        spelling::{Typed, slips_allowed},
    },
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
#[derive(Debug)]
pub struct Vocabulary<'k> {
    words: FxHashSet<&'k str>,
    /// Those of them that are long enough to be meant by a word that is nearly the same.
    long: Vec<Typed<'k>>,
}

impl<'k> Vocabulary<'k> {
    /// The vocabulary of a recipe. Small words, and those of states, sizes and pieces, name nothing, but where they are a name here: the clove
    /// that is a spice, the custard that a step makes.
    pub fn of(kitchen: &'k Kitchen<'_>) -> Self {
        // A line has some four such words.
        let room = 4 * kitchen.ingredients.len();
        let mut words: FxHashSet<&str> = FxHashSet::with_capacity_and_hasher(room, FxBuildHasher);
        for name in kitchen.ingredients.iter().flat_map(|ingredient| &ingredient.names) {
            words.extend(name.all_words.iter().map(SmolStr::as_str).filter(names_something));
            words.extend(name.words.last().map(SmolStr::as_str));
            let parts = name.food.into_iter().flat_map(Food::part_words);
            words.extend(parts.filter(names_something).map(|word| -> &'k str { word }));
        }
        for group in kitchen.groups {
            words.extend(group.words.iter().map(SmolStr::as_str).filter(names_something));
        }
        let results = kitchen.steps.iter().flat_map(|step| &step.results);
        words.extend(results.flat_map(|result| &result.words).map(SmolStr::as_str));
        let long = words.iter().filter(|word| word.len() >= 5).map(|word| Typed::new(word)).collect();
        Vocabulary { words, long }
    }

    /// Whether nearly this word is one of them.
    fn has_nearly(&self, word: &str) -> bool {
        let allowed = slips_allowed(word);
        let typed = Typed::new(word);
        allowed > 0 && self.long.iter().any(|own| typed.slips_of(own, allowed).is_some())
    }
}

fn names_something(word: &&str) -> bool {
    !roles(word).any(Roles::SMALL.and(Roles::STATE).and(Roles::SIZE).and(Roles::PIECE))
}

/// Reads the run that starts at `at`, if one does.
pub fn run(walk: &Walk<'_, '_>, place: &Place<'_>, at: usize) -> Option<Run> {
    let token = place.tokens.get(at)?;
    // A small word begins a run only where a name of the larder begins with it, or where it is a piece that needs no name behind it.
    let begins = !small(token) || place.match_at(at).is_some() || named_by_piece(walk, place.tokens, at);
    if !begins || part_verb(place.tokens, at) || verb_use(place.tokens, at) {
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
            if (found.2 == Rank::BarePart || query.piece)
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

/// A run that means nothing.
pub fn nothing(start: usize, end: usize) -> Run {
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
            && (walk.vocabulary.words.contains(&*token.fold)
                || larder().is_kind(&token.fold) && !tells_apart(&token.fold)
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
    if token.roles != Roles::default() || token.fold.ends_with("ly") {
        return false;
    }
    walk.vocabulary.has_nearly(&token.fold)
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
