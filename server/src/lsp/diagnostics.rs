//! What the client has been shown of a document's diagnostics, and what it is still to be told.
//!
//! They are pushed until the client asks for them the first time. From then on they are given when asked for, and what
//! had been pushed is taken back: to do both would show everything twice. That a client says it would ask proves nothing.

use tower_lsp::jsonrpc::{Error, ErrorCode};
use tower_lsp::lsp_types::{
    DocumentDiagnosticReport, FullDocumentDiagnosticReport, RelatedFullDocumentDiagnosticReport,
    RelatedUnchangedDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport, Url,
};

use super::marks::Marks;

/// The protocol's `ServerCancelled`.
const SERVER_CANCELLED: i64 = -32802;

/// The body of `textDocument/publishDiagnostics`, as the client is to read it. Of a long document the list is long, and goes out with every
/// keystroke: it is put together from what has been written before, and goes by the protocol crate, which would take it apart.
pub fn published(uri: &Url, version: Option<i32>, marks: &Marks) -> Vec<u8> {
    let uri = serde_json::json!(uri);
    let mut body = format!(
        r#"{{"jsonrpc":"2.0","method":"textDocument/publishDiagnostics","params":{{"uri":{uri},"diagnostics":"#
    );
    marks.write(&mut body);
    if let Some(version) = version {
        body.push_str(&format!(r#","version":{version}"#));
    }
    body.push_str("}}");
    body.into_bytes()
}

/// What the client has been shown of one document.
#[derive(Debug, Default)]
pub struct Shown {
    pushed: Option<(i32, Marks)>,
    pulled: Option<(String, Marks)>,
}

impl Shown {
    /// Whether the client asks for the diagnostics of this document by itself.
    pub fn is_pulled(&self) -> bool {
        self.pulled.is_some()
    }

    /// What to push of this version: nothing where the client shows just that already.
    ///
    /// The same diagnostics are pushed again for a new version: the client may have moved its marks with the text.
    pub fn push(&mut self, version: i32, marks: Marks) -> Option<&Marks> {
        let news = Some((version, marks));
        if self.pushed == news {
            return None;
        }
        self.pushed = news;
        self.pushed.as_ref().map(|(_, marks)| marks)
    }

    /// Says that the document is no longer open: nobody asks for its diagnostics.
    pub fn close(&mut self) {
        self.pulled = None;
    }

    /// Whether an empty list has to be pushed, because what was pushed no longer holds.
    pub fn take_back(&mut self) -> bool {
        self.pushed.take().is_some_and(|(_, marks)| !marks.is_empty())
    }

    /// What to answer a client that asks, and that still has the answer called `previous`.
    pub fn pull(&mut self, previous: Option<&str>, version: i32, marks: Marks) -> DocumentDiagnosticReport {
        if let Some((name, pulled)) = &self.pulled
            && previous == Some(name)
            && *pulled == marks
        {
            let unchanged = UnchangedDocumentDiagnosticReport { result_id: name.clone() };
            return DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
                related_documents: None,
                unchanged_document_diagnostic_report: unchanged,
            });
        }
        let name = version.to_string();
        let full = FullDocumentDiagnosticReport { result_id: Some(name.clone()), items: marks.diagnostics() };
        self.pulled = Some((name, marks));
        DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: full,
        })
    }
}

/// Why diagnostics that an edit has overtaken are not given: the client should ask again.
pub fn overtaken() -> Error {
    let mut error = Error::new(ErrorCode::ServerError(SERVER_CANCELLED));
    error.message = "Content modified".into();
    error.data = Some(serde_json::json!({ "retriggerRequest": true }));
    error
}
