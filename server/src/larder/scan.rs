//! Finds every food in the words of a step. Runs on each keystroke, so it looks each word up once and allocates nothing.

use super::Larder;
use super::food::Food;
use super::names::Folded;
use super::reader::part_of;
use super::vocabulary;

/// A food among the words of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Match<'l> {
    /// Its first word.
    pub start: usize,
    /// The word behind its last.
    pub end: usize,
    /// The food.
    pub food: &'l Food,
    /// The part that is meant: `zest` in "lemon zest", in "the zest of the lemon".
    pub part: Option<&'l str>,
}

/// How many words may stand between `of` and the food in "the juice of half a lemon".
const WORDS_AFTER_OF: usize = 4;

impl Larder {
    /// The foods named in `words`, which are folded ([`words::fold`](super::words::fold)), from left to right.
    ///
    /// The longest name counts: "peanut butter" holds no butter. An empty word is a break that no name crosses;
    /// put one wherever punctuation stands.
    pub fn scan<W: Folded>(&self, words: &[W]) -> impl Iterator<Item = Match<'_>> {
        let mut at = 0;
        std::iter::from_fn(move || {
            let found = self.next_match(words, at)?;
            at = found.end;
            Some(found)
        })
    }

    /// The first food named at or behind `at`, where the one before it ends.
    fn next_match<W: Folded>(&self, words: &[W], at: usize) -> Option<Match<'_>> {
        let hit = self.names.next(words, at)?;
        let food = self.at(hit.food)?;
        let (start, end) = (hit.words.start, hit.words.end);
        let found = Match { start, end, food, part: None };
        let behind = words.get(end).map(AsRef::as_ref);
        Some(if let Some(part) = behind.and_then(|word| part_of(food, word)) {
            Match { end: end + 1, part: Some(part), ..found }
        } else if behind.is_some_and(|word| self.ends_with_its_kind(food, words, end, word)) {
            Match { end: end + 1, ..found }
        } else if let Some((start, part)) = part_before(food, words.get(at..start).unwrap_or_default()) {
            Match { start: at + start, part: Some(part), ..found }
        } else {
            found
        })
    }

    /// "Cheddar cheese", "fusilli pasta": the word behind a food is its kind, and begins no other name.
    fn ends_with_its_kind<W: Folded>(&self, food: &Food, words: &[W], at: usize, word: &str) -> bool {
        let alone = self.names.longest_at(words, at).is_none_or(|hit| hit.words.len() == 1);
        alone && self.kind(word).is_some_and(|kind| food.is(kind))
    }
}

/// The part in "zest of the", which stands before the food; with its place.
fn part_before<'l, W: Folded>(food: &'l Food, before: &[W]) -> Option<(usize, &'l str)> {
    let of = before.iter().rposition(|word| matches!(word.as_ref(), "of" | "from"))?;
    let between = before.get(of + 1..)?;
    let close = between.len() <= WORDS_AFTER_OF && between.iter().all(|word| is_small(word.as_ref()));
    let part = part_of(food, before.get(of.checked_sub(1)?)?.as_ref())?;
    close.then_some((of - 1, part))
}

/// Whether a word may stand between `of` and the food. A break may not.
fn is_small(word: &str) -> bool {
    !word.is_empty() && (vocabulary::is_state(word) || vocabulary::is_portion(word))
}
