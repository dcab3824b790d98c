//! What a check finds, and how it can be mended.

pub use crate::book::Severity;
use crate::text::{Edit, Span};

/// How sure a check is that it is right about this one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Certainty {
    /// It follows from what is written.
    Sure,
    /// It follows from how recipes are written.
    Likely,
    /// It may well be otherwise.
    Guess,
}

/// One thing found in a recipe. Spans are in bytes of the recipe's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The check's code.
    pub code: &'static str,
    /// How badly it hurts.
    pub severity: Severity,
    /// How sure the check is.
    pub certainty: Certainty,
    /// What to mark.
    pub span: Span,
    /// What is wrong, why it matters, what to do: in kitchen words.
    pub message: String,
    /// Other places that belong to it, each with a few words.
    pub related: Vec<(Span, String)>,
    /// Ways to mend it, the likeliest first.
    pub fixes: Vec<Fix>,
}

/// How many places a finding points to beside its own.
const MOST_RELATED: usize = 20;

/// One way to mend a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fix {
    /// What it does, as an order: "Add a step that uses the sugar".
    pub title: String,
    /// Its edits; they do not overlap.
    pub edits: Vec<Edit>,
    /// Whether it can be applied without asking.
    pub safe: bool,
}

impl Finding {
    /// A finding of which the check is sure, without fixes.
    pub fn new(code: &'static str, severity: Severity, span: Span, message: impl Into<String>) -> Self {
        let (related, fixes) = (Vec::new(), Vec::new());
        Finding { code, severity, certainty: Certainty::Sure, span, message: message.into(), related, fixes }
    }

    /// The same, less sure.
    pub fn certainty(mut self, certainty: Certainty) -> Self {
        self.certainty = certainty;
        self
    }

    /// The same with another place that belongs to it; none behind as many as anyone would follow.
    pub fn related(mut self, span: Span, words: impl Into<String>) -> Self {
        if self.related.len() < MOST_RELATED {
            self.related.push((span, words.into()));
        }
        self
    }

    /// The same with one more fix; one without edits is left out.
    pub fn fix(mut self, fix: Fix) -> Self {
        if !fix.edits.is_empty() {
            self.fixes.push(fix);
        }
        self
    }

    /// The same with every span and edit moved `by` bytes on.
    pub fn shifted(mut self, by: usize) -> Self {
        self.span = self.span.shifted(by);
        for (span, _) in &mut self.related {
            *span = span.shifted(by);
        }
        for edit in self.fixes.iter_mut().flat_map(|fix| &mut fix.edits) {
            edit.span = edit.span.shifted(by);
        }
        self
    }
}

impl Fix {
    /// A fix to be chosen by a person.
    pub fn new(title: impl Into<String>, edits: Vec<Edit>) -> Self {
        Fix { title: title.into(), edits, safe: false }
    }

    /// A fix that changes nothing an author could want otherwise: applied by `--fix` and on save.
    pub fn safe(title: impl Into<String>, edits: Vec<Edit>) -> Self {
        Fix { title: title.into(), edits, safe: true }
    }
}
