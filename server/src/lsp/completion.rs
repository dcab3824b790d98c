//! What could be written at a place.

use serde::{Deserialize, Serialize};
use tower_lsp::lsp_types::{
    CompletionContext, CompletionItem, CompletionItemKind, CompletionItemLabelDetails, CompletionList,
    CompletionResponse, CompletionTextEdit, CompletionTriggerKind, Documentation, InsertTextFormat, MarkupContent,
    MarkupKind, Position, TextEdit, Url,
};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::placed::Placed;
use crate::assist::{self, Asked, Proposal, ProposalKind, Topic};
use crate::workspace::sheet_help::{self, Word};

/// The signs behind which an editor asks by itself, letters aside. A blank is one: behind it the names follow that a step needs.
pub const TRIGGERS: [&str; 2] = ["[", " "];

/// What an item carries, so that more can be said of it once it is looked at.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Data {
    /// The document that it was offered for.
    pub uri: Url,
    topic: Subject,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Subject {
    Food(String),
    Unit(String),
    Check(String),
}

/// What could be written at `position`, the likeliest first.
pub fn answer(
    document: &Opened,
    editor: &Editor,
    position: Position,
    context: Option<&CompletionContext>,
) -> Option<CompletionResponse> {
    let offset = Converter::new(document, editor).offset(position);
    let Some(manuscript) = document.manuscript() else { return Some(in_sheet(document, editor, offset)) };
    let (start, recipe, findings) =
        manuscript.findings_by_recipe().take_while(|(start, ..)| *start <= offset).last()?;
    let blank = context.is_some_and(|context| {
        context.trigger_kind == CompletionTriggerKind::TRIGGER_CHARACTER
            && context.trigger_character.as_deref() == Some(" ")
    });
    let proposals = assist::completion(&Asked {
        recipe,
        house: manuscript.house(),
        findings,
        titles: manuscript.titles(),
        offset: offset.saturating_sub(start),
        wanted: !blank,
    });
    let place = Placed::new(document, start, recipe, editor);
    let items = proposals.items.into_iter().enumerate();
    let items = items.map(|(rank, proposal)| item(document, editor, &place, rank, proposal)).collect();
    Some(CompletionResponse::List(CompletionList { is_incomplete: proposals.more, items }))
}

/// What could be written into a style sheet, with all that can be said of it.
fn in_sheet(document: &Opened, editor: &Editor, offset: usize) -> CompletionResponse {
    let converter = Converter::new(document, editor);
    let words = sheet_help::words(&document.text().to_string(), offset).into_iter().enumerate();
    let item = |(rank, word): (usize, Word)| CompletionItem {
        label: word.label,
        kind: Some(if word.is_key { CompletionItemKind::PROPERTY } else { CompletionItemKind::ENUM_MEMBER }),
        documentation: Some(documentation(editor, word.says)),
        sort_text: Some(format!("{rank:04}")),
        text_edit: Some(CompletionTextEdit::Edit(TextEdit::new(converter.range(word.span), word.text))),
        ..CompletionItem::default()
    };
    CompletionResponse::Array(words.map(item).collect())
}

fn documentation(editor: &Editor, value: String) -> Documentation {
    let kind = if editor.markdown_completion { MarkupKind::Markdown } else { MarkupKind::PlainText };
    Documentation::MarkupContent(MarkupContent { kind, value })
}

fn item(document: &Opened, editor: &Editor, place: &Placed<'_>, rank: usize, proposal: Proposal) -> CompletionItem {
    let snippet = proposal.snippet.filter(|_| editor.snippets);
    let format = if snippet.is_some() { InsertTextFormat::SNIPPET } else { InsertTextFormat::PLAIN_TEXT };
    let detail = Some(proposal.detail).filter(|detail| !detail.is_empty());
    let beside = detail.clone().filter(|_| editor.label_details);
    let data = proposal.topic.map(|topic| Data { uri: document.uri().clone(), topic: subject(topic) });
    CompletionItem {
        label: proposal.label,
        label_details: beside
            .map(|description| CompletionItemLabelDetails { detail: None, description: Some(description) }),
        kind: Some(item_kind(proposal.kind)),
        detail,
        // Editors sort by this text; the order has been thought of.
        sort_text: Some(format!("{rank:04}")),
        filter_text: Some(proposal.filter),
        insert_text_format: Some(format),
        text_edit: Some(CompletionTextEdit::Edit(TextEdit::new(
            place.range(proposal.span),
            snippet.unwrap_or(proposal.text),
        ))),
        data: data.and_then(|data| serde_json::to_value(data).ok()),
        ..CompletionItem::default()
    }
}

/// The item with all that can be said of it.
pub fn resolved(document: &Opened, editor: &Editor, data: Data, item: CompletionItem) -> CompletionItem {
    let topic = match data.topic {
        Subject::Food(name) => Topic::Food(name),
        Subject::Unit(name) => Topic::Unit(name),
        Subject::Check(code) => Topic::Check(code),
    };
    let house = document.manuscript().map(|manuscript| manuscript.house());
    let said = house.and_then(|house| assist::explain(house, &topic));
    CompletionItem { documentation: said.map(|said| documentation(editor, said)), ..item }
}

fn subject(topic: Topic) -> Subject {
    match topic {
        Topic::Food(name) => Subject::Food(name),
        Topic::Unit(name) => Subject::Unit(name),
        Topic::Check(code) => Subject::Check(code),
    }
}

fn item_kind(kind: ProposalKind) -> CompletionItemKind {
    match kind {
        ProposalKind::Ingredient => CompletionItemKind::FIELD,
        ProposalKind::Result => CompletionItemKind::VARIABLE,
        ProposalKind::Group => CompletionItemKind::MODULE,
        ProposalKind::Equipment => CompletionItemKind::STRUCT,
        ProposalKind::Food => CompletionItemKind::VALUE,
        ProposalKind::Unit => CompletionItemKind::UNIT,
        ProposalKind::Header => CompletionItemKind::PROPERTY,
        ProposalKind::Section => CompletionItemKind::KEYWORD,
        ProposalKind::Title => CompletionItemKind::CLASS,
        ProposalKind::Check => CompletionItemKind::CONSTANT,
    }
}
