//! `tamis explain`: what the checks look for.

mod page;

use std::io;

use anstyle::Style;

use super::Outcome;
use super::console::{Console, complain};
use super::wrap::{columns, row};
use crate::checks::{self, CHECKS, Check};

const CODE: Style = Style::new().bold();

/// Names that are less alike than this are not what was meant (Jaro–Winkler, 1 for equal; found by trying).
const ALIKE: f64 = 0.8;

/// Shows the page of one check, or a list of them all.
pub fn explain(code: Option<&str>, console: &mut Console) -> io::Result<Outcome> {
    let width = console.page_width();
    let Some(code) = code else {
        console.print(&list(CHECKS, width))?;
        return Ok(Outcome::Clean);
    };
    match checks::check(code) {
        Some(check) => {
            console.print(&page::show(check.docs, width))?;
            Ok(Outcome::Clean)
        }
        None => {
            complain(&unknown(code, CHECKS));
            Ok(Outcome::Failed)
        }
    }
}

/// A line for each check.
fn list(checks: &[Check], width: usize) -> String {
    let code = checks.iter().map(|check| columns(check.code)).max().unwrap_or_default();
    let severity = "warning".len();
    let graded = |check: &Check| if check.on { check.severity.name() } else { "off" };
    let what = width.saturating_sub(code + severity + 4).max(20);
    let line = |check: &Check| {
        let name = format!("{CODE}{}{CODE:#}", check.code);
        row(0, &[(&name, code), (graded(check), severity), (&page::summary(check.docs), what)])
    };
    let lines: String = checks.iter().map(line).collect();
    format!("{lines}\n`tamis explain CODE` tells more about one of them.\n")
}

fn unknown(code: &str, checks: &[Check]) -> String {
    let alike = |check: &&Check| (strsim::jaro_winkler(code, check.code) * 1000.0) as u32;
    let nearest = checks.iter().max_by_key(alike).filter(|check| strsim::jaro_winkler(code, check.code) >= ALIKE);
    match nearest {
        Some(check) => format!("there is no check {code}; did you mean {}?", check.code),
        None => format!("there is no check {code}; `tamis explain` lists them all"),
    }
}
