//! How a name in the method fits a name of the list.

use std::borrow::Cow;

use smol_str::SmolStr;

use super::{
    loosely,
    resolve::{Query, Rank},
    runs::homophone,
};
use crate::{
    larder::{
        self, Food, larder,
        spelling::{Typed, slips_allowed},
    },
    recipe::{
        language::lexicon::{Roles, roles},
        model::{Ingredient, Name},
        names,
    },
};

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

/// How well the query fits one name of an ingredient, with the part that is meant; nothing where it does not.
pub fn fit(query: &Query<'_>, name: &Name, ingredient: &Ingredient) -> Option<(Rank, Option<&'static str>)> {
    let slip = || may_be_slip(query) && is_slip(query, name);
    fit_as_written(query, name, ingredient).or_else(|| slip().then_some((Rank::Slip, name.part)))
}

/// The same where nothing is taken for a slip of the pen.
pub fn fit_as_written(query: &Query<'_>, name: &Name, ingredient: &Ingredient) -> Option<(Rank, Option<&'static str>)> {
    if other_heat(query, name) {
        return None;
    }
    if is_same(query, name) {
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
    if in_pieces(query, name) {
        return Some((Rank::Synonym, name.part));
    }
    by_words(query, name)
        .filter(|_| query.part.is_none() || name.part == query.part)
        .map(|rank| (rank, name.part))
        .or_else(|| by_part(query, name, ingredient))
        .or_else(|| by_kind(query, name).then_some((Rank::Kind, name.part)))
        .or_else(|| loosely::means(query, name).then_some((Rank::Loosely, name.part)))
}

/// Whether the query has the words of a name of the list, and means them.
pub fn is_same(query: &Query<'_>, name: &Name) -> bool {
    same_words(&query.words, &name.words) && same_words_or_state(query, name) && !other_heat(query, name)
}

/// The same words in any order.
pub fn same_words(query: &[&str], name: &[SmolStr]) -> bool {
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
    if name.head() != "water" {
        return false;
    }
    let asked = query.all_words.iter().find(|word| HEAT.contains(word));
    let own = name.all_words.iter().find(|word| HEAT.contains(&word.as_str()));
    asked.zip(own).is_some_and(|(asked, own)| *asked != own.as_str())
}

const HEAT: &[&str] = &["hot", "warm", "cold", "boiling", "lukewarm", "tepid"];

fn by_words(query: &Query<'_>, name: &Name) -> Option<Rank> {
    let is_own = |word: &&str| name.all_words.iter().any(|own| &**own == *word);
    let head = query.head() == name.head();
    let within = !query.words.is_empty() && query.words.iter().all(is_own);
    if head && within {
        if query.words.len() == 1 && other_than_head(name, query) {
            // One that is sliced may be called by its last word, where the list has none that is ground.
            let sliced = query.words == ["pepper"] && name.food.is_some_and(|food| food.is("vegetable"));
            return sliced.then_some(Rank::Distant);
        }
        return Some(if apart(query, name) { Rank::Distant } else { Rank::Shorter });
    }
    if within {
        // "Vegetables" is no short word for vegetable oil.
        let other_kind = query.kinds[1].is_some_and(|kind| name.food.is_none_or(|food| !food.is(kind)));
        return (!other_kind && !apart(query, name)).then_some(Rank::Inner);
    }
    let longer = head && !name.words.is_empty() && name.words.iter().all(|own| query.all_words.contains(&&**own));
    if !longer {
        return None;
    }
    let other = || {
        let compounds = OTHER_THAN_HEAD.iter().filter(|(_, of)| *of == query.head());
        compounds.map(|(word, _)| word).any(|word| query.all_words.contains(word) && !is_own(word))
    };
    if apart(query, name) { (!other()).then_some(Rank::Distant) } else { Some(Rank::Longer) }
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
    // Salsa, for salsa verde: the beginning of the name, and the same kind of thing.
    let begins = query.words.iter().zip(&name.words).all(|(asked, own)| *asked == &**own)
        && query.words.len() < name.words.len();
    let alike = begins && asked.kinds.first().is_some_and(|kind| food.kinds.first() == Some(kind));
    // Plum tomatoes are tomatoes: of what grows in beds and on trees, the last word tells what it is.
    let grows = |food: &Food| food.kinds.first().is_some_and(|kind| matches!(*kind, "vegetable" | "fruit"));
    let variety = query.words.len() == 1 && query.head() == name.head() && grows(asked) && grows(food);
    !(alike
        || variety
        || kind_of(food, &query.words.join(" "))
        || kind_of(food, asked.name)
        || kind_of(asked, &name.words.join(" "))
        || kind_of(asked, food.name))
}

fn kind_of(food: &Food, word: &str) -> bool {
    food.is(word) || larder().kind(word).is_some_and(|kind| food.is(kind)) || but_for_state(food.name, word)
}

/// Whether two names differ in words of state alone: dill and dried dill.
fn but_for_state(one: &str, other: &str) -> bool {
    let mut one = words_but_states(one).peekable();
    one.peek().is_some() && one.eq(words_but_states(other))
}

/// The folded words of a name that are none of state.
fn words_but_states(name: &str) -> impl Iterator<Item = Cow<'_, str>> {
    name.split_whitespace().map(larder::words::fold).filter(|word| !roles(word).any(Roles::STATE))
}

/// "lemon juice", "egg yolks", "chicken skin": the food and one of its parts.
fn said_part(query: &Query<'_>, name: &Name) -> Option<&'static str> {
    let food = name.food?;
    let (last, rest) = query.words.split_last().filter(|(_, rest)| !rest.is_empty())?;
    let part = names::part(food, last)?;
    names_it(query, rest, name, food).then_some(part)
}

/// "garlic cloves", "celery stalks": the food and the pieces that it comes in.
fn in_pieces(query: &Query<'_>, name: &Name) -> bool {
    let Some((last, rest)) = query.words.split_last().filter(|_| query.piece) else { return false };
    name.food.is_some_and(|food| food.each(last).is_some() && names_it(query, rest, name, food))
}

fn names_it(query: &Query<'_>, words: &[&str], name: &Name, food: &Food) -> bool {
    let same = words.iter().all(|word| name.words.iter().any(|own| &**own == *word));
    let scanned = || query.larder.scan(words).any(|hit| std::ptr::eq(hit.food, food));
    !words.is_empty() && (same || scanned())
}

fn by_part(query: &Query<'_>, name: &Name, ingredient: &Ingredient) -> Option<(Rank, Option<&'static str>)> {
    let [word] = query.words.as_slice() else { return None };
    if query.plural && ingredient.pieces.iter().any(|piece| &**piece == *word) {
        return Some((Rank::LoosePart, None));
    }
    if PIECES.contains(word) && name.food?.each(word).is_some() {
        return Some((Rank::LoosePart, None));
    }
    if *word == "clove" && name.food?.each("clove").is_some() {
        return Some((Rank::BarePart, None));
    }
    let part = names::part(name.food?, word)?;
    let declared = ingredient.parts.iter().any(|own| own.name == part) || name.part == Some(part);
    let fruit = name.food?.is("fruit") || name.food?.is("citrus");
    let plain = matches!(part, "yolk" | "white" | "rind" | "clove")
        || fruit && (part == "zest" || part == "juice" && !query.plural);
    match () {
        () if declared || plain => Some((Rank::BarePart, Some(part))),
        () if LOOSE_PARTS.contains(&part) => Some((Rank::LoosePart, Some(part))),
        () => None,
    }
}

/// Pieces that tell by themselves which food they are of, where the list has one that comes in them.
pub const PIECES: &[&str] = &["floret", "spear", "kernel"];

/// Parts that a method may name alone though the list says nothing of them: the leaves, the florets.
const LOOSE_PARTS: &[&str] = &["leaf", "floret", "kernel", "flesh", "pod", "carcass"];

fn by_kind(query: &Query<'_>, name: &Name) -> bool {
    let Some(food) = name.food.filter(|_| query.words != ["fat"]) else { return false };
    // Sugar, salt, oil and flour are foods before they are kinds: "sugar" is not the honey.
    if query.food.is_some()
        && matches!(query.head(), "sugar" | "salt" | "oil" | "flour" | "milk" | "butter" | "vinegar")
        && !name.all_words.iter().any(|word| &**word == query.head())
    {
        return false;
    }
    let of_kind = |kind: Option<&str>| {
        // Salt is a seasoning and no spice.
        kind.filter(|kind| !(*kind == "spice" && food.is("salt")))
            .is_some_and(|kind| food.is(kind) || wider(kind).iter().any(|other| food.is(other)))
    };
    let [whole, head] = query.kinds;
    of_kind(whole) || query.words.len() > 1 && query.food.is_none() && of_kind(head)
}

/// Kinds that a looser word takes in: "the spices" of a stew are its dried herbs too (common practice, no source).
fn wider(kind: &str) -> &'static [&'static str] {
    match kind {
        "spice" => &["seasoning", "dried herb", "herb"],
        "seasoning" => &["spice", "herb", "dried herb", "salt"],
        _ => &[],
    }
}

/// Whether a name may be another that has been written wrong, or a word that sounds the same.
pub fn may_be_slip(query: &Query<'_>) -> bool {
    let [word] = query.words.as_slice() else { return false };
    // "Barely" is no slip for barley.
    let long = || !word.ends_with("ed") && !word.ends_with("ly") && word.chars().count() >= 6;
    query.food.is_none() && (meant_by_sound(query).is_some() || long())
}

/// Whether such a name is nearly this one, by as many letters as the larder lets pass; or sounds the same.
pub fn is_slip(query: &Query<'_>, name: &Name) -> bool {
    if other_heat(query, name) {
        return false;
    }
    if let Some(meant) = meant_by_sound(query) {
        return name.words.iter().any(|own| &**own == meant);
    }
    let (typed, allowed) = (Typed::new(query.head()), slips_allowed(query.head()));
    name.words.iter().any(|own| own.len() >= 5 && typed.slips(own, allowed).is_some())
}

fn meant_by_sound(query: &Query<'_>) -> Option<&'static str> {
    homophone(query.head()).filter(|_| !query.plural)
}
