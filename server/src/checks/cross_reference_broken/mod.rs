//! `cross-reference-broken`: no recipe of the book has the title that is referred to.

use super::{Check, Finding, Fix, Severity, View};
use crate::{book::title_key, text::Edit};

/// The check.
pub const CHECK: Check =
    Check { code: "cross-reference-broken", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    // As long as not all of a book is known, any title may be in it.
    if !view.titles.is_whole() {
        return;
    }
    for reference in &view.recipe.references {
        let written = view.recipe.at(reference.title);
        let key = title_key(written);
        if key.is_empty() || !view.titles.titled(&key).is_empty() {
            continue;
        }
        let near = view.titles.nearest(written);
        let hint = match &near {
            Some(title) => format!("Did you mean “{title}”?"),
            None => "Write that recipe, or name one that there is.".to_owned(),
        };
        let message = format!(
            "No recipe of this book is called “{written}”, so a reader is sent to a page that is not there. {hint}"
        );
        let found = Finding::new(CHECK.code, CHECK.severity, reference.title, message);
        out.push(match near {
            Some(title) => {
                found.fix(Fix::new(format!("Refer to {title}"), vec![Edit::replace(reference.title, title)]))
            }
            None => found,
        });
    }
}
