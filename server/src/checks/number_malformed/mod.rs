//! `number-malformed`: a number that nobody can measure out.

use super::{
    Check, Finding, Fix, Severity, View,
    support::{numbers::faulty, setting},
};
use crate::{
    measure::{NumberFault, print_number},
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "number-malformed", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for (term, fault) in faulty(view.recipe) {
        let written = view.recipe.at(term.number);
        let (message, meant) = match fault {
            NumberFault::Malformed => {
                (format!("“{written}” is not a number a cook can measure out. Write it as 1 1/2, 1.5 or 1½."), None)
            }
            NumberFault::ZeroDenominator => {
                (format!("“{written}” divides by nothing: a digit is wrong or missing."), None)
            }
            NumberFault::RunTogether { meant, .. } => {
                let meant = print_number(*meant, setting::style(view).fractions);
                (
                    format!("“{written}” has lost a space: it reads as more than five, and {meant} is likely meant."),
                    Some(meant),
                )
            }
            NumberFault::Reversed { .. } | NumberFault::Zero => continue,
        };
        let found = Finding::new(CHECK.code, CHECK.severity, term.number, message);
        out.push(match meant {
            Some(meant) => found.fix(Fix::new(format!("Write {meant}"), vec![Edit::replace(term.number, meant)])),
            None => found,
        });
    }
}
