//! Words that mean two foods, and how the rest of the line tells which.

use std::ops::Range;

use super::Larder;
use super::food::Food;
use super::vocabulary;
use super::words::Word;

/// A name that is one food alone, and another beside certain words.
struct Sense {
    /// The folded name.
    name: &'static str,
    /// The food it is beside one of the words.
    other: &'static str,
    /// Folded words that tell, anywhere in the line.
    beside: &'static [&'static str],
    /// Whether the plural, or a number right before it, tells as well.
    counted: bool,
}

const SENSES: &[Sense] = &[
    Sense {
        name: "pepper",
        other: "bell pepper",
        beside: &["chopped", "diced", "sliced", "seeded", "deseeded", "cored", "roasted", "large", "medium", "small"],
        counted: true,
    },
    Sense {
        name: "coriander",
        other: "cilantro",
        beside: &["bunch", "chopped", "fresh", "handful", "leaf", "picked", "root", "sprig", "stalk", "stem", "torn"],
        counted: false,
    },
];

/// The other food that the name has to mean here, if it has another sense.
pub(super) fn of<'l>(
    larder: &'l Larder,
    food: &Food,
    text: &str,
    words: &[Word<'_>],
    name: &Range<usize>,
) -> Option<&'l Food> {
    let [word] = words.get(name.clone())? else { return None };
    let sense = SENSES.iter().find(|sense| sense.name == word.folded)?;
    let plural = word.span.of(text).ends_with(['s', 'S']);
    let numbered = name
        .start
        .checked_sub(1)
        .and_then(|before| words.get(before))
        .is_some_and(|before| vocabulary::is_numeric(&before.folded));
    let told = words.iter().any(|word| sense.beside.contains(&word.folded.as_ref()));
    let other = larder.food(sense.other)?;
    ((told || sense.counted && (plural || numbered)) && other != food).then_some(other)
}
