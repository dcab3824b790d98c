//! The words around a food's name that are not the food: how it is, how it was cut, how it is counted.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

/// How a little word carries on a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stop {
    /// `cloves of garlic`, `juice from 2 limes`: the food may stand behind it.
    Of,
    /// `red or yellow onion`, `boneless and skinless thighs`: where nothing was named before it, the name goes on behind it.
    Next,
    /// `oil for frying`, `such as …`: what stands behind it is another matter.
    End,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Class {
    End,
    Portion,
    State,
    Tool,
}

static CLASSES: LazyLock<FxHashMap<&str, Class>> = LazyLock::new(|| rows().collect());

/// The words of the table with their class.
fn rows() -> impl Iterator<Item = (&'static str, Class)> {
    let lines = include_str!("vocabulary.tsv").lines().filter_map(|line| line.split_once('\t'));
    lines.flat_map(|(class, words)| {
        let class = match class {
            "end" => Class::End,
            "portion" => Class::Portion,
            "tool" => Class::Tool,
            _ => Class::State,
        };
        words.split(' ').map(move |word| (word, class))
    })
}

fn class(word: &str) -> Option<Class> {
    CLASSES.get(word).copied()
}

/// What a word may do in a name besides naming a food, looked up once.
#[derive(Debug, Clone, Copy)]
pub(super) struct Uses {
    /// What it does to a name as a little word.
    pub stop: Option<Stop>,
    /// See [`is_state`].
    pub is_state: bool,
    /// See [`is_portion`].
    pub is_portion: bool,
    /// Whether it is a tool: a pastry brush is no pastry.
    pub is_tool: bool,
}

impl Uses {
    /// What this folded word may do.
    pub fn of(word: &str) -> Uses {
        let class = class(word);
        let stop = match word {
            "of" | "from" => Some(Stop::Of),
            "and" | "or" | "nor" | "in" | "on" | "with" | "by" | "into" | "at" => Some(Stop::Next),
            _ => (class == Some(Class::End)).then_some(Stop::End),
        };
        let is_state = class == Some(Class::State) || is_numeric(word) || looks_like_state(word);
        Uses { stop, is_state, is_portion: class == Some(Class::Portion), is_tool: class == Some(Class::Tool) }
    }

    /// Whether it does any of it.
    pub fn any(self) -> bool {
        self.stop.is_some() || self.is_state || self.is_portion || self.is_tool
    }
}

/// What a little word does to a name, if it is one.
pub(super) fn stop(word: &str) -> Option<Stop> {
    Uses::of(word).stop
}

/// Whether the word says how a food is, how it was handled, or how many there are, and never which food it is.
/// Participles and adverbs do, known or not.
pub(super) fn is_state(word: &str) -> bool {
    Uses::of(word).is_state
}

fn looks_like_state(word: &str) -> bool {
    let participle = word.ends_with("ed") && !word.ends_with("eed");
    let adverb = word.ends_with("ly") && !word.ends_with("lly");
    word.len() > 4 && (participle || adverb)
}

/// Whether the word is a number, or a number and its unit in one: `2`, `½`, `350ml`.
pub(super) fn is_numeric(word: &str) -> bool {
    word.starts_with(char::is_numeric)
}

/// Whether the word counts or measures a piece of something: `clove`, `stalk`, `half`, `can`, `cup`.
pub(super) fn is_portion(word: &str) -> bool {
    class(word) == Some(Class::Portion)
}

/// Whether a word behind the comma may turn a food into another: `ginger, ground`, `thyme (dried)`.
pub(super) fn is_qualifier(word: &str) -> bool {
    matches!(
        word,
        "black"
            | "brown"
            | "canned"
            | "dried"
            | "dry"
            | "fresh"
            | "frozen"
            | "granulated"
            | "green"
            | "ground"
            | "powdered"
            | "red"
            | "salted"
            | "smoked"
            | "sweet"
            | "tinned"
            | "toasted"
            | "unsalted"
            | "unsweetened"
            | "white"
            | "whole"
            | "wild"
            | "yellow"
    )
}

/// Words for parts that are not the part's own name, with that name. Folding leaves `whites`: it is no plural of the colour.
const PART_WORDS: &[(&str, &str)] = &[("whites", "white"), ("greens", "green"), ("rib", "stalk")];

/// The name of the part that a folded word means: `whites` is `white`.
pub(super) fn part_word(word: &str) -> &str {
    PART_WORDS.iter().find(|(other, _)| *other == word).map_or(word, |(_, name)| name)
}

/// The folded words that mean the part of this name.
pub(super) fn part_words(name: &'static str) -> impl Iterator<Item = &'static str> {
    let others = PART_WORDS.iter().filter(move |(_, meant)| *meant == name).map(|(word, _)| *word);
    std::iter::once(name).chain(others)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_word_of_the_table_stands_once_and_folded() {
        let mut words: Vec<_> = rows().map(|(word, _)| word).collect();
        let count = words.len();
        assert!(words.iter().all(|word| crate::larder::words::fold(word) == *word), "{words:?}");
        words.sort_unstable();
        words.dedup();
        assert_eq!(words.len(), count);
    }

    #[test]
    fn unknown_participles_and_adverbs_are_states() {
        for word in ["spiralized", "gently", "cubed", "14", "350ml", "½"] {
            assert!(is_state(word), "{word}");
        }
        for word in ["flaxseed", "jelly", "belly", "bread", "lentil", "butter"] {
            assert!(!is_state(word), "{word}");
        }
    }
}
