//! Marked mentions: exact by construction. One that fits nothing, or several things equally, is an error of the manuscript.

use super::{
    Link, Mention, Target, Unlisted,
    collectives::{Collective, collective, says_many},
    find::Kitchen,
    resolve::{self, Fit, KnownResult, Query, Rank},
    shares,
};
use crate::{
    larder::Larder,
    recipe::{
        language::{
            clause::Sense,
            lexicon::Roles,
            token::{Token, TokenKind},
        },
        model::{Group, Mark},
        names,
    },
    text::Words,
};

/// What a marked mention turns out to be.
pub enum Outcome {
    /// Something of the recipe.
    Mention(Mention),
    /// Many things at once.
    Collective(Collective),
    /// A piece of equipment, as an index.
    Equipment(usize),
    /// Nothing, or several things equally.
    Unlisted(Unlisted),
}

/// Reads one marked mention of step `step`.
pub fn read(kitchen: &Kitchen<'_>, results: &[KnownResult], step: usize, mark: &Mark) -> Outcome {
    let tokens = &mark.tokens;
    if says_many(tokens)
        && let Some(found) = (0..tokens.len()).find_map(|at| collective(tokens, at))
    {
        return Outcome::Collective(found);
    }
    let start = name_start(tokens);
    let before = shares::before(tokens, start, kitchen.measures);
    let name = tokens.get(start..).unwrap_or_default();
    let part_of = split_part(kitchen.larder, name);
    let query = Query::new(kitchen.larder, part_of.map_or(name, |(_, of)| of));
    let mention = |targets: Vec<Target>, link: Link| Mention {
        span: mark.span,
        step,
        marked: true,
        link,
        targets,
        share: before.share,
        sense: Sense::Use,
        measure: before.measure,
    };
    match resolve(kitchen, results, step, &query) {
        Fits::One(target, link) => {
            Outcome::Mention(mention(vec![with_part(kitchen, target, part_of.map(|(part, _)| part))], link))
        }
        Fits::All(targets, link) => Outcome::Mention(mention(targets, link)),
        Fits::Ties(ties) => Outcome::Unlisted(unlisted(mark, step, &query, before.measure, ties)),
        Fits::None => match equipment(kitchen, &query) {
            Some(index) => Outcome::Equipment(index),
            None => Outcome::Unlisted(unlisted(mark, step, &query, before.measure, Vec::new())),
        },
    }
}

fn unlisted(mark: &Mark, step: usize, query: &Query<'_>, measure: Option<usize>, ties: Vec<Target>) -> Unlisted {
    Unlisted { span: mark.span, step, food: query.food, measure, marked: true, added: true, ties }
}

/// Where the name starts: behind the share, behind "of the".
pub(super) fn name_start(tokens: &[Token]) -> usize {
    let shared = tokens.iter().take_while(|token| token.kind != TokenKind::Word || says_share(token)).count();
    if shared == 0 || shared >= tokens.len() {
        return tokens.iter().position(|token| !token.one_of(&["the", "a", "an", "your", "all"])).unwrap_or(0);
    }
    shared
}

pub(super) fn says_share(token: &Token) -> bool {
    const SHARES: Words = Words::new(
        "half third quarter two three one a an of the rest remaining remainder other most some more few \
         little each all last final another first second about bit several enough extra whole scant \
         heaping generous your",
    );
    token.one_among(&SHARES)
}

/// "zest of the lemon": the part and the rest of the name.
fn split_part<'t>(larder: &'static Larder, name: &'t [Token]) -> Option<(&'t Token, &'t [Token])> {
    match name {
        [part, of, rest @ ..] if of.word("of") && !rest.is_empty() => {
            let rest = rest
                .iter()
                .position(|token| !token.is(Roles::SMALL) && token.kind == TokenKind::Word)
                .and_then(|at| rest.get(at..))?;
            (!one_food(larder, name)).then_some((part, rest))
        }
        _ => None,
    }
}

fn with_part(kitchen: &Kitchen<'_>, target: Target, part: Option<&Token>) -> Target {
    let (Target::Ingredient(index, own), Some(word)) = (target, part) else { return target };
    let food =
        kitchen.ingredients.get(index).and_then(|ingredient| ingredient.names.first()).and_then(|name| name.food);
    Target::Ingredient(index, food.and_then(|food| names::part(food, &word.fold)).or(own))
}

/// Whether the larder knows the whole name as one food: cream of tartar.
fn one_food(larder: &'static Larder, name: &[Token]) -> bool {
    names::matches_in(larder, name).iter().any(|hit| hit.start == 0 && hit.end == name.len() && hit.part.is_none())
}

enum Fits {
    One(Target, Link),
    All(Vec<Target>, Link),
    Ties(Vec<Target>),
    None,
}

fn resolve(kitchen: &Kitchen<'_>, results: &[KnownResult], step: usize, query: &Query<'_>) -> Fits {
    let result = resolve::result(query, results, step);
    if let Some((index, rank @ Rank::Same)) = result {
        // Nothing fits better.
        return Fits::One(Target::Result(index), rank.link());
    }
    let allowed = |fit: &Fit| !matches!(fit.rank, Rank::Longer | Rank::Inner) || inner_head(fit, query, kitchen);
    let mut fits: Vec<Fit> = resolve::best(query, kitchen.ingredients).into_iter().filter(allowed).collect();
    if fits.is_empty() {
        fits = by_heading(kitchen, query);
    }
    let rank = fits.first().map(|fit| fit.rank);
    if let Some((index, of)) = result
        && rank.is_none_or(|rank| of <= rank)
    {
        return Fits::One(Target::Result(index), of.link());
    }
    if rank.is_none_or(|rank| rank >= Rank::Kind)
        && let Some(group) = resolve::group(query, kitchen.groups)
    {
        return Fits::One(Target::Group(group), Link::Collective);
    }
    match fits.as_slice() {
        [] => later_result(results, query),
        [fit] => Fits::One(Target::from(*fit), fit.rank.link()),
        [first, ..] if first.rank == Rank::Kind && query.plural => {
            Fits::All(fits.iter().map(|fit| Target::from(*fit)).collect(), Link::Kind)
        }
        _ => narrowed(kitchen, step, &fits),
    }
}

/// A result that only a later step makes is meant all the same; that it comes too early is another finding.
fn later_result(results: &[KnownResult], query: &Query<'_>) -> Fits {
    match resolve::result(query, results, usize::MAX) {
        Some((index, rank)) => Fits::One(Target::Result(index), rank.link()),
        None => Fits::None,
    }
}

/// A mention must hold the head noun of the name; in "thighs of chicken" and alternatives the larder's synonym is a head too.
fn inner_head(fit: &Fit, query: &Query<'_>, kitchen: &Kitchen<'_>) -> bool {
    fit.rank == Rank::Inner
        && kitchen
            .ingredients
            .get(fit.ingredient)
            .is_some_and(|ingredient| ingredient.names.iter().any(|name| name.head() == query.head()))
}

/// "topping sugar": the words of the heading tell two sugars apart.
fn by_heading(kitchen: &Kitchen<'_>, query: &Query<'_>) -> Vec<Fit> {
    let mut out = Vec::new();
    for (index, group) in kitchen.groups.iter().enumerate() {
        let rest: Vec<&str> = query.all_words.iter().copied().filter(|word| !has_word(group, word)).collect();
        if rest.is_empty() || rest.len() == query.all_words.len() {
            continue;
        }
        let narrowed = query.by_words(rest);
        let own: Vec<_> = kitchen.ingredients.iter().map(|ingredient| ingredient.group == Some(index)).collect();
        out.extend(
            resolve::best(&narrowed, kitchen.ingredients)
                .into_iter()
                .filter(|fit| own.get(fit.ingredient) == Some(&true)),
        );
    }
    out
}

fn has_word(group: &Group, word: &str) -> bool {
    group.words.iter().any(|own| &**own == word)
}

/// Of several that fit equally, the one of the step's own group.
fn narrowed(kitchen: &Kitchen<'_>, step: usize, fits: &[Fit]) -> Fits {
    let heading = kitchen.steps.get(step).and_then(|step| step.group).and_then(|group| kitchen.groups.get(group));
    let own = |fit: &&Fit| {
        let group = kitchen
            .ingredients
            .get(fit.ingredient)
            .and_then(|ingredient| ingredient.group)
            .and_then(|group| kitchen.groups.get(group));
        heading.zip(group).is_some_and(|(heading, group)| heading.words == group.words)
    };
    let kept: Vec<&Fit> = fits.iter().filter(own).collect();
    match kept.as_slice() {
        [fit] => Fits::One(Target::from(**fit), fit.rank.link()),
        _ => Fits::Ties(fits.iter().map(|fit| Target::from(*fit)).collect()),
    }
}

fn equipment(kitchen: &Kitchen<'_>, query: &Query<'_>) -> Option<usize> {
    kitchen.equipment.iter().position(|equipment| {
        let within = query.words.iter().all(|word| equipment.words.iter().any(|own| &**own == *word));
        within && !query.words.is_empty()
    })
}
