//! Hints beside the text.

use serde::{Deserialize, Serialize};
use tower_lsp::lsp_types::{InlayHint, InlayHintKind, InlayHintLabel, InlayHintTooltip, Range, TextEdit, Url};

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::Opened;
use super::placed::Placed;
use crate::assist::{self, Hint, HintKind};
use crate::recipe::Recipe;
use crate::text::Span;
use crate::workspace::Manuscript;

/// What a hint carries, so that more can be said of it once it is looked at.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Data {
    /// The document that it was shown in.
    pub uri: Url,
    offset: usize,
    label: String,
}

/// The hints on the lines of `range`.
pub fn answer(document: &Opened, editor: &Editor, range: Range) -> Option<Vec<InlayHint>> {
    let asked = Converter::new(document, editor).span(range);
    let manuscript = document.manuscript()?;
    let mut out = Vec::new();
    for (start, recipe) in
        manuscript.recipes().filter(|(start, recipe)| *start <= asked.end && asked.start <= start + recipe.text.len())
    {
        let place = Placed::new(document, start, recipe, editor);
        let within = Span::new(asked.start.saturating_sub(start), asked.end - start);
        let hints = in_recipe(manuscript, editor, recipe, within);
        out.extend(hints.into_iter().map(|hint| shown(document, start, &place, hint)));
    }
    Some(out)
}

fn in_recipe(manuscript: &Manuscript, editor: &Editor, recipe: &Recipe, within: Span) -> Vec<Hint> {
    let wanted = &editor.settings.hints;
    assist::hints(recipe, manuscript.house(), within, |kind| match kind {
        HintKind::Weight => wanted.weights,
        HintKind::Share => wanted.shares,
        HintKind::Clock => wanted.clock,
    })
}

fn shown(document: &Opened, start: usize, place: &Placed<'_>, hint: Hint) -> InlayHint {
    let position = place.position(hint.offset);
    let data = Data { uri: document.uri().clone(), offset: start + hint.offset, label: hint.label.clone() };
    let kind = match hint.kind {
        HintKind::Weight => Some(InlayHintKind::TYPE),
        HintKind::Share => Some(InlayHintKind::PARAMETER),
        HintKind::Clock => None,
    };
    InlayHint {
        position,
        label: InlayHintLabel::String(hint.label),
        kind,
        text_edits: hint.insertion.map(|text| vec![TextEdit::new(Range::new(position, position), text)]),
        tooltip: None,
        padding_left: Some(true),
        padding_right: None,
        data: serde_json::to_value(data).ok(),
    }
}

/// The hint with what it rests on, as long as the text still gives it.
pub fn resolved(document: &Opened, editor: &Editor, data: &Data, hint: InlayHint) -> InlayHint {
    let reason = document.manuscript().and_then(|manuscript| {
        let (start, recipe) = manuscript.recipe_at(data.offset)?;
        let within = Span::new(0, recipe.text.len());
        let hints = in_recipe(manuscript, editor, recipe, within).into_iter();
        let mut same = hints.filter(|hint| start + hint.offset == data.offset && hint.label == data.label);
        same.next().map(|hint| hint.reason)
    });
    InlayHint { tooltip: reason.map(InlayHintTooltip::String), ..hint }
}
