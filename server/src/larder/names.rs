//! Finds the names of foods among folded words, by their first word, the longest first.

use std::sync::OnceLock;
use std::{borrow::Cow, ops::Range};

use rustc_hash::FxHashMap;

use super::spelling::WordList;
use super::table::{DRAWERS, LETTERS, Table, drawer_of, letter_of, mark_of};

/// What `build.rs` has made of the shelves.
pub(super) mod built {
    use super::Drawers;

    include!(concat!(env!("OUT_DIR"), "/larder.rs"));
}

/// A folded word.
pub trait Folded: AsRef<str> {
    /// The mark of the word. Whoever asks for it often may have it kept.
    fn mark(&self) -> u16 {
        mark_of(self.as_ref())
    }
}

impl Folded for str {}
impl Folded for &str {}
impl Folded for String {}
impl Folded for Cow<'_, str> {}

/// Every name of every food.
#[derive(Debug)]
pub(super) struct Names {
    /// The names beneath: of two that are as long, the one up here counts.
    base: Option<&'static Names>,
    /// The words that begin names, with those names.
    first: Drawers,
    /// A bit for the mark of each of these words.
    first_marks: &'static [u64],
    /// Of each drawer of them what has been read. None is read before somebody writes a word that begins so: of thirteen thousand names a
    /// recipe has some dozens.
    read: Vec<OnceLock<FxHashMap<&'static str, Group>>>,
    /// The words that stand behind the first of some name.
    behind: Drawers,
    /// Of each letter the words of names that begin with it, as far as somebody has slipped in one.
    vocabulary: Vec<OnceLock<WordList>>,
}

/// What is written of words, cut into drawers by their first two letters; see [`Table`].
#[derive(Debug, Clone, Copy)]
pub(super) struct Drawers {
    text: &'static str,
    /// Where each drawer ends, in bytes.
    ends: &'static [u32],
}

/// The names that begin with one word. Nothing behind that word is read before somebody writes it.
#[derive(Debug)]
struct Group {
    written: &'static str,
    phrases: OnceLock<Phrases>,
}

/// The names of a group, read.
#[derive(Debug, Default)]
struct Phrases {
    /// The food whose name is the one word.
    alone: Option<usize>,
    /// The names of more words, the longest first.
    longer: Vec<Phrase>,
    /// A bit for the mark of each second word. Most words that follow in a text have that of none, and then only a name of one word is left.
    seconds: u64,
}

/// A name of more than one word.
#[derive(Debug)]
struct Phrase {
    /// Its folded words behind the first.
    words: Box<[&'static str]>,
    /// The mark of the first of them.
    second: u16,
    food: usize,
}

/// A food's name among other words. The food is given by its position.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Hit {
    pub words: Range<usize>,
    pub food: usize,
}

impl Names {
    /// The names on the shelves that come with the program.
    pub fn built() -> Self {
        Names::of(built::FIRST, built::FIRST_MARKS, built::BEHIND, None)
    }

    /// The names of a table, that come before those of `base`. It is kept as long as the program runs.
    pub fn of_table(table: Table, base: Option<&'static Names>) -> Self {
        let drawers = |text: String, ends: Vec<u32>| Drawers { text: text.leak(), ends: ends.leak() };
        let first = drawers(table.first, table.first_ends);
        Names::of(first, table.first_marks.leak(), drawers(table.behind, table.behind_ends), base)
    }

    fn of(first: Drawers, first_marks: &'static [u64], behind: Drawers, base: Option<&'static Names>) -> Self {
        let read = std::iter::repeat_with(OnceLock::new).take(DRAWERS).collect();
        let vocabulary = std::iter::repeat_with(OnceLock::new).take(LETTERS).collect();
        Names { base, first, first_marks, read, behind, vocabulary }
    }

    /// The names that begin with a folded word.
    fn group<W: Folded + ?Sized>(&self, word: &W) -> Option<&Group> {
        if !self.has_mark(word.mark()) {
            return None;
        }
        let word = word.as_ref();
        let drawer = drawer_of(word);
        self.read.get(drawer)?.get_or_init(|| lines(self.first.drawer(drawer)).collect()).get(word)
    }

    /// Whether some name begins with a word of this mark.
    #[inline]
    fn has_mark(&self, mark: u16) -> bool {
        let bits = self.first_marks.get(usize::from(mark) / 64);
        bits.is_some_and(|bits| bits & 1 << (mark % 64) != 0)
    }

    /// Whether a name may begin with a word. Of most words it tells that none does.
    #[inline]
    pub fn may_begin<W: Folded>(&self, word: &W) -> bool {
        self.has_mark(word.mark()) || self.base.is_some_and(|base| base.may_begin(word))
    }

    /// The longest name that starts at `at`.
    pub fn longest_at<W: Folded>(&self, words: &[W], at: usize) -> Option<Hit> {
        let beneath = self.base.and_then(|base| base.longest_at(words, at));
        let own = self.own_longest_at(words, at);
        own.filter(|own| beneath.as_ref().is_none_or(|other| other.words.end <= own.words.end)).or(beneath)
    }

    fn own_longest_at<W: Folded>(&self, words: &[W], at: usize) -> Option<Hit> {
        let phrases = self.group(words.get(at)?)?.phrases();
        let longer = phrases.longest(words.get(at + 1..)?);
        let (behind, food) = longer.or_else(|| Some((0, phrases.alone?)))?;
        Some(Hit { words: at..at + 1 + behind, food })
    }

    /// The next name at or behind `at`: the longest that starts first, unless another starts inside it and ends behind it.
    ///
    /// English names have their head at the end, so `brown rice vinegar` would be a rice vinegar and no brown rice. But in `ancho chile
    /// pepper` the second name, `chile pepper`, says no more than the `chile` that it shares with the first: that one keeps the food.
    pub fn next<W: Folded>(&self, words: &[W], at: usize) -> Option<Hit> {
        let mut begun = (at..words.len()).filter(|at| words.get(*at).is_some_and(|word| self.may_begin(word)));
        let mut hit = begun.find_map(|at| self.longest_at(words, at))?;
        let mut inside = hit.words.start + 1;
        while inside < hit.words.end && hit.words.end < words.len() {
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
    pub fn exact<W: Folded>(&self, words: &[W]) -> Option<usize> {
        self.longest_at(words, 0).filter(|hit| hit.words.end == words.len()).map(|hit| hit.food)
    }

    /// Whether the word occurs in a name.
    pub fn knows(&self, word: &str) -> bool {
        let is_behind = || self.behind.drawer(drawer_of(word)).split(' ').any(|own| own == word && !word.is_empty());
        self.base.is_some_and(|base| base.knows(word)) || self.group(word).is_some() || is_behind()
    }

    /// The word of some name that this one is most likely a slip of. The first letter is right.
    pub fn nearest(&self, word: &str) -> Option<&str> {
        let letter = letter_of(word);
        let words = || {
            let first = lines(self.first.letter(letter)).map(|(first, _)| first);
            WordList::new(first.chain(self.behind.letter(letter).split_terminator(' ')).map(Cow::Borrowed))
        };
        let own = self.vocabulary.get(letter).and_then(|list| list.get_or_init(words).nearest(word));
        own.or_else(|| self.base?.nearest(word))
    }
}

impl Drawers {
    fn drawer(&self, drawer: usize) -> &'static str {
        self.drawers(drawer..drawer + 1)
    }

    /// All drawers of words that begin with a letter.
    fn letter(&self, letter: usize) -> &'static str {
        self.drawers(letter * LETTERS..(letter + 1) * LETTERS)
    }

    fn drawers(&self, drawers: Range<usize>) -> &'static str {
        let end =
            |behind: usize| behind.checked_sub(1).and_then(|last| self.ends.get(last)).map_or(0, |end| *end as usize);
        self.text.get(end(drawers.start)..end(drawers.end)).unwrap_or_default()
    }
}

/// The words that begin names, each with those names.
fn lines(text: &'static str) -> impl Iterator<Item = (&'static str, Group)> {
    let lines = text.lines().filter_map(|line| line.split_once('\t'));
    lines.map(|(first, written)| (first, Group { written, phrases: OnceLock::new() }))
}

impl Phrases {
    /// Reads `rice vinegar=12;sugar=7;=9`.
    fn read(written: &'static str) -> Phrases {
        let mut phrases = Phrases::default();
        for (words, food) in written.split(';').filter_map(|name| name.split_once('=')) {
            let Ok(food) = food.parse() else { continue };
            let words: Box<[&str]> = words.split_terminator(' ').collect();
            match words.first().map(|second| mark_of(second)) {
                Some(second) => {
                    phrases.seconds |= bit(second);
                    phrases.longer.push(Phrase { words, second, food });
                }
                None => phrases.alone = Some(food),
            }
        }
        phrases
    }

    /// The longest name that goes on with these words behind the first: how many of them it takes, and its food.
    fn longest<W: Folded>(&self, behind: &[W]) -> Option<(usize, usize)> {
        let second = behind.first()?.mark();
        if self.seconds & bit(second) == 0 {
            return None;
        }
        let fits = |phrase: &&Phrase| {
            let own = behind.get(..phrase.words.len());
            own.is_some_and(|own| own.iter().zip(&phrase.words).all(|(word, name)| word.as_ref() == *name))
        };
        let mut alike = self.longer.iter().filter(|phrase| phrase.second == second);
        alike.find(fits).map(|phrase| (phrase.words.len(), phrase.food))
    }
}

/// A bit for the mark of a word.
fn bit(mark: u16) -> u64 {
    1 << (mark % 64)
}

impl Group {
    fn phrases(&self) -> &Phrases {
        self.phrases.get_or_init(|| Phrases::read(self.written))
    }
}

#[cfg(test)]
mod tests {
    use super::super::{SHELVES, part_words, shelf, table_of};
    use super::*;

    #[test]
    fn the_program_brings_along_what_stands_on_its_shelves() {
        let rows: Vec<_> = SHELVES.iter().flat_map(shelf::rows).collect();
        let table = table_of(&rows);
        assert_eq!((built::FIRST.text, built::FIRST.ends), (&*table.first, &*table.first_ends));
        assert_eq!(built::FIRST_MARKS, table.first_marks);
        assert_eq!((built::BEHIND.text, built::BEHIND.ends), (&*table.behind, &*table.behind_ends));
        assert_eq!(built::PARTS, part_words(rows.iter().flat_map(shelf::Row::part_names)).join(" "));
    }

    #[test]
    fn names_are_found_in_a_table_of_any() {
        let given = ["Brown sugar", "brown rice vinegar", "Pâté", "7-up", "geese", "& co", "", "sugar"];
        let names = Names::of_table(Table::of(given.iter().copied().zip(0..)), None);
        for (words, food) in [
            (&["brown", "sugar"][..], Some(0)),
            (&["brown", "rice", "vinegar"], Some(1)),
            (&["pate"], Some(2)),
            (&["7", "up"], Some(3)),
            (&["goose"], Some(4)),
            (&["and", "co"], Some(5)),
            (&["sugar"], Some(7)),
            (&["brown"], None),
            (&["brown", "rice"], None),
            (&[""], None),
        ] {
            assert_eq!(names.exact(words), food, "{words:?}");
        }
        for (word, known) in [("vinegar", true), ("brown", true), ("up", true), ("vinega", false), ("", false)] {
            assert_eq!(names.knows(word), known, "{word}");
        }
        assert_eq!(names.nearest("vinegr"), Some("vinegar"));
        let clashes = Table::of([("Egg", 0), ("eggs", 0), ("egg", 1)]).clashes;
        assert_eq!(clashes, [("egg".to_owned(), 0, 1)]);
    }
}
