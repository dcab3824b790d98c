//! Reads `24 rolls, 50 g each`, `12 (3-oz) buns`, `divide into 16 balls of 2 oz`.

use super::Portions;
use crate::{
    larder::words::fold,
    measure::{Hedge, Interval, Measures, Quantity, Unit, UnitKind, read_number},
    recipe::{
        Recipe, Step,
        language::{
            clause::sentences,
            lexicon::Roles,
            token::{Atom, Token, TokenKind, tokens},
        },
        measures::{Measure, Place},
    },
    text::{Span, Words},
};

/// Verbs with which a step divides what has been made, folded.
const DIVIDES: Words = Words::new("divide cut shape roll form portion split make scoop separate slice");

fn divides(token: &Token) -> bool {
    token.one_among(&DIVIDES) && !token.inflected
}

/// The portions that a header's value states.
pub fn portions(recipe: &Recipe, measures: &Measures, value: Span, place: Place) -> Vec<Portions> {
    let tokens = words(recipe, value, place);
    let parts = recipe.at(value).split(';').scan(value.start, |start, part| {
        let own = Span::new(*start, *start + part.len());
        *start = own.end + 1;
        Some(own)
    });
    let in_part =
        |part: Span| -> Vec<Token> { tokens.iter().filter(|token| part.contains(token.span)).cloned().collect() };
    parts.filter_map(|part| first(recipe, measures, &in_part(part), 0, place)).collect()
}

/// The portions that a step divides something into.
pub fn divisions(recipe: &Recipe, measures: &Measures, step: &Step, index: usize) -> Vec<Portions> {
    let place = Place::Step(index);
    let mut out = Vec::new();
    // Most steps divide nothing, and then their words need not be told apart once more. A measure may be a verb: `1 slice`.
    let counts = |index: usize| recipe.measures.get(index).is_some_and(|it| it.stated.kind() == Some(UnitKind::Count));
    let may_divide = |token: &Token| match token.kind {
        TokenKind::Measure(index) => counts(index),
        TokenKind::Reference(_) => true,
        _ => divides(token),
    };
    if !step.all_tokens().any(|token| token.word("into")) || !step.all_tokens().any(may_divide) {
        return out;
    }
    let tokens = words(recipe, step.body, place);
    for sentence in sentences(&tokens) {
        let Some(own) = tokens.get(sentence.start..sentence.end) else { continue };
        let verb = own.iter().position(divides);
        let into =
            verb.and_then(|verb| (verb..own.len()).find(|at| own.get(*at).is_some_and(|token| token.word("into"))));
        let Some(into) = into else { continue };
        let (object, pieces) = own.split_at(into);
        let whole = !object.iter().any(|token| token.one_among(&PARTS) || token.word("each"))
            && !pieces.iter().any(|token| token.one_among(&PARTS));
        out.extend(first(recipe, measures, own, into + 1, place).map(|found| Portions { whole, ..found }));
    }
    out
}

/// Words that tell that only a part is divided, or several things are, each into so many. Folded.
const PARTS: Words = Words::new(
    "every half quarter remaining rest remainder other some again repeat both batch leftover second \
    another first or if one",
);

/// The first count of a value, if it has one.
pub fn first_count(recipe: &Recipe, place: Place) -> Option<Interval> {
    let mut own = recipe.measures.iter().filter(|measure| measure.place == place);
    own.find_map(|measure| match measure.stated.quantity(&Measures::default())? {
        Quantity::Count { count, unit: None | Some(Unit::Portion) } if measure.each.is_empty() => Some(count),
        _ => None,
    })
}

/// Whether a stretch of text says one of these words, which are folded.
pub fn says(recipe: &Recipe, span: Span, words: &[&str]) -> bool {
    recipe.at(span).split(|c: char| !c.is_alphabetic()).any(|word| words.contains(&&*fold(word)))
}

/// Words and measures of a stretch. What counts is a number with its noun behind it: `24 balls`.
fn words(recipe: &Recipe, span: Span, place: Place) -> Vec<Token> {
    let own =
        recipe.measures.iter().enumerate().filter(|(_, measure)| measure.place == place && span.contains(measure.span));
    let atom = |(index, measure): (usize, &Measure)| {
        let counts = measure.stated.kind() == Some(UnitKind::Count) && measure.each.is_empty();
        let number = measure
            .stated
            .terms
            .first()
            .filter(|_| counts)
            .filter(|term| term.amount().is_some_and(|amount| amount.unit != Some(Unit::Dozen)));
        Atom { span: number.map_or(measure.span, |term| term.number), kind: Some(TokenKind::Measure(index)) }
    };
    let mut atoms: Vec<Atom> = own.map(atom).collect();
    atoms.sort_by_key(|atom| atom.span);
    tokens(&recipe.text, span, &atoms)
}

/// The first count at or behind `from`, with its noun and its size.
fn first(recipe: &Recipe, measures: &Measures, tokens: &[Token], from: usize, place: Place) -> Option<Portions> {
    let (at, count, number) = (from..tokens.len().min(from + 3))
        .find_map(|at| count(recipe, measures, tokens.get(at)?).map(|(count, number)| (at, count, number)))?;
    let noun = tokens.get(at + 1..)?.iter().take(7).find(|token| is_noun(token))?;
    let each = packed(recipe, measures, tokens.get(at)?).or_else(|| behind(recipe, measures, tokens, at));
    let end = each.map_or(noun.span.end, |(_, size)| after_each(tokens, size.end).max(noun.span.end));
    Some(Portions {
        place,
        span: Span::new(number.start, end),
        count,
        number,
        each,
        noun: noun.fold.clone(),
        whole: true,
    })
}

/// The count that a token is, and where its number stands.
fn count(recipe: &Recipe, measures: &Measures, token: &Token) -> Option<(Interval, Span)> {
    match token.kind {
        TokenKind::Measure(index) => {
            let measure = recipe.measures.get(index)?;
            let number = measure.stated.terms.first()?.number;
            match measure.stated.quantity(measures)? {
                Quantity::Count { count, .. } if count.least >= 1.0 => Some((count, number)),
                _ => None,
            }
        }
        TokenKind::Number => Some((read_number(recipe.at(token.span)).ok()?, token.span)),
        TokenKind::Word => {
            let number = read_number(&token.fold).ok().filter(|number| number.least >= 1.0)?;
            (!token.one_of(&["a", "an", "half"])).then_some((number, token.span))
        }
        _ => None,
    }
}

fn is_noun(token: &Token) -> bool {
    token.kind == TokenKind::Word
        && !token.is(Roles::SIZE.and(Roles::STATE))
        && (!token.is(Roles::SMALL) || token.one_of(&["half", "quarter"]))
        && !token.one_of(&["equal", "even", "equally", "size", "individual", "square", "inch"])
        || token.word("square") && token.inflected
}

/// The size in `12 (3-oz) buns`.
fn packed(recipe: &Recipe, measures: &Measures, token: &Token) -> Option<(Quantity, Span)> {
    let TokenKind::Measure(index) = token.kind else { return None };
    let each = recipe.measures.get(index)?.each.first()?;
    weighs(each.quantity(measures)?).map(|quantity| (quantity, each.span))
}

/// The size behind the noun: `balls of 2 oz`, `rolls, 50 g each`, `pieces (about 65 g each)`.
fn behind(recipe: &Recipe, measures: &Measures, tokens: &[Token], at: usize) -> Option<(Quantity, Span)> {
    let size = (at + 1..tokens.len().min(at + 10))
        .find(|at| matches!(tokens.get(*at).map(|token| token.kind), Some(TokenKind::Measure(_))))?;
    let TokenKind::Measure(index) = tokens.get(size)?.kind else { return None };
    let measure = recipe.measures.get(index)?;
    let near = |from: usize, to: usize, words: &[&str]| {
        tokens.get(from..to.min(tokens.len())).unwrap_or_default().iter().any(|token| token.one_of(words))
    };
    let each = near(size + 1, size + 4, &["each", "apiece"])
        || near(size.saturating_sub(3).max(at), size, &["each", "weighing", "of"])
        || measure.stated.each;
    let quantity = measure.stated.quantity(measures)?;
    let hedge = measure.hedge.and_then(|hedge| Hedge::find(recipe.at(hedge)));
    let quantity = hedge.map_or(quantity, |hedge| quantity.scaled(&hedge.apply(&Interval::exactly(1.0), None)));
    weighs(quantity).filter(|_| each).map(|quantity| (quantity, measure.stated.span))
}

/// What goes into each by the measure: `pour 1/4 cup batter for each pancake`, `1/4 cup per pancake`.
pub fn spooned(recipe: &Recipe, measures: &Measures, noun: &str) -> Option<(Quantity, Span)> {
    let mut places = recipe.steps.iter().flat_map(|step| {
        let tokens = step.tokens.iter().enumerate();
        tokens.filter_map(move |(at, token)| match token.kind {
            TokenKind::Measure(index) => Some((index, step.tokens.get(at + 1..)?)),
            _ => None,
        })
    });
    places.find_map(|(index, behind)| {
        let rest = behind.get(..behind.len().min(12))?;
        let behind = rest.split(|token| token.kind == TokenKind::Stop).next()?;
        let per = behind.windows(2).any(|pair| match pair {
            [each, of] => each.one_of(&["each", "per"]) && of.word(noun),
            _ => false,
        });
        let stated = &recipe.measures.get(index).filter(|_| per)?.stated;
        let quantity = stated.quantity(measures)?;
        matches!(quantity, Quantity::Volume(_)).then_some((quantity, stated.span))
    })
}

/// Where the "each" ends that stands right behind a size, if one does; else where the size ends.
fn after_each(tokens: &[Token], size: usize) -> usize {
    let next = tokens.iter().find(|token| token.span.start >= size);
    next.filter(|next| next.one_of(&["each", "apiece"])).map_or(size, |next| next.span.end)
}

fn weighs(quantity: Quantity) -> Option<Quantity> {
    matches!(quantity, Quantity::Weight(_) | Quantity::Volume(_)).then_some(quantity)
}
