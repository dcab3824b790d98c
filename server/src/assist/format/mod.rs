//! The layout of a manuscript: one blank line between its parts, one space behind markers and labels and before restatements,
//! steps numbered in order. Nothing that a cook would read otherwise is changed, and no line is broken anew.
//!
//! What is laid out is read again, and where it means anything else than before, the rule that is to blame is left out.

mod gaps;
mod lines;
mod marks;
mod meaning;
mod typing;

use crate::{
    checks::support::steps,
    recipe::{self, Recipe},
    syntax::{Kind, Tree},
    text::{Edit, Span, difference},
};
use meaning::Meaning;

pub use typing::typed;

/// More rounds than this no layout takes: the second finds nothing to do.
const ROUNDS: usize = 4;

/// Where a stretch that is read by itself stands in its manuscript, and what is wanted of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Whether nothing stands before it.
    pub first: bool,
    /// Whether nothing stands behind it.
    pub last: bool,
    /// Whether steps are numbered anew; not where only a part of them is laid out.
    pub number: bool,
}

/// One rule of the layout: what it would change.
type Rule = fn(&Recipe, &Tree, Place) -> Vec<Edit>;

/// The rules, each of which leaves to the others what is theirs.
const RULES: &[Rule] =
    &[lines::lines, gaps::sections, marks::items, marks::numbers, marks::labels, gaps::restatements, gaps::results];

/// The edits that lay out one recipe, or the prose above the first.
pub fn format(recipe: &Recipe, tree: &Tree, place: Place) -> Vec<Edit> {
    let wanted = edits(recipe, tree, place, RULES);
    if wanted.is_empty() {
        return Vec::new();
    }
    let meaning = Meaning::of(recipe);
    let mut text = recipe.text.to_string();
    for round in 0..ROUNDS {
        let Some((recipe, tree)) = read(&text, recipe) else { break };
        let wanted = edits(&recipe, &tree, place, RULES);
        let Some(next) = Some(wanted).filter(|wanted| !wanted.is_empty()) else { break };
        let next = Edit::put_into(&text, &next);
        text = match keeps(&next, &recipe, &meaning) {
            true => next,
            false if round == 0 => one_by_one(&recipe, &tree, place, &meaning),
            false => break,
        };
    }
    difference(&recipe.text, &text)
}

/// The text after each rule by itself, without those that would change what it means.
fn one_by_one(recipe: &Recipe, tree: &Tree, place: Place, meaning: &Meaning) -> String {
    let mut now = (recipe.clone(), tree.clone());
    for rule in RULES {
        let text = Edit::put_into(&now.0.text, &edits(&now.0, &now.1, place, &[*rule]));
        if *text == *now.0.text || !keeps(&text, recipe, meaning) {
            continue;
        }
        now = read(&text, recipe).unwrap_or(now);
    }
    now.0.text.to_string()
}

fn keeps(text: &str, recipe: &Recipe, meaning: &Meaning) -> bool {
    read(text, recipe).is_some_and(|(recipe, _)| Meaning::of(&recipe) == *meaning)
}

fn read(text: &str, like: &Recipe) -> Option<(Recipe, Tree)> {
    let tree = Tree::parse(text)?;
    Some((recipe::read(text, &tree, like.larder), tree))
}

/// What the rules change, in order, without what lies in text that is kept as written, or that could not be read.
fn edits(recipe: &Recipe, tree: &Tree, place: Place, rules: &[Rule]) -> Vec<Edit> {
    let kept = kept_as_written(recipe, tree);
    let mut all: Vec<Edit> = rules.iter().flat_map(|rule| rule(recipe, tree, place)).collect();
    all.retain(|edit| !kept.iter().any(|kept| edit.span.overlaps(*kept)));
    all.sort_by_key(|edit| edit.span);
    let mut out: Vec<Edit> = Vec::new();
    for edit in all {
        if out.last().is_none_or(|last| last.span.end <= edit.span.start && last.span != edit.span) {
            out.push(edit);
        }
    }
    out
}

fn kept_as_written(recipe: &Recipe, tree: &Tree) -> Vec<Span> {
    let as_written = |kind| {
        matches!(kind, Kind::Comment | Kind::Query | Kind::Mention | Kind::CrossReference | Kind::Stet | Kind::Escape)
    };
    let spans = tree.find(as_written).into_iter().map(|node| node.span());
    let spans = spans.map(|span| Span::new(span.start, span.start + recipe.at(span).trim_end().len()));
    spans.chain(recipe.damage.iter().copied()).collect()
}

/// Whether the steps may be numbered anew: not where the text speaks of them by number.
fn may_number(recipe: &Recipe) -> bool {
    !steps::are_spoken_of(recipe)
}
