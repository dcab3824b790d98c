use super::LineEnding;

/// A stretch of a text in bytes: `start` up to, not including, `end`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// Offset of the first byte.
    pub start: usize,
    /// Offset after the last byte.
    pub end: usize,
}

impl Span {
    /// The span from `start` to `end`; an end before the start makes an empty span at the start.
    pub fn new(start: usize, end: usize) -> Self {
        Span { start, end: end.max(start) }
    }

    /// The empty span at `offset`.
    pub fn at(offset: usize) -> Self {
        Span { start: offset, end: offset }
    }

    /// Its length in bytes.
    pub fn len(self) -> usize {
        self.end - self.start
    }

    /// Whether it holds no byte.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }

    /// Whether `offset` lies inside, or right behind the last byte (where a cursor still touches it).
    pub fn touches(self, offset: usize) -> bool {
        self.start <= offset && offset <= self.end
    }

    /// Whether `other` lies wholly inside.
    pub fn contains(self, other: Span) -> bool {
        self.start <= other.start && other.end <= self.end
    }

    /// Whether they share a byte; of an empty one, whether it lies within the other.
    pub fn overlaps(self, other: Span) -> bool {
        self.start < other.end && other.start < self.end
    }

    /// Whether they overlap, or one ends where the other starts: a cursor at the edge of a span meets it.
    pub fn meets(self, other: Span) -> bool {
        self.start <= other.end && other.start <= self.end
    }

    /// The same span, `by` bytes further on.
    pub fn shifted(self, by: usize) -> Self {
        Span { start: self.start + by, end: self.end + by }
    }

    /// The shortest span that holds both.
    pub fn joined(self, other: Span) -> Self {
        Span { start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// The text it covers, or nothing where it does not fit the text.
    pub fn of(self, text: &str) -> &str {
        text.get(self.start..self.end).unwrap_or_default()
    }
}

/// A replacement of one stretch of a text. The edits of one fix never overlap.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Edit {
    /// What is replaced; empty for an insertion.
    pub span: Span,
    /// What stands there afterwards. Line breaks are `\n`; the faces turn them into the document's own.
    pub text: String,
}

impl Edit {
    /// Puts `text` in the place of `span`.
    pub fn replace(span: Span, text: impl Into<String>) -> Self {
        Edit { span, text: text.into() }
    }

    /// Puts `text` in at `offset`.
    pub fn insert(offset: usize, text: impl Into<String>) -> Self {
        Edit { span: Span::at(offset), text: text.into() }
    }

    /// Takes `span` out.
    pub fn delete(span: Span) -> Self {
        Edit { span, text: String::new() }
    }

    /// The same edit, `by` bytes further on.
    pub fn shifted(self, by: usize) -> Self {
        Edit { span: self.span.shifted(by), ..self }
    }

    /// The text after edits that do not overlap, whose new lines end as the others do.
    pub fn put_into(text: &str, edits: &[Edit]) -> String {
        let ending = LineEnding::of(text).unwrap_or_default();
        let own = |edit: &Edit| Edit { span: edit.span, text: ending.put_into(&edit.text).into_owned() };
        Edit::apply_all(text, &edits.iter().map(own).collect::<Vec<_>>())
    }

    /// Applies edits that do not overlap to `text`. Insertions at the same place keep the order they are given in.
    pub fn apply_all(text: &str, edits: &[Edit]) -> String {
        let mut sorted: Vec<&Edit> = edits.iter().collect();
        sorted.sort_by_key(|edit| (edit.span.start, edit.span.end));
        let mut out = String::with_capacity(text.len());
        let mut from = 0;
        for edit in sorted {
            out.push_str(text.get(from..edit.span.start).unwrap_or_default());
            out.push_str(&edit.text);
            from = edit.span.end.max(from);
        }
        out.push_str(text.get(from..).unwrap_or_default());
        out
    }
}
