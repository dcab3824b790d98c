//! Quick fixes at a place, what else can be done there, and all safe fixes of a document at once.

use serde::{Deserialize, Serialize};
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{
    CodeAction, CodeActionKind, CodeActionOrCommand, CodeActionParams, CodeActionResponse, DocumentChanges, OneOf,
    OptionalVersionedTextDocumentIdentifier, TextDocumentEdit, TextEdit, Url, WorkspaceEdit,
};

use super::capabilities::Editor;
use super::commands::today;
use super::convert::Converter;
use super::documents::{Finding, Fix, Opened};
use super::shelf::Keeper;
use super::ways_out;
use crate::assist;
use crate::book::sheet::Decision;
use crate::text::{Edit, Span};

/// The kind of the action that applies every safe fix: what an editor runs on saving.
pub const FIX_ALL: CodeActionKind = CodeActionKind::new("source.fixAll.tamis");

/// The kind of the action that puts the lists in the order of use.
pub const ORGANIZE: CodeActionKind = CodeActionKind::new("source.organize.tamis");

/// What takes a look at a whole document or at a style sheet. Where the editor asks once more for what it chose, the edits are
/// worked out then.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Source {
    /// Every safe fix.
    FixAll,
    /// Every list in the order of use.
    Organize,
    /// Something that the house decides.
    Decide(Decision),
}

/// What an action carries until it is chosen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Data {
    /// The document.
    pub uri: Url,
    /// The version of it that the action was offered for.
    pub version: i32,
    /// What would be done.
    pub source: Source,
}

/// The fixes of a finding that keep their word.
type Tried<'t> = &'t dyn Fn(&Finding) -> Vec<Fix>;

/// The actions for what `params` asks, with the fixes that keep their word; `keeper` is where decisions about the document go.
pub fn answer(
    document: &Opened,
    keeper: Option<&Keeper<'_>>,
    editor: &Editor,
    params: &CodeActionParams,
) -> CodeActionResponse {
    let tried = |finding: &Finding| document.fixes(finding);
    let actions = actions(document, keeper, editor, (&document.findings(), &tried), params);
    actions.into_iter().map(CodeActionOrCommand::CodeAction).collect()
}

fn actions(
    document: &Opened,
    keeper: Option<&Keeper<'_>>,
    editor: &Editor,
    (findings, tried): (&[Finding], Tried<'_>),
    params: &CodeActionParams,
) -> Vec<CodeAction> {
    let wanted = |kind: &CodeActionKind| {
        params.context.only.as_ref().is_none_or(|only| only.iter().any(|asked| covers(asked, kind)))
    };
    let converter = Converter::new(document, editor);
    let asked = converter.span(params.range);
    let mut actions = Vec::new();
    if wanted(&CodeActionKind::QUICKFIX) {
        let here: Vec<&Finding> = findings.iter().filter(|finding| finding.span.meets(asked)).collect();
        actions.extend(here.iter().flat_map(|finding| quick_fixes(document, editor, finding, &tried(finding))));
        // What mends comes first, of all findings.
        actions.extend(ways_out::answer(document, keeper, editor, &here));
    }
    if wanted(&CodeActionKind::REFACTOR_REWRITE) {
        actions.extend(rewrites(document, editor, asked));
    }
    if wanted(&FIX_ALL) && assist::can_mend(findings) {
        actions.extend(whole(document, editor, Source::FixAll, "Mend everything that needs no decision", FIX_ALL));
    }
    // Nobody who only moves the cursor wants every list of a book to be looked through.
    let asked_for = params.context.only.as_ref().is_some_and(|only| !only.contains(&CodeActionKind::EMPTY));
    if asked_for && wanted(&ORGANIZE) {
        actions.extend(whole(document, editor, Source::Organize, "Put every list in the order of use", ORGANIZE));
    }
    actions
}

/// Whether a kind that was asked for takes in `kind`: the same, or one above it.
fn covers(asked: &CodeActionKind, kind: &CodeActionKind) -> bool {
    kind.as_str()
        .strip_prefix(asked.as_str())
        .is_some_and(|rest| rest.is_empty() || rest.starts_with('.') || asked == &CodeActionKind::EMPTY)
}

fn quick_fixes(document: &Opened, editor: &Editor, finding: &Finding, fixes: &[Fix]) -> Vec<CodeAction> {
    let converter = Converter::new(document, editor);
    // One of them is what an editor applies where nobody chooses: one that needs no decision, else the likeliest.
    let preferred = fixes.iter().position(|fix| fix.safe).unwrap_or_default();
    let action = |(nth, fix): (usize, &Fix)| CodeAction {
        title: fix.title.clone(),
        kind: Some(CodeActionKind::QUICKFIX),
        diagnostics: Some(vec![converter.diagnostic(finding)]),
        edit: Some(workspace_edit(document, editor, converter.text_edits(&fix.edits))),
        is_preferred: Some(nth == preferred),
        ..Default::default()
    };
    fixes.iter().enumerate().map(action).collect()
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
    document.actions(asked, &today()).into_iter().map(action).collect()
}

/// An action on the whole document; without its edits where the editor asks for them when it is chosen.
fn whole(document: &Opened, editor: &Editor, source: Source, title: &str, kind: CodeActionKind) -> Option<CodeAction> {
    let action = CodeAction { title: title.to_owned(), kind: Some(kind), ..Default::default() };
    if editor.resolves_actions {
        return Some(CodeAction { data: later(document, source), ..action });
    }
    let edit = edits_of(document, None, editor, &source).ok().flatten()?;
    Some(CodeAction { edit: Some(edit), ..action })
}

/// What an action carries whose edits are worked out when it is chosen.
pub fn later(document: &Opened, source: Source) -> Option<serde_json::Value> {
    serde_json::to_value(Data { uri: document.uri().clone(), version: document.version(), source }).ok()
}

fn edits_of(
    document: &Opened,
    keeper: Option<&Keeper<'_>>,
    editor: &Editor,
    source: &Source,
) -> Result<Option<WorkspaceEdit>> {
    let Some(manuscript) = document.manuscript() else { return Ok(None) };
    let edits = match source {
        Source::FixAll => manuscript.mended().edits,
        Source::Organize => manuscript.organized(),
        Source::Decide(decision) => return keeper.map(|keeper| keeper.decided(editor, decision)).transpose(),
    };
    let edits = Converter::new(document, editor).text_edits(&edits);
    Ok((!edits.is_empty()).then(|| workspace_edit(document, editor, edits)))
}

/// The action with its edits. One that was offered for another version is refused: its place may have moved.
pub fn resolved(
    document: &Opened,
    keeper: Option<&Keeper<'_>>,
    editor: &Editor,
    data: &Data,
    action: CodeAction,
) -> Result<CodeAction> {
    if data.version != document.version() {
        return Err(Error::content_modified());
    }
    let edit = edits_of(document, keeper, editor, &data.source)?.unwrap_or_default();
    Ok(CodeAction { edit: Some(edit), ..action })
}

/// Edits of the document.
pub fn workspace_edit(document: &Opened, editor: &Editor, edits: Vec<TextEdit>) -> WorkspaceEdit {
    let uri = document.uri().clone();
    let version = Some(document.version());
    workspace_edits(editor, vec![(OptionalVersionedTextDocumentIdentifier { uri, version }, edits)])
}

/// Edits of several documents; of these very versions of them, where the editor can be told so.
pub fn workspace_edits(
    editor: &Editor,
    edits: Vec<(OptionalVersionedTextDocumentIdentifier, Vec<TextEdit>)>,
) -> WorkspaceEdit {
    if !editor.versioned_edits {
        return WorkspaceEdit::new(edits.into_iter().map(|(document, edits)| (document.uri, edits)).collect());
    }
    let of_one = |(text_document, edits): (_, Vec<TextEdit>)| TextDocumentEdit {
        text_document,
        edits: edits.into_iter().map(OneOf::Left).collect(),
    };
    let changes = DocumentChanges::Edits(edits.into_iter().map(of_one).collect());
    WorkspaceEdit { document_changes: Some(changes), ..Default::default() }
}

#[cfg(test)]
mod tests {
    use crate::checks::Certainty;
    use tower_lsp::lsp_types::{CodeActionContext, Diagnostic, DiagnosticTag, Position, Range, TextDocumentIdentifier};

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

    /// The findings are invented, and so are their fixes: there is nothing to try.
    fn all(finding: &Finding) -> Vec<Fix> {
        finding.fixes.clone()
    }

    /// The titles of the fixes offered for a selection from line and column to line and column, in UTF-16.
    fn offered(from: (u32, u32), to: (u32, u32), only: Option<&str>) -> Vec<String> {
        let params = params(Range::new(Position::new(from.0, from.1), Position::new(to.0, to.1)), only);
        let actions = actions(&document(), None, &Editor::default(), (&findings(), &all), &params);
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

    /// The way out that stands behind all fixes.
    const STAND: &str = "Let it stand here: stet ingredient-unused";

    #[test]
    fn fixes_are_offered_where_the_finding_is() {
        for (from, to, only, titles) in [
            ((1, 6), (1, 6), None, vec!["Say how many", "Drop", STAND]),
            ((1, 9), (1, 9), Some("quickfix"), vec!["Say how many", "Drop", STAND]),
            ((1, 4), (1, 4), Some("quickfix"), vec![]),
            ((2, 0), (2, 0), Some("quickfix"), vec!["Mark", STAND]),
            ((1, 0), (3, 0), Some(""), vec!["Say how many", "Drop", "Mark", "Shout", STAND, STAND, STAND]),
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
        let actions = actions(
            &document(),
            None,
            &editor,
            (&findings(), &all),
            &params(Range::new(place, place), Some("quickfix")),
        );
        let [first, second, _] = &actions[..] else { panic!("two fixes and a way out") };
        assert_eq!((first.is_preferred, second.is_preferred), (Some(true), Some(false)));

        let Diagnostic { range, tags, related_information, .. } = &first.diagnostics.as_ref().unwrap()[0];
        assert_eq!(*range, Range::new(Position::new(1, 5), Position::new(1, 9)), "behind an emoji");
        assert_eq!(*tags, Some(vec![DiagnosticTag::UNNECESSARY]));
        assert_eq!(related_information.as_ref().unwrap()[0].message, "in this list");
        assert_eq!(second.title, "Drop");

        let Some(DocumentChanges::Edits(edits)) = &first.edit.as_ref().unwrap().document_changes else {
            panic!("edits")
        };
        assert_eq!(edits[0].text_document.version, Some(7));
        let end = Position::new(1, 9);
        assert_eq!(edits[0].edits, [OneOf::Left(TextEdit::new(Range::new(end, end), " (2)\r\nor more".to_string()))]);
    }
}
