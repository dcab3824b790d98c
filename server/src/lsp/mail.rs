//! What the shell hands to the desk, in the order in which the client said it.

use std::path::PathBuf;

use tokio::sync::oneshot;
use tower_lsp::jsonrpc;
use tower_lsp::lsp_types::{DocumentDiagnosticReport, TextDocumentContentChangeEvent, Url};

use super::books::News;
use super::capabilities::Editor;
use super::documents::Opened;
use super::settings::Settings;
use super::shelf::Shelves;
use crate::workspace::book::StyleSheet;

/// One piece of mail.
pub enum Mail {
    /// The client has introduced itself.
    Introduced {
        /// What it can take.
        editor: Editor,
        /// The folders that its user works in.
        folders: Vec<Url>,
    },
    /// The user of the client wants other things shown.
    Configured(Settings),
    /// The client is ready to be asked things.
    Ready,
    /// The user works in other folders than before.
    Folders {
        /// Those that come to it.
        added: Vec<Url>,
        /// Those that go.
        removed: Vec<Url>,
    },
    /// A style sheet, or a whole folder, may have changed on disk.
    SheetChanged,
    /// A manuscript may have changed on disk.
    ManuscriptChanged {
        /// Which.
        uri: Url,
    },
    /// A book has to be read.
    BookWanted {
        /// Its style sheet.
        sheet: StyleSheet,
    },
    /// A book, or a file of it, has been read.
    BookRead {
        /// The style sheet of the book.
        sheet: PathBuf,
        /// What it says.
        news: News,
    },
    /// A document is open in the editor; from now on its text is what the client says.
    Opened {
        /// Which.
        uri: Url,
        /// Its version.
        version: i32,
        /// All of it.
        text: String,
    },
    /// It was edited.
    Changed {
        /// Which.
        uri: Url,
        /// The version that the edits lead to.
        version: i32,
        /// The edits, each on what the one before left.
        changes: Vec<TextDocumentContentChangeEvent>,
    },
    /// It is no longer open.
    Closed {
        /// Which.
        uri: Url,
    },
    /// Something is asked about it.
    Asked {
        /// Which.
        uri: Url,
        /// What.
        question: Question,
    },
    /// Something is asked about books.
    Searched {
        /// The document that the question speaks of, where it speaks of one.
        uri: Option<Url>,
        /// What.
        search: Search,
    },
    /// Its diagnostics are asked for.
    Pulled {
        /// Which.
        uri: Url,
        /// The name of the answer that the client still has.
        previous: Option<String>,
        /// Where the answer goes.
        reply: oneshot::Sender<jsonrpc::Result<DocumentDiagnosticReport>>,
    },
}

/// A question about one document: gets it, or why it cannot be asked, and sends its answer by itself.
pub type Question = Box<dyn FnOnce(jsonrpc::Result<(&Opened, &Editor)>) + Send>;

/// A question about books.
pub type Search = Box<dyn FnOnce(jsonrpc::Result<(&Shelves<'_>, &Editor)>) + Send>;
