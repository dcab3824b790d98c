//! `range-reversed`: a range that runs from more to less.

use super::{
    Check, Finding, Fix, Severity, View,
    support::{around, numbers::faulty},
};
use crate::{
    measure::NumberFault,
    recipe::Recipe,
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "range-reversed", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for (term, fault) in faulty(view.recipe) {
        let NumberFault::Reversed { .. } = fault else { continue };
        if goes_down(view.recipe, term.number) {
            continue;
        }
        let written = view.recipe.at(term.number);
        let message = format!(
            "“{written}” runs from more to less. Turn it round, or correct the figure that is wrong: a cook would stop at the first."
        );
        let found = Finding::new(CHECK.code, CHECK.severity, term.number, message);
        out.push(match swapped(written) {
            Some(text) => found.fix(Fix::new(format!("Write {text}"), vec![Edit::replace(term.number, text)])),
            None => found,
        });
    }
}

/// `lower the oven from 425 to 375°F`: from here to there, and no range.
fn goes_down(recipe: &Recipe, number: Span) -> bool {
    const DOWN: &[&str] = &["from", "lower", "reduce", "decrease", "drop", "cool", "turn", "down", "ratio"];
    let by_word = recipe.at(number).chars().any(char::is_alphabetic);
    by_word && around::before(recipe, number.start, 6).iter().any(|word| DOWN.contains(&&**word))
}

/// The two ends changed round, what stands between them kept: `45 to 35` as `35 to 45`.
fn swapped(written: &str) -> Option<String> {
    let part = |c: char| c.is_ascii_digit() || c.is_numeric() || matches!(c, '.' | '/' | '⁄' | ',');
    let first_end = written.find(|c: char| !part(c) && !c.is_whitespace())?;
    let last_start =
        written.char_indices().rev().find(|(_, c)| !part(*c) && !c.is_whitespace()).map(|(at, c)| at + c.len_utf8())?;
    let (low, between, high) =
        (written.get(..first_end)?, written.get(first_end..last_start)?, written.get(last_start..)?);
    let blank = |text: &str| text.len() - text.trim_end().len();
    let (low, gap) = low.split_at_checked(low.len() - blank(low))?;
    let lead = high.len() - high.trim_start().len();
    let (lead, high) = high.split_at_checked(lead)?;
    (!low.is_empty() && !high.is_empty()).then(|| format!("{high}{gap}{between}{lead}{low}"))
}
