//! The oven along the method: when it is heated and how hot, what goes in, when its heat is changed.

mod turns;
mod uses;
mod words;

use self::words::{OTHER_HEAT, OTHER_OVENS, PARTS_OF_OVENS, PREHEATED};
use super::{Act, sentences::Sentence};
use crate::{
    measure::UnitKind,
    recipe::{
        Recipe,
        language::{
            clause::Sense,
            token::{Token, TokenKind},
        },
        measures::Measure,
        mentions::Moved,
    },
    text::Span,
};

/// What happens with the oven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OvenTurn {
    /// It is heated: `Heat the oven to 375°F`.
    Heated,
    /// Its heat is changed: `Lower the oven to 350°F`.
    Changed,
    /// It is turned off.
    Off,
    /// Something is in it.
    Used,
    /// Something may be in it: enough for an oven that was heated not to be called idle.
    MayBeUsed,
}

/// One thing that happens with the oven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OvenEvent {
    /// The step, as an index.
    pub step: usize,
    /// What happens.
    pub turn: OvenTurn,
    /// The words that say it.
    pub span: Span,
    /// The sentence that it stands in.
    pub sentence: Span,
    /// How hot, as an index into [`Recipe::measures`].
    pub heat: Option<usize>,
    /// Whether heat is stated in words: `a moderate oven`.
    pub in_words: bool,
    /// Whether it is said to be hot already: `a preheated oven`.
    pub preheated: bool,
    /// Whether it is certainly the oven that is meant: bake, but not roast, which may be done on a spit or in a pan.
    pub certain: bool,
    /// The act that uses it, as an index into [`super::Clock::acts`].
    pub act: Option<usize>,
}

impl OvenEvent {
    /// The same in a step that stands elsewhere.
    pub(super) fn moved(&self, moved: Moved) -> OvenEvent {
        OvenEvent {
            span: moved.span(self.span),
            sentence: moved.span(self.sentence),
            heat: self.heat.map(|measure| moved.measure(measure)),
            ..*self
        }
    }
}

/// Puts the events of these sentences, which are the last of the method, to those of the steps before.
pub fn read(recipe: &Recipe, sentences: &[Sentence<'_>], acts: &[Act], out: &mut Vec<OvenEvent>) {
    let first = sentences.first().map_or(0, |sentence| sentence.step);
    let mut from = acts.partition_point(|act| act.step < first);
    for sentence in sentences {
        let own = acts.get(from..).unwrap_or_default();
        let count = own.iter().take_while(|act| sentence.span().contains(act.span)).count();
        let mut found = of_sentence(sentence, from, own.get(..count).unwrap_or_default());
        from += count;
        give_heat(recipe, sentence, &mut found);
        // "Lower the heat" means the burner where nothing is in the oven.
        let in_use =
            out.iter().rev().take_while(|event| event.step == sentence.step).any(|event| event.turn == OvenTurn::Used);
        let in_use = in_use || found.iter().any(|event| event.turn == OvenTurn::Used);
        found.retain(|event| event.turn != OvenTurn::Changed || event.certain || event.heat.is_some() || in_use);
        out.append(&mut found);
    }
}

fn of_sentence(sentence: &Sentence<'_>, first: usize, acts: &[Act]) -> Vec<OvenEvent> {
    let may_turn = sentence.tokens.iter().enumerate().filter(|(_, token)| turns::may_turn(token));
    let mut found: Vec<OvenEvent> = may_turn.filter_map(|(at, _)| turns::turned(sentence, at)).collect();
    let turns: Vec<Span> = found.iter().map(|event| event.span).collect();
    for (index, act) in acts.iter().enumerate().filter(|(_, act)| !turns.iter().any(|turn| turn.contains(act.span))) {
        found.extend(uses::used(sentence, act).map(|event| OvenEvent { act: Some(first + index), ..event }));
    }
    if found.is_empty() && uses::is_spoken_of(sentence) {
        found.push(event(sentence, OvenTurn::MayBeUsed, sentence.span()));
    }
    found.sort_by_key(|event| event.span.start);
    // "Put the tray in the oven and bake it" is one use; "start heating the oven" is one order.
    found.dedup_by(|next, before| {
        let one = next.turn == before.turn && matches!(next.turn, OvenTurn::Used | OvenTurn::Heated);
        if one {
            before.in_words |= next.in_words;
            before.preheated |= next.preheated;
            before.certain |= next.certain;
            before.act = next.act.or(before.act);
        }
        one
    });
    found
}

fn event(sentence: &Sentence<'_>, turn: OvenTurn, span: Span) -> OvenEvent {
    let (step, sentence) = (sentence.step, sentence.span());
    OvenEvent { step, turn, span, sentence, heat: None, in_words: false, preheated: false, certain: true, act: None }
}

/// Whether the word at `at` is a kitchen's oven.
fn is_oven(sentence: &Sentence<'_>, at: usize) -> bool {
    let other = at.checked_sub(1).and_then(|before| sentence.tokens.get(before));
    let part = sentence.tokens.get(at + 1);
    sentence.is(at, &["oven"])
        && !other.is_some_and(|other| other.word("dutch") || other.one_among(&OTHER_OVENS))
        && !part.is_some_and(|part| part.one_among(&PARTS_OF_OVENS))
}

/// Whether a step speaks of an oven that is no kitchen's: a wood-fired one, a camp oven.
pub fn names_another(tokens: &[Token]) -> bool {
    tokens.windows(2).any(|pair| match pair {
        [other, oven] => oven.word("oven") && other.one_among(&OTHER_OVENS),
        _ => false,
    })
}

/// Whether something is in the oven that is named at `at`: "in a hot oven", "into the oven", "from the oven".
fn is_inside(sentence: &Sentence<'_>, at: usize) -> bool {
    const INSIDE: &[&str] =
        &["in", "into", "to", "from", "inside", "within", "out", "through", "middle", "bottom", "top"];
    for before in (at.saturating_sub(7)..at).rev() {
        let Some(token) = sentence.tokens.get(before) else { return false };
        let ends = matches!(token.kind, TokenKind::Comma | TokenKind::Pause | TokenKind::Stop);
        // "Set the oven" is an order; "a warm oven" is a place.
        let order = token.one_among(&words::HEATS)
            && sentence.is(before + 1, &["the", "your", "an", "oven"])
            && !token.one_among(&PREHEATED)
            && !token.word("warm");
        if ends || order || token.one_of(&["and", "then", "or", "but"]) {
            return false;
        }
        if token.one_of(INSIDE) {
            return true;
        }
    }
    false
}

/// Gives each event the temperature that is said of it.
fn give_heat(recipe: &Recipe, sentence: &Sentence<'_>, events: &mut [OvenEvent]) {
    if events.is_empty() {
        return;
    }
    let mut takers: Vec<&mut OvenEvent> = events.iter_mut().filter(|event| event.turn != OvenTurn::MayBeUsed).collect();
    for (at, token) in sentence.tokens.iter().enumerate() {
        let TokenKind::Measure(index) = token.kind else { continue };
        let hot = recipe.measures.get(index).is_some_and(|measure| is_heat(measure) || is_bare(sentence, at, measure));
        if !hot || is_of_something_else(sentence, at) {
            continue;
        }
        let before = takers.iter().rposition(|event| event.span.start < token.span.start).unwrap_or_default();
        if let Some(event) = takers.get_mut(before) {
            event.heat = event.heat.or(Some(index));
        }
    }
}

/// Whether a measure is a temperature, or begins with one: `350°F 45 min`.
fn is_heat(measure: &Measure) -> bool {
    measure.stated.kind() == Some(UnitKind::Temperature)
}

/// "Bake at 350": a number of the size of an oven's degrees, where those stand.
fn is_bare(sentence: &Sentence<'_>, at: usize, measure: &Measure) -> bool {
    let set =
        at.checked_sub(1).is_some_and(|before| sentence.is(before, &["at", "to", "oven", "bake", "preheat", "about"]));
    set && measure.count().is_some_and(|count| (BARE.0..=BARE.1).contains(&count.least))
}

/// Between these, a bare number can be the degrees of an oven, in °C or °F (common practice, no source).
const BARE: (f64, f64) = (100.0, 550.0);

/// Whether the temperature at `at` is that of food, fat or a thermometer, and not of the oven.
fn is_of_something_else(sentence: &Sentence<'_>, at: usize) -> bool {
    const OVEN: &[&str] = &["oven", "bake", "preheat", "roast"];
    const SET: &[&str] = &["heat", "lower", "reduce", "raise", "increase", "turn", "set", "oven", "preheat"];
    const FOOD: &[&str] = &["internal", "inside", "center", "thermometer"];
    let near = at.saturating_sub(7)..at;
    let set = sentence.has(near.start, near.end, SET);
    let last = |words: &[&str]| at.checked_sub(1).is_some_and(|before| sentence.is(before, words));
    // "Roast to 165°F", "bake until browned and at least 160°F inside".
    let cue = sentence.senses.get(at) == Some(&Sense::Cue) && !last(&["at"]);
    if last(&["until"]) || last(&["to"]) && !set || cue || sentence.has(at + 1, at + 4, FOOD) {
        return true;
    }
    let oven = near.clone().rev().position(|word| sentence.is(word, OVEN));
    let other = near.rev().position(|word| sentence.among(word, &OTHER_HEAT));
    match (oven, other) {
        (Some(oven), Some(other)) => other < oven,
        (None, other) => other.is_some(),
        (_, None) => false,
    }
}
