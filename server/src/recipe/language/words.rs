//! Words as a sentence takes them. A method says the same few hundred words over and over, so what has been found out about one is kept.

use std::cell::RefCell;

use rustc_hash::FxHashMap;
use smol_str::SmolStr;

use super::lexicon::{Roles, roles};
use crate::{
    larder::{mark_of, words::fold},
    text::place_of,
};

/// What is known of a word as it is written.
#[derive(Debug, Clone)]
pub(super) struct Word {
    /// Folded.
    pub fold: SmolStr,
    /// What it may do in a sentence.
    pub roles: Roles,
    /// Its place in lists of words.
    pub place: u8,
    /// Its mark in the larder.
    pub mark: u16,
    /// Whether it stands in its plural: its folded form differs from its lower-case form.
    pub inflected: bool,
}

/// So many words are kept by each thread before it begins anew: about as many as a cookbook has. While somebody types, half a word comes in
/// with every letter, and none of those is met again.
const KEPT: usize = 4096;

/// Longer ones, in bytes, are hardly said twice.
const LONG: usize = 22;

thread_local! {
    static KNOWN: RefCell<FxHashMap<SmolStr, Word>> = RefCell::default();
}

/// What is known of a word.
pub(super) fn word(written: &str) -> Word {
    if written.len() > LONG {
        return understood(written);
    }
    KNOWN.with_borrow_mut(|known| {
        if let Some(word) = known.get(written) {
            return word.clone();
        }
        if known.len() >= KEPT {
            known.clear();
        }
        known.entry(SmolStr::new(written)).insert_entry(understood(written)).get().clone()
    })
}

fn understood(written: &str) -> Word {
    let fold = fold(written);
    let inflected = !written.eq_ignore_ascii_case(&fold) && written.ends_with(['s', 'S']);
    Word { roles: roles(&fold), place: place_of(&fold), mark: mark_of(&fold), inflected, fold: SmolStr::new(fold) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_the_same_whether_it_is_kept_or_not() {
        let many: Vec<String> = (0..KEPT + 10).map(|number| format!("w{number}s")).collect();
        let few = ["Tomatoes", "tomatoes", "CRÈME", "chopped", "don’t", "stir", "extraordinarily-long-grained"];
        for written in few.into_iter().chain(many.iter().map(String::as_str)).chain(few) {
            let told = |word: Word| (word.fold, word.roles, word.inflected);
            assert_eq!(told(word(written)), told(understood(written)), "{written}");
        }
    }
}
