//! Reads which foods an ingredient line names: one, several, or alternatives; their parts; and what the line says of its use.

mod asides;
mod stretches;

use smol_str::SmolStr;

use super::{
    language::{
        lexicon::Roles,
        token::{Token, TokenKind},
    },
    model::{Name, Part, Tags},
    tags::tags,
};
use asides::{aside_names, enumerated};
use stretches::{Stretch, among, stretches};

use crate::{
    larder::{self, Food, Larder, Match},
    text::{Span, Words},
};

/// What a line says, before it is placed in a recipe.
#[derive(Debug, Clone, Default)]
pub struct LineNames {
    /// The foods.
    pub names: Vec<Name>,
    /// Whether they are alternatives.
    pub alternatives: bool,
    /// The parts the line takes its food apart into.
    pub parts: Vec<Part>,
    /// The pieces it has it cut into.
    pub pieces: Vec<SmolStr>,
    /// What it says of its use.
    pub tags: Tags,
}

/// Reads the tokens of one ingredient line.
pub fn read(larder: &'static Larder, tokens: &[Token]) -> LineNames {
    let stretches = stretches(tokens);
    let main = stretches.iter().position(|stretch| !stretch.aside && holds_food(larder, stretch)).or_else(|| {
        // No known food anywhere outside parentheses: the first stretch with a word that could be a name.
        stretches.iter().position(|stretch| !stretch.aside && stretch.tokens.iter().any(names_something))
    });
    let mut line = LineNames { tags: tags(tokens), ..LineNames::default() };
    let Some(main) = main.or_else(|| (!stretches.is_empty()).then_some(0)) else { return line };
    if let Some(stretch) = stretches.get(main) {
        main_names(larder, stretch, &mut line);
    }
    for (at, stretch) in stretches.iter().enumerate().filter(|(at, _)| *at != main) {
        if at < main || stretch.aside || !enumerated(larder, stretches.get(main), stretch, &mut line) {
            aside_names(larder, stretch, &mut line);
        }
    }
    if line.names.is_empty() {
        line.tags.remark = true;
    }
    line.parts = parts(tokens, &line.names);
    line.pieces = pieces(tokens);
    line
}

/// The words for pieces behind "in" and "into": `in wedges`, `cut into 1-inch cubes`, `sliced in thick rounds`.
fn pieces(tokens: &[Token]) -> Vec<SmolStr> {
    let into = tokens.iter().position(|token| token.one_of(&["into", "in"]));
    let behind = into.and_then(|into| tokens.get(into + 1..)).unwrap_or_default();
    let piece = behind.iter().filter(|token| token.is(Roles::PIECE) && token.inflected);
    piece.map(|token| token.fold.clone()).collect()
}

/// Whether a stretch names a food, or a kind of food (`herbs`, `non-citrus fruits`).
fn holds_food(larder: &'static Larder, stretch: &Stretch<'_>) -> bool {
    !stretch.found(larder).is_empty() || stretch.tokens.iter().any(|token| larder.is_kind(&token.fold))
}

/// The larder's matches among the words of `tokens`, with indices into `tokens`.
pub fn matches_in(larder: &'static Larder, tokens: &[Token]) -> Vec<Match<'static>> {
    let found: Vec<_> = larder.scan(tokens).collect();
    if found.iter().all(|hit| joint(tokens, hit).is_none()) {
        return found;
    }
    // In a list and in a step they are two things.
    let behind = |by: usize, tokens: &[Token]| {
        let found = matches_in(larder, tokens).into_iter();
        found.map(move |hit| Match { start: hit.start + by, end: hit.end + by, ..hit })
    };
    let mut apart = Vec::with_capacity(found.len() + 1);
    for hit in found {
        let joint = joint(tokens, &hit);
        let two = joint.and_then(|at| Some((tokens.get(hit.start..at)?, at + 1, tokens.get(at + 1..hit.end)?)));
        match two {
            Some((first, second_at, second)) => {
                apart.extend(behind(hit.start, first).chain(behind(second_at, second)));
            }
            None => apart.push(hit),
        }
    }
    apart
}

/// Where the "and" of "salt and pepper" stands, which the larder knows as one.
fn joint(tokens: &[Token], hit: &Match<'static>) -> Option<usize> {
    let mut own = (hit.start..hit.end).filter(|_| hit.food.name == "salt and pepper");
    own.find(|at| tokens.get(*at).is_some_and(|token| matches!(&*token.fold, "and" | "")))
}

fn names_something(token: &Token) -> bool {
    token.kind == TokenKind::Word && !token.is(PASSED_OVER) && token.fold.len() > 1
}

const PASSED_OVER: Roles = Roles::SMALL.and(Roles::STATE).and(Roles::SIZE);

/// Words after which a name is over: "oil for frying", "butter to grease", "apples such as …".
const ENDS_NAME: Words = Words::new(
    "for to such plus from with without about preferably ideally as like eg e if in cut at not on \
     then that which until into per room i something similar depending more try use get you",
);

fn main_names(larder: &'static Larder, stretch: &Stretch<'_>, line: &mut LineNames) {
    let found = stretch.found(larder);
    let tokens = stretch.tokens.get(..name_end(stretch.tokens, found)).unwrap_or(stretch.tokens);
    let found = among(larder, tokens, (stretch.tokens, found));
    let inside = |at: usize| found.iter().any(|hit| hit.start < at && at < hit.end);
    let mut chunks: Vec<(usize, usize)> = Vec::new();
    let mut from = 0;
    for (at, token) in tokens.iter().enumerate() {
        if inside(at) || !splits(token) {
            continue;
        }
        line.alternatives |= token.word("or") || token.kind == TokenKind::Slash;
        chunks.push((from, at));
        from = at + 1;
    }
    chunks.push((from, tokens.len()));
    let all = (tokens, &*found);
    line.names.extend((0..chunks.len()).filter_map(|at| chunk_name(larder, all, &chunks, at)));
}

fn name_end(tokens: &[Token], found: &[Match<'static>]) -> usize {
    let named = |at: usize| tokens.iter().take(at).any(names_something);
    let inside = |at: usize| found.iter().any(|hit| hit.start <= at && at < hit.end);
    // "Butter the size of an egg".
    let likened = |at: usize| {
        let next = |by: usize, word: &str| tokens.get(at + by).is_some_and(|token| token.word(word));
        next(0, "the") && next(1, "size") && next(2, "of")
    };
    let ends =
        |(at, token): &(usize, &Token)| (token.one_among(&ENDS_NAME) || likened(*at)) && named(*at) && !inside(*at);
    tokens.iter().enumerate().find(ends).map_or(tokens.len(), |(at, _)| at)
}

fn splits(token: &Token) -> bool {
    token.one_of(&["or", "and"]) || matches!(token.kind, TokenKind::Slash | TokenKind::And)
}

/// The name in one chunk, completed from its neighbours: "vegetable or chicken stock", "chicken breast or thigh".
fn chunk_name(
    larder: &'static Larder,
    all: (&[Token], &[Match<'static>]),
    chunks: &[(usize, usize)],
    at: usize,
) -> Option<Name> {
    let &(from, to) = chunks.get(at)?;
    let (tokens, _) = all;
    let chunk = tokens.get(from..to)?;
    let own = name_of(larder, chunk, &among(larder, chunk, all));
    if own.as_ref().is_some_and(|name| name.food.is_some()) && !lacks_noun(larder, chunk, tokens, chunks, at) {
        return own;
    }
    let completed =
        complete_from_next(larder, tokens, chunks, at).or_else(|| complete_from_last(larder, tokens, chunks, at));
    completed.or(own)
}

/// "vegetable" in "vegetable or chicken stock": a food by itself, but another one with the noun of its neighbour.
fn lacks_noun(
    larder: &'static Larder,
    chunk: &[Token],
    tokens: &[Token],
    chunks: &[(usize, usize)],
    at: usize,
) -> bool {
    let next = chunks.get(at + 1).and_then(|&(from, to)| tokens.get(from..to));
    let words = |tokens: &[Token]| tokens.iter().filter(|token| names_something(token)).count();
    words(chunk) == 1
        && next.is_some_and(|next| {
            words(next) >= 2 && complete_from_next(larder, tokens, chunks, at).is_some_and(|name| name.food.is_some())
        })
}

fn complete_from_next(larder: &'static Larder, tokens: &[Token], chunks: &[(usize, usize)], at: usize) -> Option<Name> {
    let &(from, to) = chunks.get(at)?;
    let &(next_from, next_to) = chunks.get(at + 1)?;
    let next: Vec<&Token> = tokens.get(next_from..next_to)?.iter().filter(|token| names_something(token)).collect();
    if next.len() < 2 {
        return None;
    }
    (1..next.len()).find_map(|skip| {
        let mut joined = tokens.get(from..to)?.to_vec();
        joined.extend(next.get(skip..)?.iter().map(|token| (*token).clone()));
        let found = matches_in(larder, &joined);
        let whole = found.iter().any(|hit| hit.end == joined.len() && hit.start < to - from);
        whole.then(|| name_of(larder, &joined, &found)).flatten().map(|mut name| {
            name.span = span_of(tokens.get(from..to).unwrap_or_default());
            name
        })
    })
}

fn complete_from_last(larder: &'static Larder, tokens: &[Token], chunks: &[(usize, usize)], at: usize) -> Option<Name> {
    let &(from, to) = chunks.get(at)?;
    let &(last_from, last_to) = chunks.get(at.checked_sub(1)?)?;
    let last: Vec<&Token> = tokens.get(last_from..last_to)?.iter().filter(|token| names_something(token)).collect();
    (1..last.len()).rev().find_map(|keep| {
        let mut joined: Vec<Token> = last.get(..keep)?.iter().map(|token| (*token).clone()).collect();
        joined.extend(tokens.get(from..to)?.iter().cloned());
        let found = matches_in(larder, &joined);
        let whole = found.iter().any(|hit| hit.start < keep && hit.end > keep);
        whole.then(|| name_of(larder, &joined, &found)).flatten().map(|mut name| {
            name.span = span_of(tokens.get(from..to).unwrap_or_default());
            name
        })
    })
}

fn span_of(tokens: &[Token]) -> Span {
    let first = tokens.iter().find(|token| names_something(token)).or(tokens.first());
    let last = tokens.iter().rev().find(|token| names_something(token)).or(tokens.last());
    match (first, last) {
        (Some(first), Some(last)) => first.span.joined(last.span),
        _ => Span::default(),
    }
}

/// The name in a chunk of tokens: what stands behind "of" where pieces or parts stand before it, else its last words.
fn name_of(larder: &'static Larder, chunk: &[Token], found: &[Match<'static>]) -> Option<Name> {
    let inside = |at: usize| found.iter().any(|hit| hit.start < at && at < hit.end);
    let of = chunk.iter().enumerate().position(|(at, token)| token.word("of") && !inside(at));
    let (before, body) = match of.and_then(|of| Some((chunk.get(..of)?, chunk.get(of + 1..)?))) {
        Some((before, after)) if after.iter().any(names_something) => (before, after),
        _ => (Default::default(), chunk),
    };
    let mut name = plain_name(larder, body, &among(larder, body, (chunk, found)))?;
    if name.part.is_none() {
        name.part = before.iter().rev().find_map(|token| name.food.and_then(|food| part(food, &token.fold)));
    }
    Some(name)
}

fn plain_name(larder: &'static Larder, body: &[Token], found: &[Match<'static>]) -> Option<Name> {
    let candidates = |strict: bool| -> Vec<&Token> {
        body.iter().filter(|token| names_something(token) && !(strict && token.is(Roles::PIECE))).collect()
    };
    let mut kept = candidates(true);
    if kept.is_empty() {
        kept = candidates(false);
    }
    if kept.is_empty() {
        // A name made of words of state alone ("brown", "cooked"): better than no name.
        kept = body.iter().filter(|token| token.kind == TokenKind::Word && !token.is(Roles::SMALL)).collect();
    }
    let hit = head_food(body, found);
    let slip = if hit.is_none() { misspelt(larder, &kept) } else { None };
    let span = kept.first()?.span.joined(kept.last()?.span);
    let span = hit.map_or(span, |hit| body.get(hit.start).map_or(span, |first| span.joined(first.span)));
    let all_words = body
        .iter()
        .filter(|token| token.kind == TokenKind::Word && (!token.is(Roles::SMALL)))
        .map(|token| token.fold.clone())
        .collect();
    Some(Name {
        span,
        words: kept.iter().map(|token| token.fold.clone()).collect(),
        all_words,
        food: hit.map(|hit| in_its_sense(larder, body, hit)).or(slip),
        part: hit.and_then(|hit| hit.part),
        aside: false,
    })
}

/// The food that the name as a whole is: a match that no further noun follows. "Oyster sauce" is no oyster.
fn head_food<'m>(body: &[Token], found: &'m [Match<'static>]) -> Option<&'m Match<'static>> {
    let follows = |at: usize| body.iter().skip(at).any(|token| names_something(token) && !token.is(Roles::PIECE));
    let pieces =
        |hit: &Match<'_>| body.get(hit.start..hit.end).unwrap_or_default().iter().all(|token| token.is(Roles::PIECE));
    let whole = found.iter().filter(|hit| !pieces(hit)).max_by_key(|hit| (hit.end, hit.end - hit.start));
    whole.or(found.last()).filter(|hit| !follows(hit.end))
}

/// "2 peppers", "1 pepper, sliced" are no peppercorns.
fn in_its_sense(larder: &'static Larder, body: &[Token], hit: &Match<'static>) -> &'static Food {
    const PREPARED: &[&str] =
        &["chopped", "diced", "sliced", "seeded", "deseeded", "cored", "roasted", "large", "medium", "small"];
    let word = body.get(hit.start..hit.end).and_then(|words| words.last());
    let sliced = hit.food.name == "black pepper"
        && word.is_some_and(|word| {
            word.word("pepper")
                && hit.end - hit.start == 1
                && (word.inflected || body.iter().any(|token| token.one_of(PREPARED)))
        });
    let bell_pepper = if sliced { larder.food("bell pepper") } else { None };
    bell_pepper.unwrap_or(hit.food)
}

/// The food that a name with a slip of the pen means: broccli.
fn misspelt(larder: &'static Larder, words: &[&Token]) -> Option<&'static Food> {
    let name = words.iter().map(|token| &*token.fold).collect::<Vec<_>>().join(" ");
    larder.find(&name).filter(|found| found.misspelt.is_some() && found.certain).map(|found| found.food)
}

/// `4 eggs, separated`; `1 lemon, zest and juice`; `zest and juice of 1 lemon`.
fn parts(tokens: &[Token], names: &[Name]) -> Vec<Part> {
    let Some(food) = names.iter().find_map(|name| name.food) else { return Vec::new() };
    let mut out: Vec<Part> = Vec::new();
    let mut push = |name: Option<&'static str>, span: Span| {
        if let Some(name) = name.filter(|name| !out.iter().any(|part| part.name == *name)) {
            out.push(Part { name, span });
        }
    };
    for token in tokens.iter().filter(|token| token.kind == TokenKind::Word) {
        match &*token.fold {
            "separated" => {
                push(part(food, "yolk"), token.span);
                push(part(food, "white"), token.span);
            }
            "zested" => push(part(food, "zest"), token.span),
            "juiced" => push(part(food, "juice"), token.span),
            word => push(part(food, word), token.span),
        }
    }
    out
}

/// The part of a food that a folded word names.
pub fn part(food: &'static Food, word: &str) -> Option<&'static str> {
    larder::part_of(food, word)
}
