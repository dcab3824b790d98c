//! The handlers. Each puts one thing into the mail before it waits for anything, and nothing else happens here, so that
//! the desk gets everything in the order in which the client said it.

use std::sync::OnceLock;

use serde::{Deserialize, Serialize};
use tokio::sync::mpsc::UnboundedSender;
use tokio::sync::oneshot;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{
    CallHierarchyIncomingCall, CallHierarchyIncomingCallsParams, CallHierarchyItem, CallHierarchyOutgoingCall,
    CallHierarchyOutgoingCallsParams, CallHierarchyPrepareParams, CodeAction, CodeActionParams, CodeActionResponse,
    CodeLens, CodeLensParams, CompletionItem, CompletionParams, CompletionResponse, DidChangeConfigurationParams,
    DidChangeTextDocumentParams, DidChangeWatchedFilesParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
    DidSaveTextDocumentParams, DocumentDiagnosticParams, DocumentDiagnosticReportResult, DocumentFormattingParams,
    DocumentHighlight, DocumentHighlightParams, DocumentLink, DocumentLinkParams, DocumentOnTypeFormattingParams,
    DocumentRangeFormattingParams, DocumentSymbolParams, DocumentSymbolResponse, FoldingRange, FoldingRangeParams,
    GotoDefinitionParams, GotoDefinitionResponse, Hover, HoverParams, InitializeParams, InitializeResult,
    InitializedParams, InlayHint, InlayHintParams, Location, Position, PrepareRenameResponse, ReferenceParams,
    RenameParams, SelectionRange, SelectionRangeParams, SemanticTokensDeltaParams, SemanticTokensFullDeltaResult,
    SemanticTokensParams, SemanticTokensRangeParams, SemanticTokensRangeResult, SemanticTokensResult,
    SymbolInformation, TextDocumentIdentifier, TextDocumentPositionParams, TextEdit, Url, WorkspaceEdit,
    WorkspaceSymbolParams,
};
use tower_lsp::{Client, LanguageServer};

use super::capabilities::{self, Editor};
use super::documents::{Opened, is_sheet};
use super::mail::Mail;
use super::settings::{self, Settings};
use super::{
    actions, calls, completion, folding, formatting, hints, hover, lenses, links, outline, places, rename, search,
    selection, tokens,
};

/// The server, as the protocol crate sees it.
#[derive(Debug)]
pub struct Shell {
    mail: UnboundedSender<Mail>,
    client: Client,
    /// Whether the client can be asked for its configuration.
    tells_configuration: OnceLock<bool>,
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
    pub fn new(mail: UnboundedSender<Mail>, client: Client) -> Self {
        Shell { mail, client, tells_configuration: OnceLock::new() }
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

    fn fetch_settings(&self) {
        if self.tells_configuration.get() == Some(&true) {
            tokio::spawn(settings::fetch(self.client.clone(), self.mail.downgrade()));
        }
    }

    fn post(&self, mail: Mail) {
        // Without a desk the transport is about to end, too.
        let _ = self.mail.send(mail);
    }

    /// Tells of files that are another on disk than they were.
    fn changed_on_disk(&self, files: Vec<Url>) {
        let (sheets, manuscripts): (Vec<Url>, Vec<Url>) = files.into_iter().partition(is_sheet);
        manuscripts.into_iter().for_each(|uri| self.post(Mail::ManuscriptChanged { uri }));
        if !sheets.is_empty() {
            self.post(Mail::SheetChanged);
        }
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

    /// The same for what is asked about all that is open; `uri` is the document that the question speaks of.
    async fn search<T, F>(&self, uri: Option<Url>, answer: F) -> Result<T>
    where
        T: Send + 'static,
        F: FnOnce(&[&Opened], &Editor) -> T + Send + 'static,
    {
        let (reply, answered) = oneshot::channel();
        self.post(Mail::Searched {
            uri,
            search: Box::new(move |asked| {
                if !reply.is_closed() {
                    let _ = reply.send(asked.map(|(documents, editor)| answer(documents, editor)));
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
        let mut editor = Editor::new(&params.capabilities);
        editor.settings = params.initialization_options.as_ref().and_then(Settings::read).unwrap_or_default();
        let _ = self.tells_configuration.set(editor.tells_configuration);
        let offer = capabilities::offer(&editor);
        self.post(Mail::Introduced(editor));
        Ok(offer)
    }

    async fn initialized(&self, _: InitializedParams) {
        self.post(Mail::Ready);
        self.fetch_settings();
    }

    /// The configuration comes with the notice, or has to be asked for.
    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        match Settings::read(&params.settings) {
            Some(settings) => self.post(Mail::Configured(settings)),
            None => self.fetch_settings(),
        }
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
        self.changed_on_disk(vec![params.text_document.uri]);
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        self.changed_on_disk(params.changes.into_iter().map(|change| change.uri).collect());
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

    async fn code_action_resolve(&self, action: CodeAction) -> Result<CodeAction> {
        let data = action.data.as_ref().and_then(|data| actions::Data::deserialize(data).ok());
        let Some(data) = data else { return Ok(action) };
        let uri = data.uri.clone();
        self.ask(uri, move |document, editor| actions::resolved(document, editor, &data, action)).await?
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.ask(params.text_document.uri, formatting::document).await
    }

    async fn range_formatting(&self, params: DocumentRangeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        let range = params.range;
        self.ask(params.text_document.uri, move |document, editor| formatting::range(document, editor, range)).await
    }

    async fn on_type_formatting(&self, params: DocumentOnTypeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        let sign = params.ch;
        let answer = move |document: &Opened, editor: &Editor, at| formatting::typed(document, editor, at, &sign);
        self.ask_at(params.text_document_position, answer).await
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

    async fn semantic_tokens_full(&self, params: SemanticTokensParams) -> Result<Option<SemanticTokensResult>> {
        self.ask(params.text_document.uri, tokens::full).await
    }

    async fn semantic_tokens_full_delta(
        &self,
        params: SemanticTokensDeltaParams,
    ) -> Result<Option<SemanticTokensFullDeltaResult>> {
        let previous = params.previous_result_id;
        let answer = move |document: &Opened, editor: &Editor| tokens::delta(document, editor, &previous);
        self.ask(params.text_document.uri, answer).await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        let range = params.range;
        self.ask(params.text_document.uri, move |document, editor| tokens::range(document, editor, range)).await
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        let range = params.range;
        self.ask(params.text_document.uri, move |document, editor| hints::answer(document, editor, range)).await
    }

    async fn inlay_hint_resolve(&self, hint: InlayHint) -> Result<InlayHint> {
        let data = hint.data.as_ref().and_then(|data| hints::Data::deserialize(data).ok());
        let Some(data) = data else { return Ok(hint) };
        let uri = data.uri.clone();
        self.ask(uri, move |document, editor| hints::resolved(document, editor, &data, hint)).await
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        self.ask(params.text_document.uri, lenses::answer).await
    }

    async fn symbol(&self, params: WorkspaceSymbolParams) -> Result<Option<Vec<SymbolInformation>>> {
        self.search(None, move |documents, editor| Some(search::answer(documents, editor, &params.query))).await
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        let at = params.text_document_position_params;
        let uri = at.text_document.uri.clone();
        self.search(Some(uri), move |documents, editor| calls::prepare(documents, editor, &at)).await?
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        let item = params.item;
        self.search(None, move |documents, editor| Some(calls::incoming(documents, editor, &item))).await
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        let item = params.item;
        self.search(None, move |documents, editor| Some(calls::outgoing(documents, editor, &item))).await
    }
}
