//! `tamis explain`: what the checks look for.

mod page;

use std::io;

use anstyle::Style;

use super::Outcome;
use super::console::{Console, complain};
use super::wrap::{columns, row};
use crate::assist::wording::first_sentence;
use crate::book::{near::nearest, sheet};
use crate::checks::{CHECKS, Check, Severity};
use crate::workspace::book;

const CODE: Style = Style::new().bold();

/// Something that stands in brackets before a message, and its page.
struct Topic {
    code: &'static str,
    /// How badly its findings hurt at most; `None` for a check that is off.
    severity: Option<Severity>,
    docs: &'static str,
}

/// Every check, and the style sheet.
fn topics() -> Vec<Topic> {
    let check =
        |check: &Check| Topic { code: check.code, severity: check.on.then_some(check.severity), docs: check.docs };
    let sheet = Topic { code: book::CODE, severity: Some(Severity::Error), docs: sheet::DOCS };
    CHECKS.iter().map(check).chain([sheet]).collect()
}

/// Shows the page of one check, or a list of them all.
pub fn explain(code: Option<&str>, console: &mut Console) -> io::Result<Outcome> {
    let (width, topics) = (console.page_width(), topics());
    let Some(code) = code else {
        console.print(&list(&topics, width))?;
        return Ok(Outcome::Clean);
    };
    match topics.iter().find(|topic| topic.code == code) {
        Some(topic) => {
            console.print(&page::show(topic.docs, width))?;
            Ok(Outcome::Clean)
        }
        None => {
            complain(&unknown(code, &topics));
            Ok(Outcome::Failed)
        }
    }
}

/// A line for each of them.
fn list(topics: &[Topic], width: usize) -> String {
    let code = topics.iter().map(|topic| columns(topic.code)).max().unwrap_or_default();
    let severity = "warning".len();
    let what = width.saturating_sub(code + severity + 4).max(20);
    let line = |topic: &Topic| {
        let name = format!("{CODE}{}{CODE:#}", topic.code);
        let graded = topic.severity.map_or("off", Severity::name);
        row(0, &[(&name, code), (graded, severity), (&first_sentence(topic.docs), what)])
    };
    let lines: String = topics.iter().map(line).collect();
    format!("{lines}\n`tamis explain CODE` tells more about one of them.\n")
}

fn unknown(code: &str, topics: &[Topic]) -> String {
    match nearest(code, topics.iter().map(|topic| topic.code)) {
        Some(near) => format!("there is no check {code}; did you mean {near}?"),
        None => format!("there is no check {code}; `tamis explain` lists them all"),
    }
}
