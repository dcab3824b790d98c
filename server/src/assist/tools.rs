//! Where steps speak of the equipment.

use crate::{
    recipe::{
        Recipe, Step,
        language::{
            lexicon::Roles,
            token::{Atom, Token, TokenKind, tokens},
        },
        measures::Place,
    },
    text::Span,
};

/// Words that stand before a noun: with one of them `whisk` is a thing, without it is what to do.
const BEFORE_NOUN: &[&str] =
    &["the", "a", "an", "your", "each", "another", "same", "its", "this", "that", "with", "both"];

/// Every place of the method that names a piece of equipment, with the index of its line, in the order of the text.
pub fn mentions(recipe: &Recipe) -> Vec<(Span, usize)> {
    if recipe.equipment.is_empty() {
        return Vec::new();
    }
    let mut out = Vec::new();
    for (index, step) in recipe.steps.iter().enumerate() {
        marked(recipe, index, step, &mut out);
        plain(recipe, step, &mut out);
    }
    out.sort();
    out
}

/// Those in brackets, as they were read with the recipe.
fn marked(recipe: &Recipe, index: usize, step: &Step, out: &mut Vec<(Span, usize)>) {
    let of_food = |span: Span| recipe.flow.mentions.iter().any(|mention| mention.span == span);
    for mark in step.marks.iter().filter(|mark| !of_food(mark.span)) {
        let named = |piece: &usize| {
            let words = recipe.equipment.get(*piece).map(|piece| piece.words.as_slice()).unwrap_or_default();
            let mut own = mark.tokens.iter().filter(|token| counts(token)).peekable();
            own.peek().is_some() && own.all(|token| words.contains(&token.fold))
        };
        let here = recipe.flow.equipment.iter().filter(|(_, step)| *step == index).map(|(piece, _)| *piece);
        out.extend(here.into_iter().find(named).map(|piece| (mark.inner, piece)));
    }
}

/// Those in plain words: the noun of a line, and the words before it as far as the line has them. One that fits two lines
/// equally is passed over.
fn plain(recipe: &Recipe, step: &Step, out: &mut Vec<(Span, usize)>) {
    for (at, token) in step.tokens.iter().enumerate().filter(|(_, token)| counts(token)) {
        let mut best: Vec<(usize, usize)> = Vec::new();
        for (index, piece) in recipe.equipment.iter().enumerate() {
            if piece.words.last() != Some(&token.fold) {
                continue;
            }
            let before = step.tokens.get(..at).unwrap_or_default().iter().rev();
            let words = before.take_while(|before| counts(before) && piece.words.contains(&before.fold)).count();
            match best.first() {
                Some((_, most)) if *most > words => continue,
                Some((_, most)) if *most < words => best.clear(),
                _ => {}
            }
            best.push((index, words));
        }
        let [(index, words)] = best.as_slice() else { continue };
        let Some(first) = step.tokens.get(at - words) else { continue };
        let before = (at - words).checked_sub(1).and_then(|before| step.tokens.get(before));
        let thing = *words > 0 || before.is_some_and(|before| before.one_of(BEFORE_NOUN)) || !token.is(Roles::VERB);
        let span = first.span.joined(token.span);
        let of_food = recipe.flow.mentions.iter().any(|mention| mention.span.contains(span));
        if thing && !of_food {
            out.push((span, *index));
        }
    }
}

fn counts(token: &Token) -> bool {
    token.kind == TokenKind::Word && !token.is(Roles::SMALL)
}

/// The name in a line of the equipment, without number, size and remarks.
pub fn name(recipe: &Recipe, index: usize) -> Option<Span> {
    let piece = recipe.equipment.get(index)?;
    let measures = recipe.measures.iter().filter(|measure| measure.place == Place::Equipment(index));
    let numbers = measures.filter_map(|measure| measure.stated.terms.first()).map(|term| term.number);
    let numbers: Vec<Atom> = numbers.map(|span| Atom { span, kind: Some(TokenKind::Number) }).collect();
    let line = tokens(&recipe.text, piece.span, &numbers);
    let name = line.iter().take_while(|token| !matches!(token.kind, TokenKind::Comma | TokenKind::Open));
    let words: Vec<&Token> = name.filter(|token| counts(token) && piece.words.contains(&token.fold)).collect();
    Some(words.first()?.span.joined(words.last()?.span))
}
