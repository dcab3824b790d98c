//! The place at which something is being written.

use crate::{
    measure::{Interval, read_number},
    recipe::{Recipe, SectionKind},
    syntax::lets_recipe_follow,
    text::Span,
};

/// The place, by its line and its section.
#[derive(Debug, Clone, Copy)]
pub struct Here<'r> {
    /// Where it is, in bytes of the recipe's text.
    pub offset: usize,
    /// The line up to there.
    pub before: &'r str,
    /// The rest of the line.
    pub behind: &'r str,
    /// The section that it stands in; none above the first.
    pub section: Option<SectionKind>,
    /// Whether a label may start in this line.
    pub fresh: bool,
}

impl<'r> Here<'r> {
    /// The place at `offset`; none within remarks, where anything may be written.
    pub fn at(recipe: &'r Recipe, offset: usize) -> Option<Here<'r>> {
        let (above, below) = recipe.text.split_at_checked(offset)?;
        let start = above.rfind(['\n', '\r']).map_or(0, |at| at + 1);
        let (text, before) = above.split_at_checked(start)?;
        let behind = below.get(..below.find(['\n', '\r']).unwrap_or(below.len()))?;
        let section = recipe.sections.iter().rev().find(|section| section.span.start < start);
        let here = Here {
            offset,
            before,
            behind,
            section: section.map(|section| section.kind),
            fresh: lets_recipe_follow(text),
        };
        (!here.is_remark()).then_some(here)
    }

    fn is_remark(&self) -> bool {
        let line = self.before.trim_start();
        line.starts_with("??") || line.starts_with("//") || self.before.contains(" //")
    }

    /// Where the inside of a bracket begins that is open here.
    pub fn open(&self, opening: &str, closing: &str) -> Option<usize> {
        let at = self.before.rfind(opening)? + opening.len();
        let inside = self.before.get(at..)?;
        (!inside.contains(closing) && !inside.contains('[')).then(|| self.offset - inside.len())
    }

    /// What closes a bracket that is open here, as far as it is not there yet.
    pub fn closing(&self, closing: &'static str) -> &'static str {
        let there = closing.len().min(self.behind.len() - self.behind.trim_start_matches(']').len());
        closing.get(there..).unwrap_or_default()
    }

    /// The code of a check that is being written.
    pub fn check_code(&self) -> Option<Span> {
        let line = self.before.trim_start();
        let code = line.get(..5).filter(|start| start.eq_ignore_ascii_case("stet ")).and_then(|_| line.get(5..))?;
        let code = code.trim_start();
        (!code.contains([':', ' '])).then(|| self.typed(code))
    }

    /// The word that is being written; empty behind a blank.
    pub fn word(&self) -> &'r str {
        let letters = |c: char| c.is_alphabetic() || matches!(c, '-' | '\'' | '’' | '°');
        let rest = self.before.trim_end_matches(letters);
        self.before.get(rest.len()..).unwrap_or_default().trim_start_matches('-')
    }

    /// The place of what has been typed last.
    pub fn typed(&self, typed: &str) -> Span {
        Span::new(self.offset.saturating_sub(typed.len()), self.offset)
    }

    /// The number right before the word that is being written.
    pub fn number(&self) -> Option<Interval> {
        let line = self.before.strip_suffix(self.word())?;
        let number = line.trim_end();
        // A blank has to be there, or a letter; else the number itself is still being written.
        if number.len() == line.len() && self.word().is_empty() {
            return None;
        }
        let start = |at: usize| number.get(at..).filter(|last| last.starts_with(|c: char| c.is_numeric()));
        let blanks = number.rmatch_indices([' ', '(', '[']).map(|(at, _)| at + 1).chain([0]);
        let tried = blanks.take(2).filter_map(start).filter_map(|last| read_number(last).ok());
        tried.last().filter(|_| number.ends_with(|c: char| c.is_numeric()))
    }
}
