//! What a manuscript becomes when it is laid out, or mended: its recipes one by one, each in its place.

use super::Manuscript;
use crate::{
    assist::{self, FormatPlace},
    recipe::Recipe,
    syntax::Tree,
    text::{Edit, Span, difference},
};

/// More rounds than this no mending takes: a fix may bring another to light, and that one a third.
const ROUNDS: usize = 10;

/// What becomes of a manuscript when everything is mended that needs no decision.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Mended {
    /// The edits that lead there, in order.
    pub edits: Vec<Edit>,
    /// How many fixes were made.
    pub count: usize,
    /// Whether some are left all the same, because they get into each other's way: a fault of ours.
    pub unsettled: bool,
}

impl Manuscript {
    /// The edits that lay out the whole text.
    pub fn formatted(&self) -> Vec<Edit> {
        self.laid_out(true, |_| true)
    }

    /// The edits that lay out the lines that `asked` touches. Steps keep their numbers: those further down could not follow.
    pub fn formatted_within(&self, asked: Span) -> Vec<Edit> {
        let asked = self.whole_lines(asked);
        let mut edits = self.laid_out(false, |piece| piece.start <= asked.end && asked.start <= piece.end);
        edits.retain(|edit| asked.contains(edit.span));
        edits
    }

    /// The edits that follow from typing `sign` right before `offset`.
    pub fn formatted_as_typed(&self, offset: usize, sign: &str) -> Vec<Edit> {
        let here = self.pieces().take_while(|(start, ..)| *start <= offset).last();
        let Some((start, recipe, Some(tree))) = here else { return Vec::new() };
        let edits = assist::typed(recipe, tree, offset - start, sign);
        edits.into_iter().map(|edit| edit.shifted(start)).collect()
    }

    /// Everything mended that needs no decision: fix after fix, until nothing of the kind is left.
    pub fn mended(&self) -> Mended {
        let mut mended = Mended::default();
        let (mut edits, mut count) = assist::safe_fixes(&self.findings());
        if edits.is_empty() {
            return mended;
        }
        let ending = self.document().line_ending();
        let mut now = self.clone();
        for _ in 0..ROUNDS {
            mended.count += count;
            // From the end, so that no edit moves the place of another.
            for Edit { span, text } in edits.iter().rev() {
                now.apply(&Edit::replace(*span, ending.put_into(text)));
            }
            (edits, count) = assist::safe_fixes(&now.findings());
            if edits.is_empty() {
                break;
            }
        }
        mended.unsettled = !edits.is_empty();
        mended.edits = difference(&self.text(), &now.text());
        mended
    }

    /// The edits that put every list in the order of use, where that is certain.
    pub fn organized(&self) -> Vec<Edit> {
        let all = self
            .recipes()
            .flat_map(|(start, recipe)| assist::organize(recipe).into_iter().map(move |edit| edit.shifted(start)));
        all.collect()
    }

    fn laid_out(&self, number: bool, wanted: impl Fn(Span) -> bool) -> Vec<Edit> {
        let mut edits = Vec::new();
        let mut pieces = self.pieces().peekable();
        let mut first = true;
        while let Some((start, recipe, tree)) = pieces.next() {
            // The prose of a post, around the fences, has no tree.
            let last = pieces.peek().is_none_or(|(.., tree)| tree.is_none());
            let piece = Span::new(start, start + recipe.text.len());
            let place = FormatPlace { first, last, number };
            let one = |tree: &Tree| laid_out(recipe, tree, place, start);
            first = tree.is_none();
            edits.extend(tree.filter(|_| wanted(piece)).map(one).unwrap_or_default());
        }
        edits
    }

    fn whole_lines(&self, asked: Span) -> Span {
        let line = |offset: usize| self.document().line(self.document().line_of(offset));
        Span::new(line(asked.start).start, line(asked.end).end)
    }
}

fn laid_out(recipe: &Recipe, tree: &Tree, place: FormatPlace, start: usize) -> Vec<Edit> {
    assist::format(recipe, tree, place).into_iter().map(|edit| edit.shifted(start)).collect()
}
