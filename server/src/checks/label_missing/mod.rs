//! `label-missing`: a label that every recipe of the house must have is not there.

use super::{Check, Finding, Severity, View};
use crate::text::Span;

/// The check.
pub const CHECK: Check =
    Check { code: "label-missing", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let has = |name: &str| {
        let own = recipe.headers.iter().filter(|header| !header.value.is_empty());
        own.into_iter().any(|header| recipe.at(header.label).eq_ignore_ascii_case(name))
    };
    let place = recipe.title.unwrap_or(Span::at(0));
    for name in view.house.labels.iter().filter(|name| !has(name)) {
        let message = format!(
            "This recipe has no line “{name}:”, and the house asks for one in every recipe. Readers look for it in the same \
             place each time: put it under the title."
        );
        out.push(Finding::new(CHECK.code, CHECK.severity, place, message));
    }
}
