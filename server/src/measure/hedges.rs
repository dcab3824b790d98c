//! Words that loosen an amount.

use std::borrow::Cow;

use super::{Interval, Unit};
use crate::text::Words;

/// A word that says how closely an amount is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Hedge {
    /// about, around, roughly, approximately
    About,
    /// scant, just under
    Scant,
    /// generous, good, just over
    Generous,
    /// heaping, heaped, rounded
    Heaping,
    /// level, exactly
    Level,
    /// up to, at most
    UpTo,
    /// at least
    AtLeast,
}

impl Hedge {
    /// The hedge that `text` is.
    pub fn find(text: &str) -> Option<Hedge> {
        // Most of what is asked for is none, and nearly all of that is told by its last word.
        if !Hedge::may_end_in(text.split_whitespace().next_back()?) {
            return None;
        }
        match plain(text).trim_start_matches("a ") {
            "about" | "around" | "roughly" | "approximately" | "approx" | "circa" | "ca" | "~" | "≈" | "±" | "some"
            | "or so" => Some(Hedge::About),
            "scant" | "scanty" | "just under" | "almost" | "nearly" | "not quite" | "short" => Some(Hedge::Scant),
            "generous" | "good" | "just over" | "a little over" | "little over" | "heavy" => Some(Hedge::Generous),
            "heaping" | "heaped" | "rounded" | "mounded" => Some(Hedge::Heaping),
            "level" | "levelled" | "leveled" | "exactly" | "flat" => Some(Hedge::Level),
            "up to" | "at most" | "no more than" | "not more than" | "maximum" | "max" => Some(Hedge::UpTo),
            "at least" | "no less than" | "not less than" | "minimum" | "min" => Some(Hedge::AtLeast),
            _ => None,
        }
    }

    /// Whether a hedge may end in this word.
    pub fn may_end_in(word: &str) -> bool {
        ENDS.contains_in_any_case(word.trim_matches('.'))
    }

    /// What the number may be once it is hedged.
    ///
    /// A scant cup lacks up to 2 tablespoons and a heaping one has up to 2 more (1/8: an old US rule, the Cocroft table of
    /// measures at bitlit.ru); a heaping spoon holds up to twice as much, 'about' is within a tenth (common practice, no source).
    pub fn apply(self, number: &Interval, unit: Option<Unit>) -> Interval {
        let most = |by: f64| number.most.map(|most| most * by);
        match self {
            Hedge::About => Interval { least: number.least * 0.9, most: most(1.1) },
            Hedge::Scant => Interval { least: number.least * 0.875, most: number.most },
            Hedge::Generous => Interval { least: number.least, most: most(1.125) },
            Hedge::Heaping => {
                let spoon =
                    matches!(unit, Some(Unit::Teaspoon | Unit::Tablespoon | Unit::Dessertspoon | Unit::Spoonful));
                Interval { least: number.least, most: most(if spoon { 2.0 } else { 1.125 }) }
            }
            Hedge::Level => *number,
            Hedge::UpTo => Interval { least: 0.0, most: number.most },
            Hedge::AtLeast => Interval::at_least(number.least),
        }
    }
}

/// The last words of all hedges.
const ENDS: Words = Words::new(
    "about around roughly approximately approx circa ca ~ ≈ ± some so scant scanty under almost nearly quite short generous \
     good over heavy heaping heaped rounded mounded level levelled leveled exactly flat to most than maximum max least minimum min",
);

/// Lower case, without full stops, with one blank between two words.
fn plain(text: &str) -> Cow<'_, str> {
    let is_plain = |byte: u8| matches!(byte, b' ' | b'~' | b'a'..=b'z');
    if text.bytes().all(is_plain) && !text.contains("  ") {
        return Cow::Borrowed(text.trim());
    }
    let words: Vec<String> = text.split_whitespace().map(|word| word.trim_matches('.').to_lowercase()).collect();
    Cow::Owned(words.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hedge_loosens_the_side_it_speaks_of() {
        let cup = |hedge: &str, number| {
            let hedge = Hedge::find(hedge).unwrap_or_else(|| panic!("{hedge}"));
            hedge.apply(&Interval::exactly(number), Some(Unit::Cup))
        };
        assert_eq!(cup("about", 10.0), Interval::between(9.0, 11.0));
        assert_eq!(cup("Approx.", 10.0), Interval::between(9.0, 11.0));
        assert_eq!(cup("scant", 1.0), Interval::between(0.875, 1.0));
        assert_eq!(cup("a generous", 1.0), Interval::between(1.0, 1.125));
        assert_eq!(cup("heaping", 1.0), Interval::between(1.0, 1.125));
        assert_eq!(cup("level", 1.0), Interval::exactly(1.0));
        assert_eq!(cup("up to", 3.0), Interval::between(0.0, 3.0));
        assert_eq!(cup("at least", 3.0), Interval::at_least(3.0));
        let spoon = Hedge::Heaping.apply(&Interval::exactly(1.0), Some(Unit::Tablespoon));
        assert_eq!(spoon, Interval::between(1.0, 2.0));
        assert_eq!(Hedge::find("not  Quite"), Some(Hedge::Scant));
        assert_eq!(Hedge::find("≈"), Some(Hedge::About));
        assert_eq!([Hedge::find("large"), Hedge::find(""), Hedge::find("so"), Hedge::find("than")], [None; 4]);
    }
}
