//! What is done to the oven itself: heated, changed, turned off.

use super::{
    OvenEvent, OvenTurn, event, is_inside, is_oven,
    words::{CHANGES, HEAT_WORDS, HEATS, OTHER_DEVICES},
};
use crate::{
    recipe::{
        clock::sentences::Sentence,
        language::{
            clause::Sense,
            token::{Token, TokenKind},
        },
    },
    text::Words,
};

/// Whether anything may be done to the oven by a word.
pub fn may_turn(token: &Token) -> bool {
    token.one_among(&HEATS) || token.one_among(&CHANGES) || token.one_among(&WITH_OVEN)
}

/// Words that do so besides the verbs: the oven itself, and the beginning of "pre heat".
static WITH_OVEN: Words = Words::new("oven pre");

/// What is done to the oven by the word at `at`, if anything; nothing where it [may not](may_turn).
pub fn turned(sentence: &Sentence<'_>, at: usize) -> Option<OvenEvent> {
    let token = sentence.tokens.get(at)?;
    match sentence.senses.get(at) {
        Some(Sense::Condition | Sense::Cue) => return None,
        // "Do not preheat the oven": it is meant to be cold.
        Some(Sense::Negated) => {
            let cold = token.one_of(&["preheat", "heat"]);
            let kept = OvenEvent { in_words: true, ..event(sentence, OvenTurn::MayBeUsed, token.span) };
            return cold.then_some(kept);
        }
        _ => {}
    }
    if token.word("oven") {
        return is_set(sentence, at).then(|| event(sentence, OvenTurn::Heated, token.span));
    }
    let changes = token.one_among(&CHANGES);
    let heats = token.one_among(&HEATS) || token.word("pre");
    if !changes && !heats || is_noun(sentence, at) {
        return None;
    }
    let oven = (at + 1..clause_end(sentence, at).min(at + 8))
        .find(|oven| is_oven(sentence, *oven) && !is_inside(sentence, *oven));
    let upto = oven.unwrap_or(at);
    let span = token.span.joined(sentence.tokens.get(upto).map_or(token.span, |token| token.span));
    let turn = |turn| Some(event(sentence, turn, span));
    let near = |words: &[&str]| sentence.has(at + 1, upto + 4, words);
    if token.one_of(&["turn", "switch"]) && near(&["off"]) {
        return turn(OvenTurn::Off).filter(|_| oven.is_some());
    }
    if changes && (!token.one_of(&["turn", "bring"]) || near(&["down", "up", "back"])) {
        let heat = sentence.has(at + 1, at + 5, &["heat", "temperature", "temp", "it"]) || measure_near(sentence, at);
        let found = turn(OvenTurn::Changed).filter(|_| oven.is_some() || heat)?;
        return Some(OvenEvent { certain: oven.is_some(), ..found });
    }
    let heated = oven.is_some() || is_heated_alone(sentence, at);
    let words = sentence.names(&HEAT_WORDS);
    turn(OvenTurn::Heated).filter(|_| heats && heated).map(|found| OvenEvent { in_words: words, ..found })
}

/// "Preheat to 350°F", "set the stone in the oven and heat to 500°F": the oven is what is heated.
fn is_heated_alone(sentence: &Sentence<'_>, at: usize) -> bool {
    let device = |token: &Token| token.one_among(&OTHER_DEVICES);
    let preheats = sentence.is(at, &["preheat", "preheating"]) && !sentence.tokens.iter().any(device);
    let inside = (0..at).any(|oven| is_oven(sentence, oven) && is_inside(sentence, oven));
    preheats || sentence.is(at, &["heat", "preheat"]) && inside && measure_near(sentence, at)
}

fn clause_end(sentence: &Sentence<'_>, at: usize) -> usize {
    let mark = |token: &usize| {
        sentence.tokens.get(*token).is_some_and(|token| matches!(token.kind, TokenKind::Pause | TokenKind::Stop))
    };
    (at + 1..sentence.tokens.len()).find(mark).unwrap_or(sentence.tokens.len())
}

/// "In a heated oven", "the set custard": no order, but a word of the name behind it.
fn is_noun(sentence: &Sentence<'_>, at: usize) -> bool {
    const BEFORE: &[&str] = &["a", "an", "the", "of", "your", "in", "high", "low", "medium", "gentle", "moderate"];
    at.checked_sub(1).is_some_and(|before| sentence.is(before, BEFORE))
}

/// "Oven to 375°F", "Oven: 375°F", "the oven should be at 400°F": the heat is said of the oven itself.
fn is_set(sentence: &Sentence<'_>, at: usize) -> bool {
    let next = sentence.tokens.get(at + 1);
    let labelled = at == 0 && next.is_some_and(|next| next.kind != TokenKind::Word);
    let told =
        next.is_some_and(|next| next.one_of(&["is", "should", "must", "to", "at", "on", "be", "need", "temperature"]));
    let hot = (at + 1..sentence.tokens.len().min(at + 9)).filter_map(|behind| sentence.tokens.get(behind));
    let mut hot = hot.map(|token| matches!(token.kind, TokenKind::Measure(_)) || token.one_among(&HEAT_WORDS));
    let turned = (0..at).any(|before| sentence.among(before, &HEATS) || sentence.among(before, &CHANGES));
    let ordered = at == 0 || told && !turned;
    is_oven(sentence, at) && !is_inside(sentence, at) && ordered && (labelled || told) && hot.any(|hot| hot)
}

fn measure_near(sentence: &Sentence<'_>, at: usize) -> bool {
    let measure = |at: usize| sentence.tokens.get(at).is_some_and(|token| matches!(token.kind, TokenKind::Measure(_)));
    (at + 1..at + 4).any(measure)
}
