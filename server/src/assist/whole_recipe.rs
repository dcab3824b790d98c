//! What can be done with a recipe as a whole where the cursor stands on what says so: twice or half as much at its title, its yield and
//! its servings; a test recorded at its title and among its tests.

use super::{
    record::record_test,
    scale::{self, Wanted},
};
use crate::{
    book::House,
    measure::print_decimal,
    recipe::{Recipe, SectionKind},
    text::{Edit, Span},
};

/// Titles and edits of what can be done where `asked` lies; `today` as `2026-04-21`.
pub fn whole_recipe(recipe: &Recipe, house: &House, asked: Span, today: &str) -> Vec<(String, Vec<Edit>)> {
    let on = |span: Span| span.meets(asked);
    let titled = recipe.title.is_some_and(on);
    let counted = recipe.headers.iter().any(|header| {
        let label = recipe.at(header.label);
        ["serves", "yield"].iter().any(|own| label.eq_ignore_ascii_case(own)) && on(header.label.joined(header.value))
    });
    let among_tests = recipe.sections.iter().any(|section| section.kind == SectionKind::Tests && on(section.span));
    let mut out = Vec::new();
    if titled || counted {
        out.extend(scaled(recipe, house, 2.0, "twice as much"));
        out.extend(scaled(recipe, house, 0.5, "half as much"));
    }
    if (titled || among_tests) && !recipe.steps.is_empty() {
        out.push(("Record a test of today".to_owned(), vec![record_test(recipe, today)]));
    }
    out
}

/// The recipe for so many times as many, where that is a whole number.
fn scaled(recipe: &Recipe, house: &House, times: f64, words: &str) -> Option<(String, Vec<Edit>)> {
    let to = scale::serves(recipe, house)? * times;
    let scaled = scale::scale(recipe, house, Wanted::For(to))
        .ok()
        .filter(|scaled| to.fract() == 0.0 && !scaled.edits.is_empty())?;
    Some((format!("Scale to {} ({words})", print_decimal(to)), scaled.edits))
}
