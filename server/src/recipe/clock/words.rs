//! Lists of words, looked up at once.

use std::sync::LazyLock;

use rustc_hash::FxHashSet;

use crate::recipe::language::token::{Token, TokenKind};

/// Folded words: lower case, singular, without accents.
pub type Words = LazyLock<FxHashSet<&'static str>>;

/// The words of a line.
pub fn words(line: &'static str) -> FxHashSet<&'static str> {
    line.split_whitespace().collect()
}

/// Whether a token is one of these words.
pub fn is_among(token: &Token, words: &Words) -> bool {
    token.kind == TokenKind::Word && words.contains(&*token.fold)
}
