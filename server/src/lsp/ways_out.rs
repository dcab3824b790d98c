//! What stands behind the fixes of a finding: to let it stand, and what the house may decide for the whole book.

use std::collections::BTreeSet;

use tower_lsp::jsonrpc::{Error, ErrorCode, Result};
use tower_lsp::lsp_types::{
    CodeAction, CodeActionKind, CreateFile, CreateFileOptions, DocumentChangeOperation, DocumentChanges, OneOf,
    OptionalVersionedTextDocumentIdentifier, ResourceOp, TextDocumentEdit, WorkspaceEdit,
};

use super::actions::{Source, later, workspace_edit, workspace_edits};
use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::{Finding, Opened};
use super::rename::REQUEST_FAILED;
use super::shelf::Keeper;
use crate::assist::{self, Leads, WayOut};
use crate::book::Book;
use crate::book::sheet::{Decision, decide};
use crate::text::Edit;
use crate::workspace::book::SHEET;
use crate::workspace::read::read;
use crate::workspace::walk::Source as File;

/// The ways out of these findings, those that several share once. None of them is what an editor would do unasked.
pub fn answer(
    document: &Opened,
    keeper: Option<&Keeper<'_>>,
    editor: &Editor,
    findings: &[&Finding],
) -> Vec<CodeAction> {
    let Some(manuscript) = document.manuscript() else { return Vec::new() };
    let converter = Converter::new(document, editor);
    let keeper = keeper.filter(|keeper| !matches!(keeper, Keeper::New(_)) || editor.creates_files);
    let (mut here, mut decided, mut taken) = (Vec::new(), Vec::new(), BTreeSet::new());
    for finding in findings {
        let Some((start, recipe)) = manuscript.recipe_at(finding.span.start) else { continue };
        for WayOut { title, leads } in assist::ways_out(recipe, finding.code, finding.span.start - start) {
            let action = CodeAction {
                title,
                kind: Some(CodeActionKind::QUICKFIX),
                diagnostics: Some(vec![converter.diagnostic(finding)]),
                ..Default::default()
            };
            match leads {
                Leads::Here(edit) => {
                    let edit = edit.shifted(start);
                    if taken.insert(edit.clone()) {
                        let edits = converter.text_edits([&edit]);
                        here.push(CodeAction { edit: Some(workspace_edit(document, editor, edits)), ..action });
                    }
                }
                Leads::ToTheSheet(decision) => {
                    let action = keeper.and_then(|keeper| keeper.action(document, editor, decision, action));
                    decided.extend(action.filter(|action| {
                        let known = |other: &CodeAction| other.title == action.title;
                        !decided.iter().any(known)
                    }));
                }
            }
        }
    }
    here.extend(decided);
    here
}

impl Keeper<'_> {
    /// The action that writes a decision down; without its edit where the editor asks for that when it is chosen.
    fn action(&self, document: &Opened, editor: &Editor, decision: Decision, action: CodeAction) -> Option<CodeAction> {
        let place = if matches!(self, Keeper::New(_)) { format!("in a new {SHEET}") } else { format!("in {SHEET}") };
        let action = CodeAction { title: format!("{}, {place}", action.title), ..action };
        if editor.resolves_actions {
            return Some(CodeAction { data: later(document, Source::Decide(decision)), ..action });
        }
        let edit = self.decided(editor, &decision).ok()?;
        Some(CodeAction { edit: Some(edit), ..action })
    }

    /// The edit that writes a decision into the sheet, or makes a sheet that says so.
    ///
    /// # Errors
    /// Where the sheet cannot be read.
    pub fn decided(&self, editor: &Editor, decision: &Decision) -> Result<WorkspaceEdit> {
        let in_sheet = |sheet: &Opened, version: Option<i32>| {
            let text = sheet.text().to_string();
            let edits = decide(&text, decision).ok_or_else(|| refused("it is no sound TOML"))?;
            let edits = Converter::new(sheet, editor).text_edits(&edits);
            let document = OptionalVersionedTextDocumentIdentifier { uri: sheet.uri().clone(), version };
            Ok(workspace_edits(editor, vec![(document, edits)]))
        };
        match self {
            Keeper::Open(sheet) => in_sheet(sheet, Some(sheet.version())),
            Keeper::Shut(path, uri) => {
                let text = read(&File::File(path.clone())).map_err(|trouble| refused(&trouble.fault.to_string()))?;
                in_sheet(&Opened::new(uri.clone(), 0, &text, Book::default()), None)
            }
            Keeper::New(uri) => {
                let edits = decide("", decision).unwrap_or_default();
                let sheet = Opened::new(uri.clone(), 0, "", Book::default());
                let create = CreateFile {
                    uri: uri.clone(),
                    options: Some(CreateFileOptions { overwrite: Some(false), ignore_if_exists: Some(true) }),
                    annotation_id: None,
                };
                let edits: Vec<&Edit> = edits.iter().collect();
                let edit = TextDocumentEdit {
                    text_document: OptionalVersionedTextDocumentIdentifier { uri: uri.clone(), version: None },
                    edits: Converter::new(&sheet, editor).text_edits(edits).into_iter().map(OneOf::Left).collect(),
                };
                let operations =
                    vec![DocumentChangeOperation::Op(ResourceOp::Create(create)), DocumentChangeOperation::Edit(edit)];
                let changes = DocumentChanges::Operations(operations);
                Ok(WorkspaceEdit { document_changes: Some(changes), ..Default::default() })
            }
        }
    }
}

/// Why nothing is written into the sheet.
fn refused(reason: &str) -> Error {
    let mut error = Error::new(ErrorCode::ServerError(REQUEST_FAILED));
    error.message = format!("{SHEET} is left as it is: {reason}").into();
    error
}
