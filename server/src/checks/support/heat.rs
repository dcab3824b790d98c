//! What a temperature is said of.

use super::around;
use crate::{
    recipe::{Recipe, measures::Stated},
    text::Span,
};

/// Whether a stated temperature is a fan oven's. Its conventional partner beside it is no conversion.
pub fn is_fan(recipe: &Recipe, stated: &Stated) -> bool {
    around::clause_has(recipe, stated.span, &["fan", "convection", "forced"])
}

/// Whether a temperature is a difference: `lower it by 25°F`, `25°F hotter`. Differences convert without the 32.
pub fn is_difference(recipe: &Recipe, span: Span) -> bool {
    let before = around::before(recipe, span.start, 6);
    let mut near = before.iter().map(|word| &**word).filter(|word| !HEDGES.contains(word));
    let (first, second) = (near.next().unwrap_or_default(), near.next().unwrap_or_default());
    let by =
        ["by", "within", "another", "extra", "additional", "down", "up", "plus", "minus", "every"].contains(&first);
    let of = first == "of" && ["difference", "drop", "rise", "increase", "decrease", "reduction"].contains(&second);
    let changed =
        before.iter().any(|word| ["lower", "reduce", "raise", "increase", "decrease", "drop"].contains(&&**word));
    let aims = before.iter().any(|word| ["to", "at", "from", "until"].contains(&&**word));
    let behind = around::behind(recipe, span.end, 1);
    let compared = behind.iter().any(|word| COMPARED.contains(&&**word));
    by || of || compared || changed && !aims
}

const HEDGES: &[&str] = &["about", "around", "roughly", "approximately", "some", "a", "full"];
const COMPARED: &[&str] = &[
    "lower",
    "higher",
    "hotter",
    "cooler",
    "warmer",
    "colder",
    "less",
    "more",
    "difference",
    "below",
    "above",
    "either",
];
