/// The words of a list that is written as one text, in lower case and parted by blanks: `"add stir fold"`.
///
/// Nearly every word that is asked for is in no list. Most of them are told by a look at their ends and their length, for which the
/// compiler has gone through the list.
#[derive(Debug, Clone, Copy)]
pub struct Words {
    list: &'static str,
    /// A bit for each look that a word of the list has; others may have it too.
    looks: Look,
}

/// A bit for the first letters, one for the last and the length, one for the second and the last but one.
type Look = (u128, u128, u128);

impl Words {
    /// The words of a list.
    pub const fn new(list: &'static str) -> Self {
        let mut words = Words { list, looks: (0, 0, 0) };
        let mut rest = list.as_bytes();
        let mut word = rest;
        let mut length = 0;
        while let [byte, behind @ ..] = rest {
            rest = behind;
            if *byte == b' ' {
                words = words.with(look(word.split_at(length).0));
                (word, length) = (rest, 0);
            } else {
                length += 1;
            }
        }
        words.with(look(word))
    }

    const fn with(self, look: Look) -> Self {
        let looks = (self.looks.0 | look.0, self.looks.1 | look.1, self.looks.2 | look.2);
        Words { list: self.list, looks }
    }

    /// Whether a word looks like one of them.
    fn may_contain(&self, word: &str) -> bool {
        let look = look(word.as_bytes());
        self.looks.0 & look.0 != 0 && self.looks.1 & look.1 != 0 && self.looks.2 & look.2 != 0
    }

    /// Whether a word, in lower case, is among them.
    pub fn contains(&self, word: &str) -> bool {
        self.may_contain(word) && self.has(|own| own == word.as_bytes(), word.len())
    }

    /// Whether a word is among them, in whichever case it is written.
    pub fn contains_in_any_case(&self, word: &str) -> bool {
        self.may_contain(word) && self.has(|own| own.eq_ignore_ascii_case(word.as_bytes()), word.len())
    }

    /// Whether a word of so many bytes is the one that is wanted.
    fn has(&self, is_wanted: impl Fn(&[u8]) -> bool, length: usize) -> bool {
        let mut rest = self.list.as_bytes();
        while let Some((own, behind)) = rest.split_at_checked(length) {
            if matches!(behind, [] | [b' ', ..]) && is_wanted(own) {
                return true;
            }
            let next = rest.iter().position(|byte| *byte == b' ').unwrap_or(rest.len());
            rest = rest.get(next + 1..).unwrap_or_default();
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

/// The look of a word, in either case. None for no word.
const fn look(word: &[u8]) -> Look {
    let ([first, behind @ ..], [before @ .., last]) = (word, word) else { return (0, 0, 0) };
    let second = if let [second, ..] = behind { second.to_ascii_lowercase() } else { 0 };
    let last_but_one = if let [.., one] = before { one.to_ascii_lowercase() } else { 0 };
    let (first, last) = (first.to_ascii_lowercase(), last.to_ascii_lowercase());
    let begins = first as usize * 37 + second as usize * 5;
    let ends = last as usize * 11 + word.len();
    let within = second as usize * 29 + last_but_one as usize * 7;
    (1 << (begins % 128), 1 << (ends % 128), 1 << (within % 128))
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
        assert!(Words::new("").is_empty() && !Words::new("").contains(""));
    }
}
