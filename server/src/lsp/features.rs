//! What the features that answer a question of the editor are offered with.

use super::{commands, completion, formatting, tokens};
use tower_lsp::lsp_types::{
    CallHierarchyServerCapability, CodeLensOptions, CompletionOptions, DocumentLinkOptions,
    DocumentOnTypeFormattingOptions, FoldingRangeProviderCapability, InlayHintOptions, InlayHintServerCapabilities,
    OneOf, RenameOptions, SelectionRangeProviderCapability, SemanticTokensFullOptions, SemanticTokensOptions,
    ServerCapabilities, TypeDefinitionProviderCapability,
};

/// Adds them to what is offered.
pub fn offer(capabilities: ServerCapabilities) -> ServerCapabilities {
    ServerCapabilities {
        document_symbol_provider: Some(OneOf::Left(true)),
        folding_range_provider: Some(FoldingRangeProviderCapability::Simple(true)),
        selection_range_provider: Some(SelectionRangeProviderCapability::Simple(true)),
        document_link_provider: Some(DocumentLinkOptions {
            resolve_provider: Some(false),
            work_done_progress_options: Default::default(),
        }),
        completion_provider: Some(CompletionOptions {
            resolve_provider: Some(true),
            trigger_characters: Some(completion::TRIGGERS.map(str::to_owned).to_vec()),
            ..CompletionOptions::default()
        }),
        definition_provider: Some(OneOf::Left(true)),
        type_definition_provider: Some(TypeDefinitionProviderCapability::Simple(true)),
        references_provider: Some(OneOf::Left(true)),
        document_highlight_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: Default::default(),
        })),
        semantic_tokens_provider: Some(
            SemanticTokensOptions {
                legend: tokens::legend(),
                range: Some(true),
                full: Some(SemanticTokensFullOptions::Delta { delta: Some(true) }),
                ..SemanticTokensOptions::default()
            }
            .into(),
        ),
        document_formatting_provider: Some(OneOf::Left(true)),
        document_range_formatting_provider: Some(OneOf::Left(true)),
        document_on_type_formatting_provider: Some(DocumentOnTypeFormattingOptions {
            first_trigger_character: formatting::FIRST_TYPED.to_owned(),
            more_trigger_character: Some(formatting::ALSO_TYPED.map(str::to_owned).to_vec()),
        }),
        inlay_hint_provider: Some(OneOf::Right(InlayHintServerCapabilities::Options(InlayHintOptions {
            resolve_provider: Some(true),
            ..InlayHintOptions::default()
        }))),
        code_lens_provider: Some(CodeLensOptions { resolve_provider: Some(false) }),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        call_hierarchy_provider: Some(CallHierarchyServerCapability::Simple(true)),
        execute_command_provider: Some(commands::offered()),
        ..capabilities
    }
}
