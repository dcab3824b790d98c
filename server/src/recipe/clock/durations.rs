//! Times in a sentence: how long something takes, and how that adds to what was said before.

use uom::si::{f64::Time, time::hour};

use super::{kinds::ActKind, sentences::Sentence};
use crate::{
    measure::{Amount, Interval, Measures, Quantity, Unit, UnitKind},
    recipe::{
        Recipe,
        language::token::{Token, TokenKind},
        measures::Measure,
        mentions::Moved,
    },
    text::{Span, Words},
};

/// How long something takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Duration {
    /// The words that say so.
    pub span: Span,
    /// The measure, as an index into [`Recipe::measures`]; `None` where only words say it (overnight).
    pub measure: Option<usize>,
    /// How long, with both sides and the like counted in. The upper end is open for "at least".
    pub time: Interval<Time>,
    /// How it goes with the times before it.
    pub manner: Manner,
}

impl Duration {
    /// The same in a step that stands elsewhere.
    pub(super) fn moved(&self, moved: Moved) -> Duration {
        let measure = self.measure.map(|measure| moved.measure(measure));
        Duration { span: moved.span(self.span), measure, ..*self }
    }
}

/// How a time goes with those that were said before it of the same act.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Manner {
    /// It is the time.
    Whole,
    /// It comes on top: `5 minutes more`.
    More,
    /// It or the one before: `or overnight`.
    Instead,
    /// For each pound or inch: how long altogether is not said.
    Rate,
    /// At most so long: `up to 2 days`.
    Limit,
}

/// "Overnight" is 8 to 12 hours (common practice, no source).
fn overnight() -> Interval<Time> {
    Interval::between(Time::new::<hour>(8.0), Time::new::<hour>(12.0))
}

/// Whether a token may state a time: a measure, or the one word that does. No other does.
pub fn may_state(token: &Token) -> bool {
    matches!(token.kind, TokenKind::Measure(_)) || token.word("overnight")
}

/// The time that the token at `at` states of something; nothing where it is none, or tells when and not how long.
pub fn duration(recipe: &Recipe, sentence: &Sentence<'_>, at: usize) -> Option<Duration> {
    let token = sentence.tokens.get(at)?;
    let (measure, time, limited) = match token.kind {
        TokenKind::Measure(index) => {
            let measure = recipe.measures.get(index)?;
            (Some(index), time_of(measure)?, is_limit(recipe, measure))
        }
        TokenKind::Word if token.word("overnight") => (None, overnight(), false),
        _ => return None,
    };
    if tells_when(sentence, at) {
        return None;
    }
    let manner = if limited { Manner::Limit } else { manner(recipe, sentence, at) };
    let time = time.times(sides(sentence, at)).plus(&half_more(
        sentence,
        at,
        measure.and_then(|index| recipe.measures.get(index)),
    ));
    Some(Duration { span: token.span, measure, time, manner })
}

/// The time of a measure, where it is one, or holds one behind a temperature: `350°F 45 min`.
pub fn time_of(measure: &Measure) -> Option<Interval<Time>> {
    let amounts = measure.stated.terms.iter().filter_map(|term| term.amount());
    let times: Vec<Amount> = amounts.filter(|amount| amount.kind() == UnitKind::Time).collect();
    // Minutes are the same in every house.
    match Amount::total(&times, &Measures::default())? {
        Quantity::Time(time) if measure.open => Some(Interval { most: None, ..time }),
        Quantity::Time(time) => Some(time),
        _ => None,
    }
}

fn is_limit(recipe: &Recipe, measure: &Measure) -> bool {
    let hedge = measure.hedge.map(|hedge| recipe.at(hedge).to_lowercase()).unwrap_or_default();
    ["up to", "at most", "no more", "not more", "less than", "under"].iter().any(|limit| hedge.contains(limit))
}

/// Words between a time and the one that says what it is: `for about 5 minutes`.
static HEDGES: Words =
    Words::new("about around approximately approx roughly some just only at least good full nearly almost circa");

/// Words before a time that tells when: `every 10 minutes`, `after 20 minutes`, `within 2 hours`.
static WHEN: Words = Words::new("every within after last first final each past than next ago remaining same");

/// Words behind one: `10 minutes ahead`, `a day old`.
static WHEN_BEHIND: Words = Words::new("beforehand ahead earlier ago old later into prior mark apart");

/// The nearest words before `at` that are no hedges.
fn before<'s>(sentence: &'s Sentence<'_>, at: usize) -> impl Iterator<Item = usize> + 's {
    sentence.words_before(at).filter(|word| !sentence.among(*word, &HEDGES))
}

/// Whether a time tells when something is done, and not how long it takes.
fn tells_when(sentence: &Sentence<'_>, at: usize) -> bool {
    let first = before(sentence, at).next().is_some_and(|word| sentence.among(word, &WHEN));
    let ahead = sentence.is(at + 1, &["in"]) && sentence.is(at + 2, &["advance"]);
    // "A day or two before".
    let or_two = sentence.is(at + 1, &["or"]) && sentence.is(at + 3, &["before", "ahead"]);
    first || sentence.among(at + 1, &WHEN_BEHIND) || ahead || or_two || is_before(sentence, at)
}

/// `Add the peas 5 minutes before the end`; not `cool for 1 hour before cutting`, which says how long.
fn is_before(sentence: &Sentence<'_>, at: usize) -> bool {
    let mut near = before(sentence, at);
    let lasts = near.next().is_some_and(|word| {
        sentence.is(word, &["for", "another"])
            || sentence.tokens.get(word).is_some_and(|token| ActKind::of(&token.fold).is_some_and(ActKind::waits))
    });
    sentence.is(at + 1, &["before"]) && !lasts
}

fn manner(recipe: &Recipe, sentence: &Sentence<'_>, at: usize) -> Manner {
    let mut near = before(sentence, at);
    let (first, second) = (near.next(), near.next());
    let is = |word: Option<usize>, words: &[&str]| word.is_some_and(|word| sentence.is(word, words));
    if is_rate(recipe, sentence, at) {
        return Manner::Rate;
    }
    if is(first, &["maximum", "max", "most"]) || is(first, &["to"]) && is(second, &["up"]) {
        return Manner::Limit;
    }
    let alternative = |word| is(word, &["or", "preferably", "ideally", "better", "even", "to", "possibly"]);
    if alternative(first) || is(first, &["for", "in"]) && alternative(second) {
        return Manner::Instead;
    }
    let more = sentence.is(at + 1, &["more", "longer", "further", "extra", "additional"])
        || sentence.has(at + 1, at + 5, &["other", "second"])
        || is(first, &["another", "further", "extra", "additional", "then", "plus", "and", "more"])
        || is(first, &["for", "a", "an"]) && is(second, &["another", "further", "then", "and", "plus"]);
    if more || goes_on_a_time(recipe, sentence, at) { Manner::More } else { Manner::Whole }
}

/// `4 hours, 30 minutes`: the minutes belong to the hours.
fn goes_on_a_time(recipe: &Recipe, sentence: &Sentence<'_>, at: usize) -> bool {
    let unit = |at: usize| match sentence.tokens.get(at)?.kind {
        TokenKind::Measure(index) => recipe.measures.get(index)?.stated.unit(),
        _ => None,
    };
    let comma = at.checked_sub(1).and_then(|comma| sentence.tokens.get(comma));
    let hours = at.checked_sub(2).and_then(unit) == Some(Unit::Hour);
    comma.is_some_and(|comma| comma.kind == TokenKind::Comma) && hours && unit(at) == Some(Unit::Minute)
}

/// `20 minutes per pound`, `15 minutes to the pound`, `10 minutes an inch`.
fn is_rate(recipe: &Recipe, sentence: &Sentence<'_>, at: usize) -> bool {
    let behind = (at + 1..at + 5).filter_map(|at| sentence.tokens.get(at).map(|token| (at, token)));
    let mut joined = false;
    for (_, token) in behind {
        let weighed = match token.kind {
            TokenKind::Measure(index) => recipe
                .measures
                .get(index)
                .is_some_and(|measure| matches!(measure.stated.kind(), Some(UnitKind::Weight | UnitKind::Length))),
            _ => token.one_of(&["pound", "lb", "kilo", "kilogram", "kg", "inch"]),
        };
        if weighed {
            return joined || matches!(token.kind, TokenKind::Measure(_));
        }
        joined |= token.one_of(&["per", "a", "an", "to", "each", "every", "for", "the"]);
        if token.kind != TokenKind::Word {
            return false;
        }
    }
    false
}

/// How many times the time is meant: `3 minutes a side` is six.
fn sides(sentence: &Sentence<'_>, at: usize) -> f64 {
    let side = (at + 1..at + 5).find(|at| sentence.is(*at, &["side"]));
    let Some(side) = side else { return 1.0 };
    let word = |at: usize| sentence.is(at, &["a", "per", "each", "every", "either"]);
    let slash = sentence.tokens.get(side - 1).is_some_and(|token| token.kind == TokenKind::Slash);
    if slash || word(side - 1) { 2.0 } else { 1.0 }
}

/// `An hour and a half`: the half that stands behind, of the unit of the measure.
fn half_more(sentence: &Sentence<'_>, at: usize, measure: Option<&Measure>) -> Interval<Time> {
    let said = sentence.is(at + 1, &["and"]) && sentence.is(at + 2, &["a"]) && sentence.is(at + 3, &["half"]);
    let none = Interval::exactly(Time::default());
    let amount = measure.filter(|_| said).and_then(Measure::amount);
    let Some(unit) = amount.and_then(|amount| amount.unit) else { return none };
    let half = Amount::new(Interval::exactly(0.5), Some(unit)).quantity(&Measures::default());
    match half {
        Quantity::Time(half) => half,
        _ => none,
    }
}
