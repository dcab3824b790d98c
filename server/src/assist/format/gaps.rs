//! Gaps: a blank line before a section, a space before a restatement and around the arrow of a result.

use super::Place;
use crate::{
    checks::support::lines,
    recipe::{Recipe, Section},
    syntax::{Kind, Node, Tree},
    text::{Edit, Span},
};

/// A blank line before each section, and before the remarks and stets that stand right above it.
pub fn sections(recipe: &Recipe, _: &Tree, _: Place) -> Vec<Edit> {
    recipe.sections.iter().filter_map(|section| before(recipe, section)).collect()
}

fn before(recipe: &Recipe, section: &Section) -> Option<Edit> {
    let text = &*recipe.text;
    let mut start = lines::start(text, section.heading.start);
    while start > 0 {
        let above = lines::start(text, start - 1);
        let line = Span::new(above, lines::end(text, above));
        let words = line.of(text).trim();
        let own = recipe.stets.iter().any(|stet| line.contains(stet.check) && stet.scope.start == section.span.start);
        if words.is_empty() {
            return None;
        }
        if !own && !words.starts_with("//") && !words.starts_with("??") {
            return Some(Edit::insert(start, "\n"));
        }
        start = above;
    }
    None
}

/// One space before a restatement in parentheses or brackets, none inside them, one before the word behind.
pub fn restatements(recipe: &Recipe, tree: &Tree, _: Place) -> Vec<Edit> {
    let mut edits = Vec::new();
    for node in tree.find(|kind| kind == Kind::Measure) {
        let behind = node.find(|kind| matches!(kind, Kind::Restated | Kind::Pack));
        behind.for_each(|node| restatement(recipe, node, &mut edits));
    }
    edits
}

fn restatement(recipe: &Recipe, node: Node<'_>, edits: &mut Vec<Edit>) {
    let text = &*recipe.text;
    let span = node.span();
    let written = span.of(text);
    let inner = written.strip_prefix(['(', '[']).and_then(|rest| rest.strip_suffix([')', ']']));
    let Some(inner) = inner.filter(|inner| !inner.trim().is_empty()) else { return };
    edits.extend(one_space(text, blanks_before(text, span.start)));
    let inside = Span::new(span.start + 1, span.end - 1);
    let blanks = |words: &str| words.trim_matches([' ', '\t']).len();
    let lead = inner.len() - inner.trim_start_matches([' ', '\t']).len();
    if blanks(inner) < inner.len() && !inner.contains(['\n', '\r']) {
        let end = inside.start + lead + blanks(inner);
        edits.extend([Span::new(inside.start, inside.start + lead), Span::new(end, inside.end)].map(Edit::delete));
        edits.retain(|edit| !edit.span.is_empty() || !edit.text.is_empty());
    }
    if text.get(span.end..).is_some_and(|behind| behind.starts_with(char::is_alphabetic)) {
        edits.push(Edit::insert(span.end, " "));
    }
}

/// One space on either side of the arrow that names a result.
pub fn results(recipe: &Recipe, tree: &Tree, _: Place) -> Vec<Edit> {
    let text = &*recipe.text;
    let mut edits = Vec::new();
    let results = tree.find(|kind| kind == Kind::Result).into_iter().map(Node::span);
    for span in results.filter(|span| span.of(text).starts_with("=>")) {
        edits.extend(one_space(text, blanks_before(text, span.start)));
        let behind = blanks_behind(text, span.start + 2);
        let ends = text.get(behind.end..).is_none_or(|rest| rest.is_empty() || rest.starts_with(['\n', '\r']));
        edits.extend(Some(behind).filter(|_| !ends).and_then(|behind| one_space(text, behind)));
    }
    edits
}

/// The edit that makes a run of blanks a single space. Nothing at the start of a line, where it is indentation; and nothing where
/// another kind of space stands there, which was put there on purpose, or where a blank would make a comment or a query of what is printed:
/// `Storage://`.
pub fn one_space(text: &str, blanks: Span) -> Option<Edit> {
    let before = text.get(..blanks.start).unwrap_or_default();
    let begins = before.is_empty() || before.ends_with(['\n', '\r']);
    let purposeful = before.ends_with(char::is_whitespace) || starts_with_space(text, blanks.end);
    let behind = text.get(blanks.end..).unwrap_or_default();
    let printed = blanks.is_empty() && ["//", "??"].iter().any(|sign| behind.starts_with(sign));
    (!begins && !purposeful && !printed && blanks.of(text) != " ").then(|| Edit::replace(blanks, " "))
}

fn starts_with_space(text: &str, at: usize) -> bool {
    text.get(at..).is_some_and(|rest| rest.starts_with(char::is_whitespace))
}

/// The blanks right before an offset.
pub fn blanks_before(text: &str, at: usize) -> Span {
    let before = text.get(..at).unwrap_or_default();
    Span::new(before.trim_end_matches([' ', '\t']).len(), at)
}

/// The blanks right behind an offset.
pub fn blanks_behind(text: &str, at: usize) -> Span {
    let behind = text.get(at..).unwrap_or_default();
    Span::new(at, at + behind.len() - behind.trim_start_matches([' ', '\t']).len())
}
