//! Words that look like a food and are something else: an order, a product, a place, a piece.

use super::{
    Target,
    resolve::{Query, Rank},
};
use crate::{
    recipe::language::{
        lexicon::Roles,
        token::{Token, TokenKind},
    },
    text::Words,
};

/// Names that stand for something made of the food, or for its place: the pan of butter and sugar, butter-based biscuits, add
/// to the vegetables.
pub fn is_made(
    tokens: &[Token],
    start: usize,
    end: usize,
    query: &Query<'_>,
    found: &(Vec<Target>, bool, Rank),
) -> bool {
    let word = |at: usize, words: &[&str]| tokens.get(at).is_some_and(|token| token.one_of(words));
    let before = |by: usize, words: &[&str]| start >= by && word(start - by, words);
    let based = word(end, &["based", "free", "style", "lover"]);
    let kind = found.2 == Rank::Kind;
    let bare = if before(1, &["the"]) { 2 } else { 1 };
    let into = kind && query.plural && before(bare, &["to"]);
    let others = kind && before(1, &["other", "additional", "extra", "more"]);
    let adjusted = kind
        && query.words.contains(&"seasoning")
        && (1..4).any(|by| before(by, &["adjust", "taste", "check", "correct"]));
    let boils = |words: &[&str]| before(1, words) || query.all_words.iter().any(|word| words.contains(word));
    let into_water = (1..4).any(|by| before(by, &["in", "into", "to", "under"]));
    let in_water = query.head() == "water"
        && (into_water && (boils(&["boiling", "simmering"]) || tokens.iter().any(|token| token.one_of(DIPS)))
            || (1..5).any(|by| before(by, &["rinse", "wash"])));
    let seasoning = kind && query.head() == "seasoning" && word(end, &["it", "with", "the", "them"]);
    let grain = of_the_meat(tokens, start, end);
    seasoning
        || in_vessel(tokens, start)
        || based
        || into
        || others
        || adjusted
        || in_water
        || grain
        || likened(tokens, start, end)
}

/// "Slice it against the grain".
pub fn of_the_meat(tokens: &[Token], start: usize, end: usize) -> bool {
    let word =
        |at: Option<usize>, words: &[&str]| at.and_then(|at| tokens.get(at)).is_some_and(|token| token.one_of(words));
    let bare = if word(start.checked_sub(1), &["the"]) { 2 } else { 1 };
    end == start + 1
        && word(Some(start), &["grain"])
        && word(start.checked_sub(bare), &["against", "across", "along", "with"])
}

/// What is done in water that nobody measures: "dip the plums in boiling water, then in cold water".
const DIPS: &[&str] = &["dip", "plunge", "dunk", "refresh", "shock"];

/// "The pan of butter and sugar": what the pan holds has been put in before. Not "the bowl of a mixer".
fn in_vessel(tokens: &[Token], start: usize) -> bool {
    let belongs = |token: &Token| token.kind == TokenKind::And || token.kind == TokenKind::Word;
    let ordered = |token: &Token| token.is(Roles::VERB) && !token.is(Roles::ACT) && !token.one_of(&["of"]);
    (start.saturating_sub(6)..start)
        .rev()
        .take_while(|at| tokens.get(*at).is_some_and(|t| belongs(t) && !ordered(t)))
        .any(|at| {
            let word =
                |at: Option<usize>, words: &[&str]| at.and_then(|at| tokens.get(at)).is_some_and(|t| t.one_of(words));
            word(Some(at), &["of"])
                && word(at.checked_sub(1), &["pan", "bowl", "pot", "dish", "tray", "saucepan"])
                && word(at.checked_sub(2), &["the"])
                && !word(Some(at + 1), &["a", "an", "the", "your"])
        })
}

/// "The size of a walnut", "the thickness of cream", "like breadcrumbs", "pea-sized", "one chile per tomato": a comparison.
pub fn likened(tokens: &[Token], start: usize, end: usize) -> bool {
    let word = |at: usize, words: &[&str]| tokens.get(at).is_some_and(|token| token.one_of(words));
    let before = |by: usize, words: &[&str]| start >= by && word(start - by, words);
    let bare =
        if before(1, &["a", "an", "the", "small", "large", "thick", "heavy", "coarse", "fine", "wet"]) { 2 } else { 1 };
    let bare = if before(bare, &["a", "an", "the"]) { bare + 1 } else { bare };
    let measured = before(bare, &["of"])
        && before(bare + 1, &["size", "thickness", "consistency", "texture", "colour", "color", "shape", "look"]);
    let like = before(bare, &["like", "resemble", "resembling", "per"]);
    let sized =
        word(end, &["size", "sized", "shaped", "colored", "coloured", "flavored", "flavoured", "scented", "like"]);
    measured || like || sized
}

/// "The flour and sugar mixture", "egg and vegetable mixture": named by what went into it.
pub fn is_mixed(tokens: &[Token], start: usize, end: usize) -> bool {
    let word = |at: usize, words: &[&str]| tokens.get(at).is_some_and(|token| token.one_of(words));
    let joined = word(end, &["and", "or"]) || tokens.get(end).is_some_and(|token| token.kind == TokenKind::And);
    let mixture = || (end + 2..end + 4).any(|at| word(at, &["mixture", "combination", "blend"]));
    let mix = || start > 0 && word(start - 1, &["the"]) && (end + 2..end + 4).any(|at| word(at, &["mix"]));
    joined && (mixture() || mix())
}

/// "Salt and pepper mixture", without "the": nothing says that it has been made before, so the foods go in here.
pub fn is_first_made(tokens: &[Token], start: usize, end: usize) -> bool {
    let definite = tokens.iter().take(start).rev().take(4).take_while(|token| token.kind == TokenKind::Word);
    let definite =
        definite.take_while(|token| !token.is(Roles::VERB)).any(|token| token.one_of(&["the", "this", "that", "your"]));
    let mixture = (end..end + 4).any(|at| {
        tokens.get(at).is_some_and(|token| token.one_of(&["mixture", "mix", "blend", "combination", "slurry", "rub"]))
    });
    !definite && mixture
}

static PART_VERBS: Words = Words::new("peel skin stem core seed bone zest juice rib shell hull pit");

/// "Peel the onions": a part of a food, and here an order.
pub fn part_verb(tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else { return false };
    let ordered = token.one_among(&PART_VERBS) && !token.inflected;
    ordered
        && (opens_order(tokens, at)
            || tokens.get(at + 1).is_some_and(|next| next.one_of(&["the", "and", "them", "it", "each", "all", "off"]))
                && at
                    .checked_sub(1)
                    .and_then(|before| tokens.get(before))
                    .is_none_or(|before| before.one_of(&["and", "then", "to", "or"])))
}

/// "Roll out the dough", "finely mince the garlic", "slowly sprinkle in": verbs that are foods elsewhere. What [`acts`] knows of
/// butter, salt and the like is theirs to tell.
pub fn verb_use(tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else { return false };
    if token.is(Roles::VERB) {
        !token.is(Roles::ACT) && !token.inflected && is_ordered(tokens, at)
    } else {
        token.word("fish") && tokens.get(at + 1).is_some_and(|next| next.word("out"))
    }
}

/// Whether the verb at `at` stands where an order stands.
fn is_ordered(tokens: &[Token], at: usize) -> bool {
    let before = at.checked_sub(1).and_then(|before| tokens.get(before));
    let placed = before.is_none_or(|before| {
        matches!(before.kind, TokenKind::Stop | TokenKind::Pause | TokenKind::Comma | TokenKind::Open)
            || before.one_among(&BEFORE_ORDERS)
            || before.fold.ends_with("ly")
    });
    if !placed || goes_on_as_name(tokens, at) {
        return false;
    }
    let next = tokens.get(at + 1);
    let object = next.is_some_and(|next| {
        next.kind == TokenKind::Word
            && (next.is(Roles::SMALL.and(Roles::PRONOUN)) && !next.one_of(&["and", "or", "for", "until"])
                || !next.is(Roles::VERB.and(Roles::PRODUCT).and(Roles::CUE)))
    });
    let opens = before.is_none_or(|before| before.kind == TokenKind::Stop)
        && next.is_some_and(|next| next.kind == TokenKind::Word && !next.one_of(&["and", "or"]));
    object || opens
}

/// Words that an order follows.
static BEFORE_ORDERS: Words = Words::new("and or then to you will can also may now again gently");

/// "The milk, purée and sugar", "the milk and purée together", "purée goes in last": the word stands among names, or does what only a
/// thing does. Not "toast and grind the seeds", where another order follows.
fn goes_on_as_name(tokens: &[Token], at: usize) -> bool {
    let next = |by: usize| tokens.get(at + by);
    let joined = at > 0 && next(1).is_some_and(|next| next.one_of(&["and", "or"]));
    // Sugar and salt are foods first.
    let series = joined
        && next(2).is_some_and(|name| name.kind == TokenKind::Word && (!name.is(Roles::VERB) || name.is(Roles::ACT)));
    let before = at.checked_sub(1).and_then(|before| tokens.get(before));
    let last = before.is_some_and(|before| before.word("and"))
        && next(1).is_some_and(|next| next.word("together"))
        && next(2).is_none_or(|behind| behind.kind != TokenKind::Word || behind.is(Roles::CUE));
    series || last || next(1).is_some_and(|next| next.one_of(&["goes", "is", "comes", "should"]))
}

/// "flour mixture", "tomato-sugar mix", "starch slurry": something made before.
pub fn product_follows(tokens: &[Token], end: usize) -> bool {
    let Some(next) = tokens.get(end) else { return false };
    // "The noodle ingredients", "chicken dinner", "biscuits recipe".
    if next.one_of(&["ingredient", "recipe", "dinner", "supper", "lunch", "feast", "lover"]) {
        return true;
    }
    if !next.is(Roles::PRODUCT) {
        return false;
    }
    // "Add the butter mix well": a verb that opens the next order needs an object or an adverb.
    let order = next.is(Roles::VERB)
        && tokens.get(end + 1).is_some_and(|after| {
            after.one_of(&["the", "it", "well", "them", "until", "together", "in", "gently", "all", "everything"])
        });
    !order
}

/// "tomato slices", "butter flakes", "chicken pieces": the piece belongs to the name.
pub fn after_pieces(tokens: &[Token], end: usize) -> usize {
    let piece = tokens.get(end).is_some_and(|token| {
        token.is(Roles::PIECE) && (token.inflected || !token.is(Roles::VERB)) && !token.is(Roles::SMALL)
    });
    if piece { end + 1 } else { end }
}

/// Whether the word at `at` stands where an order begins.
pub fn opens_order(tokens: &[Token], at: usize) -> bool {
    let Some(before) = at.checked_sub(1).and_then(|before| tokens.get(before)) else { return true };
    before.kind != TokenKind::Word
        && !matches!(before.kind, TokenKind::Measure(_))
        && !matches!(before.kind, TokenKind::Comma)
}
