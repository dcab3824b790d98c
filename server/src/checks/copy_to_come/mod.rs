//! `copy-to-come`: TK still stands where text or a figure is to come.

use super::{Check, Finding, Severity, View};

/// The check.
pub const CHECK: Check =
    Check { code: "copy-to-come", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for query in view.recipe.queries.iter().filter(|query| is_to_come(view.recipe.at(**query))) {
        let message = "Something is still to come here (TK). A cook finds nothing in its place.";
        out.push(Finding::new(CHECK.code, CHECK.severity, *query, message));
    }
}

/// Whether a query is the mark for copy to come.
pub fn is_to_come(query: &str) -> bool {
    query.trim() == "TK"
}
