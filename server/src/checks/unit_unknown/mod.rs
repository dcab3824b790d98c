//! `unit-unknown`: a word stands where a unit should, and is nearly one.

use super::{Check, Finding, Fix, Severity, View};
use crate::{
    larder::words::fold,
    measure::nearest_unit,
    recipe::{
        Recipe,
        language::lexicon::{Roles, roles},
        measures::{Measure, Place},
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "unit-unknown", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for measure in
        recipe.measures.iter().filter(|measure| matches!(measure.place, Place::Ingredient(_) | Place::Step(_)))
    {
        let Some((word, meant)) = misspelt(recipe, measure) else { continue };
        let written = recipe.at(word);
        let message = format!("“{written}” is no unit that a cook can measure with. Did you mean {meant}?");
        out.push(
            Finding::new(CHECK.code, CHECK.severity, word, message)
                .fix(Fix::new(format!("Write {meant}"), vec![Edit::replace(word, meant)])),
        );
    }
}

/// The word behind a bare number that is a slip away from a unit, with the unit; only where a name follows it.
fn misspelt(recipe: &Recipe, measure: &Measure) -> Option<(Span, &'static str)> {
    let [term] = measure.stated.terms.as_slice() else { return None };
    if term.unit.is_some() || !measure.restated.is_empty() || measure.span.end != term.number.end {
        return None;
    }
    let rest = recipe.text.get(measure.span.end..)?;
    let blanks = rest.len() - rest.trim_start_matches([' ', '\u{a0}']).len();
    let word: &str = rest.get(blanks..)?.split(|c: char| !c.is_alphabetic()).next().filter(|word| word.len() > 2)?;
    let start = measure.span.end + blanks;
    let span = Span::new(start, start + word.len());
    let follows = recipe.text.get(span.end..)?.starts_with(' ')
        && recipe.text.get(span.end + 1..)?.starts_with(|c: char| c.is_alphabetic() || c == '(');
    if blanks > 1 || !follows {
        return None;
    }
    let folded = fold(word);
    let known = roles(&folded) != Roles::default()
        || recipe.larder.scan(&[&*folded]).next().is_some()
        || recipe.larder.is_kind(&folded);
    if known { None } else { Some((span, nearest_unit(word)?)) }
}
