//! The sentences of the method as the clock reads them: with what each word is about, and with abbreviated units joined on.

use std::borrow::Cow;

use crate::{
    recipe::{
        language::{
            clause::{self, Sense, senses_of_sentence},
            token::{Token, TokenKind},
        },
        model::{Recipe, Step},
    },
    text::{Span, Words},
};

/// So many words on nobody remembers how a sentence began, nor what was to be done: what is longer is read in pieces, so that no text takes
/// more than its length to read.
pub const REACH: usize = 400;

/// A sentence of a step.
#[derive(Debug, Clone)]
pub struct Sentence<'r> {
    /// The step, as an index.
    pub step: usize,
    /// Its words and marks, the full stop included.
    pub tokens: &'r [Token],
    /// What each of them is about.
    pub senses: Cow<'r, [Sense]>,
}

impl Sentence<'_> {
    /// Where it stands, from its first word to its full stop.
    pub fn span(&self) -> Span {
        let ends = self.tokens.first().zip(self.tokens.last());
        ends.map_or(Span::default(), |(first, last)| first.span.joined(last.span))
    }

    /// Whether the token at `at` is one of these words (folded).
    pub fn is(&self, at: usize, words: &[&str]) -> bool {
        self.tokens.get(at).is_some_and(|token| token.one_of(words))
    }

    /// Whether the token at `at` is one of a list of words.
    pub fn among(&self, at: usize, list: &Words) -> bool {
        self.tokens.get(at).is_some_and(|token| token.one_among(list))
    }

    /// Whether any of its tokens is one of a list of words.
    pub fn names(&self, list: &Words) -> bool {
        self.tokens.iter().any(|token| token.one_among(list))
    }

    /// Whether one of these words (folded) stands among the tokens from `from` up to `to`.
    pub fn has(&self, from: usize, to: usize, words: &[&str]) -> bool {
        self.tokens.get(from..to.min(self.tokens.len())).unwrap_or_default().iter().any(|token| token.one_of(words))
    }

    /// Whether one of these words (folded) stands anywhere in it.
    pub fn says(&self, words: &[&str]) -> bool {
        self.has(0, self.tokens.len(), words)
    }

    /// The places of the words right before `at`, the nearest first, as far as the clause goes.
    pub fn words_before(&self, at: usize) -> impl Iterator<Item = usize> {
        (0..at).rev().take_while(|before| self.tokens.get(*before).is_some_and(|token| token.kind == TokenKind::Word))
    }
}

/// The sentences of the method from a step on, in order.
pub fn sentences(recipe: &Recipe, from: usize) -> Vec<Sentence<'_>> {
    let mut out = Vec::new();
    for (step, own) in recipe.steps.iter().enumerate().skip(from) {
        read(recipe, step, own, &mut out);
    }
    out
}

fn read<'r>(recipe: &Recipe, step: usize, own: &'r Step, out: &mut Vec<Sentence<'r>>) {
    let mut start = 0;
    for sentence in clause::sentences(&own.tokens) {
        if !goes_on(recipe, &own.tokens, sentence.end) {
            // What the step knows is of its sentences as they stand: one that others were joined to is read anew.
            let joined = start < sentence.start;
            out.extend(pieces(step, own, start, sentence.end, joined));
            start = sentence.end;
        }
    }
}

/// The pieces of a sentence; most are in one.
fn pieces(step: usize, own: &Step, start: usize, end: usize, joined: bool) -> impl Iterator<Item = Sentence<'_>> {
    let tokens = own.tokens.get(start..end).unwrap_or_default();
    let senses = own.senses.get(start..end).unwrap_or_default();
    let as_it_stands = !joined && tokens.len() <= REACH;
    tokens.chunks(REACH).zip(senses.chunks(REACH)).map(move |(tokens, senses)| {
        let senses = if as_it_stands { Cow::Borrowed(senses) } else { Cow::Owned(senses_of_sentence(tokens)) };
        Sentence { step, tokens, senses }
    })
}

/// Whether the full stop before the token at `at` only shortens a unit: `20 min. or until golden`.
fn goes_on(recipe: &Recipe, tokens: &[Token], at: usize) -> bool {
    let unit = at.checked_sub(2).and_then(|unit| tokens.get(unit));
    let measured = unit.is_some_and(|unit| matches!(unit.kind, TokenKind::Measure(_)));
    measured && tokens.get(at).is_some_and(|next| recipe.at(next.span).starts_with(char::is_lowercase))
}
