//! `title-twice`: two recipes of the book have one title.

use super::{Check, Finding, Severity, View};
use crate::book::title_key;

/// The check.
pub const CHECK: Check =
    Check { code: "title-twice", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let Some(title) = recipe.title else { return };
    let key = title_key(recipe.name());
    if key.is_empty() {
        return;
    }
    let titled = view.titles.titled(&key);
    // A manuscript of which nobody knows what file it is may be the very one that has the title.
    let elsewhere = titled.iter().find_map(|titled| titled.elsewhere).filter(|_| view.titles.file.is_some());
    let place = match elsewhere {
        _ if view.titles.above => "above".to_owned(),
        Some(entry) => format!("in {}, line {}", entry.file, entry.line + 1),
        None => return,
    };
    let message = format!(
        "Another recipe {place} is called “{}” too. Nobody can tell which of them a reference or the index means: tell \
         them apart by their titles.",
        recipe.name()
    );
    out.push(Finding::new(CHECK.code, CHECK.severity, title, message));
}
