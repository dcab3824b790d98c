//! What a sentence of a step does with what is in the bowl.

use super::losses::Loss;
use crate::{
    recipe::{
        Step,
        language::{
            clause::{Sense, Sentence},
            lexicon::Roles,
            token::{Token, TokenKind},
        },
        vessels::Vessel,
    },
    text::{Span, Words},
};

/// The words of a sentence, those in brackets among them.
pub fn flat<'r>(step: &'r Step, sentence: &Sentence) -> Vec<&'r Token> {
    let own = step.tokens.get(sentence.start..sentence.end).unwrap_or_default();
    let mut out = Vec::with_capacity(own.len());
    for token in own {
        match token.kind {
            TokenKind::Mention(mark) => out.extend(step.marks.get(mark).iter().flat_map(|mark| &mark.tokens)),
            _ => out.push(token),
        }
    }
    out
}

/// The words of a sentence that say what is done, and not when it is done: "until they steam" steams nothing.
pub fn done<'r>(step: &'r Step, sentence: &Sentence) -> Vec<&'r Token> {
    let own = step.tokens.get(sentence.start..sentence.end).unwrap_or_default();
    let senses = step.senses.get(sentence.start..sentence.end).unwrap_or_default();
    let mut out = Vec::with_capacity(own.len());
    out.extend(own.iter().zip(senses).filter(|(_, sense)| **sense == Sense::Use).map(|(token, _)| token));
    out
}

/// Verbs that put what is in the bowl, or something else, into a vessel.
const FILLS: Words = Words::new(
    "pour scrape spread spoon turn transfer tip divide ladle pack put press place distribute portion pipe \
    strain layer arrange pat empty bake funnel split",
);

/// What stands between the verb and the vessel.
const INTO: Words = Words::new("into in among between to onto inside over");

/// Names for what has been put together, folded.
pub const MADE: Words = Words::new(
    "batter mixture mix dough custard filling pudding sauce soup stew mousse content everything all it \
    them cream puree base meringue",
);

/// An order to put something into a vessel.
#[derive(Debug, Clone)]
pub struct Pour<'r> {
    /// The vessel, as an index.
    pub vessel: usize,
    /// Where the order starts, in bytes.
    pub from: usize,
    /// The object: from the verb to the vessel.
    pub object: Span,
    /// Its words.
    pub words: Vec<&'r Token>,
}

/// The order of a sentence to put something into a vessel, if it gives one.
pub fn pour<'r>(tokens: &[&'r Token], vessels: &[Vessel], from: Span) -> Option<Pour<'r>> {
    let own = vessels.iter().enumerate().filter(|(_, vessel)| from.contains(vessel.span));
    own.filter_map(|(index, vessel)| {
        let at = tokens.iter().position(|token| token.span.end > vessel.span.start)?;
        let before = at.checked_sub(1)?;
        tokens.get(before).filter(|token| token.one_among(&INTO))?;
        let verb = tokens.get(..before)?.iter().rposition(|token| token.one_among(&FILLS) && !token.inflected)?;
        // "Pour it over the fruit in the dish": what is poured stands before the first of them.
        let end = (verb + 1..=before).find(|at| tokens.get(*at).is_some_and(|token| token.one_among(&INTO)))?;
        let words: Vec<&Token> = tokens.get(verb + 1..end)?.to_vec();
        // Another order, or another vessel, stands between the two.
        let apart = words
            .iter()
            .any(|token| token.kind == TokenKind::Pause || token.is(Roles::VERB) && token.one_among(&OTHERS));
        let start = tokens.get(verb)?.span;
        let object = Span::new(start.end, tokens.get(end)?.span.start);
        (!apart).then_some(Pour { vessel: index, from: start.start, object, words })
    })
    .next()
}

/// Verbs that show a second order behind the first.
const OTHERS: Words = Words::new("bake cook chill cover set heat serve stand let add sprinkle");

/// What an order to fill a vessel puts into it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Object {
    /// A share of what is in the bowl.
    AtHand(f64),
    /// Things that are named.
    Named,
    /// Nothing that is known: hot water, a vessel.
    Other,
}

/// What the object of an order is, whether or not it names ingredients.
pub fn object(words: &[&Token], names: bool) -> Object {
    if words.iter().any(|token| token.one_of(&["some", "enough", "little", "each", "few", "bit", "layer"])) {
        return Object::Other;
    }
    let made = words.iter().any(|token| token.one_among(&MADE));
    let empty = words.iter().all(|token| {
        token.kind != TokenKind::Word
            || token.is(Roles::SMALL.and(Roles::STATE))
            || token.fold.ends_with("ly")
            || token.one_of(&["immediately", "again", "half"])
    });
    match () {
        () if names => Object::Named,
        () if made || empty => share(words).map_or(Object::Other, Object::AtHand),
        () => Object::Other,
    }
}

/// The share that the object says; all of it where it says none, nothing where nobody can tell.
fn share(words: &[&Token]) -> Option<f64> {
    let says = |wanted: &[&str]| words.iter().any(|token| token.one_of(wanted));
    if words.iter().any(|token| matches!(token.kind, TokenKind::Measure(_) | TokenKind::Number)) {
        return None;
    }
    Some(match () {
        () if says(&["half"]) => 0.5,
        () if says(&["third"]) => {
            if says(&["two"]) {
                2.0 / 3.0
            } else {
                1.0 / 3.0
            }
        }
        () if says(&["quarter"]) => {
            if says(&["three"]) {
                0.75
            } else {
                0.25
            }
        }
        () if says(&["most"]) => 0.5,
        () => 1.0,
    })
}

/// What happens to all that is in the bowl in this sentence, the first first.
pub fn losses(tokens: &[&Token]) -> Vec<Loss> {
    let says = |words: &[&str]| tokens.iter().any(|token| token.one_of(words));
    let mut out = Vec::new();
    if says(&["strain", "sieve"]) || says(&["through"]) && says(&["press", "push", "rub", "pass", "pour"]) {
        out.push(Loss::Strained);
    }
    if says(&["drain", "squeeze", "wring", "discard", "skim", "reserve", "rinse"])
        || says(&["off"]) && says(&["pour", "spoon"])
    {
        out.push(Loss::Drained);
    }
    if tokens.iter().any(|token| token.one_among(&COOKS)) {
        out.push(Loss::Cooked);
    }
    let down = tokens.windows(2).any(|pair| match pair {
        [verb, next] => {
            verb.word("reduce") && !next.one_of(&["the", "heat", "oven", "to"])
                || verb.word("boil") && next.word("down")
        }
        _ => false,
    });
    if down || says(&["reduced", "evaporated"]) {
        out.push(Loss::Reduced);
    }
    out
}

const COOKS: Words = Words::new(
    "cook simmer boil saute sautee fry brown roast sweat caramelize caramelise soften wilt braise sear \
    stew poach steam grill broil toast blanch",
);

/// Words after which what stands in a vessel is no longer the raw filling.
const FINISHES: Words =
    Words::new("bake roast cool unmold unmould invert chill refrigerate freeze serve broil grill microwave");

/// Whether the vessel's filling is complete with this sentence.
pub fn finishes(tokens: &[&Token]) -> bool {
    tokens.iter().any(|token| token.one_among(&FINISHES) && !token.inflected)
}

/// Whether a sentence goes on with what is in the bowl: it names it before anything else, or adds to it. `first` is where the first
/// ingredient stands that it takes.
pub fn goes_on(tokens: &[&Token], first: usize) -> bool {
    const ADDS: &[&str] =
        &["add", "stir", "fold", "pour", "sprinkle", "season", "top", "scatter", "drizzle", "return", "put"];
    let names = |token: &Token| token.one_among(&MADE) && !token.one_of(&["all", "everything", "cream"]);
    let named = tokens.iter().any(|token| token.span.end <= first && names(token));
    let mut verbs = tokens.iter().enumerate().filter(|(_, token)| token.is(Roles::VERB) && !token.inflected);
    // "Whisk in the oil": what goes in goes into something.
    let adds = verbs.next().is_some_and(|(at, verb)| {
        let into = tokens.get(at + 1).is_some_and(|next| next.one_of(&["in", "into"]));
        verb.one_of(ADDS) || into && !in_a_vessel(tokens)
    });
    named || adds
}

/// "In a large bowl", "in another pan": a vessel that has not been spoken of.
pub fn in_a_vessel(tokens: &[&Token]) -> bool {
    let vessel = |token: &Token| {
        token.one_of(&[
            "bowl",
            "pan",
            "saucepan",
            "pot",
            "skillet",
            "jug",
            "blender",
            "processor",
            "mixer",
            "casserole",
            "oven",
        ])
    };
    tokens.windows(2).enumerate().any(|(at, pair)| match pair {
        [prep, article] => {
            prep.one_of(&["in", "using", "with"])
                && article.one_of(&["a", "an", "another", "separate", "one", "second"])
                && tokens.iter().skip(at + 2).take(7).any(|token| vessel(token))
        }
        _ => false,
    })
}

/// Whether a sentence starts something besides: "Meanwhile", "in another bowl".
pub fn starts_beside(tokens: &[&Token]) -> bool {
    let opens = tokens.first().is_some_and(|first| first.one_of(&["meanwhile", "meantime", "separately"]));
    opens
        || tokens.windows(2).any(|pair| match pair {
            [prep, word] => prep.one_of(&["in", "a", "using"]) && word.one_of(&["another", "separate", "second"]),
            _ => false,
        })
}

/// Whether a sentence takes something out of the bowl again.
pub fn takes_out(tokens: &[&Token]) -> bool {
    tokens.iter().any(|token| token.one_of(&["remove", "discard", "lift", "fish", "pluck"]) && !token.inflected)
}

/// Whether a sentence puts what is in the bowl aside.
pub fn sets_aside(tokens: &[&Token]) -> bool {
    tokens.iter().any(|token| token.word("aside"))
}
