//! The names of all foods as phrases of folded words, found by their first word, the longest first.

use std::borrow::Cow;
use std::ops::Range;
use std::sync::OnceLock;

use rustc_hash::{FxHashMap, FxHashSet};

use super::spelling::WordList;
use super::words;

/// Every name of every food.
#[derive(Debug, Default)]
pub(super) struct Names {
    /// The names beneath: of two that are as long, the one up here counts.
    base: Option<&'static Names>,
    /// By the first two letters of their first words.
    drawers: Vec<Drawer>,
    /// Every word that stands behind the first of some name, folded.
    behind: OnceLock<FxHashSet<Cow<'static, str>>>,
    vocabulary: OnceLock<WordList>,
}

/// Names whose first words begin alike. None is read before somebody writes a word that begins so: of thirteen thousand names a recipe has
/// some dozens.
#[derive(Debug, Default)]
struct Drawer {
    /// In the order of the shelves, each with its food.
    names: Vec<(&'static str, usize)>,
    /// By their first words, folded.
    groups: OnceLock<FxHashMap<Cow<'static, str>, Group>>,
}

/// The names that begin with one word. Nothing behind that word is read before somebody writes it.
#[derive(Debug, Default)]
struct Group {
    /// In the order of the shelves.
    written: Vec<Written>,
    phrases: OnceLock<Phrases>,
}

/// The names of a group, read.
#[derive(Debug, Default)]
struct Phrases {
    /// The longest first.
    all: Vec<Phrase>,
    /// A bit for the look of each second word. Most words that follow in a text have that of none, and then only a name of one word is left.
    seconds: u64,
}

/// A name as it stands on a shelf.
#[derive(Debug)]
struct Written {
    name: &'static str,
    /// Where its first word ends.
    first: usize,
    food: usize,
}

/// The folded words of a name behind the first.
#[derive(Debug)]
struct Phrase {
    words: Box<[Cow<'static, str>]>,
    food: usize,
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

    /// Puts a food's names in; its position stands for it.
    pub fn insert(&mut self, position: usize, names: impl Iterator<Item = &'static str>) {
        self.drawers.resize_with(PLACES * PLACES, Drawer::default);
        for name in names {
            if let Some(drawer) = drawer_of_name(name).and_then(|drawer| self.drawers.get_mut(drawer)) {
                drawer.names.push((name, position));
            }
        }
    }

    /// The names that begin with a folded word.
    fn group(&self, word: &str) -> Option<&Group> {
        self.drawers.get(drawer_of(word))?.groups().get(word)
    }

    /// All names by their first words.
    fn groups(&self) -> impl Iterator<Item = (&Cow<'static, str>, &Group)> {
        self.drawers.iter().flat_map(Drawer::groups)
    }

    /// The names that two foods claim.
    pub fn clashes(&self) -> Vec<Clash> {
        let mut clashes = Vec::new();
        for (_, group) in self.groups() {
            group.read(&mut clashes);
        }
        clashes.sort_by_key(|clash| (clash.refused, clash.kept_by));
        clashes
    }

    /// The longest name that starts at `at`.
    pub fn longest_at<W: AsRef<str>>(&self, words: &[W], at: usize) -> Option<Hit> {
        let beneath = self.base.and_then(|base| base.longest_at(words, at));
        let own = self.own_longest_at(words, at);
        own.filter(|own| beneath.as_ref().is_none_or(|other| other.words.end <= own.words.end)).or(beneath)
    }

    fn own_longest_at<W: AsRef<str>>(&self, words: &[W], at: usize) -> Option<Hit> {
        let phrases = self.group(words.get(at)?.as_ref())?.phrases();
        phrases.before(words.get(at + 1).map(AsRef::as_ref)).iter().find_map(|phrase| {
            let end = at + 1 + phrase.words.len();
            let mut pairs = words.get(at + 1..end)?.iter().zip(&phrase.words);
            pairs
                .all(|(word, name)| word.as_ref() == name.as_ref())
                .then_some(Hit { words: at..end, food: phrase.food })
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
        self.base.is_some_and(|base| base.knows(word)) || self.group(word).is_some() || self.behind().contains(word)
    }

    /// The word of some name that this one is most likely a slip of.
    pub fn nearest(&self, word: &str) -> Option<&str> {
        self.vocabulary().nearest(word).or_else(|| self.base?.nearest(word))
    }

    /// Made when it is first asked for: only a word that begins no food's name needs it. So are the words to compare a slip with.
    fn behind(&self) -> &FxHashSet<Cow<'static, str>> {
        self.behind.get_or_init(|| {
            let names = self.drawers.iter().flat_map(|drawer| &drawer.names);
            names.flat_map(|(name, _)| words::iter(name).skip(1).map(|word| word.folded)).collect()
        })
    }

    fn vocabulary(&self) -> &WordList {
        self.vocabulary.get_or_init(|| {
            let first = self.groups().map(|(first, _)| first);
            WordList::new(first.chain(self.behind()).cloned())
        })
    }
}

/// The places that a letter or a figure may have, with one for all else.
const PLACES: usize = 37;

/// The drawer of a folded word.
fn drawer_of(word: &str) -> usize {
    let mut bytes = word.bytes();
    let mut place = || match bytes.next() {
        Some(letter @ b'a'..=b'z') => usize::from(letter - b'a') + 1,
        Some(figure @ b'0'..=b'9') => usize::from(figure - b'0') + 27,
        _ => 0,
    };
    place() * PLACES + place()
}

/// The drawer of a name as it stands on a shelf; none for one without a word.
fn drawer_of_name(name: &str) -> Option<usize> {
    match name.as_bytes() {
        // Folding changes the second letter of feet, geese and teeth, and may change what is not plain.
        [b'f' | b'g' | b't', b'e', ..] => {}
        [first, second, ..] if is_plain(*first) && (is_plain(*second) || *second == b' ') => {
            return Some(drawer_of(name));
        }
        _ => {}
    }
    words::iter(name).next().map(|first| drawer_of(&first.folded))
}

fn is_plain(byte: u8) -> bool {
    byte.is_ascii_lowercase() || byte.is_ascii_digit()
}

impl Drawer {
    fn groups(&self) -> &FxHashMap<Cow<'static, str>, Group> {
        self.groups.get_or_init(|| {
            let mut groups: FxHashMap<Cow<'static, str>, Group> = FxHashMap::default();
            for (name, food) in &self.names {
                if let Some(first) = words::iter(name).next() {
                    let written = Written { name, first: first.span.end, food: *food };
                    groups.entry(first.folded).or_default().written.push(written);
                }
            }
            groups
        })
    }
}

impl Written {
    /// The words behind the first, folded.
    fn behind(&self) -> impl Iterator<Item = Cow<'static, str>> + use<> {
        words::iter(self.name.get(self.first..).unwrap_or_default()).map(|word| word.folded)
    }
}

impl Phrases {
    fn of(all: Vec<Phrase>) -> Phrases {
        let seconds = all.iter().filter_map(|phrase| phrase.words.first()).fold(0, |bits, word| bits | look(word));
        Phrases { all, seconds }
    }

    /// Those that may go on with this word.
    fn before(&self, second: Option<&str>) -> &[Phrase] {
        match second {
            Some(second) if self.seconds & look(second) != 0 => &self.all,
            _ => self.all.last().filter(|last| last.words.is_empty()).map(std::slice::from_ref).unwrap_or_default(),
        }
    }
}

/// A bit for the ends and the length of a word.
fn look(word: &str) -> u64 {
    let (Some(first), Some(last)) = (word.bytes().next(), word.bytes().last()) else { return 0 };
    1 << ((usize::from(first) * 7 + usize::from(last) * 3 + word.len()) % 64)
}

impl Group {
    fn phrases(&self) -> &Phrases {
        self.phrases.get_or_init(|| Phrases::of(self.read(&mut Vec::new())))
    }

    /// Reads the names. Of two that are the same the first keeps its food.
    fn read(&self, clashes: &mut Vec<Clash>) -> Vec<Phrase> {
        let mut phrases: Vec<Phrase> = Vec::with_capacity(self.written.len());
        for written @ Written { name, food, .. } in &self.written {
            let phrase = Phrase { words: written.behind().collect(), food: *food };
            match phrases.iter().find(|known| known.words == phrase.words) {
                Some(known) if known.food == *food => {}
                Some(known) => clashes.push(Clash { name, kept_by: known.food, refused: *food }),
                None => phrases.push(phrase),
            }
        }
        phrases.sort_by_key(|phrase| std::cmp::Reverse(phrase.words.len()));
        phrases
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::larder::larder;

    #[test]
    fn every_name_lies_in_the_drawer_in_which_it_is_looked_for() {
        let names = larder().foods().flat_map(|food| std::iter::once(food.name).chain(food.synonyms.iter().copied()));
        for name in
            names.chain(["Goose", "geese fat", "pâté", "00 flour", "1% milk", "x", "&", "écrevisse", "T-bone", ""])
        {
            let first = words::iter(name).next().map(|word| drawer_of(&word.folded));
            assert_eq!(drawer_of_name(name), first, "{name}");
        }
    }
}
