//! What stands around a place: the words before and behind it, its clause, its sentence.

use std::borrow::Cow;

use crate::{larder::words::fold, recipe::Recipe, text::Span};

/// The words right before `offset`, folded, the nearest first; no further than the clause goes.
pub fn before(recipe: &Recipe, offset: usize, count: usize) -> Vec<Cow<'_, str>> {
    clause_before(recipe, offset).take(count).collect()
}

/// The words right behind `offset`, folded; no further than the clause goes.
pub fn behind(recipe: &Recipe, offset: usize, count: usize) -> Vec<Cow<'_, str>> {
    clause_behind(recipe, offset).take(count).collect()
}

fn clause_before(recipe: &Recipe, offset: usize) -> impl Iterator<Item = Cow<'_, str>> {
    let text = recipe.text.get(..offset).unwrap_or_default();
    let clause = text.rfind(is_stop).map_or(text, |at| text.get(at..).unwrap_or_default());
    words(clause).rev().map(fold)
}

fn clause_behind(recipe: &Recipe, offset: usize) -> impl Iterator<Item = Cow<'_, str>> {
    let text = recipe.text.get(offset..).unwrap_or_default();
    let clause = text.get(..text.find(is_stop).unwrap_or(text.len())).unwrap_or_default();
    words(clause).map(fold)
}

fn words(text: &str) -> impl DoubleEndedIterator<Item = &str> {
    text.split(|c: char| !c.is_alphanumeric() && !matches!(c, '\'' | '’' | '%')).filter(|word| !word.is_empty())
}

fn is_stop(c: char) -> bool {
    matches!(c, '.' | '!' | '?' | ';' | ':' | ',' | '(' | ')' | '[' | ']' | '/')
}

/// The sentence that holds `span`: from the full stop before it, or the blank line, to the one behind it.
pub fn sentence(recipe: &Recipe, span: Span) -> Span {
    let text = &*recipe.text;
    let above = text.get(..span.start).unwrap_or_default();
    let below = text.get(span.end..).unwrap_or_default();
    let start = above.bytes().enumerate().rev().find(|(at, byte)| may_end(*byte) && ends(text, *at, *byte));
    let end = below.bytes().enumerate().find(|(at, byte)| may_end(*byte) && ends(text, span.end + at, *byte));
    Span::new(start.map_or(0, |(at, _)| at + 1), end.map_or(text.len(), |(at, _)| span.end + at))
}

fn may_end(byte: u8) -> bool {
    matches!(byte, b'.' | b'!' | b'?' | b'\n' | b'\r')
}

/// Whether a sentence ends with the mark or the line break at `at`: a full stop before white space, or a line break with another
/// behind it.
fn ends(text: &str, at: usize, byte: u8) -> bool {
    let rest = text.get(at + 1..).unwrap_or_default();
    match byte {
        b'\n' => rest.starts_with(['\n', '\r']),
        b'\r' => rest.strip_prefix('\n').unwrap_or(rest).starts_with(['\n', '\r']),
        _ => rest.is_empty() || rest.starts_with(char::is_whitespace),
    }
}

/// The words of a stretch of text, folded.
pub fn words_in(recipe: &Recipe, span: Span) -> Vec<Cow<'_, str>> {
    words(recipe.at(span)).map(fold).collect()
}

/// Whether the sentence that holds `span` has one of these words, which are folded.
pub fn sentence_has(recipe: &Recipe, span: Span, wanted: &[&str]) -> bool {
    words(recipe.at(sentence(recipe, span))).any(|word| wanted.contains(&&*fold(word)))
}

/// Whether `wanted` holds for a word, folded, of the clauses that a span touches: those that [`before`] and [`behind`] a place in it
/// may give.
pub fn clauses_have(recipe: &Recipe, span: Span, wanted: impl Fn(&str) -> bool) -> bool {
    let inside = words(recipe.at(span)).map(fold);
    let outside = clause_before(recipe, span.start).take(3).chain(clause_behind(recipe, span.end).take(3));
    inside.chain(outside).any(|word| wanted(&word))
}

/// Whether a word of the clause that holds `span`, between commas, slashes and parentheses, is one of these, which are folded.
pub fn clause_has(recipe: &Recipe, span: Span, wanted: &[&str]) -> bool {
    clause_before(recipe, span.start).chain(clause_behind(recipe, span.end)).any(|word| wanted.contains(&&*word))
}
