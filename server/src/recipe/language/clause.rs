//! Which words of a step take something, and which only tell when: until the butter melts, once the oil is hot.

use super::{
    lexicon::Roles,
    token::{Token, TokenKind},
};
use crate::text::Words;

/// What a stretch of a sentence does with the foods that it names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sense {
    /// Puts in, prepares or handles them.
    #[default]
    Use,
    /// Tells when something is done; takes nothing.
    Cue,
    /// A condition (`if the dough is sticky`); takes nothing by itself.
    Condition,
    /// Says not to: `do not add the cheese yet`, `without oil`.
    Negated,
    /// Says what something is or will be, or what one could do besides: `the juices should run clear`.
    Remark,
}

/// One sentence of a step: which tokens it holds, and the sense of each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sentence {
    /// Index of its first token.
    pub start: usize,
    /// Index after its last token.
    pub end: usize,
}

/// The sentences of a step.
pub fn sentences(tokens: &[Token]) -> impl Iterator<Item = Sentence> {
    let mut end = 0;
    tokens.split_inclusive(|token| token.kind == TokenKind::Stop).map(move |own| {
        let start = end;
        end += own.len();
        Sentence { start, end }
    })
}

/// The sense of every token of a step, sentence by sentence.
pub fn senses(tokens: &[Token]) -> Vec<Sense> {
    let mut out = Vec::with_capacity(tokens.len());
    for sentence in tokens.split_inclusive(|token| token.kind == TokenKind::Stop) {
        read(sentence, &mut out);
    }
    out
}

/// The sense of every token of one sentence.
pub fn senses_of_sentence(sentence: &[Token]) -> Vec<Sense> {
    let mut out = Vec::with_capacity(sentence.len());
    read(sentence, &mut out);
    out
}

fn read(sentence: &[Token], all: &mut Vec<Sense>) {
    let before = all.len();
    let mut reader = Reader::default();
    for at in 0..sentence.len() {
        reader.step(sentence, at);
        all.push(reader.sense);
    }
    let out = all.get_mut(before..).unwrap_or_default();
    let mut from = 0;
    for to in 0..=sentence.len() {
        let ends = sentence
            .get(to)
            .is_none_or(|token| matches!(token.kind, TokenKind::Comma | TokenKind::Pause | TokenKind::Stop));
        if ends {
            if sentence.get(from..to).is_some_and(states) {
                out.get_mut(from..to)
                    .unwrap_or_default()
                    .iter_mut()
                    .filter(|sense| **sense == Sense::Use)
                    .for_each(|sense| *sense = Sense::Remark);
            }
            from = to + 1;
        }
    }
    // "Fold in the chard; you can also use kale": the order stands, and what follows is talk.
    let mut from = 0;
    for part in sentence.split(|token| token.kind == TokenKind::Pause) {
        if could_do(part) {
            out.get_mut(from..).unwrap_or_default().fill(Sense::Remark);
            break;
        }
        from += part.len() + 1;
    }
}

/// Whether a clause has a subject of its own and says what becomes of it, instead of telling the cook what to do.
fn states(clause: &[Token]) -> bool {
    let opened = clause.first().is_some_and(|first| {
        first.one_of(&["the", "this", "these", "that", "it", "they", "its", "their", "some", "most", "any"])
    });
    let article = clause.first().is_some_and(|first| first.one_of(&["a", "an"]));
    if !opened && !article {
        return false;
    }
    const SAYS: Words = Words::new(
        "should will is are was may can could would might must depend help add has have give make taste go need want \
         works work",
    );
    let verb = clause.iter().take(9).position(|token| token.one_among(&SAYS) && (opened || token.inflected));
    let Some(verb) = verb.filter(|verb| *verb > 0) else { return false };
    !orders_in_other_words(clause.get(verb..).unwrap_or_default())
}

/// "The rest of the butter is added", "the potatoes should be cut", "the rice goes in": an order in other words.
fn orders_in_other_words(predicate: &[Token]) -> bool {
    const DONE: Words = Words::new(
        "added mixed stirred folded poured cut sliced chopped placed put whisked beaten sprinkled boiled fried \
                        cooked peeled grated washed rubbed tossed spread layered scattered spooned tipped brushed thrown laid",
    );
    let done = predicate.iter().take(4).any(|token| token.one_among(&DONE));
    let passive = predicate.iter().take(3).any(|token| token.one_of(&["be", "are", "is"]));
    let goes =
        matches!(predicate, [go, into, ..] if go.word("go") && into.one_of(&["in", "into", "on", "onto", "over"]));
    done && passive || goes
}

/// "Lots of other vegetables can be added", "goes well with honey cake": what one could do, no step of the recipe.
fn could_do(sentence: &[Token]) -> bool {
    let could = |second: &Token| second.one_of(&["be", "work", "substitute", "replace"]);
    let also = |second: &Token| {
        second.word("also") && sentence.iter().any(|token| token.one_of(&["eat", "drink", "use", "buy"]))
    };
    let pairs = sentence.iter().zip(sentence.iter().skip(1)).any(|(first, second)| match first.as_ref() {
        "can" | "may" => could(second) || also(second),
        "could" => could(second),
        "go" | "goe" | "goes" | "pairs" | "pair" => second.one_of(&["well", "great", "nicely"]),
        _ => false,
    });
    let or = sentence.iter().any(|token| token.word("compost"));
    pairs || or || sentence.first().is_some_and(|first| first.one_of(&["note", "thanks", "originally"]))
}

/// Walks a sentence and remembers what kind of clause it is in.
#[derive(Default)]
struct Reader {
    sense: Sense,
    /// Whether the clause has said what its subject does ("melts", "is golden").
    told: bool,
    /// How many words the clause has had.
    words: usize,
    /// The depth of parentheses when a clause opened inside one.
    depth: usize,
    opened: usize,
    /// Where a short negation ends.
    short: bool,
    /// Whether the next comma ends the clause, whatever it has said.
    to_comma: bool,
}

impl Reader {
    fn step(&mut self, sentence: &[Token], at: usize) {
        let Some(token) = sentence.get(at) else { return };
        match token.kind {
            TokenKind::Open => self.depth += 1,
            TokenKind::Close => {
                self.depth = self.depth.saturating_sub(1);
                if self.depth < self.opened {
                    self.leave();
                }
            }
            TokenKind::Pause => self.leave(),
            TokenKind::Comma if self.sense != Sense::Use && (self.short || self.comma_ends(sentence, at)) => {
                self.leave();
            }
            TokenKind::Word => self.word(sentence, at, token),
            _ => {}
        }
    }

    fn word(&mut self, sentence: &[Token], at: usize, token: &Token) {
        if let Some(sense) = opens(sentence, at) {
            self.sense = sense;
            self.told = false;
            self.words = 0;
            self.opened = self.depth;
            self.short = sense == Sense::Negated && !token.one_of(&["not", "don't", "never", "avoid"]);
            self.to_comma = at == 0 && !token.is(Roles::CUE) && sense != Sense::Condition;
            return;
        }
        if self.sense == Sense::Use {
            return;
        }
        if self.word_ends(sentence, at, token) {
            return self.leave();
        }
        self.words += 1;
        self.told |= token.is(Roles::PREDICATE) && self.words > 1
            || token.is(Roles::PREDICATE.and(Roles::STATE)) && self.words == 1;
    }

    fn leave(&mut self) {
        self.sense = Sense::Use;
        self.short = false;
        self.to_comma = false;
        self.opened = 0;
    }

    /// "until soft, then add": a comma ends a cue once the cue has said something, or where an order follows.
    fn comma_ends(&self, sentence: &[Token], at: usize) -> bool {
        let next = sentence.get(at + 1);
        let ordered = next
            .is_some_and(|next| next.is(Roles::VERB) || next.one_of(&["then", "about", "approximately", "stirring"]));
        self.to_comma
            || self.told
            || ordered
            || next.is_some_and(|next| matches!(next.kind, TokenKind::Measure(_) | TokenKind::Number))
    }

    /// "until it sizzles and add the rest": an order ends a cue. So does "then".
    fn word_ends(&self, sentence: &[Token], at: usize, token: &Token) -> bool {
        if token.word("then") || token.word("but") && self.told {
            return true;
        }
        let before = at.checked_sub(1).and_then(|before| sentence.get(before));
        let after_and = before.is_some_and(|before| before.word("and") || before.kind == TokenKind::And);
        if self.short {
            return after_and || self.words >= 4 || token.one_of(&["into", "in", "to", "for", "over", "on"]);
        }
        if !token.is(Roles::VERB) || token.inflected {
            return false;
        }
        let object = sentence.get(at + 1).is_some_and(|next| {
            next.is(Roles::PRONOUN)
                || next.one_of(&[
                    "the", "a", "an", "in", "into", "with", "your", "each", "some", "through", "over", "on", "to",
                ])
                || next.roles == Roles::default()
        });
        let free = before.is_none_or(|before| {
            !before.one_of(&["to", "the", "a", "an", "it", "they", "will", "not", "is", "are", "you", "just"])
        });
        let order = sentence.get(at + 1).is_some_and(|next| next.one_of(&["the", "a", "an", "your"]))
            && before.is_none_or(|before| !before.is(Roles::SMALL));
        // "When cool fill with jam": one word says all of the cue. Not "golden brown", nor "just set firm".
        let brief = self.words == 1 && !token.is(Roles::PREDICATE.and(Roles::STATE));
        self.told && object && free && (after_and || strong(token) || order || brief)
    }
}

/// Verbs that are hardly ever anything else.
fn strong(token: &Token) -> bool {
    const STRONG: Words = Words::new(
        "add put pour remove place drain prepare transfer combine take introduce reduce turn spread stir \
                          scatter sprinkle serve return fold whisk slash throw tip drop slide lower plunge strain discard \
                          knead crumble arrange",
    );
    token.one_among(&STRONG)
}

/// The clause that the word at `at` opens, if it opens one.
fn opens(sentence: &[Token], at: usize) -> Option<Sense> {
    let token = sentence.get(at)?;
    let next = sentence.get(at + 1);
    let gerund = || next.is_some_and(|next| next.fold.len() > 4 && next.fold.ends_with("ing"));
    let followed_by = |words: &[&str]| next.is_some_and(|next| next.one_of(words));
    if token.is(Roles::CUE) {
        let timed = next.is_some_and(|next| matches!(next.kind, TokenKind::Measure(_) | TokenKind::Number));
        // "Serve at once", "stir once and leave it", "turn it once, then": how often, and no clause.
        let at_once = token.word("once")
            && (next.is_none_or(|next| next.kind != TokenKind::Word || next.one_of(&["or", "more", "and", "then"]))
                || at.checked_sub(1).and_then(|before| sentence.get(before)).is_some_and(|before| before.word("at")));
        return (!gerund() && !timed && !at_once).then_some(Sense::Cue);
    }
    let is = |sense: Sense, opens: bool| opens.then_some(sense);
    match &*token.fold {
        "to" | "for" => is(Sense::Cue, is_purpose(sentence, at)),
        "as" => is(Sense::Cue, goes_beside(sentence, at) || followed_by(&["soon", "long"])),
        "so" => is(Sense::Cue, followed_by(&["that", "the", "it", "they"])),
        "before" => is(Sense::Cue, !gerund() && followed_by(&["the", "it", "they", "you"])),
        "if" => {
            const BARE: &[&str] =
                &["using", "desired", "needed", "necessary", "possible", "applicable", "you", "available"];
            is(Sense::Condition, !followed_by(BARE))
        }
        "not" => {
            let before = at.checked_sub(1).and_then(|before| sentence.get(before));
            is(Sense::Negated, before.is_some_and(|before| before.word("do")))
        }
        "don't" | "don’t" | "never" | "avoid" | "skip" | "skipping" | "omit" | "omitting" => Some(Sense::Negated),
        "besides" | "beside" => is(Sense::Remark, gerund() && at == 0),
        "like" => is(Sense::Negated, followed_by(&["a", "an", "the"])),
        "without" => is(Sense::Negated, !gerund()),
        "instead" => is(Sense::Negated, followed_by(&["of"])),
        "rather" => is(Sense::Negated, followed_by(&["than"])),
        _ => None,
    }
}

/// "To keep the rice from sticking", "turn down the heat to let the flavour infuse the oil", "wait for the butter to melt".
fn is_purpose(sentence: &[Token], at: usize) -> bool {
    const WHAT_FOR: &[&str] = &["let", "help", "allow", "prevent", "stop", "avoid", "ensure", "confirm", "keep"];
    let Some(token) = sentence.get(at) else { return false };
    let next = |by: usize| sentence.get(at + by);
    if token.word("to") {
        let sure = next(1).is_some_and(|next| next.word("make")) && next(2).is_some_and(|next| next.word("sure"));
        // "Allow to cool", "ready to keep": only what goes on with a noun tells what becomes of it.
        let noun = next(2).is_some_and(|next| next.kind == TokenKind::Word && !next.is(Roles::STATE));
        return sure || noun && next(1).is_some_and(|next| next.one_of(WHAT_FOR));
    }
    let waits = at.checked_sub(1).and_then(|before| sentence.get(before));
    let waits = waits.is_some_and(|before| before.one_of(&["wait", "waiting", "time", "long"]));
    let until = (2..6).any(|by| next(by).is_some_and(|to| to.word("to")) && next(by + 1).is_some_and(tells));
    token.word("for") && waits && until
}

/// "As the onions soften", "while": what goes on beside. Not "as much of it as", nor "as a base".
fn goes_beside(sentence: &[Token], at: usize) -> bool {
    let (Some(token), Some(next)) = (sentence.get(at), sentence.get(at + 1)) else { return false };
    // The noun behind an article is the subject, and says nothing of itself.
    let verb = match () {
        () if next.one_of(&["it", "they"]) => at + 2,
        () if next.one_of(&["the", "your"]) => at + 3,
        () => return false,
    };
    let clause = sentence.get(verb..).unwrap_or_default().iter().take(3);
    token.word("as") && clause.take_while(|token| token.kind == TokenKind::Word).any(tells)
}

/// Whether a word may say what becomes of something.
fn tells(token: &Token) -> bool {
    token.is(Roles::PREDICATE.and(Roles::VERB))
}
