//! Names one more thing in a step, so that the sentence still reads as one.

use crate::{
    recipe::{
        Recipe,
        language::{
            lexicon::Roles,
            token::{Token, TokenKind},
        },
        mentions::Mention,
    },
    text::Edit,
};

/// The edit that names `marked` right behind a mention, or right before it: `the butter` becomes `the butter and the
/// [sugar]`, `flour and salt` becomes `flour, [sugar] and salt`.
pub fn beside(recipe: &Recipe, mention: &Mention, behind: bool, marked: &str) -> Option<Edit> {
    let tokens = recipe.steps.get(mention.step)?.tokens.as_slice();
    let first = tokens.iter().position(|token| token.span.start >= mention.span.start)?;
    let last = tokens.iter().rposition(|token| token.span.end <= mention.span.end)?;
    let start = phrase_start(tokens, first);
    let article = tokens.get(start..first).unwrap_or_default().iter().any(|token| token.word("the"));
    let named = if article { format!("the {marked}") } else { marked.to_owned() };
    let follows = |at: usize| tokens.get(at).is_some_and(|token| is_and(token) || token.kind == TokenKind::Comma);
    if !behind {
        let joint = if follows(after_parenthesis(tokens, last) + 1) { ", " } else { " and " };
        return Some(Edit::insert(tokens.get(start)?.span.start, format!("{named}{joint}")));
    }
    if let Some(before) = before_and(tokens, start) {
        return Some(Edit::insert(before.span.end, format!(", {named}")));
    }
    let end = after_parenthesis(tokens, last);
    let text = if follows_list(tokens, end) { format!(", {named}") } else { format!(" and {named}") };
    Some(Edit::insert(tokens.get(end)?.span.end, text))
}

/// The last word of the name before, where this one is the last of several: the new one goes in before the "and".
fn before_and(tokens: &[Token], start: usize) -> Option<&Token> {
    let and = start.checked_sub(1).filter(|at| tokens.get(*at).is_some_and(is_and))?;
    tokens.get(and.checked_sub(1)?).filter(|before| before.kind != TokenKind::Comma)
}

/// Where the words begin that belong to the name which starts at `name`: its article, its amount, its state.
fn phrase_start(tokens: &[Token], name: usize) -> usize {
    let belongs = |token: &Token| match token.kind {
        TokenKind::Word => {
            token.one_of(&["the", "a", "an", "of", "half", "all", "your", "remaining", "rest"])
                || token.is(Roles::STATE.and(Roles::SIZE)) && !token.is(Roles::VERB)
        }
        TokenKind::Measure(_) | TokenKind::Number => true,
        _ => false,
    };
    let before = tokens.get(..name).unwrap_or_default().iter().rev().take_while(|token| belongs(token)).count();
    name - before
}

fn is_and(token: &Token) -> bool {
    token.word("and") || token.kind == TokenKind::And
}

/// "butter (softened)": the parenthesis belongs to the name.
fn after_parenthesis(tokens: &[Token], last: usize) -> usize {
    let opens = tokens.get(last + 1).is_some_and(|token| token.kind == TokenKind::Open);
    let close = (last + 1..tokens.len()).find(|at| tokens.get(*at).is_some_and(|token| token.kind == TokenKind::Close));
    close.filter(|_| opens).unwrap_or(last)
}

/// Whether the name whose last token is `end` is followed by others: by "and", or by a comma that a list goes on behind.
fn follows_list(tokens: &[Token], end: usize) -> bool {
    match tokens.get(end + 1) {
        Some(next) if is_and(next) => !tokens.get(end + 2).is_some_and(|verb| verb.is(Roles::VERB) && !verb.inflected),
        Some(next) if next.kind == TokenKind::Comma => {
            let behind = tokens.get(end + 2..).unwrap_or_default();
            let clause = behind.iter().take_while(|token| !matches!(token.kind, TokenKind::Stop | TokenKind::Pause));
            let clause: Vec<&Token> = clause.collect();
            let goes_on = clause.first().is_some_and(|first| {
                !first.is(Roles::VERB.and(Roles::CUE)) && !first.one_of(&["then", "and", "about", "stirring"])
            });
            goes_on && clause.iter().any(|token| is_and(token))
        }
        _ => false,
    }
}
