//! The society's cookbook: nothing is found in what is sound, and in what is not, exactly what a whole desk read over.

use std::{
    collections::BTreeSet,
    fs,
    path::{Path, PathBuf},
    sync::LazyLock,
};

use tamis::{
    checks,
    text::LineIndex,
    workspace::{Manuscript, recipes::Books, walk::Source},
};
use tamis_tests::missing_step::{self, Case};

/// Checks that the manuscripts already wait for and that are not written yet. A check that arrives leaves this list.
const LATER: &[&str] = &[
    "allergens-undeclared",
    "diet-contradicted",
    "home-canning",
    "kidney-beans",
    "marinade-reused",
    "oil-infusion",
    "raw-egg",
    "safe-temperature",
];

fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples")
}

fn manuscripts(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("the samples can be read").map(|entry| entry.expect("an entry").path());
    let mut paths: Vec<PathBuf> = entries.filter(|path| path.extension().is_some_and(|ext| ext == "tamis")).collect();
    paths.sort();
    paths
}

/// The books that the samples stand in: that of the society, and that of the mistakes.
static BOOKS: LazyLock<Books> = LazyLock::new(|| {
    let all =
        [samples(), samples().join("mistakes")].into_iter().flat_map(|folder| manuscripts(&folder)).map(Source::File);
    Books::of_all(&all.collect::<Vec<_>>())
});

/// Line (from 1), code and message of everything found.
fn found(path: &Path) -> Vec<(usize, &'static str, String)> {
    let text = fs::read_to_string(path).expect("a sample is text");
    let lines = LineIndex::new(&text);
    let findings = Manuscript::in_book(&text, BOOKS.of(path)).findings();
    findings.into_iter().map(|finding| (lines.line_of(finding.span.start) + 1, finding.code, finding.message)).collect()
}

#[test]
fn sound_manuscripts_are_clean() {
    let paths = manuscripts(&samples());
    assert!(paths.len() >= 12, "{} sound manuscripts", paths.len());
    for path in paths {
        assert_eq!(found(&path), [], "{}", path.display());
    }
}

#[test]
fn mistakes_are_found_and_nothing_else() {
    let table = fs::read_to_string(samples().join("mistakes/EXPECTED.tsv")).expect("the table of mistakes");
    let rows: Vec<Vec<&str>> = table.lines().skip(1).map(|line| line.split('\t').collect()).collect();
    let paths = manuscripts(&samples().join("mistakes"));
    assert!(paths.len() >= 12 && rows.len() >= paths.len(), "{} manuscripts, {} mistakes", paths.len(), rows.len());
    let mut wanted: BTreeSet<(String, usize, String)> = BTreeSet::new();
    let mut later: BTreeSet<&str> = BTreeSet::new();
    for row in &rows {
        let [path, line, code, _] = row.as_slice() else { panic!("a row of {} cells: {row:?}", row.len()) };
        if checks::check(code).is_some() {
            wanted.insert((path.to_string(), line.parse().expect("a line number"), code.to_string()));
        } else {
            later.insert(code);
        }
    }
    let mut seen: BTreeSet<(String, usize, String)> = BTreeSet::new();
    for path in paths {
        let name = path.file_name().and_then(|name| name.to_str()).expect("a plain name").to_owned();
        seen.extend(found(&path).into_iter().map(|(line, code, _)| (name.clone(), line, code.to_owned())));
    }
    let missed: Vec<_> = wanted.difference(&seen).collect();
    let extra: Vec<_> = seen.difference(&wanted).collect();
    assert!(missed.is_empty() && extra.is_empty(), "missed {missed:#?}\nand found besides {extra:#?}");
    assert_eq!(later.into_iter().collect::<Vec<_>>(), LATER, "checks that are not written yet");
}

/// An ingredient whose only use is taken out of a sound recipe: the first place that is offered for it is the one that it was
/// taken from in eight of ten, and some place that is offered is in nineteen of twenty.
#[test]
fn a_lost_use_is_put_back_where_it_was() {
    let read = |path: &PathBuf| fs::read_to_string(path).expect("a sample is text");
    let cases: Vec<Case> = manuscripts(&samples()).iter().flat_map(|path| missing_step::cases(&read(path))).collect();
    let first = cases.iter().filter(|case| case.first()).count();
    let offered = cases.iter().filter(|case| case.any()).count();
    assert!(cases.len() >= 100, "only {} uses to take out", cases.len());
    assert!(first * 10 >= cases.len() * 8, "{first} of {} at first", cases.len());
    assert!(offered * 20 >= cases.len() * 19, "{offered} of {} among those offered", cases.len());
    let most = cases.iter().map(|case| case.offered.len()).max();
    assert!(most <= Some(8), "{most:?} places are more than an author reads through");
}
