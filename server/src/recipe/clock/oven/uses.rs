//! What is put in the oven, or may be.

use uom::si::{f64::Time, time::minute};

use super::{
    OvenEvent, OvenTurn, event, is_inside, is_oven,
    words::{BAKING_TOOLS, ELSEWHERE, HEAT_WORDS, MOVES, OVER_A_FIRE, PREHEATED, SPOKEN_OF},
};
use crate::{
    recipe::clock::{Act, kinds::ActKind, sentences::Sentence},
    text::Words,
};

/// Whether an act uses the oven, and how.
pub fn used(sentence: &Sentence<'_>, act: &Act) -> Option<OvenEvent> {
    let (from, to) = act.tokens;
    let out = |oven: usize| sentence.words_before(oven).take(3).any(|word| sentence.is(word, &["from", "out"]));
    let oven = (from + 1..to).find(|at| is_oven(sentence, *at) && is_inside(sentence, *at)).filter(|oven| !out(*oven));
    let end = oven.and_then(|oven| sentence.tokens.get(oven)).map_or(act.span, |token| token.span);
    let verb = sentence.tokens.get(from)?;
    let idle = act.kind == ActKind::Work && !verb.one_among(&MOVES);
    let turn = match act.kind {
        ActKind::Bake | ActKind::Roast => OvenTurn::Used,
        _ if oven.is_some() && (idle || act.kind == ActKind::Rise) => OvenTurn::MayBeUsed,
        _ if oven.is_some() => OvenTurn::Used,
        _ if may_use(sentence, act) => OvenTurn::MayBeUsed,
        _ => return None,
    };
    let near = oven.map_or((from, to), |oven| (oven.saturating_sub(6), oven + 6));
    let near = sentence.tokens.get(near.0..near.1.min(sentence.tokens.len())).unwrap_or_default();
    Some(OvenEvent {
        in_words: is_hot_in_words(sentence, (from, to), oven),
        preheated: near.iter().any(|token| token.one_among(&PREHEATED)),
        certain: match act.kind {
            ActKind::Bake => true,
            _ if is_kept_warm(sentence) => false,
            ActKind::Keep | ActKind::Rest | ActKind::Cool | ActKind::Heat | ActKind::Melt | ActKind::Dry => false,
            ActKind::Roast if oven.is_none() => is_roasted_in_an_oven(sentence, act),
            _ => oven.is_some(),
        },
        ..event(sentence, turn, act.span.joined(end))
    })
}

/// Whether words say how hot the oven is: "a moderate oven", "an oven, not too hot", "over a gentle heat".
fn is_hot_in_words(sentence: &Sentence<'_>, act: (usize, usize), oven: Option<usize>) -> bool {
    let said = |from: usize, to: usize| (from..to).any(|at| sentence.among(at, &HEAT_WORDS));
    let behind = |oven: usize| {
        sentence.has(oven + 1, oven + 6, &["moderate", "moderately", "quick", "slow", "hot", "cool", "brisk", "low"])
    };
    let of_a_fire = |at: usize| sentence.is(at, &["heat", "fire"]) && said(at.saturating_sub(2), at);
    oven.is_some_and(|oven| said(oven.saturating_sub(5), oven) || behind(oven)) || (act.0..act.1).any(of_a_fire)
}

/// Whether something is roasted that needs an oven for it: not on a spit, over a flame or in a pan, and for some time.
fn is_roasted_in_an_oven(sentence: &Sentence<'_>, act: &Act) -> bool {
    let pan = |at: usize| {
        sentence.is(at, &["pan"])
            && !at.checked_sub(1).is_some_and(|before| sentence.is(before, &["roasting", "sheet", "baking"]))
    };
    let elsewhere = sentence.names(&OVER_A_FIRE) || (0..sentence.tokens.len()).any(pan);
    let long = act.time().is_some_and(|time| time.least >= Time::new::<minute>(SOME_TIME));
    let tray = sentence.says(&["tray", "sheet", "roasting", "tin", "dish"]);
    (long || tray) && !elsewhere
}

/// Nuts and spices are roasted in a pan in less than so many minutes (common practice, no source).
const SOME_TIME: f64 = 12.0;

/// An act of so many minutes that names neither pot nor stove is likely done in an oven (common practice, no source).
const LONG: f64 = 15.0;

/// Whether an act that names no oven may yet be done in one: cooked for an hour, put back for ten minutes, toasted.
fn may_use(sentence: &Sentence<'_>, act: &Act) -> bool {
    let elsewhere = || sentence.names(&ELSEWHERE);
    let long = act.time().is_some_and(|time| time.least >= Time::new::<minute>(LONG));
    let verb = sentence.tokens.get(act.tokens.0);
    match act.kind {
        ActKind::Toast | ActKind::Broil => true,
        ActKind::Cook | ActKind::Heat | ActKind::Braise | ActKind::Stew | ActKind::Grill | ActKind::Dry => {
            long && !elsewhere()
        }
        ActKind::Work => verb.is_some_and(|verb| verb.one_among(&MOVES)) && act.ends && !elsewhere(),
        _ => false,
    }
}

/// "Keep them warm", "put a plate in the oven to keep them hot": no baking, and any warmth will do.
fn is_kept_warm(sentence: &Sentence<'_>) -> bool {
    sentence.names(&KEEPS) && sentence.says(&["warm", "hot"])
}

static KEEPS: Words = Words::new("keep");

/// Whether a sentence speaks of the oven, or of what was baked, without an order to bake: `Once baked`, `while it bakes`.
pub fn is_spoken_of(sentence: &Sentence<'_>) -> bool {
    let tool = |at: usize| sentence.among(at + 1, &BAKING_TOOLS);
    is_kept_warm(sentence)
        || sentence.tokens.iter().enumerate().any(|(at, token)| token.one_among(&SPOKEN_OF) && !tool(at))
}
