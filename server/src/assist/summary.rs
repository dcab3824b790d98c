//! A recipe in one line: for how many, how long, what is found in it, when it was last tried.

use super::wording::{header, one_line};
use crate::{
    checks::{Finding, Severity},
    recipe::{
        Recipe, SectionKind,
        trials::{is_outdated, latest},
    },
};

/// The line; what the recipe does not say is left out.
pub fn summary(recipe: &Recipe, findings: &[Finding]) -> String {
    let serves = header(recipe, "Serves").map(|value| format!("serves {value}"));
    let serves = serves.or_else(|| header(recipe, "Yield").map(str::to_owned));
    let time = header(recipe, "Time").map(str::to_owned);
    let said = [serves, time, Some(found(findings)), tested(recipe)];
    said.into_iter().flatten().map(|words| one_line(&words)).collect::<Vec<_>>().join(" · ")
}

fn found(findings: &[Finding]) -> String {
    let counted = [Severity::Error, Severity::Warning, Severity::Info, Severity::Hint].map(|severity| {
        let count = findings.iter().filter(|finding| finding.severity == severity).count();
        let plural = if count == 1 { "" } else { "s" };
        (count > 0).then(|| format!("{count} {}{plural}", severity.name()))
    });
    let counted: Vec<String> = counted.into_iter().flatten().collect();
    if counted.is_empty() { "nothing found".to_owned() } else { counted.join(", ") }
}

/// The latest day of its tests, and whether it has changed since; that there is none, where it has a section for them.
fn tested(recipe: &Recipe) -> Option<String> {
    let Some(latest) = latest(recipe) else {
        return recipe.has(SectionKind::Tests).then(|| "not tested".to_owned());
    };
    let changed = if is_outdated(recipe) { ", changed since" } else { "" };
    Some(format!("tested {}{changed}", recipe.at(latest.day)))
}
