//! `stet`: what it silences is the next item, step, heading or section; between the title and the first blank line, the recipe.

use super::Reader;
use crate::{
    recipe::model::{Recipe, Stet},
    syntax::{Kind, Node},
    text::{LineEnding, Span},
};

impl Recipe {
    /// Lets the last section end there, with all that speaks for the whole of it.
    pub(super) fn end_section(&mut self, end: usize) {
        let Some(section) = self.sections.last_mut() else { return };
        let before = section.span;
        section.span.end = end;
        let of_section = self.stets.iter_mut().filter(|stet| stet.scope == before);
        of_section.for_each(|stet| stet.scope.end = end);
    }
}

impl Reader<'_> {
    pub(super) fn stet(&mut self, node: Node<'_>) {
        let span = node.span();
        let check = node.child(Kind::CheckCode).map_or(Span::at(span.end), Node::span);
        let reason = node.child(Kind::Reason).map(Node::span).filter(|reason| !reason.of(self.text).trim().is_empty());
        let whole = self.before_first_blank(span.start);
        let scope = if whole { Span::new(0, self.text.len()) } else { Span::at(span.end) };
        self.recipe.stets.push(Stet { span, check, reason, scope });
        if !whole {
            self.pending.push(self.recipe.stets.len() - 1);
        }
    }

    /// Gives the waiting stets the line that follows them.
    pub(super) fn settle_stets(&mut self, span: Span) {
        for index in std::mem::take(&mut self.pending) {
            if let Some(stet) = self.recipe.stets.get_mut(index) {
                stet.scope = span;
            }
        }
    }

    /// Whether no blank line stands above, back to the title.
    fn before_first_blank(&self, offset: usize) -> bool {
        let above = self.text.get(..offset).unwrap_or_default();
        let mut lines = above.split(['\n', '\r']).map(str::trim);
        let started = above.trim_start_matches(['\u{feff}', '\n', '\r', ' ', '\t']);
        if started.is_empty() {
            return true;
        }
        // CRLF leaves an empty stretch between its two halves; a blank line leaves two breaks in a row.
        let text = LineEnding::taken_out_of(above);
        lines.next();
        !text.trim_start().contains("\n\n")
            && !text.trim_start().split('\n').any(|line| !line.is_empty() && line.trim().is_empty())
    }
}
