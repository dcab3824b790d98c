//! Quick fixes at a place, what else can be done there, and all safe fixes of a document at once.

use std::collections::HashMap;

use tower_lsp::lsp_types::{
    CodeAction, CodeActionKind, CodeActionOrCommand, CodeActionParams, CodeActionResponse, DocumentChanges, OneOf,
    OptionalVersionedTextDocumentIdentifier, TextDocumentEdit, TextEdit, WorkspaceEdit,
};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::{Finding, Fix, Opened};
use crate::text::{Edit, Span};

/// The kind of the action that applies every safe fix: what an editor runs on saving.
pub const FIX_ALL: CodeActionKind = CodeActionKind::new("source.fixAll.tamis");

/// The actions for what `params` asks.
pub fn answer(document: &Opened, editor: &Editor, params: &CodeActionParams) -> CodeActionResponse {
    let actions = actions(document, editor, &document.findings(), params);
    actions.into_iter().map(CodeActionOrCommand::CodeAction).collect()
}

fn actions(document: &Opened, editor: &Editor, findings: &[Finding], params: &CodeActionParams) -> Vec<CodeAction> {
    let wanted = |kind: &CodeActionKind| {
        params.context.only.as_ref().is_none_or(|only| only.iter().any(|asked| covers(asked, kind)))
    };
    let converter = Converter::new(document, editor);
    let asked = converter.span(params.range);
    let mut actions = Vec::new();
    if wanted(&CodeActionKind::QUICKFIX) {
        for finding in findings.iter().filter(|finding| meet(finding.span, asked)) {
            actions.extend(quick_fixes(document, editor, finding));
        }
    }
    if wanted(&CodeActionKind::REFACTOR_REWRITE) {
        actions.extend(rewrites(document, editor, asked));
    }
    if wanted(&FIX_ALL) {
        actions.extend(fix_all(document, editor, findings));
    }
    actions
}

/// Whether a kind that was asked for takes in `kind`: the same, or one above it.
fn covers(asked: &CodeActionKind, kind: &CodeActionKind) -> bool {
    kind.as_str()
        .strip_prefix(asked.as_str())
        .is_some_and(|rest| rest.is_empty() || rest.starts_with('.') || asked == &CodeActionKind::EMPTY)
}

/// Whether two spans share a byte, or a cursor at the edge of one touches the other.
fn meet(one: Span, other: Span) -> bool {
    one.start <= other.end && other.start <= one.end
}

fn quick_fixes(document: &Opened, editor: &Editor, finding: &Finding) -> Vec<CodeAction> {
    let converter = Converter::new(document, editor);
    // One of them is what an editor applies where nobody chooses: one that needs no decision, else the likeliest.
    let preferred = finding.fixes.iter().position(|fix| fix.safe).unwrap_or_default();
    let action = |(nth, fix): (usize, &Fix)| CodeAction {
        title: fix.title.clone(),
        kind: Some(CodeActionKind::QUICKFIX),
        diagnostics: Some(vec![converter.diagnostic(finding)]),
        edit: Some(workspace_edit(document, editor, converter.text_edits(&fix.edits))),
        is_preferred: Some(nth == preferred),
        ..Default::default()
    };
    finding.fixes.iter().enumerate().map(action).collect()
}

/// What can be done with the lines asked about, or with their recipe, that mends nothing.
fn rewrites(document: &Opened, editor: &Editor, asked: Span) -> Vec<CodeAction> {
    let converter = Converter::new(document, editor);
    let action = |(title, edits): (String, Vec<Edit>)| CodeAction {
        title,
        kind: Some(CodeActionKind::REFACTOR_REWRITE),
        edit: Some(workspace_edit(document, editor, converter.text_edits(&edits))),
        ..Default::default()
    };
    document.actions(asked).into_iter().map(action).collect()
}

/// Every safe fix that does not get into the way of one before it; the rest is for the next time.
fn fix_all(document: &Opened, editor: &Editor, findings: &[Finding]) -> Option<CodeAction> {
    let mut taken: Vec<&Edit> = Vec::new();
    for fix in findings.iter().filter_map(|finding| finding.fixes.iter().find(|fix| fix.safe)) {
        if !fix.edits.iter().any(|edit| taken.iter().any(|other| meet(edit.span, other.span))) {
            taken.extend(&fix.edits);
        }
    }
    taken.sort_by_key(|edit| edit.span);
    let edits = Converter::new(document, editor).text_edits(taken);
    (!edits.is_empty()).then(|| CodeAction {
        title: "Mend everything that needs no decision".to_string(),
        kind: Some(FIX_ALL),
        edit: Some(workspace_edit(document, editor, edits)),
        ..Default::default()
    })
}

/// Edits of the document; of this very version of it, where the editor can be told so.
pub fn workspace_edit(document: &Opened, editor: &Editor, edits: Vec<TextEdit>) -> WorkspaceEdit {
    let uri = document.uri().clone();
    if !editor.versioned_edits {
        return WorkspaceEdit::new(HashMap::from([(uri, edits)]));
    }
    let text_document = OptionalVersionedTextDocumentIdentifier { uri, version: Some(document.version()) };
    let edits = edits.into_iter().map(OneOf::Left).collect();
    let changes = DocumentChanges::Edits(vec![TextDocumentEdit { text_document, edits }]);
    WorkspaceEdit { document_changes: Some(changes), ..Default::default() }
}

#[cfg(test)]
mod tests {
    use crate::checks::Certainty;
    use tower_lsp::lsp_types::{
        CodeActionContext, Diagnostic, DiagnosticTag, Position, Range, TextDocumentIdentifier, Url,
    };

    use super::super::documents::Severity;
    use super::*;

    const TEXT: &str = "Ingredients:\r\n- 🥚 eggs\r\n- salt\r\n";

    fn document() -> Opened {
        Opened::new(Url::parse("untitled:Cake").unwrap(), 7, TEXT, Default::default())
    }

    fn span(word: &str) -> Span {
        let start = TEXT.find(word).unwrap();
        Span::new(start, start + word.len())
    }

    fn finding(word: &str, fixes: Vec<Fix>) -> Finding {
        Finding {
            code: "ingredient-unused",
            severity: Severity::Error,
            certainty: Certainty::Sure,
            span: span(word),
            message: format!("no step uses the {word}"),
            related: vec![(span("Ingredients"), "in this list".to_string())],
            fixes,
        }
    }

    fn fix(title: &str, safe: bool, edits: Vec<Edit>) -> Fix {
        Fix { title: title.to_string(), edits, safe }
    }

    fn findings() -> Vec<Finding> {
        let after = Edit::insert(span("eggs").end, " (2)\nor more");
        vec![
            finding(
                "eggs",
                vec![fix("Say how many", true, vec![after]), fix("Drop", false, vec![Edit::delete(span("eggs"))])],
            ),
            finding("- salt", vec![fix("Mark", true, vec![Edit::replace(span("salt"), "[salt]")])]),
            finding("salt", vec![fix("Shout", true, vec![Edit::replace(span("salt"), "SALT")])]),
            finding("Ingredients", vec![]),
        ]
    }

    /// The titles offered for a selection from line and column to line and column, in UTF-16.
    fn offered(from: (u32, u32), to: (u32, u32), only: Option<&str>) -> Vec<String> {
        let params = params(Range::new(Position::new(from.0, from.1), Position::new(to.0, to.1)), only);
        let actions = actions(&document(), &Editor::default(), &findings(), &params);
        actions.into_iter().map(|action| action.title).collect()
    }

    fn params(range: Range, only: Option<&str>) -> CodeActionParams {
        let only = only.map(|kind| vec![CodeActionKind::from(kind.to_string())]);
        CodeActionParams {
            text_document: TextDocumentIdentifier { uri: Url::parse("untitled:Cake").unwrap() },
            range,
            context: CodeActionContext { only, ..Default::default() },
            work_done_progress_params: Default::default(),
            partial_result_params: Default::default(),
        }
    }

    #[test]
    fn fixes_are_offered_where_the_finding_is() {
        let all = "Mend everything that needs no decision";
        for (from, to, only, titles) in [
            ((1, 6), (1, 6), None, vec!["Say how many", "Drop", all]),
            ((1, 9), (1, 9), Some("quickfix"), vec!["Say how many", "Drop"]),
            ((1, 4), (1, 4), Some("quickfix"), vec![]),
            ((2, 0), (2, 0), Some("quickfix"), vec!["Mark"]),
            ((1, 0), (3, 0), Some(""), vec!["Say how many", "Drop", "Mark", "Shout", all]),
            ((0, 0), (0, 0), Some("source"), vec![all]),
            ((0, 0), (0, 0), Some("source.fixAll"), vec![all]),
            ((0, 0), (0, 0), Some("source.fixAll.tamis"), vec![all]),
            ((1, 0), (3, 0), Some("source.fixAll.other"), vec![]),
            ((1, 0), (3, 0), Some("quick"), vec![]),
            ((1, 0), (3, 0), Some("refactor"), vec![]),
        ] {
            assert_eq!(offered(from, to, only), titles, "{from:?} {to:?} {only:?}");
        }
    }

    #[test]
    fn a_fix_says_what_it_mends_and_of_which_version() {
        let editor =
            Editor { related_information: true, unnecessary_tag: true, versioned_edits: true, ..Editor::default() };
        let place = Position::new(1, 6);
        let actions = actions(&document(), &editor, &findings(), &params(Range::new(place, place), Some("quickfix")));
        let [first, second] = &actions[..] else { panic!("two fixes") };
        assert_eq!((first.is_preferred, second.is_preferred), (Some(true), Some(false)));

        let Diagnostic { range, tags, related_information, data, .. } = &first.diagnostics.as_ref().unwrap()[0];
        assert_eq!(*range, Range::new(Position::new(1, 5), Position::new(1, 9)), "behind an emoji");
        assert_eq!(*tags, Some(vec![DiagnosticTag::UNNECESSARY]));
        assert_eq!(related_information.as_ref().unwrap()[0].message, "in this list");
        assert_eq!(data.as_ref().unwrap()["fixes"][1], "Drop");

        let Some(DocumentChanges::Edits(edits)) = &first.edit.as_ref().unwrap().document_changes else {
            panic!("edits")
        };
        assert_eq!(edits[0].text_document.version, Some(7));
        let end = Position::new(1, 9);
        assert_eq!(edits[0].edits, [OneOf::Left(TextEdit::new(Range::new(end, end), " (2)\r\nor more".to_string()))]);
    }

    #[test]
    fn fixes_that_would_get_into_each_others_way_are_not_applied_together() {
        let anywhere = Range::default();
        let actions = actions(&document(), &Editor::default(), &findings(), &params(anywhere, Some("source.fixAll")));
        let changes = actions[0].edit.as_ref().unwrap().changes.as_ref().unwrap();
        let texts: Vec<_> = changes.values().flatten().map(|edit| edit.new_text.as_str()).collect();
        assert_eq!(texts, [" (2)\r\nor more", "[salt]"]);
    }
}
