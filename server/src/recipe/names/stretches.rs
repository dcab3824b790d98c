//! A line of the list, cut at its commas and parentheses.

use std::borrow::Cow;
use std::cell::OnceCell;

use super::matches_in;
use crate::{
    larder::{Larder, Match},
    recipe::language::token::{Token, TokenKind},
};

/// A stretch between commas and parentheses.
pub(super) struct Stretch<'t> {
    pub tokens: &'t [Token],
    /// Whether it stands in parentheses.
    pub aside: bool,
    /// The larder's matches in it.
    found: OnceCell<Vec<Match<'static>>>,
}

impl Stretch<'_> {
    pub fn found(&self, larder: &'static Larder) -> &[Match<'static>] {
        self.found.get_or_init(|| matches_in(larder, self.tokens))
    }
}

pub(super) fn stretches(tokens: &[Token]) -> Vec<Stretch<'_>> {
    let mut out = Vec::new();
    let mut depth = 0usize;
    let mut start = 0;
    let mut push = |from: usize, to: usize, depth: usize| {
        if let Some(tokens) = tokens.get(from..to).filter(|tokens| !tokens.is_empty()) {
            out.push(Stretch { tokens, aside: depth > 0, found: OnceCell::new() });
        }
    };
    for (at, token) in tokens.iter().enumerate() {
        match token.kind {
            TokenKind::Open => {
                push(start, at, depth);
                depth += 1;
            }
            TokenKind::Close => {
                push(start, at, depth);
                depth = depth.saturating_sub(1);
            }
            TokenKind::Comma | TokenKind::Pause | TokenKind::Stop => push(start, at, depth),
            _ => continue,
        }
        start = at + 1;
    }
    push(start, tokens.len(), depth);
    out
}

/// The matches among some of the words of a name; those of all of them, where it is all of them.
pub(super) fn among<'f>(
    larder: &'static Larder,
    tokens: &[Token],
    (all, found): (&[Token], &'f [Match<'static>]),
) -> Cow<'f, [Match<'static>]> {
    if tokens.len() == all.len() { Cow::Borrowed(found) } else { Cow::Owned(matches_in(larder, tokens)) }
}
