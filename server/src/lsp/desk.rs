//! The one task that owns the open documents.
//!
//! It takes all the mail that has arrived, applies the edits one after the other, answers the questions in between, and
//! then checks and publishes the newest text of each edited document, once. So a burst costs one round of checks, and a
//! single keystroke waits for nothing.

use std::collections::{BTreeSet, HashMap};
use std::panic::{AssertUnwindSafe, catch_unwind};

use tokio::sync::mpsc::UnboundedReceiver;
use tokio::task::yield_now;
use tower_lsp::Client;
use tower_lsp::jsonrpc::Error;
use tower_lsp::lsp_types::{Diagnostic, PublishDiagnosticsParams, TextDocumentContentChangeEvent, Url};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::mail::{Mail, Question};
use crate::text::{Edit, Span};

/// Works through the mail until nobody is left to write any.
pub async fn work(client: Client, mut mail: UnboundedReceiver<Mail>) {
    let mut desk = Desk::default();
    let mut arrived = Vec::new();
    while mail.recv_many(&mut arrived, usize::MAX).await > 0 {
        desk.read(arrived.drain(..));
        while let Some(uri) = desk.due.pop_first() {
            if let Some(news) = desk.news_of(uri) {
                client.publish_diagnostics(news.uri, news.diagnostics, news.version).await;
                // Lets the transport run, which may wait on this very thread.
                yield_now().await;
            }
        }
    }
}

#[derive(Default)]
struct Desk {
    editor: Editor,
    documents: HashMap<Url, Opened>,
    /// What the client shows: the diagnostics of a document, and the version they are of.
    published: HashMap<Url, (i32, Vec<Diagnostic>)>,
    /// The documents that were opened, edited or closed since.
    due: BTreeSet<Url>,
}

impl Desk {
    /// Reads mail in its order. A question behind which an edit of the same document has already arrived is refused:
    /// its answer would be wrong by the time it came.
    fn read(&mut self, arrived: impl ExactSizeIterator<Item = Mail>) {
        let arrived: Vec<Mail> = arrived.collect();
        let mut latest: HashMap<Url, usize> = HashMap::new();
        for (place, mail) in arrived.iter().enumerate() {
            if let Mail::Opened { uri, .. } | Mail::Changed { uri, .. } | Mail::Closed { uri } = mail {
                latest.insert(uri.clone(), place);
            }
        }
        for (place, mail) in arrived.into_iter().enumerate() {
            match mail {
                Mail::Introduced(editor) => self.editor = editor,
                Mail::Opened { uri, version, text } => self.open(uri, version, &text),
                Mail::Changed { uri, version, changes } => self.change(uri, version, changes),
                Mail::Closed { uri } => {
                    self.documents.remove(&uri);
                    self.due.insert(uri);
                }
                Mail::Asked { uri, question } => {
                    let overtaken = latest.get(&uri).is_some_and(|latest| *latest > place);
                    self.answer(&uri, question, overtaken);
                }
            }
        }
    }

    fn open(&mut self, uri: Url, version: i32, text: &str) {
        self.documents.insert(uri.clone(), Opened::new(uri.clone(), version, text));
        self.due.insert(uri);
    }

    /// Each change is meant for what the one before left. One of a document that is not open has nothing to change.
    fn change(&mut self, uri: Url, version: i32, changes: Vec<TextDocumentContentChangeEvent>) {
        let Some(document) = self.documents.get_mut(&uri) else { return };
        for change in changes {
            let span = match change.range {
                Some(range) => Converter::new(document, &self.editor).span(range),
                None => Span::new(0, document.text().len()),
            };
            document.apply(&Edit::replace(span, change.text));
        }
        document.reach(version);
        self.due.insert(uri);
    }

    fn answer(&self, uri: &Url, question: Question, overtaken: bool) {
        let asked = match self.documents.get(uri) {
            _ if overtaken => Err(Error::content_modified()),
            None => Err(Error::invalid_params(format!("{uri} is not open"))),
            Some(document) => Ok((document, &self.editor)),
        };
        // A question that panics takes its reply channel with it, which the shell answers with an internal error.
        let _ = catch_unwind(AssertUnwindSafe(|| question(asked)));
    }

    /// What the client has to be told of a document: its diagnostics, unless they are what it shows already for this
    /// version; none for one that is closed, if it shows any.
    ///
    /// The same set is sent again for a new version: the client may have moved its marks with the text.
    fn news_of(&mut self, uri: Url) -> Option<PublishDiagnosticsParams> {
        let Some(document) = self.documents.get(&uri) else {
            let (_, shown) = self.published.remove(&uri)?;
            return (!shown.is_empty()).then(|| PublishDiagnosticsParams::new(uri, Vec::new(), None));
        };
        let converter = Converter::new(document, &self.editor);
        let diagnostics: Vec<_> = document.findings().iter().map(|finding| converter.diagnostic(finding)).collect();
        let news = (document.version(), diagnostics);
        if self.published.get(&uri) == Some(&news) {
            return None;
        }
        self.published.insert(uri.clone(), news.clone());
        Some(PublishDiagnosticsParams::new(uri, news.1, Some(news.0)))
    }
}
