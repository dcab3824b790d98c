//! Which ingredient, result or group a name in the method means.

use super::{Link, Target};
use crate::{
    larder::{self, Food, Larder, larder},
    recipe::{
        language::{lexicon::Roles, token::Token},
        model::{Group, Ingredient, Name, SectionKind},
        names,
    },
};

/// A result that can be mentioned from a step on.
#[derive(Debug, Clone)]
pub struct KnownResult {
    /// Its words, folded.
    pub words: Vec<Box<str>>,
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
        let whole = larder
            .scan(&all_words)
            .into_iter()
            .find(|hit| hit.end == all_words.len() && hit.food.name != "salt and pepper");
        Query {
            larder,
            food: whole.as_ref().map(|hit| hit.food),
            part: whole.as_ref().and_then(|hit| hit.part),
            plural: tokens.last().is_some_and(|token| token.inflected),
            kinds: kinds(&words),
            beside: beside(&all_words, whole.as_ref().map_or(0, |hit| hit.start)),
            words,
            all_words,
        }
    }

    /// The head noun.
    pub fn head(&self) -> &str {
        self.words.last().copied().unwrap_or_default()
    }
}

/// The words before `start` that are no words of state or size.
fn beside<'t>(words: &[&'t str], start: usize) -> Vec<&'t str> {
    let passed = Roles::STATE.and(Roles::SIZE).and(Roles::SMALL).and(Roles::PIECE);
    let before = words.iter().take(start);
    before.filter(|word| !crate::recipe::language::lexicon::roles(word).any(passed)).copied().collect()
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
    /// The same head, though the larder knows two foods: cream, for sour cream.
    Distant,
    /// A slip of the pen.
    Slip,
}

impl Rank {
    /// How sure a link of this rank is.
    pub fn link(self) -> Link {
        match self {
            Rank::Same | Rank::Synonym => Link::Exact,
            Rank::Shorter | Rank::Longer | Rank::Inner | Rank::Distant => Link::Partial,
            Rank::PartOf | Rank::BarePart => Link::Part,
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
    let mut out: Vec<Fit> = Vec::new();
    for (index, ingredient) in ingredients.iter().enumerate() {
        let fits = ingredient.names.iter().filter_map(|name| fit(query, name, ingredient));
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
    out
}

/// Compounds that their head noun does not describe: peanut butter is no butter (common practice, no source).
const OTHER_THAN_HEAD: &[(&str, &str)] = &[
    ("peanut", "butter"),
    ("almond", "butter"),
    ("cashew", "butter"),
    ("apple", "butter"),
    ("nut", "butter"),
    ("cocoa", "butter"),
    ("coconut", "milk"),
    ("almond", "milk"),
    ("condensed", "milk"),
    ("coconut", "cream"),
    ("ice", "cream"),
    ("tartar", "cream"),
    ("bell", "pepper"),
    ("sweet", "pepper"),
    ("red", "pepper"),
    ("green", "pepper"),
    ("yellow", "pepper"),
    ("orange", "pepper"),
    ("chili", "pepper"),
    ("cayenne", "pepper"),
    ("jalapeno", "pepper"),
    ("lemon", "pepper"),
    ("anch", "pepper"),
    ("hot", "pepper"),
    ("banana", "pepper"),
    ("serrano", "pepper"),
    ("poblano", "pepper"),
    ("sichuan", "pepper"),
    ("szechuan", "pepper"),
    ("rose", "water"),
    ("orange", "water"),
    ("blossom", "water"),
    ("soda", "water"),
    ("coconut", "water"),
    ("tonic", "water"),
    ("baking", "soda"),
    ("snap", "sugar"),
    ("sea", "salt"),
    ("garlic", "salt"),
    ("celery", "salt"),
    ("onion", "salt"),
];

fn other_than_head(name: &Name, query: &Query<'_>) -> bool {
    let head = name.head();
    let inside = |word: &str| name.words.iter().any(|own| &**own == word) && !query.words.contains(&word);
    OTHER_THAN_HEAD
        .iter()
        .any(|(word, of)| *of == head && *word != "sea" && inside(word) && !(head == "pepper" && query.plural))
}

fn fit(query: &Query<'_>, name: &Name, ingredient: &Ingredient) -> Option<(Rank, Option<&'static str>)> {
    let same_part = name.part == query.part;
    if other_heat(query, name) {
        return None;
    }
    if same_words(&query.words, &name.words) && same_words_or_state(query, name) {
        return Some((Rank::Same, name.part));
    }
    if let (Some(asked), Some(food)) = (query.food, name.food)
        && std::ptr::eq(asked, food)
    {
        let more = query.beside.iter().any(|word| !name.all_words.iter().any(|own| &**own == *word));
        return match (query.part, name.part) {
            _ if more => Some((Rank::Longer, name.part)),
            (asked, own) if asked == own => Some((Rank::Synonym, own)),
            (Some(part), _) => Some((Rank::PartOf, Some(part))),
            (None, own) => Some((Rank::Shorter, own)),
        };
    }
    if let Some(part) = said_part(query, name) {
        return Some((Rank::PartOf, Some(part)));
    }
    by_words(query, name)
        .filter(|_| same_part || query.part.is_none())
        .map(|rank| (rank, name.part))
        .or_else(|| by_part(query, name, ingredient))
        .or_else(|| by_kind(query, name).then_some((Rank::Kind, name.part)))
        .or_else(|| slip(query, name).then_some((Rank::Slip, name.part)))
}

fn same_words(query: &[&str], name: &[Box<str>]) -> bool {
    query.len() == name.len() && query.iter().all(|word| name.iter().any(|own| &**own == *word))
}

/// Where two lines differ in a word of state alone (ground cumin, cumin seeds; dried, fresh), the state must not contradict.
fn same_words_or_state(query: &Query<'_>, name: &Name) -> bool {
    const TELLING: &[&str] = &["dried", "fresh", "ground", "canned", "frozen", "smoked", "salted", "unsalted"];
    let asked = query.all_words.iter().find(|word| TELLING.contains(word));
    let Some(asked) = asked else { return true };
    let own: Vec<&str> = name.all_words.iter().map(|word| &**word).filter(|word| TELLING.contains(word)).collect();
    own.is_empty() || own.contains(asked)
}

/// Hot water for the oven's floor is not the warm water of the list.
fn other_heat(query: &Query<'_>, name: &Name) -> bool {
    let asked = query.all_words.iter().find(|word| HEAT.contains(word));
    let own = name.all_words.iter().find(|word| HEAT.contains(&&***word));
    name.head() == "water" && asked.zip(own).is_some_and(|(asked, own)| **asked != **own)
}

const HEAT: &[&str] = &["hot", "warm", "cold", "boiling", "lukewarm", "tepid"];

fn by_words(query: &Query<'_>, name: &Name) -> Option<Rank> {
    let within =
        |small: &[&str]| !small.is_empty() && small.iter().all(|word| name.all_words.iter().any(|own| &**own == *word));
    let head = query.head() == name.head();
    let longer = !name.words.is_empty() && name.words.iter().all(|own| query.all_words.contains(&&**own));
    if !head && !within(&query.words) {
        return None;
    }
    let known_apart = apart(query, name);
    if head && within(&query.words) {
        if other_than_head(name, query) {
            return None;
        }
        return Some(if known_apart { Rank::Distant } else { Rank::Shorter });
    }
    if head && longer {
        let other = OTHER_THAN_HEAD.iter().any(|(word, of)| {
            *of == query.head() && query.all_words.contains(word) && !name.all_words.iter().any(|own| &**own == *word)
        });
        return if known_apart { (!other).then_some(Rank::Distant) } else { Some(Rank::Longer) };
    }
    if within(&query.words) {
        // "Vegetables" is no short word for vegetable oil.
        let other_kind = query.kinds[1].is_some_and(|kind| name.food.is_none_or(|food| !food.is(kind)));
        return (!known_apart && !other_kind).then_some(Rank::Inner);
    }
    None
}

/// Whether the larder knows both, and knows them for two different things.
fn apart(query: &Query<'_>, name: &Name) -> bool {
    let (Some(asked), Some(food)) = (query.food, name.food) else {
        // A word that is a food by itself, inside a name that the larder does not know: chicken, in "chicken satay".
        return query.food.is_some() && name.food.is_none() && query.head() != name.head();
    };
    if std::ptr::eq(asked, food) {
        return false;
    }
    let joined = query.words.join(" ");
    let own = name.words.join(" ");
    // Salsa, for salsa verde: the beginning of the name, and the same kind of thing.
    let begins = query.words.iter().zip(&name.words).all(|(asked, own)| *asked == &**own)
        && query.words.len() < name.words.len();
    let alike = begins && asked.kinds.first().is_some_and(|kind| food.kinds.first() == Some(kind));
    !(alike || kind_of(food, &joined) || kind_of(food, asked.name) || kind_of(asked, &own) || kind_of(asked, food.name))
}

fn kind_of(food: &Food, word: &str) -> bool {
    food.is(word) || but_for_state(food.name, word) || larder().kind(word).is_some_and(|kind| food.is(kind))
}

/// Whether two names differ in words of state alone: dill and dried dill.
fn but_for_state(one: &str, other: &str) -> bool {
    let plain = |name: &str| -> Vec<String> {
        let words = name.split_whitespace().map(|word| larder::words::fold(word).into_owned());
        words.filter(|word| !crate::recipe::language::lexicon::roles(word).any(Roles::STATE)).collect()
    };
    let one = plain(one);
    !one.is_empty() && one == plain(other)
}

/// "lemon juice", "egg yolks", "garlic cloves", "chicken skin": the food and one of its parts.
fn said_part(query: &Query<'_>, name: &Name) -> Option<&'static str> {
    let food = name.food?;
    let (last, rest) = query.words.split_last()?;
    if rest.is_empty() {
        return None;
    }
    let part = names::part(food, last)?;
    let named = rest.iter().all(|word| name.words.iter().any(|own| &**own == *word))
        || query.larder.scan(rest).iter().any(|hit| std::ptr::eq(hit.food, food));
    named.then_some(part)
}

fn by_part(query: &Query<'_>, name: &Name, ingredient: &Ingredient) -> Option<(Rank, Option<&'static str>)> {
    let [word] = query.words.as_slice() else { return None };
    if *word == "clove" && name.food?.each("clove").is_some() {
        return Some((Rank::BarePart, None));
    }
    let part = names::part(name.food?, word)?;
    let declared = ingredient.parts.iter().any(|own| own.name == part) || name.part == Some(part);
    let fruit = name.food?.is("fruit") || name.food?.is("citrus");
    let plain = matches!(part, "yolk" | "white" | "rind" | "clove")
        || fruit && (part == "zest" || part == "juice" && !query.plural);
    (declared || plain).then_some((Rank::BarePart, Some(part)))
}

fn by_kind(query: &Query<'_>, name: &Name) -> bool {
    let Some(food) = name.food else { return false };
    // Sugar, salt, oil and flour are foods before they are kinds: "sugar" is not the honey.
    if query.food.is_some()
        && matches!(query.head(), "sugar" | "salt" | "oil" | "flour" | "milk" | "butter" | "vinegar")
        && !name.all_words.iter().any(|word| &**word == query.head())
    {
        return false;
    }
    let of_kind =
        |kind: Option<&str>| kind.is_some_and(|kind| food.is(kind) || wider(kind).iter().any(|other| food.is(other)));
    let [whole, head] = query.kinds;
    of_kind(whole) || query.words.len() > 1 && query.food.is_none() && of_kind(head)
}

/// Kinds that a looser word takes in: "the spices" of a stew are its dried herbs too (common practice, no source).
fn wider(kind: &str) -> &'static [&'static str] {
    match kind {
        "spice" => &["seasoning", "dried herb"],
        "seasoning" => &["spice", "herb", "dried herb", "salt"],
        _ => &[],
    }
}

/// Nearly the name, by as many letters as the larder lets pass; or a word that sounds the same.
fn slip(query: &Query<'_>, name: &Name) -> bool {
    if query.food.is_some() || query.words.len() != 1 {
        return false;
    }
    let word = query.head();
    if let Some(meant) = super::runs::homophone(word) {
        return name.words.iter().any(|own| &**own == meant);
    }
    if word.ends_with("ed") || word.chars().count() < 6 {
        return false;
    }
    let allowed = larder::spelling::slips_allowed(word);
    allowed > 0 && name.words.iter().any(|own| own.len() >= 5 && larder::spelling::slips(own, word, allowed).is_some())
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
pub fn result_rank(query: &Query<'_>, words: &[Box<str>]) -> Option<Rank> {
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
