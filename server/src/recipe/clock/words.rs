//! Lists of words, looked up at once.

use std::{collections::HashSet, sync::LazyLock};

use crate::recipe::language::token::{Token, TokenKind};

/// Folded words: lower case, singular, without accents.
pub type Words = LazyLock<HashSet<&'static str>>;

/// The words of a line.
pub fn words(line: &'static str) -> HashSet<&'static str> {
    line.split_whitespace().collect()
}

/// Whether a token is one of these words.
pub fn is_among(token: &Token, words: &Words) -> bool {
    token.kind == TokenKind::Word && words.contains(&*token.fold)
}
