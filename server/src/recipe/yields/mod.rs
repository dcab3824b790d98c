//! How many portions come out, and how large: in the lines above the list, and where a step divides what has been made.

mod read;

use smol_str::SmolStr;

use super::{Recipe, measures::Place};
use crate::{
    measure::{Interval, Measures, Quantity},
    text::Span,
};

/// So many of something, each as large as is said.
#[derive(Debug, Clone, PartialEq)]
pub struct Portions {
    /// The header or the step that says it.
    pub place: Place,
    /// From the number to the size, or to the noun.
    pub span: Span,
    /// How many.
    pub count: Interval,
    /// Where the number stands.
    pub number: Span,
    /// How much each is, where that is said; and where.
    pub each: Option<(Quantity, Span)>,
    /// What they are called, folded: `roll`, `ball`.
    pub noun: SmolStr,
    /// Whether all that there is of something is divided: not so for `cut each half into 6`.
    pub whole: bool,
}

/// What the headers of this label say, each with its index.
fn headers<'r>(recipe: &'r Recipe, label: &'r str) -> impl Iterator<Item = (usize, Span)> + 'r {
    recipe.headers_called(label).map(|(index, header)| (index, header.value))
}

/// What the `Yield` says comes out, part by part. Where it says no size, a step may: `1/4 cup batter for each pancake`.
pub fn stated(recipe: &Recipe, measures: &Measures) -> Vec<Portions> {
    let parts = headers(recipe, "yield")
        .flat_map(|(index, value)| read::portions(recipe, measures, value, Place::Header(index)));
    let sized = |portions: Portions| {
        let each = portions.each.or_else(|| read::spooned(recipe, measures, &portions.noun));
        Portions { each, ..portions }
    };
    parts.map(sized).collect()
}

/// Where steps divide something into portions.
pub fn divided(recipe: &Recipe, measures: &Measures) -> Vec<Portions> {
    let steps = recipe.steps.iter().enumerate();
    steps.flat_map(|(index, step)| read::divisions(recipe, measures, step, index)).collect()
}

/// How many the recipe serves, and where that is said: by `Serves`, or by a `Yield` in servings.
pub fn servings(recipe: &Recipe) -> Option<(Interval, Span)> {
    let serves = headers(recipe, "serve")
        .find_map(|(index, value)| Some((read::first_count(recipe, Place::Header(index))?, value)));
    serves.or_else(|| {
        headers(recipe, "yield").find_map(|(index, value)| {
            let says = read::says(recipe, value, &["serving", "serve", "portion", "people", "person", "feed"]);
            Some((read::first_count(recipe, Place::Header(index)).filter(|_| says)?, value))
        })
    })
}

/// A `Yield` that is nothing but a number: of what, nobody says.
pub fn bare_number(recipe: &Recipe) -> Option<(Interval, Span)> {
    headers(recipe, "yield").find_map(|(index, value)| {
        let bare = recipe.at(value).chars().all(|c| c.is_numeric() || c.is_whitespace() || matches!(c, '-' | '–'));
        Some((read::first_count(recipe, Place::Header(index)).filter(|_| bare)?, value))
    })
}
