//! What stands at the start of a line: markers of items, numbers of steps, labels.

use super::{
    Place,
    gaps::{blanks_before, blanks_behind, one_space},
    may_number,
};
use crate::{
    assist::labels::label_of,
    checks::support::{lines, list, steps, words},
    recipe::{Recipe, SectionKind, Step},
    syntax::Tree,
    text::{Edit, Span},
};

/// Signs that an item, or a step without a number, may stand behind.
const MARKERS: [char; 5] = ['-', '•', '*', '·', '–'];

/// One space behind the marker of an item, and between its words.
pub fn items(recipe: &Recipe, _: &Tree, _: Place) -> Vec<Edit> {
    let listed: Vec<Span> = recipe.ingredients.iter().map(|line| line.span).collect();
    let tools: Vec<Span> = recipe.equipment.iter().map(|line| line.span).collect();
    let every = listed.iter().chain(&tools).chain(&recipe.tests);
    let mut edits: Vec<Edit> = every.filter_map(|item| behind_marker(recipe, *item)).collect();
    edits.extend(recipe.steps.iter().filter_map(|step| behind_number(recipe, step)));
    edits.extend(listed.iter().chain(&tools).flat_map(|item| between_words(recipe, *item)));
    edits
}

fn behind_marker(recipe: &Recipe, item: Span) -> Option<Edit> {
    let start = lines::start(&recipe.text, item.start);
    // Tests keep their marker in the line.
    let (start, lead) = match list::marker(recipe, item) {
        "" => (item.start, recipe.at(item)),
        lead => (start, lead),
    };
    let sign = lead.chars().next().filter(|sign| MARKERS.contains(sign))?;
    let blanks = blanks_behind(&recipe.text, start + sign.len_utf8());
    (!blanks.is_empty()).then(|| one_space(&recipe.text, blanks)).flatten()
}

fn behind_number(recipe: &Recipe, step: &Step) -> Option<Edit> {
    let Some(number) = step.number else { return behind_marker(recipe, step.span) };
    let end = number.start + recipe.at(number).trim_end().len();
    let blanks = Span::new(end, step.body.start);
    let blank = blanks.of(&recipe.text).chars().all(|letter| matches!(letter, ' ' | '\t'));
    (blank && !step.body.is_empty()).then(|| one_space(&recipe.text, blanks)).flatten()
}

/// Runs of blanks inside a line become one; those before a comment are how its author lines comments up.
fn between_words(recipe: &Recipe, item: Span) -> Vec<Edit> {
    let text = &*recipe.text;
    let mut edits = Vec::new();
    let mut at = item.start;
    while let Some(found) = text.get(at..item.end).and_then(|rest| rest.find([' ', '\t'])) {
        let blanks = blanks_behind(text, at + found);
        let behind = text.get(blanks.end..).unwrap_or_default();
        let remark = behind.starts_with("//") || behind.starts_with("??");
        let ends = behind.is_empty() || behind.starts_with(['\n', '\r']);
        if !remark && !ends && blanks.end <= item.end {
            edits.extend(one_space(text, blanks));
        }
        at = blanks.end;
    }
    edits
}

/// Steps that have numbers have them in order. Where the text speaks of steps by number, somebody has to look first.
pub fn numbers(recipe: &Recipe, _: &Tree, place: Place) -> Vec<Edit> {
    if !place.number || !may_number(recipe) {
        return Vec::new();
    }
    let mut expected = 1;
    let mut edits = Vec::new();
    for (index, step) in recipe.steps.iter().enumerate() {
        if steps::restarts(recipe, index) {
            expected = 1;
        }
        let Some((digits, number)) = words::digits(recipe, step).zip(words::written_number(recipe, step)) else {
            continue;
        };
        if number != expected {
            edits.push(Edit::replace(digits, expected.to_string()));
        }
        expected += 1;
    }
    edits
}

/// Labels in the spelling that the format gives them, with one space behind the colon.
pub fn labels(recipe: &Recipe, _: &Tree, _: Place) -> Vec<Edit> {
    let mut edits = Vec::new();
    if let Some(title) = recipe.title.filter(|_| recipe.labelled) {
        let start = lines::start(&recipe.text, title.start);
        let lead = Span::new(start, title.start).of(&recipe.text);
        let mark = lead.len() - lead.trim_start_matches('\u{feff}').len();
        label(recipe, Span::new(start + mark, start + lead.trim_end().trim_end_matches(':').len()), &mut edits);
    }
    for header in &recipe.headers {
        label(recipe, header.label, &mut edits);
    }
    for section in &recipe.sections {
        spelling(recipe, section.heading, &mut edits);
        if section.kind == SectionKind::Prose {
            behind_colon(recipe, section.heading.end, &mut edits);
        }
    }
    edits
}

fn label(recipe: &Recipe, span: Span, edits: &mut Vec<Edit>) {
    spelling(recipe, span, edits);
    behind_colon(recipe, span.end, edits);
}

fn spelling(recipe: &Recipe, span: Span, edits: &mut Vec<Edit>) {
    let written = recipe.at(span);
    let names = label_of(written).map_or(&[][..], |label| label.names).iter();
    let canonical = names.copied().find(|name| name.eq_ignore_ascii_case(written));
    edits.extend(canonical.filter(|name| *name != written).map(|name| Edit::replace(span, name)));
}

fn behind_colon(recipe: &Recipe, label_end: usize, edits: &mut Vec<Edit>) {
    let text = &*recipe.text;
    let before = blanks_behind(text, label_end);
    if !text.get(before.end..).is_some_and(|rest| rest.starts_with(':')) {
        return;
    }
    let colon = before.end;
    if !blanks_before(text, colon).is_empty() {
        edits.push(Edit::delete(before));
    }
    let behind = blanks_behind(text, colon + 1);
    let ends = text.get(behind.end..).is_none_or(|rest| rest.is_empty() || rest.starts_with(['\n', '\r']));
    edits.extend(Some(behind).filter(|_| !ends).and_then(|behind| one_space(text, behind)));
}
