//! What the client has been shown of a document's diagnostics, and what it is still to be told.
//!
//! They are pushed until the client asks for them the first time. From then on they are given when asked for, and what
//! had been pushed is taken back: to do both would show everything twice. That a client says it would ask proves nothing.
//!
//! Of a long document the list is long, and goes out with nearly every keystroke. So it is kept as the client is to read it, and goes by
//! the protocol crate, which would write all of it anew: what is pushed as a whole, and what is pulled in the place of the first entry of
//! its own list, which the transport unpacks.

use bytes::Buf;
use tower_lsp::jsonrpc::{Error, ErrorCode, Response};
use tower_lsp::lsp_types::{
    Diagnostic, DocumentDiagnosticReport, FullDocumentDiagnosticReport, RelatedFullDocumentDiagnosticReport,
    RelatedUnchangedDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport, Url,
};

use super::marks::Marks;

/// The protocol's `ServerCancelled`.
const SERVER_CANCELLED: i64 = -32802;

/// The source of a diagnostic that is none: its message is a list of them, as the client is to read it.
const PACKED: &str = "tamis/packed";

/// The body of a message with a list of diagnostics in it, as the client is to read it.
#[derive(Debug)]
pub struct Body {
    before: String,
    list: Marks,
    behind: String,
}

impl Body {
    /// All of it, not joined: the list may be long.
    pub fn bytes(&self) -> impl Buf + '_ {
        self.before.as_bytes().chain(self.list.json().as_bytes()).chain(self.behind.as_bytes())
    }
}

/// The body of `textDocument/publishDiagnostics`.
pub fn published(uri: &Url, version: Option<i32>, marks: Marks) -> Body {
    let uri = serde_json::json!(uri);
    let version = version.map(|version| format!(r#","version":{version}"#)).unwrap_or_default();
    Body {
        before: format!(
            r#"{{"jsonrpc":"2.0","method":"textDocument/publishDiagnostics","params":{{"uri":{uri},"diagnostics":["#
        ),
        list: marks,
        behind: format!("]{version}}}}}"),
    }
}

/// What the client has been shown of one document.
#[derive(Debug, Default)]
pub struct Shown {
    pushed: Option<Pushed>,
    pulled: Option<(String, Marks)>,
}

/// What has been pushed last.
#[derive(Debug)]
struct Pushed {
    is_empty: bool,
    /// The version and its diagnostics, until there is a newer one.
    latest: Option<(i32, Marks)>,
}

impl Shown {
    /// Whether the client asks for the diagnostics of this document by itself.
    pub fn is_pulled(&self) -> bool {
        self.pulled.is_some()
    }

    /// What to push of this version: nothing where the client shows just that already.
    ///
    /// The same diagnostics are pushed again for a new version: the client may have moved its marks with the text.
    pub fn push(&mut self, version: i32, marks: Marks) -> Option<Marks> {
        let latest = Some((version, marks.clone()));
        if self.pushed.as_ref().is_some_and(|pushed| pushed.latest == latest) {
            return None;
        }
        self.pushed = Some(Pushed { is_empty: marks.is_empty(), latest });
        Some(marks)
    }

    /// Says that there is a newer version, whose diagnostics are pushed whatever was pushed before.
    pub fn outdate(&mut self) {
        self.pushed.iter_mut().for_each(|pushed| pushed.latest = None);
    }

    /// Says that the document is no longer open: nobody asks for its diagnostics.
    pub fn close(&mut self) {
        self.pulled = None;
    }

    /// Whether an empty list has to be pushed, because what was pushed no longer holds.
    pub fn take_back(&mut self) -> bool {
        self.pushed.take().is_some_and(|pushed| !pushed.is_empty)
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
        let full = FullDocumentDiagnosticReport { result_id: Some(name.clone()), items: vec![packed(&marks)] };
        self.pulled = Some((name, marks));
        DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
            related_documents: None,
            full_document_diagnostic_report: full,
        })
    }
}

fn packed(marks: &Marks) -> Diagnostic {
    let message = format!("[{}]", marks.json());
    Diagnostic { message, source: Some(PACKED.into()), ..Diagnostic::default() }
}

/// The body of an answer with a list in it that has been packed, as the client is to read it; nothing for any other.
pub fn unpacked(answer: &Response) -> Option<Vec<u8>> {
    let report = answer.result()?;
    let list = report.get("items")?.get(0).filter(|one| one.get("source").is_some_and(|source| source == PACKED))?;
    let list = list.get("message")?.as_str()?;
    let (id, name) = (serde_json::json!(answer.id()), report.get("resultId")?);
    let body = format!(r#"{{"jsonrpc":"2.0","id":{id},"result":{{"kind":"full","resultId":{name},"items":{list}}}}}"#);
    Some(body.into_bytes())
}

/// Why diagnostics that an edit has overtaken are not given: the client should ask again.
pub fn overtaken() -> Error {
    let mut error = Error::new(ErrorCode::ServerError(SERVER_CANCELLED));
    error.message = "Content modified".into();
    error.data = Some(serde_json::json!({ "retriggerRequest": true }));
    error
}
