//! What stands around a place: the words before and behind it, its clause, its sentence.

use crate::{larder::words::fold, recipe::Recipe, text::Span};

/// The words right before `offset`, folded, the nearest first; no further than the clause goes.
pub fn before(recipe: &Recipe, offset: usize, count: usize) -> Vec<String> {
    let text = recipe.text.get(..offset).unwrap_or_default();
    let clause = text.rfind(is_stop).map_or(text, |at| text.get(at..).unwrap_or_default());
    words(clause).rev().take(count).map(|word| fold(word).into_owned()).collect()
}

/// The words right behind `offset`, folded; no further than the clause goes.
pub fn behind(recipe: &Recipe, offset: usize, count: usize) -> Vec<String> {
    let text = recipe.text.get(offset..).unwrap_or_default();
    let clause = text.get(..text.find(is_stop).unwrap_or(text.len())).unwrap_or_default();
    words(clause).take(count).map(|word| fold(word).into_owned()).collect()
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
    let start = above.char_indices().rev().find(|(at, c)| ends(text, *at, *c)).map_or(0, |(at, c)| at + c.len_utf8());
    let end = below.char_indices().find(|(at, c)| ends(text, span.end + at, *c));
    Span::new(start, end.map_or(text.len(), |(at, _)| span.end + at))
}

/// Whether a sentence ends with the character at `at`: a full stop before white space, or a line break with another behind it.
fn ends(text: &str, at: usize, c: char) -> bool {
    let rest = text.get(at + c.len_utf8()..).unwrap_or_default();
    match c {
        '.' | '!' | '?' => rest.is_empty() || rest.starts_with(char::is_whitespace),
        '\n' | '\r' => {
            let rest = if c == '\r' { rest.strip_prefix('\n').unwrap_or(rest) } else { rest };
            rest.starts_with(['\n', '\r'])
        }
        _ => false,
    }
}

/// The words of a stretch of text, folded.
pub fn words_in(recipe: &Recipe, span: Span) -> Vec<String> {
    words(recipe.at(span)).map(|word| fold(word).into_owned()).collect()
}

/// Whether the sentence that holds `span` has one of these words, which are folded.
pub fn sentence_has(recipe: &Recipe, span: Span, wanted: &[&str]) -> bool {
    words(recipe.at(sentence(recipe, span))).any(|word| wanted.contains(&&*fold(word)))
}

/// Whether a word of the clause that holds `span`, between commas, slashes and parentheses, is one of these, which are folded.
pub fn clause_has(recipe: &Recipe, span: Span, wanted: &[&str]) -> bool {
    let mut around = before(recipe, span.start, usize::MAX).into_iter().chain(behind(recipe, span.end, usize::MAX));
    around.any(|word| wanted.contains(&&*word))
}
