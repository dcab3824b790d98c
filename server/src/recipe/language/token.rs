//! Words, numbers and marks of a stretch of prose, in order.

use smol_str::SmolStr;

use super::{
    lexicon::Roles,
    words::{self, Word},
};
use crate::{
    larder::Folded,
    text::{Span, Words, place_of},
};

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TokenKind {
    /// A word; `fold` holds its folded form.
    Word,
    /// A number that is no measure's.
    Number,
    /// A measure; the number is its place among the measures handed to [`tokens`].
    Measure(usize),
    /// A marked mention; the number is its place among the atoms handed to [`tokens`].
    Mention(usize),
    /// A cross-reference to another recipe.
    Reference(usize),
    /// `,`
    Comma,
    /// `;` or `:` or a dash between words
    Pause,
    /// `.`, `!`, `?`
    Stop,
    /// `(`
    Open,
    /// `)`
    Close,
    /// `/`
    Slash,
    /// `&` or `+`
    And,
}

/// A token with its place in the recipe's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Token {
    /// Bytes in the recipe's text.
    pub span: Span,
    /// What it is.
    pub kind: TokenKind,
    /// The folded word; empty for anything else.
    pub fold: SmolStr,
    /// What the word may do in a sentence.
    pub roles: Roles,
    /// The place that the word has in lists of [`Words`].
    place: u8,
    /// The mark by which the larder knows whether the word begins a name.
    mark: u16,
    /// Whether the word stands in its plural: its folded form differs from its lower-case form.
    pub inflected: bool,
}

impl Token {
    /// Whether this is a word of one of these roles.
    pub fn is(&self, wanted: Roles) -> bool {
        self.roles.any(wanted)
    }

    /// Whether this is the word `word` (folded).
    #[inline]
    pub fn word(&self, word: &str) -> bool {
        // Nearly every word has another place.
        self.place == place_of(word) && self.kind == TokenKind::Word && &*self.fold == word
    }

    /// Whether this is one of these words (folded).
    pub fn one_of(&self, words: &[&str]) -> bool {
        self.kind == TokenKind::Word && words.contains(&&*self.fold)
    }

    /// Whether this is one of the words (folded) of a list.
    pub fn one_among(&self, words: &Words) -> bool {
        self.kind == TokenKind::Word && words.has_at(self.place) && words.contains_at(self.place, &self.fold)
    }
}

impl Folded for Token {
    fn mark(&self) -> u16 {
        self.mark
    }
}

impl AsRef<str> for Token {
    /// The folded word; empty for anything else.
    fn as_ref(&self) -> &str {
        &self.fold
    }
}

/// Something that the parser has already understood, and that counts as one token.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Atom {
    /// Bytes in the recipe's text.
    pub span: Span,
    /// A measure, mention or reference; `None` for what is passed over (comments, queries).
    pub kind: Option<TokenKind>,
}

/// Splits `span` of `text` into tokens. `atoms` are what the parser has found inside, in order.
pub fn tokens(text: &str, span: Span, atoms: &[Atom]) -> Vec<Token> {
    let mut out = Vec::with_capacity(span.len() / 5 + 2);
    let mut from = span.start;
    for atom in atoms.iter().filter(|atom| span.contains(atom.span)) {
        if atom.span.start < from {
            continue;
        }
        plain(text, Span::new(from, atom.span.start), &mut out);
        if let Some(kind) = atom.kind {
            out.push(mark(atom.span, kind));
        }
        from = atom.span.end;
    }
    plain(text, Span::new(from, span.end), &mut out);
    out
}

fn mark(span: Span, kind: TokenKind) -> Token {
    Token { span, kind, fold: SmolStr::default(), roles: Roles::default(), place: 0, mark: 0, inflected: false }
}

fn plain(text: &str, span: Span, out: &mut Vec<Token>) {
    let stretch = span.of(text);
    let mut at = 0;
    while let Some(byte) = stretch.as_bytes().get(at) {
        let start = at;
        if *byte == b' ' {
            at += 1;
        } else if matches!(byte, b'h' | b'H' | b'w' | b'W')
            && let Some(length) = address(stretch, at)
        {
            at += length;
        } else if let Some(length) = plain_word(stretch, at) {
            at += length;
            out.push(word(stretch, Span::new(start, at), span.start));
        } else {
            let Some(first) = stretch.get(at..).and_then(|rest| rest.chars().next()) else { break };
            at += first.len_utf8();
            if first.is_alphabetic() || first.is_numeric() {
                at = end_of_word(stretch, start);
                words(stretch, Span::new(start, at), span.start, out);
            } else if let Some(kind) = punctuation(stretch, start, first) {
                out.push(mark(Span::new(start, at).shifted(span.start), kind));
            }
        }
    }
}

/// The length of the word that starts at `start`, where it is of plain letters and figures, with no apostrophe, hyphen or accent in it or
/// behind it: as nearly all are.
fn plain_word(stretch: &str, start: usize) -> Option<usize> {
    let rest = stretch.as_bytes().get(start..)?;
    let length = rest.iter().position(|byte| !byte.is_ascii_alphanumeric()).unwrap_or(rest.len());
    let is_over = rest.get(length).is_none_or(|next| next.is_ascii() && !matches!(next, b'\'' | b'-'));
    (length > 0 && is_over).then_some(length)
}

/// Where the word that starts at `start` ends.
fn end_of_word(stretch: &str, start: usize) -> usize {
    let mut end = start;
    while let Some(next) = stretch.get(end..).and_then(|rest| rest.chars().next()) {
        if !(next.is_alphanumeric() || joins(stretch, end, next)) {
            break;
        }
        end += next.len_utf8();
    }
    end
}

/// The length of a web address that starts at `at`: no word of the kitchen.
fn address(stretch: &str, at: usize) -> Option<usize> {
    let rest = stretch.get(at..)?;
    let starts = ["http://", "https://", "www."]
        .iter()
        .any(|lead| rest.get(..lead.len()).is_some_and(|own| own.eq_ignore_ascii_case(lead)));
    starts.then(|| rest.find(char::is_whitespace).unwrap_or(rest.len()))
}

/// A hyphen with blanks on both sides is a dash.
fn stands_free(stretch: &str, at: usize) -> bool {
    let before = stretch.get(..at).and_then(|before| before.chars().next_back());
    let after = stretch.get(at + 1..).and_then(|after| after.chars().next());
    before.is_some_and(char::is_whitespace) && after.is_some_and(char::is_whitespace)
}

/// Apostrophes and hyphens join a word when letters stand on both sides; so does a combining accent.
fn joins(stretch: &str, at: usize, c: char) -> bool {
    if ('\u{300}'..='\u{36f}').contains(&c) {
        return true;
    }
    if !matches!(c, '\'' | '’' | '-' | '‑') {
        return false;
    }
    let after = stretch.get(at + c.len_utf8()..).and_then(|rest| rest.chars().next());
    let before = stretch.get(..at).and_then(|rest| rest.chars().next_back());
    matches!((before, after), (Some(b), Some(a)) if b.is_alphanumeric() && a.is_alphanumeric())
}

/// A hyphenated word stays whole where the lists know it (bite-size); else each part is a word (all-purpose).
fn words(stretch: &str, span: Span, shift: usize, out: &mut Vec<Token>) {
    let whole = word(stretch, span, shift);
    let written = span.of(stretch);
    if whole.roles != Roles::default() || !written.contains(['-', '‑']) {
        return out.push(whole);
    }
    let mut at = span.start;
    for part in written.split(['-', '‑']) {
        if !part.is_empty() {
            out.push(word(stretch, Span::new(at, at + part.len()), shift));
        }
        let gap = written.get(at + part.len() - span.start..).and_then(|rest| rest.chars().next());
        at += part.len() + gap.map_or(0, char::len_utf8);
    }
}

/// The word, or the number, at `span` of a stretch that stands `shift` bytes into the recipe's text.
fn word(stretch: &str, span: Span, shift: usize) -> Token {
    let written = span.of(stretch);
    if written.chars().all(|c| c.is_numeric()) {
        return mark(span.shifted(shift), TokenKind::Number);
    }
    let Word { fold, roles, place, mark, inflected } = words::word(written);
    Token { span: span.shifted(shift), kind: TokenKind::Word, roles, place, mark, inflected, fold }
}

fn punctuation(stretch: &str, at: usize, c: char) -> Option<TokenKind> {
    match c {
        ',' => Some(TokenKind::Comma),
        ';' | ':' | '—' | '–' | '→' => Some(TokenKind::Pause),
        '-' if stands_free(stretch, at) => Some(TokenKind::Pause),
        '.' | '!' | '?' => {
            let after = stretch.get(at + 1..).unwrap_or_default();
            let ends =
                after.is_empty() || after.starts_with(|next: char| next.is_whitespace() || next == ')' || next == '"');
            ends.then_some(TokenKind::Stop)
        }
        '(' | '[' => Some(TokenKind::Open),
        ')' | ']' => Some(TokenKind::Close),
        '/' => Some(TokenKind::Slash),
        '&' | '+' => Some(TokenKind::And),
        _ => None,
    }
}
