//! What stands beside the name of an ingredient line: more foods, other names, examples.

use smol_str::SmolStr;

use super::{LineNames, Stretch, matches_in, names_something, part, plain_name};
use crate::{
    larder::Larder,
    recipe::language::{lexicon::Roles, token::Token},
};

/// "Lettuce, tomato, mayo": a stretch that is a food and nothing else goes on with the list. "Oil, olive" and "cheese, cream" are
/// names turned round, as larders are labelled, and "cheese, cheddar" says which.
pub fn enumerated(
    larder: &'static Larder,
    main: Option<&Stretch<'_>>,
    stretch: &Stretch<'_>,
    line: &mut LineNames,
) -> bool {
    let tokens = stretch.tokens;
    let found = stretch.found(larder);
    // "And as much butter": the measure is that of the first.
    if tokens.first().is_some_and(|first| first.word("and"))
        && found.last().is_some_and(|hit| hit.end == tokens.len() && hit.part.is_none())
    {
        let body = tokens.get(found.last().map_or(0, |hit| hit.start)..).unwrap_or_default();
        line.names.extend(plain_name(larder, body, &matches_in(larder, body)));
        return true;
    }
    let ([hit], Some(main), Some(first)) = (found, main, line.names.first_mut()) else { return false };
    let whole = hit.start == 0 && hit.end == stretch.tokens.len() && hit.part.is_none();
    let part = first.food.is_some_and(|food| stretch.tokens.iter().any(|token| part(food, &token.fold).is_some()));
    if !whole || part || stretch.tokens.iter().all(|token| token.is(Roles::STATE.and(Roles::PIECE))) {
        return false;
    }
    let joined: Vec<Token> =
        stretch.tokens.iter().chain(main.tokens.iter().filter(|t| names_something(t))).cloned().collect();
    if let Some(turned) = matches_in(larder, &joined).first().filter(|hit| hit.start == 0 && hit.end == joined.len()) {
        let words: Vec<SmolStr> = joined.iter().map(|token| token.fold.clone()).collect();
        (first.food, first.words, first.all_words) = (Some(turned.food), words.clone(), words);
        return true;
    }
    let Some(mut name) = plain_name(larder, stretch.tokens, found) else { return false };
    let narrower = first.food.is_some_and(|food| hit.food.is(food.name) || food.is(hit.food.name))
        || first.words.iter().any(|word| hit.food.is(word));
    name.aside = narrower;
    line.names.push(name);
    true
}

/// Parentheses and later stretches may hold alternatives ("or margarine"), other names ("aubergine") and examples.
pub fn aside_names(larder: &'static Larder, stretch: &Stretch<'_>, line: &mut LineNames) {
    let Some(first) = stretch.tokens.first() else { return };
    let lead = stretch
        .tokens
        .iter()
        .take(3)
        .any(|token| token.one_of(&["or", "such", "eg", "e", "like", "alternatively", "aka", "use"]));
    let found = stretch.found(larder);
    let covered: usize = found.iter().map(|hit| hit.end - hit.start).sum();
    let words = stretch.tokens.iter().filter(|token| names_something(token)).count();
    if !(lead || stretch.aside && covered >= words && covered > 0) {
        return;
    }
    let purpose = first.one_of(&["for", "to", "plus"])
        || stretch.tokens.iter().any(|token| token.word("one"))
        || stretch.tokens.iter().any(|token| token.word("not"));
    if purpose {
        return;
    }
    line.alternatives |= first.word("or") && !line.names.is_empty();
    for hit in found {
        let own = stretch.tokens.get(hit.start..hit.end);
        if let Some(mut name) = own.and_then(|own| plain_name(larder, own, &matches_in(larder, own))) {
            name.aside = !first.word("or");
            line.names.push(name);
        }
    }
}
