//! `word-repeated`: a word stands twice in a row.

use super::{Check, Finding, Fix, Severity, View};
use crate::{
    recipe::language::token::TokenKind,
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "word-repeated", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Words that stand twice on purpose.
const TWICE: &[&str] = &[
    "couscous", "very", "tom", "agar", "bon", "pili", "peri", "piri", "had", "that", "cha", "dan", "moo", "yum", "no",
    "chow",
];

/// Whether two neighbours in a text end and begin with the same word. Hardly any do, and then its words need not be told apart.
fn may_repeat(text: &str) -> bool {
    let mark = |c: char| !c.is_alphanumeric();
    let mut last = "";
    text.split_whitespace().any(|piece| {
        let first = piece.split(mark).next().unwrap_or_default();
        let repeats = !first.is_empty() && first == last;
        last = piece.rsplit(mark).next().unwrap_or_default();
        repeats
    })
}

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if !may_repeat(&recipe.text) {
        return;
    }
    for pair in view.words().windows(2) {
        let [first, second] = pair else { continue };
        if first.kind != TokenKind::Word || second.kind != TokenKind::Word || first.fold != second.fold {
            continue;
        }
        let between = Span::new(first.span.end, second.span.start);
        let blank = recipe.at(between).chars().all(char::is_whitespace) && !recipe.at(between).is_empty();
        // A blank line between them parts two sentences.
        let near = recipe.at(between).matches('\n').count() <= 1 && recipe.at(first.span) == recipe.at(second.span);
        let lower = recipe.at(first.span).chars().all(|c| c.is_lowercase());
        // Nor does one line of a list go on in the next.
        let lines =
            recipe.ingredients.iter().map(|line| line.span).chain(recipe.equipment.iter().map(|line| line.span));
        let parted = || lines.map(|line| line.start).any(|start| between.start < start && start <= between.end);
        if !(blank && near && lower) || parted() || TWICE.contains(&&*first.fold) {
            continue;
        }
        let word = recipe.at(second.span);
        let message = format!("“{word}” stands here twice.");
        let gone = Span::new(first.span.end, second.span.end);
        let found =
            Finding::new(CHECK.code, CHECK.severity, second.span, message).related(first.span, "the first time");
        out.push(found.fix(Fix::safe(format!("Take one “{word}” out"), vec![Edit::delete(gone)])));
    }
}
