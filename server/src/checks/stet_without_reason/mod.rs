//! `stet-without-reason`: a stet that does not say why.

use super::{Check, Finding, Severity, View};

/// The check.
pub const CHECK: Check =
    Check { code: "stet-without-reason", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for stet in view.recipe.stets.iter().filter(|stet| stet.reason.is_none()) {
        let code = view.recipe.at(stet.check);
        let message = format!(
            "This stet does not say why {code} may stand. Whoever edits after you needs the reason: stet {code}: …"
        );
        out.push(Finding::new(CHECK.code, CHECK.severity, stet.span, message));
    }
}
