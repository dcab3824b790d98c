//! `query-open`: a question of the author or the editor that nobody has answered.

use super::{Check, Finding, Severity, View, copy_to_come::is_to_come};

/// The check.
pub const CHECK: Check =
    Check { code: "query-open", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for query in view.recipe.queries.iter().filter(|query| !is_to_come(view.recipe.at(**query))) {
        let asked = view.recipe.at(*query).trim_start_matches(['[', '?', ' ']).trim_end_matches([']', ' ']);
        let message = if asked.is_empty() {
            "An open query without a question.".to_owned()
        } else {
            format!("Still open: {asked}")
        };
        out.push(Finding::new(CHECK.code, CHECK.severity, *query, message));
    }
}
