//! Words, numbers and marks of a stretch of prose, in order.

use super::lexicon::{Roles, roles};
use crate::{
    larder::words::fold,
    text::{Span, Words},
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
    pub fold: Box<str>,
    /// What the word may do in a sentence.
    pub roles: Roles,
    /// Whether the word stands in its plural: its folded form differs from its lower-case form.
    pub inflected: bool,
}

impl Token {
    /// Whether this is a word of one of these roles.
    pub fn is(&self, wanted: Roles) -> bool {
        self.roles.any(wanted)
    }

    /// Whether this is the word `word` (folded).
    pub fn word(&self, word: &str) -> bool {
        self.kind == TokenKind::Word && &*self.fold == word
    }

    /// Whether this is one of these words (folded).
    pub fn one_of(&self, words: &[&str]) -> bool {
        self.kind == TokenKind::Word && words.contains(&&*self.fold)
    }

    /// Whether this is one of the words (folded) of a list.
    pub fn one_among(&self, words: &Words) -> bool {
        self.kind == TokenKind::Word && words.contains(&self.fold)
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
    let mut out = Vec::with_capacity(span.len() / 5);
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
    Token { span, kind, fold: "".into(), roles: Roles::default(), inflected: false }
}

fn plain(text: &str, span: Span, out: &mut Vec<Token>) {
    let stretch = span.of(text);
    let mut chars = stretch.char_indices().peekable();
    while let Some((at, first)) = chars.next() {
        let start = span.start + at;
        if matches!(first, 'h' | 'H' | 'w' | 'W')
            && let Some(length) = address(stretch, at)
        {
            while chars.next_if(|&(next, _)| next < at + length).is_some() {}
            continue;
        }
        if first.is_alphabetic() || first.is_numeric() {
            let mut end = at + first.len_utf8();
            while let Some(&(next, c)) = chars.peek() {
                if !(c.is_alphanumeric() || joins(stretch, next, c)) {
                    break;
                }
                end = next + c.len_utf8();
                chars.next();
            }
            words(text, Span::new(start, span.start + end), out);
        } else if let Some(kind) = punctuation(stretch, at, first) {
            out.push(mark(Span::new(start, start + first.len_utf8()), kind));
        }
    }
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
fn words(text: &str, span: Span, out: &mut Vec<Token>) {
    let written = span.of(text);
    if !written.contains(['-', '‑']) {
        return out.push(word(text, span));
    }
    let whole = word(text, span);
    if whole.roles != Roles::default() {
        return out.push(whole);
    }
    let mut at = span.start;
    for part in written.split(['-', '‑']) {
        if !part.is_empty() {
            out.push(word(text, Span::new(at, at + part.len())));
        }
        let gap = written.get(at + part.len() - span.start..).and_then(|rest| rest.chars().next());
        at += part.len() + gap.map_or(0, char::len_utf8);
    }
}

fn word(text: &str, span: Span) -> Token {
    let written = span.of(text);
    if written.chars().all(|c| c.is_numeric()) {
        return mark(span, TokenKind::Number);
    }
    let folded = fold(written);
    let inflected = !written.eq_ignore_ascii_case(&folded) && written.ends_with(['s', 'S']);
    let found = roles(&folded);
    Token { span, kind: TokenKind::Word, roles: found, inflected, fold: folded.into_owned().into_boxed_str() }
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
