//! The names of all foods as phrases of folded words, found by their first word, the longest first.

use std::borrow::Cow;
use std::ops::Range;
use std::sync::OnceLock;

use rustc_hash::FxHashMap;

use super::food::Food;
use super::spelling::WordList;
use super::words;

/// A name after its first word: `length` words of the store, from `start`.
#[derive(Debug)]
struct Phrase {
    start: usize,
    length: usize,
    food: usize,
}

/// Every name of every food.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// The names beneath: of two that are as long, the one up here counts.
    base: Option<&'static Names>,
    by_first: FxHashMap<Cow<'static, str>, Vec<Phrase>>,
    /// The words of all phrases, one behind the other.
    store: Vec<Cow<'static, str>>,
    vocabulary: OnceLock<WordList>,
}

/// A food's name among other words. The food is given by its position.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Hit {
    pub words: Range<usize>,
    pub food: usize,
}

/// A name that two foods claim; the first keeps it.
#[derive(Debug)]
pub(super) struct Clash {
    pub name: &'static str,
    pub kept_by: usize,
    pub refused: usize,
}

impl Names {
    /// Names that come before others.
    pub fn on(base: &'static Names) -> Self {
        Names { base: Some(base), ..Names::default() }
    }

    /// No names yet, with room for those of so many foods: on the shelves a food brings two first words and seven further ones.
    pub fn for_foods(count: usize) -> Self {
        let mut names = Names::default();
        names.by_first.reserve(2 * count);
        names.store.reserve(7 * count);
        names
    }

    /// Puts a food's names in; its position stands for it.
    pub fn insert(&mut self, position: usize, food: &Food, clashes: &mut Vec<Clash>) {
        for name in std::iter::once(food.name).chain(food.synonyms.iter().copied()) {
            let mut folded = words::iter(name).map(|word| word.folded);
            let Some(first) = folded.next() else { continue };
            let start = self.store.len();
            self.store.extend(folded);
            let rest = self.store.get(start..).unwrap_or_default();
            let phrases = self.by_first.entry(first).or_default();
            let place = phrases.partition_point(|phrase| phrase.length > rest.len());
            let mut as_long = phrases.iter().skip(place).take_while(|phrase| phrase.length == rest.len());
            let same = as_long.find(|phrase| self.store.get(phrase.start..phrase.start + phrase.length) == Some(rest));
            match same.map(|phrase| phrase.food) {
                Some(food) if food == position => {}
                Some(food) => clashes.push(Clash { name, kept_by: food, refused: position }),
                None => phrases.insert(place, Phrase { start, length: rest.len(), food: position }),
            }
        }
    }

    /// The longest name that starts at `at`.
    pub fn longest_at<W: AsRef<str>>(&self, words: &[W], at: usize) -> Option<Hit> {
        let beneath = self.base.and_then(|base| base.longest_at(words, at));
        let own = self.own_longest_at(words, at);
        own.filter(|own| beneath.as_ref().is_none_or(|other| other.words.end <= own.words.end)).or(beneath)
    }

    fn own_longest_at<W: AsRef<str>>(&self, words: &[W], at: usize) -> Option<Hit> {
        let phrases = self.by_first.get(words.get(at)?.as_ref())?;
        phrases.iter().find_map(|phrase| {
            let end = at + 1 + phrase.length;
            let name = self.store.get(phrase.start..phrase.start + phrase.length)?;
            let same = words.get(at + 1..end)?.iter().zip(name).all(|(word, name)| word.as_ref() == name.as_ref());
            same.then_some(Hit { words: at..end, food: phrase.food })
        })
    }

    /// The next name at or behind `at`: the longest that starts first, unless another starts inside it and ends behind it.
    ///
    /// English names have their head at the end, so `brown rice vinegar` would be a rice vinegar and no brown rice. But in `ancho chile
    /// pepper` the second name, `chile pepper`, says no more than the `chile` that it shares with the first: that one keeps the food.
    pub fn next<W: AsRef<str>>(&self, words: &[W], at: usize) -> Option<Hit> {
        let mut hit = (at..words.len()).find_map(|at| self.longest_at(words, at))?;
        let mut inside = hit.words.start + 1;
        while inside < hit.words.end {
            match self.longest_at(words, inside) {
                Some(later) if later.words.end > hit.words.end => {
                    let shared = words.get(inside..hit.words.end).and_then(|words| self.exact(words));
                    inside = later.words.start + 1;
                    if shared == Some(later.food) {
                        hit.words.end = later.words.end;
                    } else {
                        hit = later;
                    }
                }
                _ => inside += 1,
            }
        }
        Some(hit)
    }

    /// The food whose name is exactly these words.
    pub fn exact<W: AsRef<str>>(&self, words: &[W]) -> Option<usize> {
        self.longest_at(words, 0).filter(|hit| hit.words.end == words.len()).map(|hit| hit.food)
    }

    /// Whether the word occurs in a name.
    pub fn knows(&self, word: &str) -> bool {
        self.base.is_some_and(|base| base.knows(word)) || self.vocabulary().contains(word)
    }

    /// The word of some name that this one is most likely a slip of.
    pub fn nearest(&self, word: &str) -> Option<&str> {
        self.vocabulary().nearest(word).or_else(|| self.base?.nearest(word))
    }

    /// Made when it is first asked for: only a word that is no food needs it.
    fn vocabulary(&self) -> &WordList {
        self.vocabulary.get_or_init(|| WordList::new(self.by_first.keys().chain(&self.store).cloned()))
    }
}
