//! Which order of a step takes hold of a thing, and what else its sentence says.

use super::shares;
use crate::recipe::{
    Recipe,
    language::{
        lexicon::Roles,
        token::{Token, TokenKind},
    },
    mentions::Mention,
};

/// The verb that orders something of what a mention names: the nearest one before it in its sentence, foods aside.
pub fn verb<'r>(recipe: &'r Recipe, mention: &Mention) -> Option<&'r Token> {
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    let named = |token: &Token| {
        recipe.flow.mentions.iter().any(|other| other.step == mention.step && other.span.contains(token.span))
    };
    let before = sentence.iter().rev().skip_while(|token| token.span.start >= mention.span.start);
    before.into_iter().find(|token| token.is(Roles::VERB) && !token.inflected && !named(token))
}

/// The words right before a mention, the nearest first, no further than punctuation.
pub fn words_before<'r>(recipe: &'r Recipe, mention: &Mention) -> impl Iterator<Item = &'r Token> + use<'r> {
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    let end = sentence.partition_point(|token| token.span.start < mention.span.start);
    let before = sentence.get(..end).unwrap_or_default();
    before.iter().rev().take_while(|token| token.kind == TokenKind::Word)
}

/// The words right behind a mention, no further than the sentence goes.
pub fn behind<'r>(recipe: &'r Recipe, mention: &Mention) -> &'r [Token] {
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    let end = sentence.partition_point(|token| token.span.start < mention.span.end);
    sentence.get(end..).unwrap_or_default()
}
