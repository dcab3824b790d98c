//! Semantic tokens: those of each recipe are worked out once and put together for the document, each relative to the one before
//! it as the protocol wants them.

use std::collections::HashMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use tower_lsp::lsp_types::{
    Range, SemanticToken, SemanticTokenModifier, SemanticTokenType, SemanticTokens, SemanticTokensDelta,
    SemanticTokensEdit, SemanticTokensFullDeltaResult, SemanticTokensLegend, SemanticTokensRangeResult,
    SemanticTokensResult,
};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::placed::first_line;
use crate::assist::{self, Role, TokenKind};
use crate::recipe::Recipe;
use crate::syntax::Tree;
use crate::text::{Encoding, LineIndex, Span};

/// How many numbers the protocol writes for a token.
const NUMBERS: usize = 5;

/// What has been worked out for one document.
#[derive(Debug, Default)]
pub struct Colours {
    /// The tokens of each recipe by the address of the recipe, which is kept so that no other one can have it.
    by_recipe: HashMap<usize, (Arc<Recipe>, Arc<Coloured>)>,
    /// What the client was given last, and under which name.
    given: Option<(String, Vec<SemanticToken>)>,
}

/// The tokens of one recipe, the first relative to its start.
#[derive(Debug)]
struct Coloured {
    tokens: Vec<SemanticToken>,
    /// The line of the last one, from the recipe's first.
    last_line: u32,
}

/// The kinds and their modifiers, by their places in the lists.
pub fn legend() -> SemanticTokensLegend {
    SemanticTokensLegend {
        token_types: vec![
            SemanticTokenType::KEYWORD,
            SemanticTokenType::PROPERTY,
            SemanticTokenType::CLASS,
            SemanticTokenType::NAMESPACE,
            SemanticTokenType::NUMBER,
            SemanticTokenType::TYPE,
            SemanticTokenType::MODIFIER,
            SemanticTokenType::PARAMETER,
            SemanticTokenType::VARIABLE,
            SemanticTokenType::STRUCT,
            SemanticTokenType::OPERATOR,
            SemanticTokenType::COMMENT,
            SemanticTokenType::DECORATOR,
            SemanticTokenType::STRING,
        ],
        token_modifiers: vec![
            SemanticTokenModifier::DECLARATION,
            SemanticTokenModifier::READONLY,
            SemanticTokenModifier::DOCUMENTATION,
        ],
    }
}

/// The place of a kind in the list, and the bits of its modifiers.
fn in_legend(kind: TokenKind, role: Option<Role>) -> (u32, u32) {
    let place = match kind {
        TokenKind::Heading | TokenKind::Stet => 0,
        TokenKind::Label => 1,
        TokenKind::Title => 2,
        TokenKind::Group => 3,
        TokenKind::Number => 4,
        TokenKind::Unit => 5,
        TokenKind::Hedge => 6,
        TokenKind::Ingredient => 7,
        TokenKind::Result => 8,
        TokenKind::Equipment => 9,
        TokenKind::Arrow => 10,
        TokenKind::Comment | TokenKind::Query => 11,
        TokenKind::Check => 12,
        TokenKind::Reason => 13,
    };
    let role = match role {
        Some(Role::Stated) => 1,
        Some(Role::Named) => 1 << 1,
        Some(Role::Taken) | None => 0,
    };
    (place, role | if kind == TokenKind::Query { 1 << 2 } else { 0 })
}

/// All tokens of `document`, under a name by which the next ones can be told from them.
pub fn full(document: &Opened, editor: &Editor) -> Option<SemanticTokensResult> {
    let data = all(document, editor)?;
    Some(SemanticTokensResult::Tokens(give(document, data)))
}

/// What has changed since the tokens called `previous`; all tokens, where nobody knows those any more.
pub fn delta(document: &Opened, editor: &Editor, previous: &str) -> Option<SemanticTokensFullDeltaResult> {
    let data = all(document, editor)?;
    let given = document.colours().given.take().filter(|(name, _)| name == previous);
    let edits = given.map(|(_, before)| difference(&before, &data));
    let tokens = give(document, data);
    Some(match edits {
        None => SemanticTokensFullDeltaResult::Tokens(tokens),
        Some(edits) => {
            SemanticTokensFullDeltaResult::TokensDelta(SemanticTokensDelta { result_id: tokens.result_id, edits })
        }
    })
}

/// The tokens on the lines of a range.
pub fn range(document: &Opened, editor: &Editor, range: Range) -> Option<SemanticTokensRangeResult> {
    let mut data = Vec::new();
    let mut last = (0, 0);
    let within = Converter::new(document, editor).span(range);
    for (first_line, coloured) in recipes(document, editor, within)? {
        let (mut line, mut column) = (first_line, 0);
        if first_line > range.end.line || first_line + coloured.last_line < range.start.line {
            continue;
        }
        for token in &coloured.tokens {
            column = if token.delta_line == 0 { column + token.delta_start } else { token.delta_start };
            line += token.delta_line;
            if (range.start.line..=range.end.line).contains(&line) {
                let delta_start = if line == last.0 { column - last.1 } else { column };
                data.push(SemanticToken { delta_line: line - last.0, delta_start, ..*token });
                last = (line, column);
            }
        }
    }
    Some(SemanticTokensRangeResult::Tokens(SemanticTokens { result_id: None, data }))
}

fn all(document: &Opened, editor: &Editor) -> Option<Vec<SemanticToken>> {
    let mut data: Vec<SemanticToken> = Vec::new();
    let mut last_line = 0;
    for (first_line, coloured) in recipes(document, editor, Span::new(0, document.text().len()))? {
        let Some((first, others)) = coloured.tokens.split_first() else { continue };
        data.push(SemanticToken { delta_line: first_line + first.delta_line - last_line, ..*first });
        data.extend_from_slice(others);
        last_line = first_line + coloured.last_line;
    }
    Some(data)
}

/// The tokens of the recipes that a stretch of the document reaches into, each with the line at which it begins. Only those that
/// have not been worked out before are.
fn recipes(document: &Opened, editor: &Editor, within: Span) -> Option<Vec<(u32, Arc<Coloured>)>> {
    let mut colours = document.colours();
    // What nobody else holds is no longer in the manuscript.
    colours.by_recipe.retain(|_, (recipe, _)| Arc::strong_count(recipe) > 1);
    let pieces = document.manuscript()?.pieces().take_while(|(start, ..)| *start <= within.end);
    let pieces = pieces.filter(|(start, recipe, _)| start + recipe.text.len() >= within.start);
    let seen = pieces.map(|(start, recipe, tree)| {
        let fresh = || (recipe.clone(), coloured(recipe, tree, editor.encoding));
        let (_, kept) = colours.by_recipe.entry(Arc::as_ptr(recipe) as usize).or_insert_with(fresh);
        (first_line(document, start), kept.clone())
    });
    Some(seen.collect())
}

fn coloured(recipe: &Recipe, tree: Option<&Tree>, encoding: Encoding) -> Arc<Coloured> {
    let lines = LineIndex::new(&recipe.text);
    let mut last = (0, 0);
    let tokens = assist::tokens(recipe, tree).into_iter().map(|token| {
        let start = lines.position(token.span.start, encoding);
        let length = u32::try_from(encoding.width(recipe.at(token.span))).unwrap_or(u32::MAX);
        let delta_start = if start.line == last.0 { start.column - last.1 } else { start.column };
        let delta_line = start.line - last.0;
        last = (start.line, start.column);
        let (token_type, token_modifiers_bitset) = in_legend(token.kind, token.role);
        SemanticToken { delta_line, delta_start, length, token_type, token_modifiers_bitset }
    });
    let tokens = tokens.collect();
    Arc::new(Coloured { tokens, last_line: last.0 })
}

/// Remembers what the client is given, under a name that nothing else has had.
fn give(document: &Opened, data: Vec<SemanticToken>) -> SemanticTokens {
    static GIVEN: AtomicU64 = AtomicU64::new(1);
    let name = GIVEN.fetch_add(1, Ordering::Relaxed).to_string();
    document.colours().given = Some((name.clone(), data.clone()));
    SemanticTokens { result_id: Some(name), data }
}

/// One edit that leads from one list to the other: what lies between their common beginning and their common end.
fn difference(before: &[SemanticToken], now: &[SemanticToken]) -> Vec<SemanticTokensEdit> {
    let same = |pair: &(&SemanticToken, &SemanticToken)| pair.0 == pair.1;
    let head = before.iter().zip(now).take_while(same).count();
    let (before, now) = (before.get(head..).unwrap_or_default(), now.get(head..).unwrap_or_default());
    let tail = before.iter().rev().zip(now.iter().rev()).take_while(same).count();
    let fresh = now.get(..now.len() - tail).unwrap_or_default();
    let gone = before.len() - tail;
    if gone == 0 && fresh.is_empty() {
        return Vec::new();
    }
    let count = |tokens: usize| u32::try_from(tokens * NUMBERS).unwrap_or(u32::MAX);
    vec![SemanticTokensEdit { start: count(head), delete_count: count(gone), data: Some(fresh.to_vec()) }]
}
