/// The words of a list that is written as one text, in lower case and parted by blanks: `"add stir fold"`.
///
/// Nearly every word that is asked for is in no list, and that is told at a look: the compiler has given each word of the list a place by three
/// of its letters and its length, and at the place of most others there is none.
#[derive(Debug, Clone, Copy)]
pub struct Words {
    list: &'static str,
    /// Where a word begins in the list, at the place that its letters give it or, where that was taken, the next free one.
    places: [u16; 256],
}

/// A place that no word has.
const FREE: u16 = u16::MAX;

impl Words {
    /// The words of a list. One of so many words that some places are not free, or of more text than they can point to, does not compile.
    pub const fn new(list: &'static str) -> Self {
        let mut words = Words { list, places: [FREE; 256] };
        let mut rest = list.as_bytes();
        let (mut word, mut length, mut count) = (rest, 0, 1);
        while let [byte, behind @ ..] = rest {
            rest = behind;
            if *byte == b' ' {
                words = words.with(word.split_at(length).0, list.len() - word.len());
                (word, length, count) = (rest, 0, count + 1);
            } else {
                length += 1;
            }
        }
        assert!(count < 256 && list.len() < FREE as usize);
        words.with(word, list.len() - word.len())
    }

    const fn with(mut self, word: &[u8], start: usize) -> Self {
        let Some(mut place) = place(word) else { return self };
        while let (_, [held, ..]) = self.places.split_at_mut(place as usize) {
            if *held == FREE {
                *held = start as u16;
                break;
            }
            place = place.wrapping_add(1);
        }
        self
    }

    /// Whether a word, in lower case, is among them.
    #[inline]
    pub fn contains(&self, word: &str) -> bool {
        place(word.as_bytes()).is_some_and(|place| self.contains_at(place, word))
    }

    /// Whether any word has this [place](place_of): at most places there is none, and the word that is asked for need not be looked at.
    #[inline]
    pub fn has_at(&self, place: u8) -> bool {
        self.places.get(usize::from(place)).is_some_and(|start| *start != FREE)
    }

    /// The same as [`Words::contains`] of a word whose [place](place_of) is known.
    #[inline]
    pub fn contains_at(&self, place: u8, word: &str) -> bool {
        self.find(place, word.len(), |own| own == word.as_bytes())
    }

    /// Whether a word is among them, in whichever case it is written.
    pub fn contains_in_any_case(&self, word: &str) -> bool {
        let letters = letters(word.as_bytes()).map(|letters| letters.map(|letter| letter.to_ascii_lowercase()));
        let is_wanted = |own: &[u8]| own.eq_ignore_ascii_case(word.as_bytes());
        letters.is_some_and(|letters| self.find(place_by(letters, word.len()), word.len(), is_wanted))
    }

    #[inline]
    fn find(&self, mut place: u8, length: usize, is_wanted: impl Fn(&[u8]) -> bool) -> bool {
        while let Some(start) = self.places.get(usize::from(place)).filter(|start| **start != FREE) {
            let from = self.list.as_bytes().get(usize::from(*start)..).unwrap_or_default();
            let own = from.split_at_checked(length);
            if own.is_some_and(|(own, behind)| matches!(behind, [] | [b' ', ..]) && is_wanted(own)) {
                return true;
            }
            place = place.wrapping_add(1);
        }
        false
    }

    /// Whether there is none.
    pub const fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The words one by one.
    pub fn iter(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.list.split(' ').filter(|word| !word.is_empty())
    }
}

/// The letters that a word is told by at a look: the first, the one in its middle, and the last. None of no word.
#[inline]
const fn letters(word: &[u8]) -> Option<[u8; 3]> {
    let ([first, ..], (_, [middle, ..]), [.., last]) = (word, word.split_at(word.len() / 2), word) else { return None };
    Some([*first, *middle, *last])
}

/// The place that a word in lower case has in every list: whoever asks whether it is in many need not reckon it for each.
#[inline]
pub const fn place_of(word: &str) -> u8 {
    match place(word.as_bytes()) {
        Some(place) => place,
        None => 0,
    }
}

#[inline]
const fn place(word: &[u8]) -> Option<u8> {
    match letters(word) {
        Some(letters) => Some(place_by(letters, word.len())),
        None => None,
    }
}

/// The place that a word of these letters and of this length has.
#[inline]
const fn place_by([first, middle, last]: [u8; 3], length: usize) -> u8 {
    first
        .wrapping_add(middle.wrapping_mul(5))
        .wrapping_add(last.wrapping_mul(11))
        .wrapping_add((length as u8).wrapping_mul(37))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_of_a_list_are_in_it_and_no_others() {
        const LIST: Words = Words::new("add stir fold sauté pour");
        for word in ["add", "stir", "fold", "sauté", "pour"] {
            assert!(LIST.contains(word) && LIST.contains_in_any_case(&word.to_ascii_uppercase()), "{word}");
        }
        for word in ["", " ", "ad", "addd", "Add", "stir fold", "pou", "our", "a"] {
            assert!(!LIST.contains(word), "{word}");
        }
        assert_eq!(LIST.iter().count(), 5);
        // Words that begin alike or are a part of another, and two with one look.
        const ALIKE: Words = Words::new("stirring stirs stir stew butter burger");
        assert!(["stirring", "stirs", "stir", "stew", "butter", "burger"].iter().all(|word| ALIKE.contains(word)));
        assert!(!ALIKE.contains("stirrin") && !ALIKE.contains("tir") && !ALIKE.contains("bumper"));
        assert!(Words::new("").is_empty() && !Words::new("").contains(""));
    }
}
