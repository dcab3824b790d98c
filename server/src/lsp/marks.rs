//! The diagnostics of a document, recipe by recipe. Those of a recipe are put into the protocol's words once, counted from its first
//! line, and written down once for as long as that line stays: an edit costs the recipe it touches, and two states of a document are
//! told apart without spelling them out.

use std::sync::{Arc, Mutex, PoisonError};

use rustc_hash::FxHashMap;
use tower_lsp::lsp_types::Diagnostic;

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::{Finding, Opened};

/// What has been put into words of one document: the diagnostics of each recipe by the address of its findings, which are kept so
/// that no others can have it.
#[derive(Debug, Default)]
pub struct Worded {
    by_findings: FxHashMap<usize, (Arc<[Finding]>, Arc<InWords>)>,
}

/// The findings of a recipe, or of a whole style sheet, in the protocol's words.
#[derive(Debug)]
struct InWords {
    /// With lines counted from the first of the stretch.
    diagnostics: Vec<Diagnostic>,
    /// The same as JSON, without the brackets around them, for a stretch that begins in this line.
    written: Mutex<(u32, String)>,
}

/// All diagnostics of a document.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Marks {
    stretches: Vec<Stretch>,
}

/// The diagnostics of one recipe, or of a whole style sheet.
#[derive(Debug, Clone)]
struct Stretch {
    first_line: u32,
    words: Arc<InWords>,
}

impl PartialEq for Stretch {
    fn eq(&self, other: &Self) -> bool {
        self.first_line == other.first_line
            && (Arc::ptr_eq(&self.words, &other.words) || self.words.diagnostics == other.words.diagnostics)
    }
}

impl Marks {
    /// What is wrong with a document.
    pub fn of(document: &Opened, editor: &Editor) -> Marks {
        let Some(manuscript) = document.manuscript() else {
            let words = InWords::new(document, editor, (0, 0), &document.findings());
            return Marks { stretches: vec![Stretch { first_line: 0, words: Arc::new(words) }] };
        };
        let mut before = std::mem::take(&mut document.worded().by_findings);
        let mut now = FxHashMap::with_capacity_and_hasher(before.len(), Default::default());
        let mut stretches = Vec::with_capacity(before.len());
        for (line, start, findings) in manuscript.findings_by_line().filter(|(.., findings)| !findings.is_empty()) {
            let first_line = u32::try_from(line).unwrap_or(u32::MAX);
            let address = Arc::as_ptr(findings).addr();
            let known = before.remove(&address);
            let fresh = || Arc::new(InWords::new(document, editor, (start, first_line), findings));
            let fresh = || (Arc::clone(findings), fresh());
            let (_, words) = now.entry(address).or_insert_with(|| known.unwrap_or_else(fresh));
            stretches.push(Stretch { first_line, words: Arc::clone(words) });
        }
        document.worded().by_findings = now;
        Marks { stretches }
    }

    /// Whether nothing is wrong.
    pub fn is_empty(&self) -> bool {
        self.stretches.iter().all(|stretch| stretch.words.diagnostics.is_empty())
    }

    /// Puts the diagnostics behind what is written already, as a list in JSON.
    pub fn write(&self, json: &mut String) {
        // With some room for those that are yet to be written.
        json.reserve(4096 + self.stretches.iter().map(|stretch| stretch.words.length() + 1).sum::<usize>());
        json.push('[');
        let stretches = self.stretches.iter().filter(|stretch| !stretch.words.diagnostics.is_empty());
        for (place, stretch) in stretches.enumerate() {
            if place > 0 {
                json.push(',');
            }
            stretch.words.write(stretch.first_line, json);
        }
        json.push(']');
    }
}

impl InWords {
    /// The findings of the recipe that starts at an offset, in a line.
    fn new(document: &Opened, editor: &Editor, (start, first_line): (usize, u32), findings: &[Finding]) -> Self {
        let converter = Converter::new(document, editor);
        let one = |finding: &Finding| {
            let diagnostic = converter.diagnostic(&finding.clone().shifted(start));
            on_other_lines(diagnostic, |line| line.saturating_sub(first_line))
        };
        InWords { diagnostics: findings.iter().map(one).collect(), written: Mutex::default() }
    }

    /// The diagnostics of a stretch that begins in this line.
    fn placed(&self, first_line: u32) -> impl Iterator<Item = Diagnostic> {
        let moved = move |one: &Diagnostic| on_other_lines(one.clone(), |line| line.saturating_add(first_line));
        self.diagnostics.iter().map(moved)
    }

    /// How long the JSON is in bytes; 0 for what has not been written yet.
    fn length(&self) -> usize {
        self.written.lock().unwrap_or_else(PoisonError::into_inner).1.len()
    }

    /// Adds them to a list in JSON. They are written anew only where the line is another than the last time.
    fn write(&self, first_line: u32, json: &mut String) {
        let mut written = self.written.lock().unwrap_or_else(PoisonError::into_inner);
        if written.0 != first_line || written.1.is_empty() {
            // A diagnostic is plain data, which can always be written.
            let all: Vec<String> = self.placed(first_line).flat_map(|one| serde_json::to_string(&one)).collect();
            *written = (first_line, all.join(","));
        }
        json.push_str(&written.1);
    }
}

fn on_other_lines(mut diagnostic: Diagnostic, line: impl Fn(u32) -> u32) -> Diagnostic {
    let related = diagnostic.related_information.iter_mut().flatten().map(|related| &mut related.location.range);
    for range in std::iter::once(&mut diagnostic.range).chain(related) {
        range.start.line = line(range.start.line);
        range.end.line = line(range.end.line);
    }
    diagnostic
}
