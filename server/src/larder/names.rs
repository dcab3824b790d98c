//! The names of all foods as phrases of folded words, found by their first word, the longest first.

use std::borrow::Cow;
use std::collections::HashMap;
use std::ops::Range;
use std::sync::OnceLock;

use super::food::Food;
use super::spelling::WordList;
use super::words;

/// A name after its first word.
#[derive(Debug)]
struct Phrase {
    rest: Box<[Cow<'static, str>]>,
    food: usize,
}

/// Every name of every food.
#[derive(Debug, Default)]
pub(super) struct Names {
    by_first: HashMap<Cow<'static, str>, Vec<Phrase>>,
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
    /// Puts a food's names in; its position stands for it.
    pub fn insert(&mut self, position: usize, food: &Food, clashes: &mut Vec<Clash>) {
        for name in std::iter::once(food.name).chain(food.synonyms.iter().copied()) {
            let mut folded = words::split(name).into_iter().map(|word| word.folded);
            let Some(first) = folded.next() else { continue };
            let rest: Box<[_]> = folded.collect();
            let phrases = self.by_first.entry(first).or_default();
            let place = phrases.partition_point(|phrase| phrase.rest.len() > rest.len());
            let mut as_long = phrases.iter().skip(place).take_while(|phrase| phrase.rest.len() == rest.len());
            match as_long.find(|phrase| phrase.rest == rest) {
                Some(phrase) if phrase.food == position => {}
                Some(phrase) => clashes.push(Clash { name, kept_by: phrase.food, refused: position }),
                None => phrases.insert(place, Phrase { rest, food: position }),
            }
        }
    }

    /// The longest name that starts at `at`.
    pub fn longest_at<W: AsRef<str>>(&self, words: &[W], at: usize) -> Option<Hit> {
        let phrases = self.by_first.get(words.get(at)?.as_ref())?;
        phrases.iter().find_map(|phrase| {
            let end = at + 1 + phrase.rest.len();
            let behind = words.get(at + 1..end)?;
            let same = behind.iter().zip(&phrase.rest).all(|(word, name)| word.as_ref() == name.as_ref());
            same.then_some(Hit { words: at..end, food: phrase.food })
        })
    }

    /// The next name at or behind `at`: the longest that starts first, unless another starts inside it and ends behind it.
    /// English names have their head at the end: `brown rice vinegar` is a rice vinegar and no brown rice.
    pub fn next<W: AsRef<str>>(&self, words: &[W], at: usize) -> Option<Hit> {
        let mut hit = (at..words.len()).find_map(|at| self.longest_at(words, at))?;
        let mut inside = hit.words.start + 1;
        while inside < hit.words.end {
            match self.longest_at(words, inside) {
                Some(later) if later.words.end > hit.words.end => {
                    inside = later.words.start + 1;
                    hit = later;
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
        self.vocabulary().contains(word)
    }

    /// The word of some name that this one is most likely a slip of.
    pub fn nearest(&self, word: &str) -> Option<&str> {
        self.vocabulary().nearest(word)
    }

    /// Made when it is first asked for: only a word that is no food needs it.
    fn vocabulary(&self) -> &WordList {
        self.vocabulary.get_or_init(|| {
            let rests = self.by_first.values().flatten().flat_map(|phrase| phrase.rest.iter());
            WordList::new(self.by_first.keys().chain(rests).cloned())
        })
    }
}
