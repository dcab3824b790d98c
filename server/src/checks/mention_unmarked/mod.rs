//! `mention-unmarked`: a plain mention that brackets would make exact. Off unless the house asks for it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{marking, words},
};
use crate::text::Edit;

/// The check.
pub const CHECK: Check =
    Check { code: "mention-unmarked", severity: Severity::Hint, on: false, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let markable = marking::markable(recipe);
    let all: Vec<Edit> = markable.iter().flat_map(|(_, span)| marking::bracketed(*span)).collect();
    for (mention, span) in &markable {
        let name = mention.targets.first().map(|target| words::target(recipe, *target)).unwrap_or_default();
        let message = format!(
            "This means the {name}. In brackets it would mean that and nothing else, whatever the list becomes."
        );
        let found = Finding::new(CHECK.code, CHECK.severity, *span, message).certainty(Certainty::Likely);
        let one = Fix::new("Mark it", marking::bracketed(*span));
        out.push(found.fix(one).fix(Fix::new("Mark every mention in the recipe", all.clone())));
    }
}
