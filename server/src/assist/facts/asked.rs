//! What was asked: a food, and how much of it, in the order in which a list has them or the other way round.

use std::fmt;

use crate::{
    book::{House, near::near},
    larder::{Food, Found, words},
    measure::{Unit, nearest_unit},
    recipe::{
        self, Recipe,
        measures::{Stated, Term},
    },
    syntax::Tree,
    text::Span,
};

/// A question, read.
pub(super) struct Asked {
    /// The food that it names, and what it says of it.
    pub found: Found<'static>,
    /// How much of it.
    pub amount: Option<Amount>,
}

/// An amount as it was asked for.
pub(super) struct Amount {
    /// As it was typed.
    pub written: String,
    /// Its numbers and units.
    pub stated: Stated,
    /// The size of one, where it counts packs: `2 (14-oz) cans`.
    pub each: Option<Stated>,
    /// The word before the food that says what is counted: `large`.
    pub size: Option<&'static str>,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotKnown {
    /// No food has this name.
    Food {
        /// The name as it was typed.
        name: String,
        /// Names that are spelt nearly so.
        near: Vec<String>,
    },
    /// It is a word for many foods.
    Kind {
        /// The word.
        name: String,
        /// Some of them.
        foods: Vec<&'static str>,
    },
    /// The amount is none.
    Amount {
        /// As it was typed.
        amount: String,
        /// The unit that was most likely meant.
        near: Option<&'static str>,
    },
    /// It is an amount, and not of a food: `3 minutes`.
    NoFood {
        /// As it was typed.
        amount: String,
    },
    /// Nothing is known that would tell how much one of this weighs.
    NotCounted {
        /// As it was typed.
        amount: String,
        /// The food.
        food: &'static str,
        /// What it is counted by.
        by: Vec<&'static str>,
    },
}

/// How many near names, or foods of a kind, are offered.
const OFFERED: usize = 5;

/// Reads a question.
pub(super) fn read(house: &House, question: &str) -> Result<Asked, NotKnown> {
    let larder = house.larder();
    let question = question.split_whitespace().collect::<Vec<_>>().join(" ");
    if let Some(found) = larder.find(&question).filter(|_| larder.food(&question).is_some()) {
        return Ok(Asked { found, amount: None });
    }
    let Some((measure, name)) = parted(house, &question) else {
        let found = food(house, &question)?;
        return match number_outside(&question, found.span) {
            Some(amount) => Err(NotKnown::Amount { amount, near: None }),
            None => Ok(Asked { found, amount: None }),
        };
    };
    let found = food(house, &name).map_err(|unknown| no_unit(house, &measure.written, &name).unwrap_or(unknown))?;
    let size = size(found.food, &name).filter(|_| measure.stated.unit().is_none());
    let written =
        size.map_or(measure.written.clone(), |size| format!("{} {}", measure.written, several(size, &measure)));
    Ok(Asked { found, amount: Some(Amount { written, stated: measure.stated, each: measure.each, size }) })
}

/// The word by which something is counted, as it stands behind that number: `2 large`, `3 cloves`.
fn several(size: &'static str, measure: &Measured) -> &'static str {
    let number = measure.stated.terms.first().and_then(Term::amount).and_then(|amount| amount.number.most);
    Unit::find(size).zip(number).map_or(size, |(unit, number)| unit.symbol_for(number))
}

/// What starts with a digit, perhaps behind a sign, and is no part of the food's name: an amount that could not be read.
fn number_outside(question: &str, name: Span) -> Option<String> {
    let outside = |(at, rest): &(usize, &str)| {
        !(name.start..name.end).contains(at) && rest.trim_start_matches(['-', '.', '+']).starts_with(char::is_numeric)
    };
    let starts = std::iter::once(0).chain(question.match_indices(' ').map(|(at, _)| at + 1));
    let words = starts.filter_map(|at| Some((at, question.get(at..)?)));
    words.filter(outside).map(|(_, rest)| rest.to_owned()).next()
}

/// A measure at the start of a text.
struct Measured {
    written: String,
    stated: Stated,
    each: Option<Stated>,
    /// What stands behind it.
    rest: String,
}

/// A question as its amount and the rest of its words, with the amount last or first: `rye flour 1 1/2 cups packed`.
fn parted(house: &House, question: &str) -> Option<(Measured, String)> {
    let spaces = question.match_indices(' ').map(|(at, _)| at);
    let last = spaces.filter_map(|at| {
        let (name, amount) = question.split_at_checked(at)?;
        let measure = measured(house, amount.trim())?;
        // `type 55 flour 200 g` and `200 g type 55 flour` have numbers that are none of the amount.
        let numbered = |text: &str| text.contains(char::is_numeric);
        let plain = !numbered(&measure.rest) && (!numbered(name) || house.larder().food(name).is_some());
        let name = format!("{} {name}", measure.rest).trim().to_owned();
        plain.then_some((measure, name))
    });
    let mut either_way = last.chain(measured(house, question).and_then(|measure| {
        let name = measure.rest.clone();
        (!name.is_empty()).then_some((measure, name))
    }));
    either_way.next()
}

/// The measure that a text starts with: a number, or a word for one with a unit behind it.
fn measured(house: &House, text: &str) -> Option<Measured> {
    // The grammar reads a measure in a list as it does in a manuscript.
    let before = "Ingredients:\n- ";
    let line = format!("{before}{text} food\n");
    let recipe: Recipe = recipe::read(&line, &Tree::parse(&line)?, house.larder());
    let measure = recipe.measures.iter().find(|measure| measure.stated.span.start == before.len())?;
    let rest = text.get(measure.span.end.checked_sub(before.len())?..)?;
    let whole_words = rest.is_empty() || rest.starts_with(' ');
    let means_amount = text.starts_with(char::is_numeric) || measure.stated.unit().is_some();
    (whole_words && means_amount).then(|| Measured {
        written: recipe.at(measure.span).to_owned(),
        stated: measure.stated.clone(),
        each: measure.each.first().cloned(),
        rest: rest.trim().to_owned(),
    })
}

/// The food that a name means, or the names that come near it.
fn food(house: &House, name: &str) -> Result<Found<'static>, NotKnown> {
    let larder = house.larder();
    let words = || words::iter(name).map(|word| word.folded);
    let exact = larder.food(name).is_some();
    if let Some(kind) = larder.kind(&words().collect::<Vec<_>>().join(" ")).filter(|_| !exact) {
        let foods = larder.foods().filter(|food| food.is(kind)).take(OFFERED).map(|food| food.name);
        return Err(NotKnown::Kind { name: name.to_owned(), foods: foods.collect() });
    }
    let found = larder.find(name);
    match found {
        // A list may call flour by the name of a mill; whoever asks for `rie flour` is better asked back.
        Some(found)
            if found.certain && found.misspelt.is_none() && (exact || words().all(|word| larder.knows(&word))) =>
        {
            Ok(found)
        }
        found => Err(NotKnown::Food { name: name.to_owned(), near: names_near(house, name, found) }),
    }
}

/// Names of foods that a name may have been meant to be, each of another food: those spelt nearly so, and the one that can be read
/// out of it.
fn names_near(house: &House, name: &str, found: Option<Found<'static>>) -> Vec<String> {
    let larder = house.larder();
    if let Some(Found { misspelt: Some(_), food, .. }) = found {
        return vec![food.name.to_owned()];
    }
    let read = found.map(|found| found.food.name);
    let names = larder.foods().flat_map(|food| std::iter::once(food.name).chain(food.synonyms.iter().copied()));
    let mut foods: Vec<&str> = Vec::new();
    for name in near(name, names, 2 * OFFERED).into_iter().chain(read) {
        let food = larder.food(name).map_or(name, |food| food.name);
        if !foods.contains(&food) {
            foods.push(food);
        }
    }
    foods.truncate(OFFERED);
    foods.into_iter().map(str::to_owned).collect()
}

/// What is wrong where the word behind the number is no unit, and the rest names a food: `2 cusp flour`.
fn no_unit(house: &House, number: &str, name: &str) -> Option<NotKnown> {
    let (word, rest) = name.split_once(' ')?;
    food(house, rest).ok().filter(|_| !house.larder().knows(&words::fold(word)))?;
    Some(NotKnown::Amount { amount: format!("{number} {word}"), near: nearest_unit(word) })
}

/// The word of a name by which one of the food is weighed: `large`.
fn size(food: &'static Food, name: &str) -> Option<&'static str> {
    let units = || food.each.iter().map(|each| each.unit).filter(|unit| *unit != "one");
    words::iter(name).find_map(|word| units().find(|unit| *unit == word.folded))
}

impl fmt::Display for NotKnown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotKnown::Food { name, .. } if name.is_empty() => write!(f, "name a food, such as egg or rye flour"),
            NotKnown::Food { name, near } if near.is_empty() => {
                write!(
                    f,
                    "there is no food “{name}”; a house tells of one of its own in tamis.toml: [foods.\"{name}\"]"
                )
            }
            NotKnown::Food { name, near } => write!(f, "there is no food “{name}”; did you mean {}?", or(near)),
            NotKnown::Kind { name, foods } => {
                write!(f, "“{name}” is a word for many foods; name one of them, such as {}", or(foods))
            }
            NotKnown::Amount { amount, near: Some(near) } => {
                write!(f, "“{amount}” is no amount; did you mean “{near}”?")
            }
            NotKnown::Amount { amount, near: None } => {
                write!(f, "“{amount}” is no amount; write a number and a unit, as in 1 1/2 cups, 200 g or 2 large")
            }
            NotKnown::NoFood { amount } => {
                write!(
                    f,
                    "no food is measured in this: “{amount}”; write an amount, as in 1 1/2 cups, 200 g or 2 large"
                )
            }
            NotKnown::NotCounted { amount, food, by } if by.is_empty() => {
                write!(f, "what “{amount}” of {food} weighs is not known; ask for a volume or a weight")
            }
            NotKnown::NotCounted { amount, food, by } => {
                write!(f, "what “{amount}” of {food} weighs is not known; it is counted by {}", or(by))
            }
        }
    }
}

/// `a`, `a or b`, `a, b or c`.
fn or(words: &[impl AsRef<str>]) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.as_slice() {
        [others @ .., last] if !others.is_empty() => format!("{} or {last}", others.join(", ")),
        words => words.concat(),
    }
}
