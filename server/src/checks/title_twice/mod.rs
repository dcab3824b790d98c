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
    let here = titled.iter().filter(|titled| titled.elsewhere.is_none()).count();
    let elsewhere = titled.iter().find_map(|titled| titled.elsewhere);
    let place = match elsewhere {
        _ if here > 1 => "in this manuscript".to_owned(),
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
