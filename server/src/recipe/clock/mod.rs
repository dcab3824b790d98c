//! The clock of a recipe: what is done in which order, for how long and until what; the oven's states; the time that runs.

mod durations;
mod ends;
mod kinds;
mod oven;
mod sentences;
mod stated;
mod timeline;
mod verbs;

pub use durations::{Duration, Manner};
pub use kinds::ActKind;
pub use oven::{OvenEvent, OvenTurn, names_another};
pub use stated::{Stated, stated};
pub use timeline::{End, Run};

use uom::si::f64::Time;

use self::{sentences::Sentence, verbs::Verb};
use super::{
    Recipe,
    language::token::{Token, TokenKind},
    mentions::Moved,
};
use crate::{
    measure::Interval,
    text::{Span, Words},
};

/// What is done when, and for how long.
#[derive(Debug, Clone, Default)]
pub struct Clock {
    /// Everything the method tells a cook to do, in order.
    pub acts: Vec<Act>,
    /// What happens with the oven, in order.
    pub oven: Vec<OvenEvent>,
    /// Where each sentence of the method stands, with its step, as an index.
    pub sentences: Vec<(usize, Span)>,
}

/// One thing that a step tells a cook to do.
#[derive(Debug, Clone)]
pub struct Act {
    /// The step, as an index.
    pub step: usize,
    /// What is done.
    pub kind: ActKind,
    /// The verb.
    pub span: Span,
    /// The sentence that it stands in.
    pub sentence: Span,
    /// What belongs to it in that sentence: the first of its tokens and the one behind the last, counted in the sentence.
    tokens: (usize, usize),
    /// How long it takes, as it is said.
    pub times: Vec<Duration>,
    /// Whether anything says when it is done.
    pub ends: bool,
    /// Whether only some cooks do it: `If the top browns too fast …`, `Or bake …`.
    pub perhaps: bool,
}

impl Act {
    /// How long it takes altogether; nothing where that is not said.
    pub fn time(&self) -> Option<Interval<Time>> {
        self.times.iter().fold(None, |sum, duration| match (sum, duration.manner) {
            (sum, Manner::Rate) => sum,
            (None, Manner::Limit) => Some(Interval { least: Time::default(), ..duration.time }),
            (sum @ Some(_), Manner::Limit) => sum,
            (None, _) => Some(duration.time),
            (Some(sum), Manner::More) => Some(sum.plus(&duration.time)),
            (Some(sum), Manner::Whole | Manner::Instead) => Some(either(&sum, &duration.time)),
        })
    }

    /// The same in a step that stands elsewhere.
    fn moved(&self, moved: Moved) -> Act {
        Act {
            span: moved.span(self.span),
            sentence: moved.span(self.sentence),
            times: self.times.iter().map(|time| time.moved(moved)).collect(),
            ..*self
        }
    }
}

/// The one or the other.
fn either(one: &Interval<Time>, other: &Interval<Time>) -> Interval<Time> {
    let least = if other.least < one.least { other.least } else { one.least };
    let most = one.most.zip(other.most).map(|(one, other)| if one < other { other } else { one });
    Interval { least, most }
}

impl Clock {
    /// Reads the method of a recipe.
    pub fn of(recipe: &Recipe) -> Clock {
        Clock::again(recipe, &Clock::default(), 0)
    }

    /// The same of a recipe that has been edited, but for its first so many steps.
    pub fn again(recipe: &Recipe, before: &Clock, known: usize) -> Clock {
        // When the last of them is done the step behind it may say.
        let settled = known.saturating_sub(1);
        let read_again = sentences::sentences(recipe, settled);
        let mut acts: Vec<Act> = before.acts.iter().filter(|act| act.step < known).cloned().collect();
        for sentence in read_again.iter().filter(|sentence| sentence.step >= known) {
            read(recipe, sentence, &mut acts);
        }
        ends(recipe, &mut acts, settled);
        let mut oven: Vec<OvenEvent> = before.oven.iter().filter(|event| event.step < settled).copied().collect();
        oven::read(recipe, &read_again, &acts, &mut oven);
        let mut sentences: Vec<(usize, Span)> =
            before.sentences.iter().filter(|(step, _)| *step < settled).copied().collect();
        sentences.extend(read_again.iter().map(|sentence| (sentence.step, sentence.span())));
        Clock { acts, oven, sentences }
    }

    /// The same of a method of which each step reads the same, wherever it stands now.
    pub fn moved(&self, moved: Moved) -> Clock {
        let sentence = |(step, span): &(usize, Span)| (*step, moved.span(*span));
        Clock {
            acts: self.acts.iter().map(|act| act.moved(moved)).collect(),
            oven: self.oven.iter().map(|event| event.moved(moved)).collect(),
            sentences: self.sentences.iter().map(sentence).collect(),
        }
    }

    /// The acts of a step, in order.
    pub fn acts_of(&self, step: usize) -> impl Iterator<Item = &Act> {
        self.acts.iter().filter(move |act| act.step == step)
    }
}

/// The acts of a sentence with their times. A time that no verb of the sentence claims is that of the act before, in the same
/// step: "Bake until golden. This takes about 15 minutes."
fn read(recipe: &Recipe, sentence: &Sentence<'_>, acts: &mut Vec<Act>) {
    let first = acts.len();
    let found = verbs::verbs(sentence);
    let perhaps = is_branch(sentence);
    for (index, verb) in found.iter().enumerate() {
        let end = found.get(index + 1).map_or(sentence.tokens.len(), |next| next.at);
        acts.extend(act(sentence, *verb, end, perhaps));
    }
    let may_last = |(_, token): &(usize, &Token)| durations::may_state(token);
    for (at, _) in sentence.tokens.iter().enumerate().filter(may_last) {
        let Some(duration) = durations::duration(recipe, sentence, at) else { continue };
        let own = acts.get(first..).unwrap_or_default();
        let before = own.iter().rposition(|act| act.tokens.0 < at);
        let owner = before.or((!own.is_empty()).then_some(0)).map(|own| first + own);
        let (owner, told_before) = match owner {
            Some(owner) => (owner, false),
            None => match first.checked_sub(1) {
                Some(last) => (last, true),
                None => continue,
            },
        };
        let Some(act) = acts.get_mut(owner).filter(|act| act.step == sentence.step) else { continue };
        if !told_before || act.times.is_empty() || duration.manner == Manner::More {
            act.times.push(duration);
        }
    }
}

fn act(sentence: &Sentence<'_>, verb: Verb, end: usize, perhaps: bool) -> Option<Act> {
    let token = sentence.tokens.get(verb.at)?;
    Some(Act {
        step: sentence.step,
        kind: placed(sentence, verb, end),
        span: token.span,
        sentence: sentence.span(),
        tokens: (verb.at, end),
        times: Vec::new(),
        ends: false,
        perhaps,
    })
}

/// What is done where the place says it: put in the refrigerator, left in a warm place, set in the freezer.
fn placed(sentence: &Sentence<'_>, verb: Verb, end: usize) -> ActKind {
    use ActKind::{Chill, Cool, Freeze, Keep, Rest, Work};
    if !matches!(verb.kind, Work | Rest | Cool | Keep | Chill | Freeze) {
        return verb.kind;
    }
    let inside = |places: &Words| {
        (verb.at + 1..end).any(|at| {
            sentence.among(at, places)
                && sentence.words_before(at).take(4).any(|word| sentence.is(word, &["in", "into", "to", "inside"]))
        })
    };
    match verb.kind {
        Keep => Keep,
        _ if sentence.names(&LEFTOVERS) => Keep,
        _ if inside(&CHILLERS) => Chill,
        _ if inside(&FREEZERS) => Freeze,
        Work if sentence.is(verb.at, &["set"]) && sentence.has(verb.at + 1, end, &["aside"]) => Rest,
        kind => kind,
    }
}

/// What is over is kept, wherever it is put.
static LEFTOVERS: Words = Words::new("leftover leftovers");

/// What chills that which is inside.
static CHILLERS: Words = Words::new("refrigerator fridge icebox");

/// What freezes it.
static FREEZERS: Words = Words::new("freezer");

/// Whether a sentence is for some cooks only: "If …", "Or …", "Alternatively …".
fn is_branch(sentence: &Sentence<'_>) -> bool {
    let remark = sentence.tokens.get(1).is_some_and(|mark| mark.kind == TokenKind::Pause);
    sentence.is(0, &["if", "or", "otherwise", "unless"])
        || remark && sentence.is(0, &["protip", "tip", "note", "variation"])
        || sentence.names(&AS_YOU_LIKE)
}

/// What leaves a sentence to the cook.
static AS_YOU_LIKE: Words = Words::new("alternatively optional optionally");

/// Notes for each act from a step on whether anything says when it is done: in its own words, in those before it, or in what follows up
/// to the next thing that cooks.
fn ends(recipe: &Recipe, acts: &mut [Act], from: usize) {
    let sentences: Vec<Span> = acts.iter().map(|act| act.sentence).collect();
    let opens = |at: usize| at == 0 || sentences.get(at - 1) != sentences.get(at);
    let mut next: Option<(usize, usize)> = None;
    for (at, act) in acts.iter_mut().enumerate().rev().take_while(|(_, act)| act.step >= from) {
        let same_step = next.filter(|(step, _)| *step == act.step).map(|(_, start)| start);
        let stop = same_step.unwrap_or(usize::MAX);
        let between = |from: usize, to: usize| tokens_between(recipe, act.step, from, to);
        act.ends = !act.times.is_empty()
            || opens(at) && ends::says_when(recipe, between(act.sentence.start, act.span.start))
            || ends::says_when(recipe, between(act.span.end, act.sentence.end.min(stop)))
            || ends::says_when_besides(recipe, between(act.sentence.end, stop))
            || same_step.is_none() && ends_next(recipe, act.step + 1);
        if act.kind.cooks() {
            next = Some((act.step, act.span.start));
        }
    }
}

/// The tokens of a step that start from `from` up to `to`, in bytes; the first of them, where they are very many.
fn tokens_between(recipe: &Recipe, step: usize, from: usize, to: usize) -> &[Token] {
    let tokens = recipe.steps.get(step).map_or(&[][..], |step| &step.tokens);
    let (first, last) = (
        tokens.partition_point(|token| token.span.start < from),
        tokens.partition_point(|token| token.span.start < to),
    );
    tokens.get(first..last.min(first.saturating_add(sentences::REACH))).unwrap_or_default()
}

/// Whether the next step opens with what ends the one before: "After 45 minutes, add …", "When the pasta is done …".
fn ends_next(recipe: &Recipe, step: usize) -> bool {
    let tokens = recipe.steps.get(step).map_or(&[][..], |step| &step.tokens);
    let mark = |token: &Token| matches!(token.kind, TokenKind::Comma | TokenKind::Stop);
    let opening = tokens.get(..tokens.iter().position(mark).unwrap_or(tokens.len()).min(12)).unwrap_or_default();
    let opens = |words: &[&str]| opening.first().is_some_and(|first| first.one_of(words));
    opens(&["after", "before"]) || !opens(&["meanwhile", "while"]) && ends::says_when_besides(recipe, opening)
}
