//! `amount-zero`: none of something that the recipe asks for.

use super::{Check, Finding, Severity, View, support::numbers::faulty};
use crate::measure::{NumberFault, Unit, UnitKind};

/// The check.
pub const CHECK: Check =
    Check { code: "amount-zero", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for (term, fault) in faulty(view.recipe) {
        let heat = term
            .unit
            .and_then(|unit| Unit::find(view.recipe.at(unit).trim_start_matches('-')))
            .is_some_and(|unit| unit.kind() == UnitKind::Temperature);
        if *fault != NumberFault::Zero || heat {
            continue;
        }
        let message =
            format!("“{}” asks for none at all. Fill in the amount, or take the line out.", view.recipe.at(term.span));
        out.push(Finding::new(CHECK.code, CHECK.severity, term.span, message));
    }
}
