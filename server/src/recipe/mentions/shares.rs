//! How much a mention takes: half the juice, 2 tbsp of the sugar, the rest of the flour.

use super::Share;
use crate::recipe::{
    language::{
        lexicon::Roles,
        token::{Token, TokenKind},
    },
    measures::Measure,
};

/// What stands before a name.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Before {
    /// The share that it says.
    pub share: Share,
    /// The measure that stands with it.
    pub measure: Option<usize>,
    /// Index of the first token that belongs to it.
    pub start: usize,
}

/// Reads backwards from the name that starts at `at`.
pub fn before(tokens: &[Token], at: usize, measures: &[Measure]) -> Before {
    let mut found = Before { share: Share::Whole, measure: None, start: at };
    let mut words = 0;
    let mut place = at;
    while let Some(token) = place.checked_sub(1).and_then(|before| tokens.get(before)) {
        place -= 1;
        match token.kind {
            TokenKind::Measure(index) => {
                found.measure = Some(index);
                found.share = measured(measures, index, found.share);
                found.start = place;
                if all_but(tokens, place) {
                    found.share = Share::AllBut(index);
                    found.start = place - 2;
                    return found;
                }
                if !follows_share(tokens, place) {
                    return found;
                }
            }
            TokenKind::Word => {
                if let Some(share) = said(tokens, place, found.share) {
                    (found.share, found.start) = but_for(tokens, share, place);
                    if let (Share::Rest, Some(index)) = (found.share, found.measure) {
                        found.share = Share::RestAmount(index);
                    }
                    return found;
                }
                words += 1;
                let passed = token.is(Roles::STATE.and(Roles::SIZE).and(Roles::PIECE))
                    || token.one_of(&["of", "the", "a", "an", "your", "about", "this"]);
                if !passed || words > 5 {
                    return found;
                }
                // "Finely grated zest of the lemon": pieces are passed over, verbs are not.
                if token.is(Roles::VERB) && !token.is(Roles::STATE.and(Roles::PIECE)) {
                    return found;
                }
            }
            _ => return found,
        }
    }
    found
}

/// Whether "all but" stands before `place`.
pub fn all_but(tokens: &[Token], place: usize) -> bool {
    let word =
        |by: usize, word: &str| place.checked_sub(by).and_then(|at| tokens.get(at)).is_some_and(|t| t.word(word));
    word(1, "but") && word(2, "all")
}

/// "All but a third", "all but a little": the other share than the one said at `place`.
fn but_for(tokens: &[Token], share: Share, place: usize) -> (Share, usize) {
    let article =
        place.checked_sub(1).and_then(|at| tokens.get(at)).is_some_and(|token| token.one_of(&["a", "an", "one"]));
    let start = if article { place - 1 } else { place };
    if !all_but(tokens, start) {
        return (share, place);
    }
    let other = match share {
        Share::Fraction(least, most) => Share::Fraction(1.0 - most, 1.0 - least),
        _ => Share::Fraction(0.5, 0.95),
    };
    (other, start - 2)
}

/// A measure takes its amount, or, without a unit and before "of", a fraction (`1/3 of the custard`).
fn measured(measures: &[Measure], index: usize, share: Share) -> Share {
    match measures.get(index).and_then(Measure::fraction) {
        Some((least, most)) if share == Share::Whole => Share::Fraction(least, most),
        _ => Share::Amount(index),
    }
}

fn follows_share(tokens: &[Token], place: usize) -> bool {
    let before = place.checked_sub(1).and_then(|before| tokens.get(before));
    before.is_some_and(|token| {
        token.one_of(&["remaining", "last", "final", "other", "extra", "additional", "more", "another"])
    })
}

/// The share that the word at `place` says.
fn said(tokens: &[Token], place: usize, so_far: Share) -> Option<Share> {
    let token = tokens.get(place)?;
    let before = |by: usize| place.checked_sub(by).and_then(|index| tokens.get(index));
    let word = |by: usize, words: &[&str]| before(by).is_some_and(|token| token.one_of(words));
    let again = (1..6).any(|by| word(by, &["repeat", "continue", "same", "likewise", "proceed"]));
    match &*token.fold {
        "rest" | "remaining" | "remainder" if again => Some(Share::RestAgain),
        "rest" | "remainder" if tokens.get(place + 1).is_some_and(|next| next.word("of")) => Some(Share::Rest),
        "last" | "left" if tokens.get(place + 1).is_some_and(|next| next.word("of")) => Some(Share::Rest),
        "remaining" => Some(Share::Rest),
        "half" if word(1, &["other", "second", "remaining"]) => Some(Share::Rest),
        "half" => Some(Share::Fraction(0.5, 0.5)),
        "third" if word(1, &["last", "final", "remaining"]) => Some(Share::Rest),
        "third" if word(1, &["two", "2"]) => Some(Share::Fraction(2.0 / 3.0, 2.0 / 3.0)),
        "third" if word(1, &["a", "one", "another", "first"]) => Some(Share::Fraction(1.0 / 3.0, 1.0 / 3.0)),
        "quarter" if word(1, &["last", "final", "remaining"]) => Some(Share::Rest),
        "quarter" if word(1, &["three", "3"]) => Some(Share::Fraction(0.75, 0.75)),
        "quarter" if word(1, &["a", "one", "another", "first"]) => Some(Share::Fraction(0.25, 0.25)),
        "most" if word(1, &["at", "the"]) => None,
        "most" => Some(Share::Fraction(0.5, 0.95)),
        "some" | "little" | "few" | "bit" | "more" | "extra" | "enough" | "each" | "one" | "another" | "several"
        | "additional" | "half-dozen" => (so_far == Share::Whole).then_some(Share::Some),
        "other" if word(1, &["the"]) => Some(Share::Rest),
        _ => None,
    }
}
