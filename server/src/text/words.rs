/// The words of a list that is written as one text, in lower case and parted by blanks: `"add stir fold"`.
///
/// Nearly every word that is asked for is in no list. Most of them are told by a look at their ends and their length, for which the
/// compiler has gone through the list.
#[derive(Debug, Clone, Copy)]
pub struct Words {
    list: &'static str,
    /// A bit for each look that a word of the list has; others may have it too.
    looks: (u128, u128),
}

impl Words {
    /// The words of a list.
    pub const fn new(list: &'static str) -> Self {
        let mut words = Words { list, looks: (0, 0) };
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

    const fn with(self, look: (u128, u128)) -> Self {
        Words { list: self.list, looks: (self.looks.0 | look.0, self.looks.1 | look.1) }
    }

    /// Whether a word looks like one of them.
    fn may_contain(&self, word: &str) -> bool {
        let look = look(word.as_bytes());
        self.looks.0 & look.0 != 0 && self.looks.1 & look.1 != 0
    }

    /// Whether a word, in lower case, is among them.
    pub fn contains(&self, word: &str) -> bool {
        self.may_contain(word) && self.iter().any(|own| own == word)
    }

    /// Whether a word is among them, in whichever case it is written.
    pub fn contains_in_any_case(&self, word: &str) -> bool {
        self.may_contain(word) && self.iter().any(|own| own.eq_ignore_ascii_case(word))
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

/// Two bits for the look of a word, in either case: one for its first letters, one for its last and its length. None for no word.
const fn look(word: &[u8]) -> (u128, u128) {
    let ([first, behind @ ..], [.., last]) = (word, word) else { return (0, 0) };
    let second = if let [second, ..] = behind { second.to_ascii_lowercase() } else { 0 };
    let (first, last) = (first.to_ascii_lowercase(), last.to_ascii_lowercase());
    let begins = first as usize * 37 + second as usize * 5;
    let ends = last as usize * 11 + word.len();
    (1 << (begins % 128), 1 << (ends % 128))
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
