//! The words that stand for many foods at once: cheese, greens, nuts, aromatics.

use rustc_hash::FxHashMap;

use super::words;

/// Each kind, and the words that mean it.
pub(super) fn rows() -> impl Iterator<Item = (&'static str, &'static str)> {
    let lines = include_str!("kinds.tsv").lines().filter(|line| !line.starts_with('#'));
    lines.skip(1).filter_map(|row| row.split_once('\t'))
}

/// The kinds by every word that means them.
#[derive(Debug, Clone)]
pub(super) struct Kinds {
    by_name: FxHashMap<String, &'static str>,
}

impl Kinds {
    pub fn read() -> Self {
        let mut by_name = FxHashMap::default();
        for (kind, names) in rows() {
            for name in names.split(';') {
                let folded: Vec<_> = words::iter(name).map(|word| word.folded).collect();
                if !folded.is_empty() {
                    by_name.insert(folded.join(" "), kind);
                }
            }
        }
        Kinds { by_name }
    }

    /// The kind that these folded words, joined by spaces, mean.
    pub fn find(&self, folded: &str) -> Option<&'static str> {
        self.by_name.get(folded).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::super::larder;
    use super::*;

    #[test]
    fn every_kind_on_the_shelves_is_in_the_table_or_a_food() {
        let known: Vec<_> = rows().map(|(kind, _)| kind).collect();
        for food in larder().foods() {
            for kind in &food.kinds {
                assert!(known.contains(kind) || larder().food(kind).is_some(), "{}: {kind}", food.name);
            }
        }
    }

    #[test]
    fn every_kind_in_the_table_is_on_a_shelf_and_no_word_means_two() {
        let mut words: Vec<_> = Vec::new();
        for (kind, names) in rows() {
            assert!(larder().foods().any(|food| food.is(kind)), "{kind}");
            words.extend(names.split(';').map(str::trim).filter(|name| !name.is_empty()));
        }
        let count = words.len();
        words.sort_unstable();
        words.dedup();
        assert_eq!(words.len(), count);
    }

    #[test]
    fn a_kind_is_found_by_its_words() {
        for (words, kind) in
            [("cheese", "cheese"), ("veggie", "vegetable"), ("raising agent", "leavening"), ("broth", "stock")]
        {
            assert_eq!(larder().kind(words), Some(kind));
        }
        for words in ["flour sifter", "spread", "dry", "sweet", "root", ""] {
            assert!(!larder().is_kind(words), "{words}");
        }
    }
}
