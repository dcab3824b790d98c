//! What a name was most likely meant to be.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

/// Names that are less alike than this are not what was meant (Jaro–Winkler, 1 for equal; found by trying).
const ALIKE: f64 = 0.84;

/// The one of `names` that comes nearest to `written`, where one comes near.
pub fn nearest<'n>(written: &str, names: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    near(written, names, 1).pop()
}

/// The names that come nearest to `written`, no more than `count`, the nearest first.
pub fn near<'n>(written: &str, names: impl IntoIterator<Item = &'n str>, count: usize) -> Vec<&'n str> {
    let written = written.to_lowercase();
    let alike = |name: &str| strsim::jaro_winkler(&written, &name.to_lowercase());
    let mut near: Vec<(f64, &str)> = names.into_iter().map(|name| (alike(name), name)).collect();
    near.retain(|(alike, _)| *alike >= ALIKE);
    near.sort_by(|(one, name), (other, name_of_other)| other.total_cmp(one).then(name.cmp(name_of_other)));
    near.truncate(count);
    near.into_iter().map(|(_, name)| name).collect()
}

/// Names that came nearest to others when they were looked for. To look through a whole book again behind every keystroke, as long as one
/// reference in a recipe is wrong, would be dear.
#[derive(Debug, Default)]
pub(super) struct Remembered(Mutex<HashMap<(String, String), Option<String>>>);

/// So many answers are kept.
const KEPT: usize = 256;

impl Remembered {
    /// What comes nearest to `written` for this file; where nobody has asked before, by `look`.
    pub fn nearest(&self, file: &str, written: &str, look: impl FnOnce() -> Option<String>) -> Option<String> {
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if known.len() > KEPT {
            known.clear();
        }
        known.entry((file.to_owned(), written.to_owned())).or_insert_with(look).clone()
    }
}

/// What has been looked for makes no difference.
impl PartialEq for Remembered {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_word_and_another_word_finds_none() {
        let names = ["cup", "tablespoon", "pint", "degrees", "required-sections"];
        let table = [
            ("cups", Some("cup")),
            ("table-spoon", Some("tablespoon")),
            ("required_sections", Some("required-sections")),
            ("Degree", Some("degrees")),
            ("colour", None),
            ("", None),
        ];
        for (written, meant) in table {
            assert_eq!(nearest(written, names), meant, "{written}");
        }
    }
}
