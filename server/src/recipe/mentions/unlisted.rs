//! Foods that a step names and the list does not have, and what only looks like one.

use super::{
    find::{Place, Walk},
    made::{likened, of_the_meat, product_follows, verb_use},
    resolve::{self, Query, Rank},
    runs::{Run, nothing},
};
use crate::recipe::language::{
    lexicon::{Roles, roles},
    token::Token,
};

/// The food that the run is, where it is one that a list ought to have.
pub fn unlisted(
    walk: &Walk<'_, '_>,
    place: &Place<'_>,
    units: &[(usize, usize)],
    start: usize,
    end: usize,
    after: usize,
) -> Run {
    let none = nothing(start, after);
    if product_follows(place.tokens, end) {
        return nothing(start, end + 1);
    }
    let Some(&(from, to)) = units.last() else { return none };
    let Some(hit) = place.match_at(from).filter(|hit| hit.end == to) else { return none };
    let words: Vec<&str> = place.tokens.get(from..to).unwrap_or_default().iter().map(|token| &*token.fold).collect();
    let food = hit.food;
    let free = food.is("water") || food.is("ice") || food.name == "water" || food.name == "ice";
    let in_title = words.iter().all(|word| walk.kitchen.title.iter().any(|own| &**own == *word));
    let made = words.len() == 1 && words.iter().all(|word| roles(word).any(Roles::PRODUCT.and(Roles::VESSEL)));
    let verb = words.len() == 1 && verb_use(place.tokens, from);
    let like = place.tokens.get(end).is_some_and(|next| {
        next.one_of(&["like", "based", "style", "free"])
            || next.is(Roles::VESSEL) && !next.is(Roles::PIECE.and(Roles::SMALL))
    });
    let juices = place.tokens.get(to - 1).is_some_and(|token| token.word("juice") && token.inflected);
    let sized = likened(place.tokens, start, end) || of_the_meat(place.tokens, start, end);
    if free
        || in_title
        || made
        || verb
        || like
        || sized
        || juices
        || made_here(walk, place.tokens, start, from, to, after)
    {
        return none;
    }
    Run { start: from, end: after, unlisted: Some(food), ..none }
}

/// Foods that the method makes itself, by what stands around their names: "make a simple syrup", "stir to a paste", "the chili
/// sauce we made", "the sugar syrup" of the sugar in the list, "baking beans".
fn made_here(walk: &Walk<'_, '_>, tokens: &[Token], start: usize, from: usize, to: usize, after: usize) -> bool {
    let word =
        |at: Option<usize>, words: &[&str]| at.and_then(|at| tokens.get(at)).is_some_and(|token| token.one_of(words));
    let before = |by: usize| start.checked_sub(by);
    let article = usize::from(word(before(1), &["a", "an", "the", "your"])) + 1;
    let making = word(
        before(article),
        &["make", "making", "form", "create", "get", "obtain", "become", "resemble", "called", "blind"],
    );
    let texture = word(before(1), &["a"]) && word(before(2), &["to", "into"]);
    let weights = word(before(1), &["baking", "ceramic"]) && word(to.checked_sub(1), &["bean", "weight"]);
    let told = word(Some(after), &["we", "you"])
        && word(Some(after + 1), &["make", "made", "prepared", "cooked", "kept", "saved"])
        || word(Some(after), &["made", "prepared"]) && !word(Some(after + 1), &["of", "from", "with"])
        || word(Some(after), &["from"]) && word(Some(after + 1), &["step", "before", "earlier", "above"]);
    // The head tells what was made, and the words before it of what.
    let (Some(name), Some(head)) = (tokens.get(from..to), to.checked_sub(1).and_then(|last| tokens.get(last))) else {
        return false;
    };
    let definite = word(before(1), &["the"]);
    let product =
        |token: &Token| token.is(Roles::PRODUCT.and(Roles::VESSEL)) || token.one_of(&["case", "shell", "crust"]);
    let of_the_list = name.len() > 1
        && head.is(Roles::PRODUCT)
        && name.split_last().is_some_and(|(_, rest)| {
            let fits = resolve::best(&Query::new(walk.kitchen.larder, rest), walk.kitchen.ingredients);
            fits.iter().any(|fit| fit.rank <= Rank::Shorter)
        });
    making || texture || weights || told || definite && (of_the_list || name.iter().all(product))
}
