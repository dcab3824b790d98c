//! Verbs that are also foods, and acts that imply one: butter the dish, salt the water, grease a pan, season.

use crate::{
    recipe::language::{
        lexicon::Roles,
        token::{Token, TokenKind},
    },
    text::Words,
};

/// What an act does with foods.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act {
    /// Uses the food it is named after, if that is listed: butter, oil, flour, salt, sugar, pepper.
    Names,
    /// Works on its object and names no food: zest the lemon, cream the butter, ice the cake.
    Works,
}

/// Whether a word may be an act that uses or implies a food.
pub fn may_imply(token: &Token) -> bool {
    token.is(Roles::ACT) || token.one_among(&IMPLYING)
}

/// The words that [`greases`], [`flours`] and [`seasons`] tell an act by.
static IMPLYING: Words = Words::new("grease greased buttered oiled floured season");

/// The act that the word at `at` is, if it is a verb there.
pub fn act(tokens: &[Token], at: usize) -> Option<Act> {
    let token = tokens.get(at)?;
    if !token.is(Roles::ACT) || token.inflected || !verb_place(tokens, at) || !object_follows(tokens, at) {
        return None;
    }
    Some(if token.one_of(&["butter", "oil", "flour", "salt", "sugar", "pepper", "egg"]) {
        Act::Names
    } else {
        Act::Works
    })
}

/// A verb opens a sentence or follows a comma, "and", "then", "lightly", "to".
fn verb_place(tokens: &[Token], at: usize) -> bool {
    let Some(before) = at.checked_sub(1).and_then(|before| tokens.get(before)) else { return true };
    match before.kind {
        TokenKind::Stop
        | TokenKind::Comma
        | TokenKind::Pause
        | TokenKind::Open
        | TokenKind::Close
        | TokenKind::Number => true,
        TokenKind::Word => before.one_of(&[
            "and",
            "then",
            "or",
            "lightly",
            "generously",
            "well",
            "to",
            "finely",
            "liberally",
            "meanwhile",
            "gently",
        ]),
        _ => false,
    }
}

fn object_follows(tokens: &[Token], at: usize) -> bool {
    let Some(next) = tokens.get(at + 1) else { return false };
    // "Beat the eggs and cream together" against "cream together the butter and sugar".
    let joined =
        at.checked_sub(1).and_then(|before| tokens.get(before)).is_some_and(|before| before.one_of(&["and", "or"]));
    if joined && next.one_of(&["together", "well"]) {
        return tokens.get(at + 2).is_some_and(|after| after.is(Roles::SMALL) && !after.is(Roles::CUE));
    }
    match next.kind {
        TokenKind::Measure(_) => tokens.get(at + 2).is_some_and(|after| after.is(Roles::VESSEL)),
        TokenKind::Mention(_) => true,
        TokenKind::Word => {
            next.one_of(&[
                "the", "a", "an", "each", "your", "both", "it", "them", "two", "one", "well", "together", "another",
            ]) || next.is(Roles::VESSEL.and(Roles::SIZE)) && !next.is(Roles::PIECE)
        }
        _ => false,
    }
}

/// Whether the word at `at` greases or lines something: "grease the tin", "a lightly oiled bowl".
pub fn greases(tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else { return false };
    if token.word("grease") {
        return true;
    }
    token.one_of(&["greased", "buttered", "oiled"])
        && tokens.iter().skip(at + 1).take(4).any(|next| next.is(Roles::VESSEL))
}

/// Whether the word at `at` dusts or flours a surface: "a floured board", "dust the worktop".
pub fn flours(tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else { return false };
    token.one_of(&["floured"]) && tokens.iter().skip(at + 1).take(3).any(|next| next.is(Roles::VESSEL))
}

/// Whether the word at `at` seasons: "season to taste", "season the soup". Not "season with …", which names what it uses.
pub fn seasons(tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else { return false };
    if !token.one_of(&["season"]) {
        return false;
    }
    !says_with(tokens, at)
}

/// Whether the order at `at` says with what: "grease with butter". Only up to the next order: "season and scatter with nuts"
/// names nothing that seasons.
pub fn says_with(tokens: &[Token], at: usize) -> bool {
    let rest = tokens.get(at + 1..).unwrap_or_default();
    let mut own = rest.iter().take(8).take_while(|token| {
        !matches!(token.kind, TokenKind::Stop | TokenKind::Comma | TokenKind::Pause) && !token.one_of(&["and", "then"])
    });
    own.any(|token| token.word("with"))
}
