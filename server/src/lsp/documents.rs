//! An open document: its text and what is known of it. The one place where the face towards editors meets the layers
//! beneath it.

use std::sync::Arc;

use tower_lsp::lsp_types::Url;

pub use crate::checks::{Finding, Fix, Severity};
use crate::{
    assist,
    text::{Backlog, Document, Edit, Span},
    workspace::Manuscript,
};

/// A document that is open in the editor. Its text follows every edit at once; what is known of it follows when it
/// [catches up](Opened::catch_up).
pub struct Opened {
    uri: Url,
    version: i32,
    text: Document,
    backlog: Backlog,
    manuscript: Manuscript,
}

impl Opened {
    /// The document as the client opened it.
    pub fn new(uri: Url, version: i32, text: &str) -> Self {
        let manuscript = Manuscript::new(text, Arc::default());
        Opened { uri, version, text: manuscript.document().clone(), backlog: Backlog::default(), manuscript }
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

    /// Edits the text. Edits that lie near each other are read in one go when it catches up.
    pub fn apply(&mut self, edit: &Edit) {
        if !self.backlog.is_near(edit.span) {
            self.catch_up();
        }
        let replaced = self.text.apply(edit);
        self.backlog.add(replaced, edit.text.len());
    }

    /// Reads what has been edited. To be called before anything else than its text is asked for.
    pub fn catch_up(&mut self) {
        if let Some(edit) = self.backlog.take(&self.text) {
            self.manuscript.apply(&edit);
        }
    }

    /// The text as it has been read: the same, once it has caught up.
    pub fn text_as_read(&self) -> String {
        self.manuscript.text()
    }

    /// Says that all edits up to `version` have been applied.
    pub fn reach(&mut self, version: i32) {
        self.version = version;
    }

    /// What is wrong with it, in the order of the text.
    pub fn findings(&self) -> Vec<Finding> {
        self.manuscript.findings()
    }

    /// What there is to say, in Markdown, about the place at `offset`, and how far that place reaches.
    pub fn hover(&self, offset: usize) -> Option<(Span, String)> {
        let (start, recipe) = self.manuscript.recipe_at(offset)?;
        let hover = assist::hover(recipe, self.manuscript.house(), offset - start)?;
        Some((hover.span.shifted(start), hover.markdown))
    }
}
