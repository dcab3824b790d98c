//! `stet-unused`: a stet that lets nothing stand.

use super::{CHECKS, Check, Finding, Fix, Severity, View};
use crate::{
    larder::spelling::slips,
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "stet-unused", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (stet, used) in recipe.stets.iter().zip(view.stets_used) {
        let code = recipe.at(stet.check);
        let known = CHECKS.iter().any(|check| check.code == code);
        if *used {
            continue;
        }
        let message = match (known, CHECKS.iter().find(|check| slips(check.code, code, 3).is_some())) {
            (true, _) => {
                format!("Nothing here is found by {code} any more: this stet can go, or it would hide a later mistake.")
            }
            (false, Some(near)) => format!("There is no check {code}. Did you mean {}?", near.code),
            (false, None) => format!("There is no check {code}, so this stet lets nothing stand."),
        };
        let found = Finding::new(CHECK.code, CHECK.severity, stet.span, message);
        out.push(found.fix(Fix::new("Take the stet out", vec![Edit::delete(line(&recipe.text, stet.span))])));
    }
}

/// The whole line of a stet, with its line break.
fn line(text: &str, span: Span) -> Span {
    let rest = text.get(span.end..).unwrap_or_default();
    let end = rest.find(['\n', '\r']).map_or(text.len(), |at| {
        let crlf = rest.get(at..).is_some_and(|rest| rest.starts_with("\r\n"));
        span.end + at + if crlf { 2 } else { 1 }
    });
    Span::new(span.start, end)
}
