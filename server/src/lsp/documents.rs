//! An open document: its text and what is known of it. The one place where the face towards editors meets the layers
//! beneath it.

use tower_lsp::lsp_types::Url;

use crate::text::{Document, Edit, Span};

/// A document that is open in the editor.
pub struct Opened {
    uri: Url,
    version: i32,
    text: Document,
}

impl Opened {
    /// The document as the client opened it.
    pub fn new(uri: Url, version: i32, text: &str) -> Self {
        Opened { uri, version, text: Document::new(text) }
    }

    /// Where it is, or will be, saved; `untitled:` if that is not known yet.
    pub fn uri(&self) -> &Url {
        &self.uri
    }

    /// The version of the text, as the client counts it.
    pub fn version(&self) -> i32 {
        self.version
    }

    /// The text.
    pub fn text(&self) -> &Document {
        &self.text
    }

    /// Edits the text.
    pub fn apply(&mut self, edit: &Edit) {
        self.text.apply(edit);
    }

    /// Says that all edits up to `version` have been applied.
    pub fn reach(&mut self, version: i32) {
        self.version = version;
    }

    /// What is wrong with it, in the order of the text.
    pub fn findings(&self) -> Vec<Finding> {
        Vec::new()
    }

    /// What there is to say, in Markdown, about the place at `offset`, and how far that place reaches.
    pub fn hover(&self, _offset: usize) -> Option<(Span, String)> {
        None
    }
}

/// Something that a check found.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The check's name.
    pub code: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// Where.
    pub span: Span,
    /// What, why, and what to do.
    pub message: String,
    /// Further places, with what each has to do with it.
    pub related: Vec<(Span, String)>,
    /// Ways to mend it.
    pub fixes: Vec<Fix>,
}

/// How bad a finding is.
#[allow(dead_code, reason = "no check is at hand yet")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// The recipe cannot be followed.
    Error,
    /// It will mislead some.
    Warning,
    /// An editor would ask.
    Info,
    /// Style.
    Hint,
}

/// A way to mend a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Fix {
    /// What it does.
    pub title: String,
    /// How.
    pub edits: Vec<Edit>,
    /// Whether it may be applied unseen.
    pub safe: bool,
}
