use super::{Document, Edit, Span};

/// How far from the edits so far another one may be, in bytes, to be joined with them: about one recipe.
const NEAR: usize = 4096;

/// Edits of a document that a reader of it has still to follow, joined into one. So a burst of typing is read once.
#[derive(Debug, Clone, Default)]
pub struct Backlog {
    joined: Option<Joined>,
}

/// `start..old_end` of the text that the reader knows has become `start..new_end` of the document's.
#[derive(Debug, Clone, Copy)]
struct Joined {
    start: usize,
    old_end: usize,
    new_end: usize,
}

impl Backlog {
    /// Whether an edit of `span` is near enough to be joined with those there are. If not, take those first.
    pub fn is_near(&self, span: Span) -> bool {
        self.joined.is_none_or(|joined| span.start <= joined.new_end + NEAR && joined.start <= span.end + NEAR)
    }

    /// Adds that `replaced`, in the document so far, became `length` bytes.
    pub fn add(&mut self, replaced: Span, length: usize) {
        let at = Joined { start: replaced.start, old_end: replaced.start, new_end: replaced.start };
        let Joined { start, old_end, new_end } = self.joined.unwrap_or(at);
        self.joined = Some(Joined {
            start: start.min(replaced.start),
            // What lies behind the edits so far is as the reader knows it, only elsewhere.
            old_end: old_end + replaced.end.saturating_sub(new_end),
            new_end: new_end.max(replaced.end) - replaced.len() + length,
        });
    }

    /// The one edit that leads from the text that the reader knows to `document`; nothing if that is the same.
    pub fn take(&mut self, document: &Document) -> Option<Edit> {
        let Joined { start, old_end, new_end } = self.joined.take()?;
        Some(Edit::replace(Span::new(start, old_end), document.slice(Span::new(start, new_end))))
    }
}
