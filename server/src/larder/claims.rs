//! The words of a name that say what a food is made without: "gluten-free", "vegan", "non-dairy", "bone-in".

use super::names::Names;
use super::properties::Diet;
use super::words::Word;

/// Takes such words out of a name, as they would name the wrong food, and gives the diets that they claim.
/// A food that is known by such a name (fat-free milk, kosher salt) keeps it.
pub(super) fn take(words: &mut Vec<Word<'_>>, names: &Names) -> Vec<Diet> {
    let mut claims = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let word = |offset: usize| words.get(at + offset).map_or("", |word| word.folded.as_ref());
        let (claim, length) = claim(word(0), word(1), word(2));
        claims.extend(claim.filter(|claim| !claims.contains(claim)));
        let known = || {
            let folded: Vec<&str> = words.iter().map(|word| word.folded.as_ref()).collect();
            names.longest_at(&folded, at).is_some_and(|hit| hit.words.len() > length.max(1))
        };
        if length == 0 || known() {
            at += 1;
            continue;
        }
        let pause = words.drain(at..at + length).find_map(|word| word.before);
        if let Some(next) = words.get_mut(at) {
            next.before = next.before.or(pause);
        }
    }
    claims
}

/// The claim that three words open with, and how many of them make it; none and 0 for other words.
fn claim(first: &str, second: &str, third: &str) -> (Option<Diet>, usize) {
    match (first, second, third) {
        ("plant", "based", _) => (Some(Diet::Vegan), 2),
        ("vegan" | "plantbased", ..) => (Some(Diet::Vegan), 1),
        ("vegetarian" | "meatless", ..) => (Some(Diet::Vegetarian), 1),
        ("nondairy" | "dairyless", ..) => (Some(Diet::DairyFree), 1),
        ("eggless", ..) => (Some(Diet::EggFree), 1),
        ("non", next, _) if !next.is_empty() => (without(next), 2),
        (_, "free", next) if !first.is_empty() && next != "range" => (without(first), 2),
        ("no", _, "added") => (None, 3),
        ("no", next, _) if !next.is_empty() => (without(next), 2),
        ("bone" | "skin" | "shell" | "head" | "tail" | "stem" | "rind" | "fat", "in" | "on" | "off", _) => (None, 2),
        _ => (None, 0),
    }
}

/// The diet that a food without this fits. Lactose-free milk is still milk.
fn without(what: &str) -> Option<Diet> {
    Some(match what {
        "gluten" => Diet::GlutenFree,
        "dairy" | "milk" => Diet::DairyFree,
        "egg" => Diet::EggFree,
        "nut" => Diet::NutFree,
        "meat" => Diet::Vegetarian,
        _ => return None,
    })
}
