//! The one task that owns the open documents.
//!
//! It takes all the mail that has arrived, applies the edits one after the other, answers the questions in between, and
//! then checks and publishes the newest text of each edited document, once. So a burst costs one round of checks, and a
//! single keystroke waits for nothing.

use std::collections::{BTreeSet, HashMap};
use std::panic::{AssertUnwindSafe, catch_unwind};

use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, WeakUnboundedSender};
use tokio::task::yield_now;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{self, Error};
use tower_lsp::lsp_types::{DocumentDiagnosticReport, TextDocumentContentChangeEvent, Url};

use super::books::{Books, Errand};
use super::capabilities::Editor;
use super::convert::Converter;
use super::diagnostics::{self, Body, Shown, published};
use super::documents::Opened;
use super::mail::{Mail, Question, Search};
use super::marks::Marks;
use super::progress::Teller;
use super::sheets::Request;
use crate::text::{Edit, Span};
use crate::workspace::book::StyleSheets;

/// Works through the mail until nobody is left to write any.
///
/// What takes longer is read beside the desk, and comes back as mail by `letterbox`. The diagnostics go to `outgoing`, as the client is to
/// read them.
pub async fn work(
    client: Client,
    mut mail: UnboundedReceiver<Mail>,
    letterbox: WeakUnboundedSender<Mail>,
    outgoing: UnboundedSender<Body>,
) {
    let mut desk = Desk::default();
    let mut arrived = Vec::new();
    while mail.recv_many(&mut arrived, usize::MAX).await > 0 {
        desk.read(arrived.drain(..));
        for request in desk.requests.drain(..) {
            // Nobody here waits for a client to answer.
            tokio::spawn(request.ask(client.clone()));
        }
        for errand in desk.errands.drain(..) {
            let letterbox = letterbox.clone();
            let teller = Teller::of(&errand, &desk.editor, &client);
            tokio::task::spawn_blocking(move || {
                let news = errand.run(|read, all| teller.iter().for_each(|teller| teller.tell(read, all)));
                // Nobody reads the mail any more once the editor has left.
                let _ = letterbox.upgrade().is_some_and(|letterbox| letterbox.send(news).is_ok());
                // Only now: whoever hears that the book has been read may ask about it.
                drop(teller);
            });
        }
        while let Some(uri) = desk.due.pop_first() {
            if let Some(news) = desk.news_of(uri) {
                // Nobody reads them any more once the client has gone, and then the mail ends too.
                let _ = outgoing.send(news);
                // Lets the transport run, which may wait on this very thread.
                yield_now().await;
            }
        }
    }
}

#[derive(Default)]
pub(super) struct Desk {
    pub(super) editor: Editor,
    pub(super) documents: HashMap<Url, Opened>,
    pub(super) shown: HashMap<Url, Shown>,
    /// The documents of which the client may have to be told news.
    pub(super) due: BTreeSet<Url>,
    pub(super) sheets: StyleSheets,
    pub(super) books: Books,
    /// The folders that the user works in.
    pub(super) folders: Vec<Url>,
    /// What the client is still to be asked.
    pub(super) requests: Vec<Request>,
    /// What is still to be read beside the desk.
    pub(super) errands: Vec<Errand>,
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
            let overtaken = |uri| latest.get(uri).is_some_and(|latest| *latest > place);
            match mail {
                Mail::Introduced { editor, folders } => (self.editor, self.folders) = (editor, folders),
                Mail::Configured(settings) => self.configure(settings),
                Mail::Ready => self.begin(),
                Mail::Folders { added, removed } => self.work_in(added, &removed),
                Mail::SheetChanged => self.sheet_changed(),
                Mail::ManuscriptChanged { uri } => self.manuscript_changed(&uri),
                Mail::BookWanted { sheet } => self.want_book(&sheet),
                Mail::BookRead { sheet, news } => self.book_read(sheet, news),
                Mail::Opened { uri, version, text } => self.open(uri, version, &text),
                Mail::Changed { uri, version, changes } => self.change(uri, version, changes),
                Mail::Closed { uri } => {
                    self.documents.remove(&uri);
                    self.due.extend(self.sheet_over(&uri));
                    self.due.insert(uri);
                }
                Mail::Asked { uri, question } => {
                    let overtaken = overtaken(&uri);
                    self.answer(&uri, question, overtaken);
                }
                Mail::Searched { uri, search } => {
                    let overtaken = uri.as_ref().is_some_and(overtaken);
                    self.search(search, overtaken);
                }
                Mail::Pulled { uri, previous, reply } => {
                    let overtaken = overtaken(&uri);
                    let report =
                        if overtaken { Err(diagnostics::overtaken()) } else { self.pull(&uri, previous.as_deref()) };
                    let _ = reply.send(report);
                    self.due.insert(uri);
                }
            }
        }
    }

    fn open(&mut self, uri: Url, version: i32, text: &str) {
        let book = self.book(&uri);
        self.documents.insert(uri.clone(), Opened::new(uri.clone(), version, text, book));
        self.due.extend(self.sheet_over(&uri));
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
        self.shown.get_mut(&uri).into_iter().for_each(Shown::outdate);
        self.due.insert(uri);
    }

    fn answer(&mut self, uri: &Url, question: Question, overtaken: bool) {
        let asked = match self.documents.get_mut(uri) {
            _ if overtaken => Err(Error::content_modified()),
            None => Err(not_open(uri)),
            Some(document) => {
                document.catch_up();
                Ok((&*document, &self.editor))
            }
        };
        // A question that panics takes its reply channel with it, which the shell answers with an internal error.
        let _ = catch_unwind(AssertUnwindSafe(|| question(asked)));
    }

    fn search(&mut self, search: Search, overtaken: bool) {
        self.documents.values_mut().for_each(Opened::catch_up);
        let shelves = self.shelves();
        let asked = if overtaken { Err(Error::content_modified()) } else { Ok((&shelves, &self.editor)) };
        let _ = catch_unwind(AssertUnwindSafe(|| search(asked)));
    }

    /// The diagnostics of an open document, to a client that asks for them.
    fn pull(&mut self, uri: &Url, previous: Option<&str>) -> jsonrpc::Result<DocumentDiagnosticReport> {
        let document = self.documents.get_mut(uri).ok_or_else(|| not_open(uri))?;
        document.catch_up();
        let shown = self.shown.entry(uri.clone()).or_default();
        Ok(shown.pull(previous, document.version(), Marks::of(document, &self.editor)))
    }

    /// What the client has to be told of a document: its diagnostics, or that there are none any more.
    fn news_of(&mut self, uri: Url) -> Option<Body> {
        let Some(document) = self.documents.get_mut(&uri) else { return self.news_of_closed(uri) };
        document.catch_up();
        let shown = self.shown.entry(uri.clone()).or_default();
        if shown.is_pulled() {
            return shown.take_back().then(|| published(&uri, Some(document.version()), Marks::default()));
        }
        let marks = shown.push(document.version(), Marks::of(document, &self.editor))?;
        Some(published(&uri, Some(document.version()), marks))
    }
}

/// Why a document that is not open cannot be asked about.
pub(super) fn not_open(uri: &Url) -> Error {
    Error::invalid_params(format!("{uri} is not open"))
}
