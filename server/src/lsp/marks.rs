//! The diagnostics of a document, recipe by recipe. Those of a recipe are put into the protocol's words once, counted from its first
//! line, so that an edit costs the recipe it touches and two states of a document are told apart without spelling them out.

use std::collections::HashMap;
use std::sync::Arc;

use tower_lsp::lsp_types::Diagnostic;

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::{Finding, Opened};

/// What has been put into words of one document: the diagnostics of each recipe by the address of its findings, which are kept so
/// that no others can have it.
#[derive(Debug, Default)]
pub struct Worded {
    by_findings: HashMap<usize, InWords>,
}

/// The findings of a recipe, and the same in the protocol's words.
type InWords = (Arc<[Finding]>, Arc<[Diagnostic]>);

/// All diagnostics of a document.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Marks {
    stretches: Vec<Stretch>,
}

/// The diagnostics of one recipe, or of a whole style sheet.
#[derive(Debug, Clone)]
struct Stretch {
    first_line: u32,
    /// With lines counted from the first of the stretch.
    diagnostics: Arc<[Diagnostic]>,
}

impl PartialEq for Stretch {
    fn eq(&self, other: &Self) -> bool {
        self.first_line == other.first_line
            && (Arc::ptr_eq(&self.diagnostics, &other.diagnostics) || self.diagnostics == other.diagnostics)
    }
}

impl Marks {
    /// What is wrong with a document.
    pub fn of(document: &Opened, editor: &Editor) -> Marks {
        let Some(manuscript) = document.manuscript() else {
            let diagnostics = worded(document, editor, 0, 0, &document.findings());
            return Marks { stretches: vec![Stretch { first_line: 0, diagnostics }] };
        };
        let mut before = std::mem::take(&mut document.worded().by_findings);
        let mut now = HashMap::with_capacity(before.len());
        let mut stretches = Vec::with_capacity(before.len());
        for (start, _, findings) in manuscript.findings_by_recipe().filter(|(.., findings)| !findings.is_empty()) {
            let first_line = document.text().position(start, editor.encoding).line;
            let address = Arc::as_ptr(findings).addr();
            let known = before.remove(&address);
            let (_, diagnostics) = now.entry(address).or_insert_with(|| {
                known.unwrap_or_else(|| (Arc::clone(findings), worded(document, editor, start, first_line, findings)))
            });
            stretches.push(Stretch { first_line, diagnostics: Arc::clone(diagnostics) });
        }
        document.worded().by_findings = now;
        Marks { stretches }
    }

    /// Whether nothing is wrong.
    pub fn is_empty(&self) -> bool {
        self.stretches.iter().all(|stretch| stretch.diagnostics.is_empty())
    }

    /// The diagnostics one by one, in the order of the text.
    pub fn diagnostics(&self) -> Vec<Diagnostic> {
        let of = |stretch: &Stretch| {
            let first_line = stretch.first_line;
            let placed = move |one: &Diagnostic| on_other_lines(one.clone(), |line| line.saturating_add(first_line));
            stretch.diagnostics.iter().map(placed).collect::<Vec<_>>()
        };
        self.stretches.iter().flat_map(of).collect()
    }
}

/// The findings of the recipe that starts at the offset `start`, on `first_line`.
fn worded(
    document: &Opened,
    editor: &Editor,
    start: usize,
    first_line: u32,
    findings: &[Finding],
) -> Arc<[Diagnostic]> {
    let converter = Converter::new(document, editor);
    let one = |finding: &Finding| {
        let diagnostic = converter.diagnostic(&finding.clone().shifted(start));
        on_other_lines(diagnostic, |line| line.saturating_sub(first_line))
    };
    findings.iter().map(one).collect()
}

fn on_other_lines(mut diagnostic: Diagnostic, line: impl Fn(u32) -> u32) -> Diagnostic {
    let related = diagnostic.related_information.iter_mut().flatten().map(|related| &mut related.location.range);
    for range in std::iter::once(&mut diagnostic.range).chain(related) {
        range.start.line = line(range.start.line);
        range.end.line = line(range.end.line);
    }
    diagnostic
}
