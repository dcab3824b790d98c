//! Units written in full: `2 T` as `2 tablespoons`.

use super::{Change, One};
use crate::{
    measure::{System, Unit, UnitKind},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated, Term},
    },
    text::{Edit, Span},
};

/// Hyphens between a number and its unit.
const HYPHENS: [char; 3] = ['-', '‐', '‑'];

/// Every customary unit that is not written in full. Metric symbols and degrees are never.
pub fn all(recipe: &Recipe) -> Vec<One> {
    let measures = recipe.measures.iter().filter(|measure| !matches!(measure.place, Place::Prose | Place::Test(_)));
    measures.flat_map(|measure| of_measure(recipe, measure)).collect()
}

fn of_measure(recipe: &Recipe, measure: &Measure) -> Vec<One> {
    let statements = measure.statements().chain(&measure.each);
    let terms = statements.flat_map(|stated| stated.terms.iter().map(move |term| (stated, term)));
    let mut out: Vec<One> = Vec::new();
    for one in terms.filter_map(|(stated, term)| one(recipe, measure, stated, term)) {
        // The sides of a pan share the unit behind the last.
        if !out.iter().any(|other| other.edits == one.edits) {
            out.push(one);
        }
    }
    out
}

fn one(recipe: &Recipe, measure: &Measure, stated: &Stated, term: &Term) -> Option<One> {
    let amount = term.amount()?;
    let unit = amount.unit.filter(|unit| is_spelt(*unit))?;
    let span = term.unit?;
    let text = recipe.at(span);
    let written = text.trim_start_matches(HYPHENS);
    if written.eq_ignore_ascii_case(unit.name()) || written.eq_ignore_ascii_case(unit.plural()) {
        return None;
    }
    let start = span.end - written.len();
    let before = recipe.text.get(..start)?;
    let hyphen = before.ends_with(HYPHENS);
    let many = stated.sides || amount.number.most.is_none_or(|most| most > 1.0);
    let word = if many && !hyphen { unit.plural() } else { unit.name() };
    let gap = if hyphen || before.ends_with(char::is_whitespace) { "" } else { " " };
    let edit = Edit::replace(Span::new(start, end(recipe, stated, span.end)), format!("{gap}{word}"));
    let place = measure.span;
    Some(One { change: Change::SpellOut, place, text: written.to_owned(), edits: vec![edit], only_here: false })
}

/// What a US book writes in full: cups, spoons, ounces, inches.
fn is_spelt(unit: Unit) -> bool {
    let kind = matches!(unit.kind(), UnitKind::Volume | UnitKind::Weight | UnitKind::Length);
    kind && unit.system() == Some(System::Customary)
}

/// Behind the full stop of an abbreviation, where it ends no sentence.
fn end(recipe: &Recipe, stated: &Stated, end: usize) -> usize {
    let rest = recipe.text.get(end..).unwrap_or_default();
    let Some(behind) = rest.strip_prefix('.') else { return end };
    let goes_on =
        behind.trim_start().starts_with(|c: char| c.is_lowercase() || c.is_ascii_digit() || "([/".contains(c));
    if goes_on || stated.span.end > end + 1 { end + 1 } else { end }
}
