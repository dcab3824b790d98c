//! The words that stand for many foods at once: cheese, greens, nuts, aromatics.

use std::collections::HashMap;

use super::words;

/// A kind's canonical name, then the words that mean it.
const KINDS: &str = include_str!("kinds.tsv");

/// The kinds by every word that means them.
#[derive(Debug)]
pub(super) struct Kinds {
    by_name: HashMap<String, &'static str>,
}

impl Kinds {
    pub fn read() -> Self {
        let mut by_name = HashMap::new();
        for row in KINDS.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).skip(1) {
            let (kind, synonyms) = row.split_once('\t').unwrap_or((row, ""));
            for name in std::iter::once(kind).chain(synonyms.split(';')) {
                let folded: Vec<_> = words::split(name).into_iter().map(|word| word.folded).collect();
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
