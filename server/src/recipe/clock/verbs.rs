//! Finds the verbs of a sentence: what it tells the cook to do, in order.

use super::{
    kinds::{self, ActKind},
    sentences::Sentence,
};
use crate::{
    recipe::language::{
        clause::Sense,
        lexicon::Roles,
        token::{Token, TokenKind},
    },
    text::Words,
};

/// A verb with its place among the tokens of its sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Verb {
    /// Index of its token.
    pub at: usize,
    /// What it does.
    pub kind: ActKind,
}

/// The verbs of a sentence that do something; what only tells when, or what not to do, is left out.
pub fn verbs(sentence: &Sentence<'_>) -> Vec<Verb> {
    let lets = sentence.names(&LETS);
    let mut found: Vec<Verb> = Vec::new();
    for (at, (token, sense)) in sentence.tokens.iter().zip(sentence.senses.iter()).enumerate() {
        if token.kind != TokenKind::Word || *sense != Sense::Use {
            continue;
        }
        let Some(kind) = verb(sentence, at, token, lets) else { continue };
        let next = Verb { at, kind };
        found.pop_if(|before| helps(sentence, *before, next));
        found.push(next);
    }
    found
}

/// "Let the rice simmer", "continue baking": two verbs, one act.
fn helps(sentence: &Sentence<'_>, verb: Verb, next: Verb) -> bool {
    let helper = sentence.is(verb.at, &["let", "allow", "continue", "start", "begin", "finish", "keep"]);
    let mark = |token: &Token| {
        matches!(token.kind, TokenKind::Comma | TokenKind::Pause | TokenKind::Stop) || token.word("and")
    };
    let between = sentence.tokens.get(verb.at..next.at).unwrap_or_default();
    helper && next.kind != ActKind::Work && !between.iter().any(mark)
}

/// What the word at `at` tells to do; `lets`: whether the sentence lets anything do something.
fn verb(sentence: &Sentence<'_>, at: usize, token: &Token, lets: bool) -> Option<ActKind> {
    let word = &*token.fold;
    if let Some(kind) = kinds::gerund(word) {
        return goes_on(sentence, at).then_some(kind);
    }
    if let Some(kind) = kinds::participle(word).filter(|_| ActKind::of(word).is_none()) {
        let passive = at.checked_sub(1).is_some_and(|before| sentence.is(before, &["be", "being", "is", "are"]));
        return passive.then_some(kind);
    }
    // Of most words it is told by what stands before them that they are no verbs.
    let opens_clause = opens_clause(sentence, at);
    if token.inflected || !opens_clause && !lets {
        return None;
    }
    let known = ActKind::of(word);
    let orders = known.is_some() || token.is(Roles::VERB) || token.one_among(&ALSO_VERBS);
    let stands_as_verb = opens_clause || known.is_some() && is_let(sentence, at);
    if !(orders && stands_as_verb) {
        return None;
    }
    let next = sentence.tokens.get(at + 1);
    if next.is_some_and(|next| next.one_of(&["of", "is", "are", "was", "will", "should"])) {
        return None;
    }
    let food = token.is(Roles::ACT) && !next.is_some_and(|next| next.one_of(TREATED));
    let weak = kinds::is_weak(word) && (!opens(sentence, at) && !takes_object(next) || names_a_food(token, next));
    if weak || food && known.is_none() {
        return None;
    }
    Some(known.map_or(ActKind::Work, |kind| if lowers(sentence, at, kind) { ActKind::Work } else { kind }))
}

/// Orders that are no verbs of the lexicon.
static ALSO_VERBS: Words = Words::new("pop stick shove slip");

/// Whether the word at `at` opens its sentence.
fn opens(sentence: &Sentence<'_>, at: usize) -> bool {
    at == 0 || at.checked_sub(1).is_some_and(|before| sentence.is(before, ADVERBS) && before == 0)
}

const ADVERBS: &[&str] =
    &["then", "now", "next", "finally", "meanwhile", "first", "again", "also", "just", "gently", "lightly"];

/// What follows a food's name that is an act: butter the dish, salt it.
const TREATED: &[&str] = &["the", "a", "an", "your", "each", "it", "them", "both", "well", "two", "one"];

/// Words that a verb follows.
static BEFORE_VERBS: Words = Words::new(
    "and then or now meanwhile meantime next finally first again also but just we you i please should must \
     will well step time over together once twice uncovered covered deep pan shallow stir slow part",
);

/// Whether a verb can stand at `at` by what stands before it: at a beginning, behind a mark or a word that joins.
fn opens_clause(sentence: &Sentence<'_>, at: usize) -> bool {
    let Some(before) = at.checked_sub(1).and_then(|before| sentence.tokens.get(before)) else { return true };
    match before.kind {
        TokenKind::Comma | TokenKind::Pause | TokenKind::Stop | TokenKind::Open | TokenKind::Close => true,
        TokenKind::And | TokenKind::Slash => true,
        TokenKind::Word if before.one_among(&BEFORE_VERBS) || before.fold.ends_with("ly") => true,
        TokenKind::Word if before.word("to") => is_put_to(sentence, at),
        _ => false,
    }
}

/// "Leave to rise", "set aside to cool", "return to the oven to bake": an infinitive that is an order. Not "bring to boil".
fn is_put_to(sentence: &Sentence<'_>, at: usize) -> bool {
    let mut before = sentence.words_before(at).take(10);
    let noun = sentence.is(at, &["boil", "simmer", "steam", "taste"]);
    before.any(|word| {
        let left = sentence.is(word, &["let", "leave", "left", "allow", "allowed", "continue", "begin", "start"]);
        left || !noun && sentence.is(word, &["set", "put", "place", "return", "hang", "transfer"])
    })
}

/// Words that let something do what it does.
static LETS: Words = Words::new("let allow leave");

/// "Let the sauce simmer", "leave it to stand".
fn is_let(sentence: &Sentence<'_>, at: usize) -> bool {
    let mut before = (0..at).rev().take(9).take_while(|before| {
        sentence.tokens.get(*before).is_some_and(|token| {
            !matches!(token.kind, TokenKind::Comma | TokenKind::Pause | TokenKind::Stop | TokenKind::Close)
                && !token.one_of(&["and", "then", "or"])
        })
    });
    before.any(|word| sentence.among(word, &LETS)) && !is_after_article(sentence, at)
}

/// Whether an article stands before the word at `at`, or a word that a noun follows. What stands behind "to" is told by what it is put to.
fn is_after_article(sentence: &Sentence<'_>, at: usize) -> bool {
    at.checked_sub(1).is_some_and(|before| sentence.is(before, &["a", "an", "the", "this", "your", "of", "for", "to"]))
}

/// "Continue baking", "keep simmering", "finish cooking".
fn goes_on(sentence: &Sentence<'_>, at: usize) -> bool {
    sentence
        .words_before(at)
        .take(4)
        .any(|word| sentence.is(word, &["continue", "keep", "start", "begin", "finish", "go", "resume"]))
}

/// Whether what follows shows that the word before it is a verb.
fn takes_object(next: Option<&Token>) -> bool {
    let Some(next) = next else { return true };
    match next.kind {
        TokenKind::Word => next.one_among(&AFTER_VERBS) || next.fold.ends_with("ly"),
        TokenKind::And => false,
        _ => true,
    }
}

static AFTER_VERBS: Words = Words::new(
    "the a an your each all both it them this these half any one everything in on at over under for with until \
     till to by from into about around approximately another up off down through before after while as and \
     then or covered uncovered again together well overnight some aside once without only just still \
     undisturbed very too but if outside inside there out not no more completely",
);

/// `Brown sugar and butter …`, `cool water`: the word belongs to the name behind it.
fn names_a_food(token: &Token, next: Option<&Token>) -> bool {
    let named =
        next.is_some_and(|next| next.one_of(&["sugar", "rice", "bread", "stock", "sauce", "flour", "water", "milk"]));
    named && token.one_of(&["brown", "cool", "warm", "dry", "cream", "toast"])
}

/// "Reduce the heat", "reduce to a simmer": what is changed is the fire.
fn lowers(sentence: &Sentence<'_>, at: usize, kind: ActKind) -> bool {
    kind == ActKind::Reduce && (at + 1..at + 7).any(|behind| sentence.among(behind, &FIRES))
}

static FIRES: Words = Words::new("heat oven temperature temp flame fire speed simmer low medium degree burner");
