//! How often each check found something, and how much of it can be mended without a decision.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::checks::Severity;
use crate::cli::arguments::Form;
use crate::cli::report::Checked;

/// Counts by check.
#[derive(Debug, Default)]
pub struct Statistics {
    by_code: BTreeMap<&'static str, Count>,
}

/// How often one check found something.
#[derive(Debug)]
struct Count {
    /// The worst that it came to.
    severity: Severity,
    findings: usize,
    /// Those of them that `--fix` would mend.
    fixable: usize,
}

#[derive(Serialize)]
struct CountJson {
    code: &'static str,
    severity: &'static str,
    count: usize,
    fixable: usize,
}

impl Statistics {
    /// Those of one file.
    pub fn of(checked: &Checked) -> Self {
        let mut statistics = Statistics::default();
        for (_, finding) in &checked.findings {
            let fixable = usize::from(finding.fixes.iter().any(|fix| fix.safe));
            statistics.count(finding.code, Count { severity: finding.severity, findings: 1, fixable });
        }
        statistics
    }

    /// Adds another file's.
    pub fn add(&mut self, other: Statistics) {
        other.by_code.into_iter().for_each(|(code, count)| self.count(code, count));
    }

    fn count(&mut self, code: &'static str, more: Count) {
        let known = self.by_code.entry(code).or_insert(Count { severity: more.severity, findings: 0, fixable: 0 });
        known.severity = known.severity.min(more.severity);
        known.findings += more.findings;
        known.fixable += more.fixable;
    }

    /// The most frequent first: a table for the eye, an array for another program.
    pub fn show(&self, form: Form) -> String {
        let mut counts: Vec<(&str, &Count)> = self.by_code.iter().map(|(code, count)| (*code, count)).collect();
        counts.sort_by_key(|(_, count)| std::cmp::Reverse(count.findings));
        match form {
            Form::Json => self.json(),
            _ => counts.iter().map(|(code, count)| line(code, count)).collect(),
        }
    }

    fn json(&self) -> String {
        let one = |(&code, count): (&&'static str, &Count)| CountJson {
            code,
            severity: count.severity.name(),
            count: count.findings,
            fixable: count.fixable,
        };
        let all: Vec<CountJson> = self.by_code.iter().map(one).collect();
        // Nothing in it can fail: its keys are strings and its numbers whole.
        format!("{}\n", serde_json::to_string_pretty(&all).unwrap_or_default())
    }
}

fn line(code: &str, count: &Count) -> String {
    let mended = if count.fixable > 0 { format!("  {} mended by --fix", count.fixable) } else { String::new() };
    format!("{:>6}  {:<7}  {code}{mended}\n", count.findings, count.severity.name())
}
