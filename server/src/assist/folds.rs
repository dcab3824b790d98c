//! What can be folded away: recipes, sections, groups, and remarks of several lines.

use super::{
    outline::{Entry, EntryKind, outline},
    wording::trimmed,
};
use crate::{
    recipe::Recipe,
    text::{LineIndex, Span},
};

/// A stretch of several lines that can be folded into its first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fold {
    /// From the first line to the last that goes with it; the blank lines behind stay.
    pub span: Span,
    /// Whether it holds nothing but comments and queries.
    pub remarks: bool,
}

/// What can be folded in a recipe.
pub fn folds(recipe: &Recipe) -> Vec<Fold> {
    let mut out = Vec::new();
    if recipe.is_recipe() {
        entries(&outline(recipe), &mut out);
    }
    remarks(&recipe.text, &mut out);
    out
}

fn entries(entry: &Entry, out: &mut Vec<Fold>) {
    if matches!(entry.kind, EntryKind::Recipe | EntryKind::Section | EntryKind::Group) {
        out.push(Fold { span: entry.span, remarks: false });
        entry.children.iter().for_each(|child| entries(child, out));
    }
}

/// Comments and queries on two lines or more, one below the other.
fn remarks(text: &str, out: &mut Vec<Fold>) {
    let lines = LineIndex::new(text);
    let mut run: Option<(Span, usize)> = None;
    for line in (0..lines.line_count()).map(|line| trimmed(text, lines.line(line))) {
        let remark = ["//", "??"].iter().any(|mark| line.of(text).starts_with(mark));
        match run.as_mut().filter(|_| remark) {
            Some((whole, count)) => (*whole, *count) = (whole.joined(line), *count + 1),
            None => {
                keep(run.take(), out);
                run = remark.then_some((line, 1));
            }
        }
    }
    keep(run, out);
}

fn keep(run: Option<(Span, usize)>, out: &mut Vec<Fold>) {
    out.extend(run.filter(|(_, count)| *count > 1).map(|(span, _)| Fold { span, remarks: true }));
}
