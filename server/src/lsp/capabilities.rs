//! What the editor can take, and what it is offered.

use serde_json::Value;
use tower_lsp::lsp_types::{
    ClientCapabilities, CodeActionKind, CodeActionOptions, CodeActionProviderCapability, DiagnosticOptions,
    DiagnosticServerCapabilities, DiagnosticTag, FileOperationFilter, FileOperationPattern, FileOperationPatternKind,
    FileOperationRegistrationOptions, HoverProviderCapability, InitializeResult, MarkupKind, OneOf,
    PositionEncodingKind, ResourceOperationKind, ServerCapabilities, ServerInfo, TextDocumentSyncCapability,
    TextDocumentSyncKind, TextDocumentSyncOptions, TextDocumentSyncSaveOptions, Url,
    WorkspaceFileOperationsServerCapabilities, WorkspaceFoldersServerCapabilities, WorkspaceServerCapabilities,
};

use super::settings::Settings;
use super::{actions, features};
use crate::checks;
use crate::text::Encoding;
use crate::workspace::book::SHEET;
use crate::workspace::walk::endings;

/// What the editor at the other end can take. A client that says nothing can take little.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Editor {
    /// What its columns count.
    pub encoding: Encoding,
    /// Whether a hover may be Markdown.
    pub markdown_hover: bool,
    /// Whether a diagnostic may point to further places.
    pub related_information: bool,
    /// Whether a diagnostic may be marked as being about something unnecessary.
    pub unnecessary_tag: bool,
    /// The address of the page of a check, with `{code}` in the place of its code, where it says one that it can open.
    pub pages: Option<String>,
    /// Whether it says that it asks for diagnostics by itself.
    pub pulls_diagnostics: bool,
    /// Whether it tells of files that change, once it has been asked to.
    pub watches_files: bool,
    /// What its user wants to see.
    pub settings: Settings,
    /// Whether it answers when it is asked for its configuration.
    pub tells_configuration: bool,
    /// Whether it asks for hints again when it is told to.
    pub refreshes_hints: bool,
    /// Whether it asks for lenses again when it is told to.
    pub refreshes_lenses: bool,
    /// Whether what is said of a completion may be Markdown.
    pub markdown_completion: bool,
    /// Whether a completion may have places to fill in.
    pub snippets: bool,
    /// Whether a few words may stand beside the label of a completion.
    pub label_details: bool,
    /// Whether the answer to where something comes from may say more than a place.
    pub definition_links: bool,
    /// Whether the symbols of a document may be a tree.
    pub symbol_trees: bool,
    /// Whether it asks for the edits of an action once that has been chosen.
    pub resolves_actions: bool,
    /// Whether an edit may say which version of a document it is meant for.
    pub versioned_edits: bool,
    /// Whether it can be told to make edits.
    pub applies_edits: bool,
    /// Whether an edit may make a new file.
    pub creates_files: bool,
    /// Whether it shows how far long work is.
    pub shows_progress: bool,
}

impl Editor {
    /// Reads what a client says of itself, and what its user has it say besides.
    pub fn new(client: &ClientCapabilities, options: Option<&Value>) -> Self {
        let document = client.text_document.as_ref();
        let diagnostics = document.and_then(|document| document.publish_diagnostics.as_ref());
        let hover_formats = document.and_then(|document| document.hover.as_ref()?.content_format.as_ref());
        let completion = document.and_then(|document| document.completion.as_ref()?.completion_item.as_ref());
        let completion_formats = completion.and_then(|item| item.documentation_format.as_ref());
        let tags = diagnostics.and_then(|diagnostics| diagnostics.tag_support.as_ref());
        let actions = document.and_then(|document| document.code_action.as_ref()?.resolve_support.as_ref());
        let workspace = client.workspace.as_ref();
        let edits = workspace.and_then(|workspace| workspace.workspace_edit.as_ref());
        let watched = workspace.and_then(|workspace| workspace.did_change_watched_files.as_ref());
        Editor {
            encoding: encoding(client),
            markdown_hover: hover_formats.is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            related_information: diagnostics
                .and_then(|diagnostics| diagnostics.related_information)
                .unwrap_or_default(),
            unnecessary_tag: tags.is_some_and(|tags| tags.value_set.contains(&DiagnosticTag::UNNECESSARY)),
            pages: diagnostics
                .and_then(|diagnostics| diagnostics.code_description_support)
                .unwrap_or_default()
                .then(|| options?.get("pages")?.as_str().map(str::to_owned))
                .flatten(),
            pulls_diagnostics: document.is_some_and(|document| document.diagnostic.is_some()),
            watches_files: watched.and_then(|watched| watched.dynamic_registration).unwrap_or_default(),
            settings: options.and_then(Settings::read).unwrap_or_default(),
            tells_configuration: workspace.and_then(|workspace| workspace.configuration).unwrap_or_default(),
            refreshes_hints: workspace
                .and_then(|workspace| workspace.inlay_hint.as_ref()?.refresh_support)
                .unwrap_or_default(),
            refreshes_lenses: workspace
                .and_then(|workspace| workspace.code_lens.as_ref()?.refresh_support)
                .unwrap_or_default(),
            markdown_completion: completion_formats.is_some_and(|formats| formats.contains(&MarkupKind::Markdown)),
            snippets: completion.and_then(|item| item.snippet_support).unwrap_or_default(),
            label_details: completion.and_then(|item| item.label_details_support).unwrap_or_default(),
            definition_links: document
                .and_then(|document| document.definition.as_ref()?.link_support)
                .unwrap_or_default(),
            symbol_trees: document
                .and_then(|document| document.document_symbol.as_ref()?.hierarchical_document_symbol_support)
                .unwrap_or_default(),
            resolves_actions: actions.is_some_and(|resolve| resolve.properties.iter().any(|name| name == "edit")),
            versioned_edits: edits.and_then(|edits| edits.document_changes).unwrap_or_default(),
            applies_edits: workspace.and_then(|workspace| workspace.apply_edit).unwrap_or_default(),
            creates_files: edits.is_some_and(|edits| {
                let operations = edits.resource_operations.as_ref();
                edits.document_changes == Some(true)
                    && operations.is_some_and(|operations| operations.contains(&ResourceOperationKind::Create))
            }),
            shows_progress: client.window.as_ref().and_then(|window| window.work_done_progress).unwrap_or_default(),
        }
    }

    /// Where the page of a check can be opened. There is none of what is no check.
    pub fn page_of(&self, code: &str) -> Option<Url> {
        let pages = self.pages.as_ref().filter(|_| checks::check(code).is_some())?;
        Url::parse(&pages.replace("{code}", code)).ok()
    }
}

/// The first encoding in the client's order of preference that is known; UTF-16 is what every client speaks.
fn encoding(client: &ClientCapabilities) -> Encoding {
    let offered = client.general.as_ref().and_then(|general| general.position_encodings.as_ref());
    offered.into_iter().flatten().find_map(known).unwrap_or_default()
}

fn known(kind: &PositionEncodingKind) -> Option<Encoding> {
    match kind.as_str() {
        "utf-8" => Some(Encoding::Utf8),
        "utf-16" => Some(Encoding::Utf16),
        "utf-32" => Some(Encoding::Utf32),
        _ => None,
    }
}

/// What `editor` is told in answer to `initialize`.
pub fn offer(editor: &Editor) -> InitializeResult {
    let encoding = match editor.encoding {
        Encoding::Utf8 => PositionEncodingKind::UTF8,
        Encoding::Utf16 => PositionEncodingKind::UTF16,
        Encoding::Utf32 => PositionEncodingKind::UTF32,
    };
    let capabilities = ServerCapabilities {
        position_encoding: Some(encoding),
        text_document_sync: Some(TextDocumentSyncCapability::Options(TextDocumentSyncOptions {
            open_close: Some(true),
            change: Some(TextDocumentSyncKind::INCREMENTAL),
            save: Some(TextDocumentSyncSaveOptions::Supported(true)),
            ..Default::default()
        })),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        code_action_provider: Some(CodeActionProviderCapability::Options(CodeActionOptions {
            code_action_kinds: Some(vec![
                CodeActionKind::QUICKFIX,
                CodeActionKind::REFACTOR_REWRITE,
                actions::FIX_ALL,
                actions::ORGANIZE,
            ]),
            resolve_provider: Some(true),
            ..Default::default()
        })),
        diagnostic_provider: editor.pulls_diagnostics.then(|| {
            DiagnosticServerCapabilities::Options(DiagnosticOptions {
                identifier: Some("tamis".into()),
                workspace_diagnostics: true,
                ..Default::default()
            })
        }),
        workspace: Some(WorkspaceServerCapabilities {
            workspace_folders: Some(WorkspaceFoldersServerCapabilities {
                supported: Some(true),
                change_notifications: Some(OneOf::Left(true)),
            }),
            file_operations: Some(file_operations()),
        }),
        ..Default::default()
    };
    let server_info = ServerInfo { name: "tamis".into(), version: Some(env!("CARGO_PKG_VERSION").into()) };
    let capabilities = features::offer(capabilities);
    InitializeResult { capabilities, server_info: Some(server_info) }
}

/// What it wants to hear of what its user does with files. It has nothing to edit beforehand: recipes refer to each other by their
/// titles, and no manuscript says the name of another's file.
fn file_operations() -> WorkspaceFileOperationsServerCapabilities {
    let filter = |glob: String, matches: FileOperationPatternKind| FileOperationFilter {
        scheme: Some("file".into()),
        pattern: FileOperationPattern { glob, matches: Some(matches), options: None },
    };
    let named = endings().map(|ending| filter(format!("**/*.{ending}"), FileOperationPatternKind::File));
    let others = [
        filter(format!("**/{SHEET}"), FileOperationPatternKind::File),
        filter("**".into(), FileOperationPatternKind::Folder),
    ];
    let filters = named.chain(others).collect();
    let wanted = Some(FileOperationRegistrationOptions { filters });
    WorkspaceFileOperationsServerCapabilities {
        did_create: wanted.clone(),
        did_rename: wanted.clone(),
        did_delete: wanted,
        ..Default::default()
    }
}
