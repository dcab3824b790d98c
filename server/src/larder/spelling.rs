//! How far two words are apart, for the small slips of a typist.

use std::borrow::Cow;

/// How many slips still make `word` the same word: none in a short one, one from five letters, two from eight.
pub fn slips_allowed(word: &str) -> usize {
    match word.chars().count() {
        0..=4 => 0,
        5..=7 => 1,
        _ => 2,
    }
}

/// The number of slips (a letter too many, too few, wrong, or two swapped) between two words; `None` when more than `most`.
pub fn slips(one: &str, other: &str, most: usize) -> Option<usize> {
    Typed::new(one).slips(other, most)
}

/// A word that may be a slip, to be compared with many others.
#[derive(Debug, Clone, Copy)]
pub struct Typed<'w> {
    word: &'w str,
    is_ascii: bool,
    letters: u32,
}

impl<'w> Typed<'w> {
    /// This word.
    pub fn new(word: &'w str) -> Self {
        Typed { word, is_ascii: word.is_ascii(), letters: letters(word) }
    }

    /// The number of slips between it and another, as [`slips`] counts them.
    pub fn slips(&self, other: &str, most: usize) -> Option<usize> {
        self.slips_of(&Typed::new(other), most)
    }

    /// The same of another word that is compared with many.
    pub fn slips_of(&self, other: &Typed<'_>, most: usize) -> Option<usize> {
        // Most words are ruled out by their length, or by their letters: a slip takes at most one out of the set and puts one in.
        let too_long = self.is_ascii && other.is_ascii && self.word.len().abs_diff(other.word.len()) > most;
        if too_long || (self.letters ^ other.letters).count_ones() as usize > 2 * most {
            return None;
        }
        counted(self.word, other.word, most)
    }
}

/// The number of slips by optimal string alignment: a swapped pair is not touched again. None when more than `most`.
fn counted(one: &str, other: &str, most: usize) -> Option<usize> {
    let (one, other): (Vec<char>, Vec<char>) = (one.chars().collect(), other.chars().collect());
    if one.len().abs_diff(other.len()) > most {
        return None;
    }
    let mut before_last: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=other.len()).collect();
    for (row, &letter) in one.iter().enumerate() {
        let mut current = Vec::with_capacity(other.len() + 1);
        current.push(row + 1);
        for (column, &opposite) in other.iter().enumerate() {
            let at = |line: &[usize], index: usize| line.get(index).copied().unwrap_or(usize::MAX / 2);
            let mut cost = at(&last, column) + usize::from(letter != opposite);
            cost = cost.min(at(&last, column + 1) + 1).min(at(&current, column) + 1);
            let swapped =
                row > 0 && column > 0 && one.get(row - 1) == Some(&opposite) && other.get(column - 1) == Some(&letter);
            if swapped {
                cost = cost.min(at(&before_last, column - 1) + 1);
            }
            current.push(cost);
        }
        before_last = std::mem::replace(&mut last, current);
    }
    last.last().copied().filter(|&count| count <= most)
}

/// Words to compare a slip with, sorted. Each carries the set of its letters, which rules most of them out at once.
#[derive(Debug, Default)]
pub(super) struct WordList {
    words: Vec<(Cow<'static, str>, u32)>,
}

impl WordList {
    /// A list of these words, each once.
    pub fn new(words: impl IntoIterator<Item = Cow<'static, str>>) -> Self {
        let mut words: Vec<_> =
            words.into_iter().map(|word| (letters(&word), word)).map(|(set, word)| (word, set)).collect();
        words.sort_unstable();
        words.dedup();
        WordList { words }
    }

    /// The one word that `word` is most likely a slip of; none when two are as near. The first letter has to be right:
    /// slips there are rare, and words of different things are often one first letter apart (butter, cutter, mutter).
    pub fn nearest(&self, word: &str) -> Option<&str> {
        let most = slips_allowed(word);
        let first = word.get(..word.chars().next()?.len_utf8())?;
        if most == 0 {
            return None;
        }
        let typed = Typed::new(word);
        let from = self.words.partition_point(|(candidate, _)| candidate.as_ref() < first);
        let mut best: Option<(usize, &str)> = None;
        let mut tied = false;
        for (candidate, letters) in
            self.words.iter().skip(from).take_while(|(candidate, _)| candidate.starts_with(first))
        {
            let sets_apart = (letters ^ typed.letters).count_ones() as usize;
            let too_short = slips_allowed(candidate) == 0;
            if too_short || sets_apart > 2 * most || candidate.len().abs_diff(word.len()) > most {
                continue;
            }
            let Some(count) = typed.slips(candidate, most) else { continue };
            if best.is_none_or(|(least, _)| count < least) {
                best = Some((count, candidate));
                tied = false;
            } else if best.is_some_and(|(least, _)| count == least) {
                tied = true;
            }
        }
        best.filter(|_| !tied).map(|(_, candidate)| candidate)
    }
}

/// The set of a word's letters as bits.
fn letters(word: &str) -> u32 {
    word.bytes().filter(u8::is_ascii_lowercase).fold(0, |set, byte| set | 1 << (byte - b'a'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_counted() {
        let table = [
            ("broccli", "broccoli", 2, Some(1)),
            ("tumeric", "turmeric", 2, Some(1)),
            ("parmesean", "parmesan", 2, Some(1)),
            ("cinammon", "cinnamon", 2, Some(2)),
            ("onoin", "onion", 1, Some(1)),
            ("leek", "leek", 0, Some(0)),
            ("pea", "pear", 0, None),
            ("chocolate", "chicory", 2, None),
            ("", "ab", 2, Some(2)),
        ];
        for (one, other, most, count) in table {
            assert_eq!(slips(one, other, most), count, "{one} {other}");
            assert_eq!(slips(other, one, most), count, "{other} {one}");
        }
    }

    #[test]
    fn the_nearest_word_is_found_and_a_tie_is_not() {
        let list = WordList::new(
            ["broccoli", "carrot", "parsley", "parsnip", "bread", "thyme", "pear", "mutter", "butler", "butted"]
                .map(Cow::Borrowed),
        );
        assert_eq!(list.nearest("brocoli"), Some("broccoli"));
        assert_eq!(list.nearest("carot"), Some("carrot"));
        assert_eq!(list.nearest("thmye"), Some("thyme"));
        assert_eq!(list.nearest("butter"), None, "two words are as near");
        assert_eq!(list.nearest("pea"), None, "too short to tell");
        assert_eq!(list.nearest("zucchini"), None);
    }
}
