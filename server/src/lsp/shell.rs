//! The handlers. Each puts one thing into the mail before it waits for anything, and nothing else happens here, so that
//! the desk gets everything in the order in which the client said it.

use serde::{Deserialize, Serialize};
use tokio::sync::mpsc::UnboundedSender;
use tokio::sync::oneshot;
use tower_lsp::LanguageServer;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{
    CodeActionParams, CodeActionResponse, CompletionItem, CompletionParams, CompletionResponse,
    DidChangeTextDocumentParams, DidChangeWatchedFilesParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
    DidSaveTextDocumentParams, DocumentDiagnosticParams, DocumentDiagnosticReportResult, DocumentHighlight,
    DocumentHighlightParams, DocumentLink, DocumentLinkParams, DocumentSymbolParams, DocumentSymbolResponse,
    FoldingRange, FoldingRangeParams, GotoDefinitionParams, GotoDefinitionResponse, Hover, HoverParams,
    InitializeParams, InitializeResult, InitializedParams, Location, Position, PrepareRenameResponse, ReferenceParams,
    RenameParams, SelectionRange, SelectionRangeParams, TextDocumentIdentifier, TextDocumentPositionParams, Url,
    WorkspaceEdit,
};

use super::capabilities::{self, Editor};
use super::documents::{Opened, is_sheet};
use super::mail::Mail;
use super::{actions, completion, folding, hover, links, outline, places, rename, selection};

/// The server, as the protocol crate sees it.
#[derive(Debug)]
pub struct Shell {
    mail: UnboundedSender<Mail>,
}

/// What `tamis/text` asks for.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct TextParams {
    text_document: TextDocumentIdentifier,
}

/// What `tamis/text` answers.
#[derive(Debug, Serialize)]
pub struct HeldText {
    version: i32,
    text: String,
}

impl Shell {
    /// A shell that puts everything into `mail`.
    pub fn new(mail: UnboundedSender<Mail>) -> Self {
        Shell { mail }
    }

    /// The request `tamis/text`: the text that the server holds for an open document, and its version. For whoever
    /// doubts that editor and server mean the same text.
    pub async fn text(&self, params: TextParams) -> Result<HeldText> {
        self.ask(params.text_document.uri, |document, _| HeldText {
            version: document.version(),
            text: document.text_as_read(),
        })
        .await
    }

    fn post(&self, mail: Mail) {
        // Without a desk the transport is about to end, too.
        let _ = self.mail.send(mail);
    }

    /// Has `answer` worked out at the desk, after all that was said before, and waits for it.
    async fn ask<T, F>(&self, uri: Url, answer: F) -> Result<T>
    where
        T: Send + 'static,
        F: FnOnce(&Opened, &Editor) -> T + Send + 'static,
    {
        let (reply, answered) = oneshot::channel();
        self.post(Mail::Asked {
            uri,
            question: Box::new(move |asked| {
                // Closed once the client has cancelled.
                if !reply.is_closed() {
                    let _ = reply.send(asked.map(|(document, editor)| answer(document, editor)));
                }
            }),
        });
        answered.await.unwrap_or_else(|_| Err(Error::internal_error()))
    }

    /// The same for what is asked about a place.
    async fn ask_at<T, F>(&self, at: TextDocumentPositionParams, answer: F) -> Result<T>
    where
        T: Send + 'static,
        F: FnOnce(&Opened, &Editor, Position) -> T + Send + 'static,
    {
        self.ask(at.text_document.uri, move |document, editor| answer(document, editor, at.position)).await
    }
}

#[tower_lsp::async_trait]
impl LanguageServer for Shell {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        let editor = Editor::new(&params.capabilities);
        let offer = capabilities::offer(&editor);
        self.post(Mail::Introduced(editor));
        Ok(offer)
    }

    async fn initialized(&self, _: InitializedParams) {
        self.post(Mail::Ready);
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let document = params.text_document;
        self.post(Mail::Opened { uri: document.uri, version: document.version, text: document.text });
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let document = params.text_document;
        self.post(Mail::Changed { uri: document.uri, version: document.version, changes: params.content_changes });
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        self.post(Mail::Closed { uri: params.text_document.uri });
    }

    async fn did_save(&self, params: DidSaveTextDocumentParams) {
        if is_sheet(&params.text_document.uri) {
            self.post(Mail::SheetChanged);
        }
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        if params.changes.iter().any(|change| is_sheet(&change.uri)) {
            self.post(Mail::SheetChanged);
        }
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        let (reply, answered) = oneshot::channel();
        let (uri, previous) = (params.text_document.uri, params.previous_result_id);
        self.post(Mail::Pulled { uri, previous, reply });
        answered.await.unwrap_or_else(|_| Err(Error::internal_error())).map(Into::into)
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        self.ask_at(params.text_document_position_params, hover::answer).await
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let uri = params.text_document.uri.clone();
        self.ask(uri, move |document, editor| Some(actions::answer(document, editor, &params))).await
    }
    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        self.ask(params.text_document.uri, outline::answer).await
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.ask(params.text_document.uri, folding::answer).await
    }

    async fn selection_range(&self, params: SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> {
        let positions = params.positions;
        self.ask(params.text_document.uri, move |document, editor| selection::answer(document, editor, &positions))
            .await
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.ask(params.text_document.uri, links::answer).await
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        self.ask_at(params.text_document_position_params, places::definition).await
    }

    async fn goto_type_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        self.ask_at(params.text_document_position_params, places::type_definition).await
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let stated = params.context.include_declaration;
        let answer = move |document: &Opened, editor: &Editor, at| places::references(document, editor, at, stated);
        self.ask_at(params.text_document_position, answer).await
    }

    async fn document_highlight(&self, params: DocumentHighlightParams) -> Result<Option<Vec<DocumentHighlight>>> {
        self.ask_at(params.text_document_position_params, places::highlights).await
    }

    async fn prepare_rename(&self, params: TextDocumentPositionParams) -> Result<Option<PrepareRenameResponse>> {
        self.ask_at(params, rename::prepare).await?
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let new = params.new_name;
        let answer = move |document: &Opened, editor: &Editor, at| rename::answer(document, editor, at, &new);
        self.ask_at(params.text_document_position, answer).await?
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let context = params.context;
        let answer =
            move |document: &Opened, editor: &Editor, at| completion::answer(document, editor, at, context.as_ref());
        self.ask_at(params.text_document_position, answer).await
    }

    async fn completion_resolve(&self, item: CompletionItem) -> Result<CompletionItem> {
        let data = item.data.as_ref().and_then(|data| completion::Data::deserialize(data).ok());
        let Some(data) = data else { return Ok(item) };
        let uri = data.uri.clone();
        self.ask(uri, move |document, editor| completion::resolved(document, editor, data, item)).await
    }
}
