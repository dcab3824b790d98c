//! The handlers. Each puts one thing into the mail before it waits for anything, and nothing else happens here, so that
//! the desk gets everything in the order in which the client said it.

use std::sync::OnceLock;

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use tokio::sync::mpsc::UnboundedSender;
use tokio::sync::oneshot;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{
    CallHierarchyIncomingCall, CallHierarchyIncomingCallsParams, CallHierarchyItem, CallHierarchyOutgoingCall,
    CallHierarchyOutgoingCallsParams, CallHierarchyPrepareParams, CodeAction, CodeActionParams, CodeActionResponse,
    CodeLens, CodeLensParams, CompletionItem, CompletionParams, CompletionResponse, CreateFilesParams,
    DeleteFilesParams, DidChangeConfigurationParams, DidChangeTextDocumentParams, DidChangeWatchedFilesParams,
    DidChangeWorkspaceFoldersParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams, DidSaveTextDocumentParams,
    DocumentDiagnosticParams, DocumentDiagnosticReportResult, DocumentFormattingParams, DocumentHighlight,
    DocumentHighlightParams, DocumentLink, DocumentLinkParams, DocumentOnTypeFormattingParams,
    DocumentRangeFormattingParams, DocumentSymbolParams, DocumentSymbolResponse, ExecuteCommandParams, FoldingRange,
    FoldingRangeParams, GotoDefinitionParams, GotoDefinitionResponse, Hover, HoverParams, InitializeParams,
    InitializeResult, InitializedParams, InlayHint, InlayHintParams, Location, Position, PrepareRenameResponse,
    ReferenceParams, RenameFilesParams, RenameParams, SelectionRange, SelectionRangeParams, SemanticTokensDeltaParams,
    SemanticTokensFullDeltaResult, SemanticTokensParams, SemanticTokensRangeParams, SemanticTokensRangeResult,
    SemanticTokensResult, SymbolInformation, TextDocumentIdentifier, TextDocumentPositionParams, TextEdit, Url,
    WorkDoneProgressCancelParams, WorkspaceDiagnosticParams, WorkspaceDiagnosticReport,
    WorkspaceDiagnosticReportPartialResult, WorkspaceDiagnosticReportResult, WorkspaceEdit, WorkspaceFolder,
    WorkspaceSymbolParams,
};
use tower_lsp::{Client, LanguageServer};

use super::capabilities::{self, Editor};
use super::documents::{Opened, is_manuscript, is_sheet};
use super::mail::Mail;
use super::pieces::listed;
use super::review::{self, Reviewed};
use super::settings::{self, Settings};
use super::shelf::{Keeper, Later, Shelf, Shelves};
use super::{
    actions, calls, commands, completion, folding, formatting, hints, hover, lenses, links, outline, places, rename,
    search, selection, tokens,
};

/// The server, as the protocol crate sees it.
#[derive(Debug)]
pub struct Shell {
    mail: UnboundedSender<Mail>,
    client: Client,
    /// Whether the client can be asked for its configuration.
    tells_configuration: OnceLock<bool>,
    /// What has been found in manuscripts that are not open.
    reviewed: Reviewed,
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
        Shell { mail, client, tells_configuration: OnceLock::new(), reviewed: Reviewed::default() }
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

    /// The notification `window/workDoneProgress/cancel`, which the protocol crate does not know. Reading a book is short and done
    /// beside everything else: it goes on.
    pub async fn progress_cancelled(&self, _: WorkDoneProgressCancelParams) {}

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

    /// Tells of files and folders that the user of the editor has made, moved or removed. With a folder goes all that is in it.
    fn moved_on_disk(&self, addresses: impl Iterator<Item = String>) {
        let files: Vec<Url> = addresses.filter_map(|address| Url::parse(&address).ok()).collect();
        match files.iter().all(|file| is_sheet(file) || is_manuscript(file)) {
            true => self.changed_on_disk(files),
            false => self.post(Mail::SheetChanged),
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

    /// The same for what is asked about books; `uri` is the document that the question speaks of.
    async fn search<T, F>(&self, uri: Option<Url>, answer: F) -> Result<T>
    where
        T: Send + 'static,
        F: FnOnce(&Shelves<'_>, &Editor) -> T + Send + 'static,
    {
        let (reply, answered) = oneshot::channel();
        self.post(Mail::Searched {
            uri,
            search: Box::new(move |asked| {
                if !reply.is_closed() {
                    let _ = reply.send(asked.map(|(shelves, editor)| answer(shelves, editor)));
                }
            }),
        });
        answered.await.unwrap_or_else(|_| Err(Error::internal_error()))
    }

    /// The same for what is asked about a document and its book.
    async fn ask_in_book<T, F>(&self, uri: Url, answer: F) -> Result<T>
    where
        T: Send + 'static,
        F: FnOnce(&Opened, &Shelf<'_>, &Editor) -> T + Send + 'static,
    {
        let about = uri.clone();
        let answer = move |shelves: &Shelves<'_>, editor: &Editor| {
            shelves.opened(&about).map(|(document, shelf)| answer(document, shelf, editor))
        };
        self.search(Some(uri), answer).await?
    }

    /// The same for what is asked about a document and the style sheet that decisions about it go into.
    async fn ask_with_keeper<T, F>(&self, uri: Url, answer: F) -> Result<T>
    where
        T: Send + 'static,
        F: FnOnce(&Opened, Option<&Keeper<'_>>, &Editor) -> T + Send + 'static,
    {
        let about = uri.clone();
        let answer = move |shelves: &Shelves<'_>, editor: &Editor| {
            let (document, _) = shelves.opened(&about)?;
            Ok(answer(document, shelves.keeper(&about).as_ref(), editor))
        };
        self.search(Some(uri), answer).await?
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
        let editor = Editor::new(&params.capabilities, params.initialization_options.as_ref());
        let _ = self.tells_configuration.set(editor.tells_configuration);
        let offer = capabilities::offer(&editor);
        // A client that knows no folders names its only one so.
        let only = params.root_uri.into_iter();
        let several = params.workspace_folders.filter(|folders| !folders.is_empty()).map(addresses);
        let folders = several.unwrap_or_else(|| only.collect());
        self.post(Mail::Introduced { editor, folders });
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

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        let (added, removed) = (addresses(params.event.added), addresses(params.event.removed));
        self.post(Mail::Folders { added, removed });
    }

    async fn did_create_files(&self, params: CreateFilesParams) {
        self.moved_on_disk(params.files.into_iter().map(|file| file.uri));
    }

    async fn did_rename_files(&self, params: RenameFilesParams) {
        self.moved_on_disk(params.files.into_iter().flat_map(|file| [file.old_uri, file.new_uri]));
    }

    async fn did_delete_files(&self, params: DeleteFilesParams) {
        self.moved_on_disk(params.files.into_iter().map(|file| file.uri));
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        let (reply, answered) = oneshot::channel();
        let (uri, previous) = (params.text_document.uri, params.previous_result_id);
        self.post(Mail::Pulled { uri, previous, reply });
        answered.await.unwrap_or_else(|_| Err(Error::internal_error())).map(Into::into)
    }

    async fn workspace_diagnostic(&self, params: WorkspaceDiagnosticParams) -> Result<WorkspaceDiagnosticReportResult> {
        let previous = params.previous_result_ids.into_iter().map(|known| (known.uri, known.value)).collect();
        let (reviewed, letterbox) = (self.reviewed.clone(), self.mail.downgrade());
        let answer =
            |shelves: &Shelves<'_>, editor: &Editor| review::answer(shelves, editor, previous, reviewed, letterbox);
        let pieces = self.search(None, answer).await?;
        let told = |items| json!(WorkspaceDiagnosticReportPartialResult { items });
        let items = listed(&self.client, pieces, params.partial_result_params, told).await?;
        Ok(WorkspaceDiagnosticReport { items }.into())
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        self.ask_at(params.text_document_position_params, hover::answer).await
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let uri = params.text_document.uri.clone();
        let answer = move |document: &Opened, keeper: Option<&Keeper<'_>>, editor: &Editor| {
            Some(actions::answer(document, keeper, editor, &params))
        };
        self.ask_with_keeper(uri, answer).await
    }

    async fn code_action_resolve(&self, action: CodeAction) -> Result<CodeAction> {
        let data = action.data.as_ref().and_then(|data| actions::Data::deserialize(data).ok());
        let Some(data) = data else { return Ok(action) };
        let uri = data.uri.clone();
        let answer = move |document: &Opened, keeper: Option<&Keeper<'_>>, editor: &Editor| {
            actions::resolved(document, keeper, editor, &data, action)
        };
        self.ask_with_keeper(uri, answer).await?
    }

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<Value>> {
        let order = commands::Order::read(params)?;
        let uri = order.about.uri.clone();
        let done = self.ask(uri, move |document, editor| order.done(document, editor)).await??;
        tokio::spawn(commands::carry_out(self.client.clone(), done));
        Ok(None)
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
        self.ask_in_book(params.text_document.uri, links::answer).await
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        let answer = move |document: &Opened, shelf: &Shelf<'_>, editor: &Editor| {
            places::definition(document, shelf, editor, position)
        };
        self.ask_in_book(text_document.uri, answer).await
    }

    async fn goto_type_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        let answer = move |document: &Opened, shelf: &Shelf<'_>, editor: &Editor| {
            places::type_definition(document, shelf, editor, position)
        };
        self.ask_in_book(text_document.uri, answer).await
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let stated = params.context.include_declaration;
        let answer = move |document: &Opened, shelf: &Shelf<'_>, editor: &Editor| {
            places::references(document, shelf, editor, position, stated)
        };
        let wanted = params.partial_result_params;
        match self.ask_in_book(text_document.uri, answer).await? {
            Some(pieces) => {
                listed(&self.client, pieces, wanted, |piece| json!(piece)).await.map(places::in_order).map(Some)
            }
            None => Ok(None),
        }
    }

    async fn document_highlight(&self, params: DocumentHighlightParams) -> Result<Option<Vec<DocumentHighlight>>> {
        self.ask_at(params.text_document_position_params, places::highlights).await
    }

    async fn prepare_rename(&self, params: TextDocumentPositionParams) -> Result<Option<PrepareRenameResponse>> {
        let TextDocumentPositionParams { text_document, position } = params;
        let answer = move |document: &Opened, shelf: &Shelf<'_>, editor: &Editor| {
            rename::prepare(document, shelf, editor, position)
        };
        self.ask_in_book(text_document.uri, answer).await?
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let new = params.new_name;
        let answer = move |document: &Opened, shelf: &Shelf<'_>, editor: &Editor| {
            rename::answer(document, shelf, editor, position, &new)
        };
        finished(self.ask_in_book(text_document.uri, answer).await?).await?
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
        self.search(None, move |shelves, editor| Some(search::answer(shelves, editor, &params.query))).await
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        let at = params.text_document_position_params;
        let uri = at.text_document.uri.clone();
        self.search(Some(uri), move |shelves, editor| calls::prepare(shelves, editor, &at)).await?
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        let item = params.item;
        let pieces = self.search(None, move |shelves, editor| calls::incoming(shelves, editor, &item)).await?;
        listed(&self.client, pieces, params.partial_result_params, |piece| json!(piece)).await.map(Some)
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        let item = params.item;
        finished(self.search(None, move |shelves, editor| calls::outgoing(shelves, editor, &item)).await?)
            .await
            .map(Some)
    }
}

fn addresses(folders: Vec<WorkspaceFolder>) -> Vec<Url> {
    folders.into_iter().map(|folder| folder.uri).collect()
}

/// Has the rest of an answer worked out beside the desk, which goes on with its mail.
async fn finished<T: Send + 'static>(later: Later<T>) -> Result<T> {
    tokio::task::spawn_blocking(later).await.map_err(|_| Error::internal_error())
}
