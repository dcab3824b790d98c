//! Which ingredient, result or group a name in the method means.

use smol_str::SmolStr;

use super::{
    Link, Target,
    fit::{fit, fit_as_written, is_same, is_slip, may_be_slip, same_words},
    loosely::stands_for,
};
use crate::{
    larder::{Folded, Food, Larder, Match, larder},
    recipe::{
        language::{
            lexicon::{Roles, roles},
            token::Token,
        },
        model::{Group, Ingredient, SectionKind},
    },
};

/// A result that can be mentioned from a step on.
#[derive(Debug, Clone)]
pub struct KnownResult {
    /// Its words, folded.
    pub words: Vec<SmolStr>,
    /// The step that makes it, as an index.
    pub step: usize,
}

/// A name as a step writes it.
#[derive(Debug, Clone)]
pub struct Query<'t> {
    /// Where its foods are looked up.
    pub larder: &'static Larder,
    /// Its words, folded, words of state left out.
    pub words: Vec<&'t str>,
    /// Every word, folded.
    pub all_words: Vec<&'t str>,
    /// The food that the whole name is, where the larder knows it.
    pub food: Option<&'static Food>,
    /// The part of the food that the name says.
    pub part: Option<&'static str>,
    /// Whether the last word stands in the plural.
    pub plural: bool,
    /// Words that stand before the food's own name: "zucchini", in "zucchini salt".
    pub beside: Vec<&'t str>,
    /// The kind of food that the whole name is, and that its head is.
    pub kinds: [Option<&'static str>; 2],
    /// The foods and kinds that the whole name may loosely stand for.
    pub loosely: &'static [&'static str],
    /// Whether the last word is one for a piece of something.
    pub piece: bool,
}

impl<'t> Query<'t> {
    /// The query for a stretch of tokens.
    pub fn new(larder: &'static Larder, tokens: &'t [Token]) -> Self {
        let all_words: Vec<&str> =
            tokens.iter().map(|token| &*token.fold).filter(|word| !word.is_empty() && !SMALL.contains(word)).collect();
        let passed = Roles::STATE.and(Roles::SIZE);
        let mut words: Vec<&str> = tokens
            .iter()
            .filter(|token| !token.is(passed.and(Roles::SMALL)))
            .map(|token| &*token.fold)
            .filter(|word| !word.is_empty())
            .collect();
        if words.is_empty() {
            words.clone_from(&all_words);
        }
        // With its little words first: bicarbonate of soda. Then without: the zest of the lemon.
        let with_little = if tokens.len() > all_words.len() { last_food(larder, tokens) } else { None };
        let whole = with_little.filter(|hit| hit.start == 0).or_else(|| last_food(larder, &all_words));
        let start = whole.map_or(0, |hit| hit.start);
        Query {
            larder,
            food: whole.map(|hit| hit.food),
            part: whole.and_then(|hit| hit.part),
            plural: tokens.last().is_some_and(|token| token.inflected || token.word("veg")),
            kinds: kinds(&words),
            loosely: stands_for(&words),
            piece: is_piece(&words),
            beside: beside(&all_words, start),
            words,
            all_words,
        }
    }

    /// The query by some of its words alone, of whatever food they are.
    pub fn by_words(&self, words: Vec<&'t str>) -> Query<'t> {
        Query {
            larder: self.larder,
            food: None,
            part: None,
            plural: self.plural,
            kinds: [None, None],
            beside: Vec::new(),
            loosely: stands_for(&words),
            piece: is_piece(&words),
            all_words: words.clone(),
            words,
        }
    }

    /// The head noun.
    pub fn head(&self) -> &str {
        self.words.last().copied().unwrap_or_default()
    }
}

/// The food that these words end with.
fn last_food<W: Folded>(larder: &'static Larder, words: &[W]) -> Option<Match<'static>> {
    let last = larder.scan(words).last().filter(|hit| hit.end == words.len());
    last.filter(|hit| hit.food.name != "salt and pepper")
}

fn is_piece(words: &[&str]) -> bool {
    words.last().is_some_and(|last| roles(last).any(Roles::PIECE))
}

/// The words before `start` that are no words of state or size.
fn beside<'t>(words: &[&'t str], start: usize) -> Vec<&'t str> {
    let passed = Roles::STATE.and(Roles::SIZE).and(Roles::SMALL).and(Roles::PIECE);
    let before = words.iter().take(start);
    before.filter(|word| !roles(word).any(passed)).copied().collect()
}

fn kinds(words: &[&str]) -> [Option<&'static str>; 2] {
    let head = words.last().and_then(|head| larder().kind(head));
    let whole = if words.len() > 1 { larder().kind(&words.join(" ")) } else { head };
    [whole, head]
}

const SMALL: &[&str] = &["of", "the", "a", "an", "in", "your", "and"];

/// A way in which a query fits a target; the lower, the better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// The same words.
    Same,
    /// The same food, under another name.
    Synonym,
    /// A part said with its food: lemon juice, egg yolks.
    PartOf,
    /// Fewer words, the same head.
    Shorter,
    /// More words, the same head.
    Longer,
    /// Words of the name without its head: the parmesan.
    Inner,
    /// A part alone: the zest.
    BarePart,
    /// What kind of food it is.
    Kind,
    /// A part alone that many foods have: the leaves.
    LoosePart,
    /// The same head, though the larder knows two foods: cream, for sour cream.
    Distant,
    /// Another food's name that cooks use for it too: bacon, for lardons.
    Loosely,
    /// A slip of the pen.
    Slip,
}

impl Rank {
    /// How sure a link of this rank is.
    pub fn link(self) -> Link {
        match self {
            Rank::Same | Rank::Synonym => Link::Exact,
            Rank::Shorter | Rank::Longer | Rank::Inner | Rank::Distant | Rank::Loosely => Link::Partial,
            Rank::PartOf | Rank::BarePart | Rank::LoosePart => Link::Part,
            Rank::Kind => Link::Kind,
            Rank::Slip => Link::Spelling,
        }
    }
}

/// An ingredient that a query fits.
#[derive(Debug, Clone, Copy)]
pub struct Fit {
    /// The ingredient.
    pub ingredient: usize,
    /// The part of it.
    pub part: Option<&'static str>,
    /// How well.
    pub rank: Rank,
}

/// Every ingredient that fits best, all of one rank.
pub fn best(query: &Query<'_>, ingredients: &[Ingredient]) -> Vec<Fit> {
    // Most names are written as the list has them, and nothing fits better.
    let mut out: Vec<Fit> = same(query, ingredients).collect();
    if !out.is_empty() {
        return out;
    }
    for (index, ingredient) in ingredients.iter().enumerate() {
        let fits = ingredient.names.iter().filter_map(|name| fit_as_written(query, name, ingredient));
        let Some((mut rank, part)) = fits.min_by_key(|(rank, _)| *rank) else { continue };
        if ingredient.tags.remark {
            rank = rank.max(Rank::Distant);
        }
        match out.first().map(|fit| fit.rank) {
            Some(held) if held < rank => continue,
            Some(held) if held > rank => out.clear(),
            _ => {}
        }
        out.push(Fit { ingredient: index, part, rank });
    }
    // A slip of the pen is taken for one where nothing else fits.
    if out.is_empty() && may_be_slip(query) {
        out.extend(slips(query, ingredients));
    }
    out
}

/// Every ingredient of which the query is nearly a name.
fn slips(query: &Query<'_>, ingredients: &[Ingredient]) -> impl Iterator<Item = Fit> {
    ingredients.iter().enumerate().filter_map(|(index, ingredient)| {
        let name = ingredient.names.iter().find(|name| is_slip(query, name))?;
        Some(Fit { ingredient: index, part: name.part, rank: Rank::Slip })
    })
}

/// Every ingredient that the query calls by the same words.
fn same(query: &Query<'_>, ingredients: &[Ingredient]) -> impl Iterator<Item = Fit> {
    let lines = ingredients.iter().enumerate().filter(|(_, ingredient)| !ingredient.tags.remark);
    lines.filter_map(|(index, ingredient)| {
        let name = ingredient.names.iter().find(|name| is_same(query, name))?;
        Some(Fit { ingredient: index, part: name.part, rank: Rank::Same })
    })
}

/// Every ingredient with the head noun of the query: all the sugars.
pub fn headed(query: &Query<'_>, ingredients: &[Ingredient]) -> Vec<Fit> {
    let mut out = Vec::new();
    for (index, ingredient) in ingredients.iter().enumerate() {
        let headed = ingredient.names.iter().filter(|name| name.head() == query.head());
        let fit = headed.filter_map(|name| fit(query, name, ingredient)).min_by_key(|(rank, _)| *rank);
        out.extend(fit.map(|(rank, part)| Fit { ingredient: index, part, rank }));
    }
    out
}

/// The latest result before `step` that the query names.
pub fn result(query: &Query<'_>, results: &[KnownResult], step: usize) -> Option<(usize, Rank)> {
    let earlier = results.iter().enumerate().filter(|(_, result)| result.step < step);
    let mut held: Option<(usize, Rank)> = None;
    for (index, result) in earlier {
        let Some(rank) = result_rank(query, &result.words) else { continue };
        if held.is_none_or(|(_, best)| rank <= best) {
            held = Some((index, rank));
        }
    }
    held
}

/// How a query fits the words of a result or a group.
pub fn result_rank(query: &Query<'_>, words: &[SmolStr]) -> Option<Rank> {
    if same_words(&query.words, words) || same_words(&query.all_words, words) {
        return Some(Rank::Same);
    }
    let head = words.last().is_some_and(|last| query.all_words.last() == Some(&&**last));
    let within = !query.words.is_empty() && query.words.iter().all(|word| words.iter().any(|own| &**own == *word));
    let longer = words.iter().all(|own| query.all_words.contains(&&**own));
    (head && (within || longer)).then_some(Rank::Shorter)
}

/// The group of the list that the query names: "the crumble ingredients", "the spice mix".
pub fn group(query: &Query<'_>, groups: &[Group]) -> Option<usize> {
    groups
        .iter()
        .enumerate()
        .filter(|(_, group)| group.section == SectionKind::Ingredients && !group.words.is_empty())
        .find(|(_, group)| same_words(&query.words, &group.words) || same_words(&query.all_words, &group.words))
        .map(|(index, _)| index)
}

impl From<Fit> for Target {
    fn from(fit: Fit) -> Target {
        Target::Ingredient(fit.ingredient, fit.part)
    }
}
