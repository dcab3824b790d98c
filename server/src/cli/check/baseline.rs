//! Findings that a baseline knows, which are passed over; and `tamis check --write-baseline`, which writes one down.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::{fmt, io};

use super::super::arguments::Checking;
use super::super::console::Console;
use super::super::frame::Frame;
use super::super::report::Checked;
use super::super::{Outcome, each_file};
use super::checked;
use crate::workspace::baseline::{Baseline, Baselines, Counts, place};
use crate::workspace::recipes::Books;
use crate::workspace::trouble::{Fault, Trouble};
use crate::workspace::walk::{Source, find};

/// What baselines had to say of what was found.
#[derive(Debug, Default)]
pub struct Passed {
    /// Findings that were passed over, by the path of the baseline.
    over: BTreeMap<PathBuf, usize>,
    /// Findings that it knows and that are no longer there.
    gone: BTreeMap<PathBuf, usize>,
}

impl Passed {
    /// Takes out of what was found in `file` what `baseline` knows. Of a check that finds more than it knows nothing is taken out: which
    /// of them are new, nobody can say.
    pub fn over(baseline: &Baseline, file: &Path, checked: &mut Checked) -> Passed {
        let Some(known) = baseline.counts(file) else { return Passed::default() };
        let found = counts(checked);
        let count = |code: &str| found.get(code).copied().unwrap_or_default();
        let old = |code: &str| known.get(code).is_some_and(|known| count(code) <= *known);
        let before = checked.findings.len();
        checked.findings.retain(|(_, finding)| !old(finding.code));
        let gone: usize = known.iter().map(|(code, known)| known.saturating_sub(count(code))).sum();
        let of_it = |count: usize| BTreeMap::from([(baseline.path().to_path_buf(), count)]);
        Passed { over: of_it(before - checked.findings.len()), gone: of_it(gone) }
    }

    /// Adds what was said of another file.
    pub fn add(&mut self, other: Passed) {
        for (all, own) in [(&mut self.over, other.over), (&mut self.gone, other.gone)] {
            own.into_iter().for_each(|(path, count)| *all.entry(path).or_default() += count);
        }
    }

    /// The baselines that know of findings which are no longer there, or of files that are gone.
    pub fn gone(&self, baselines: &Baselines) -> Vec<Trouble> {
        let gone = |baseline: &Baseline| {
            let mut left = baseline.clone();
            left.forget_gone();
            let files = baseline.len() - left.len();
            let count = files + self.gone.get(baseline.path()).copied().unwrap_or_default();
            (count > 0).then(|| Trouble::of(baseline.path().display(), Fault::Outlived(count)))
        };
        baselines.iter().filter_map(gone).collect()
    }
}

impl fmt::Display for Passed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (path, count) in self.over.iter().filter(|(_, count)| **count > 0) {
            writeln!(f, "Passed over {} that {} knows.", counted(*count), path.display())?;
        }
        Ok(())
    }
}

fn counted(findings: usize) -> String {
    format!("{findings} finding{}", if findings == 1 { "" } else { "s" })
}

/// How many findings there are of each check.
fn counts(checked: &Checked) -> Counts {
    let mut counts = Counts::new();
    checked.findings.iter().for_each(|(_, finding)| *counts.entry(finding.code.to_owned()).or_default() += 1);
    counts
}

/// Writes down what is found in every manuscript that `what` names: in `file`, or in the baseline of its book. What is known of other
/// files of the book stays.
pub fn write_baseline(what: &Checking, file: Option<&Path>, console: &mut Console) -> io::Result<Outcome> {
    let found = find(&what.paths);
    let books = Books::of_all(&found.manuscripts);
    let show = |source: &Source, text: &str| (String::new(), (source.clone(), counts(&checked(source, text, &books))));
    let mut all = Vec::new();
    let mut outcome =
        each_file(&found.manuscripts, &found.troubles, Frame::default(), console, show, |one| all.push(one))?;
    let mut baselines: BTreeMap<PathBuf, Baseline> = BTreeMap::new();
    for (source, counts) in all {
        let kept = match &source {
            Source::StandardInput => Err(Fault::InNoFile),
            Source::File(path) => {
                file.map(Path::to_path_buf).or_else(|| place(&books.sheets, path)).ok_or(Fault::NoBook)
            }
        };
        match kept {
            Ok(path) => baselines.entry(path).or_insert_with_key(|path| before(path)).set(source.path(), counts),
            Err(fault) => {
                console.complain(&Trouble::of(&source, fault))?;
                outcome = Outcome::Failed;
            }
        }
    }
    for baseline in baselines.values_mut() {
        baseline.forget_gone();
        match baseline.write() {
            Ok(()) => {
                let findings = counted(baseline.len());
                console.print(&format!("{} knows {findings} now.\n", baseline.path().display()))?;
            }
            Err(trouble) => {
                console.complain(&trouble)?;
                outcome = Outcome::Failed;
            }
        }
    }
    Ok(outcome)
}

/// The baseline as it was; one that cannot be read is as good as none, as it is written anew.
fn before(path: &Path) -> Baseline {
    Baseline::read(path.to_path_buf()).unwrap_or_else(|_| Baseline::new(path.to_path_buf()))
}
