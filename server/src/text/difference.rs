//! What leads from one text to another.

use similar::{Algorithm, DiffOp, capture_diff_slices};

use super::{Edit, LineEnding, Span, lines};

/// A line: where it starts, what it says, and what ends it.
#[derive(Debug, Clone, Copy)]
struct Line<'t> {
    start: usize,
    whole: &'t str,
    words: &'t str,
}

impl<'t> Line<'t> {
    fn ending(&self) -> &'t str {
        self.whole.get(self.words.len()..).unwrap_or_default()
    }
}

/// The edits that lead from `before` to `after`, in order: within a line where as many lines stand there afterwards, else whole
/// lines. Nothing but what is different is touched. As in every edit, their line breaks are `\n`.
pub fn difference(before: &str, after: &str) -> Vec<Edit> {
    let (old, new) = (lines_of(before), lines_of(after));
    let wholes = |lines: &[Line<'_>]| -> Vec<String> { lines.iter().map(|line| line.whole.to_owned()).collect() };
    let mut edits = Vec::new();
    for operation in capture_diff_slices(Algorithm::Myers, &wholes(&old), &wholes(&new)) {
        if let DiffOp::Equal { .. } = operation {
            continue;
        }
        let (olds, news) = (operation.old_range(), operation.new_range());
        let at = old.get(olds.start).map_or(before.len(), |line| line.start);
        let (olds, news) = (old.get(olds).unwrap_or_default(), new.get(news).unwrap_or_default());
        if olds.len() == news.len() && olds.iter().zip(news).all(|(old, new)| old.ending() == new.ending()) {
            edits.extend(olds.iter().zip(news).map(|(old, new)| within(old, new)));
        } else {
            let removed: usize = olds.iter().map(|line| line.whole.len()).sum();
            let text: String = news.iter().map(|line| line.whole).collect();
            // An ending that stays is left alone: of other endings than the text has first it would become one of those.
            let ends_alike = olds.last().zip(news.last()).filter(|(old, new)| old.ending() == new.ending());
            let kept = ends_alike.map_or(0, |(old, _)| old.ending().len());
            let text = text.get(..text.len() - kept).unwrap_or_default();
            edits.push(Edit::replace(Span::new(at, at + removed - kept), LineEnding::taken_out_of(text)));
        }
    }
    edits
}

/// The edit that leads from one line to another, without what they begin and end with alike.
fn within(old: &Line<'_>, new: &Line<'_>) -> Edit {
    let same = |(one, other): &(char, char)| one == other;
    let head: usize =
        old.words.chars().zip(new.words.chars()).take_while(same).map(|(letter, _)| letter.len_utf8()).sum();
    let rest = |line: &Line<'_>| line.words.get(head..).unwrap_or_default().to_owned();
    let (gone, fresh) = (rest(old), rest(new));
    let tail: usize =
        gone.chars().rev().zip(fresh.chars().rev()).take_while(same).map(|(letter, _)| letter.len_utf8()).sum();
    let span = Span::new(old.start + head, old.start + old.words.len() - tail);
    Edit::replace(span, fresh.get(..fresh.len() - tail).unwrap_or_default())
}

fn lines_of(text: &str) -> Vec<Line<'_>> {
    let mut start = 0;
    let line = |whole| {
        let line = Line { start, whole, words: whole.trim_end_matches(['\n', '\r']) };
        start += whole.len();
        line
    };
    lines(text).map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_edits_lead_from_one_text_to_the_other_and_touch_nothing_else() {
        let table = [
            ("", "", 0),
            ("a\nb\n", "a\nb\n", 0),
            ("a\nbcd\ne\n", "a\nbxd\ne\n", 1),
            ("crème\r\nbrûlée\r\n", "crème\r\nbrulée\r\n", 1),
            ("a\n\n\n\nb", "a\n\nb\n", 1),
            ("a\rb\r\rc\r", "a\r\rb\rc\r", 2),
            ("🥚\n", "🍳\n", 1),
            ("", "a\r\n", 1),
            ("a\r\r\rb\n\nc", "a\r\rx\n\nc", 1),
        ];
        for (before, after, edits) in table {
            let difference = difference(before, after);
            assert_eq!(difference.len(), edits, "{before:?}: {difference:?}");
            assert!(difference.iter().all(|edit| !edit.text.contains('\r')));
            let made = Edit::put_into(before, &difference);
            let plain = |text: &str| text.replace("\r\n", "\n").replace('\r', "\n");
            assert_eq!(plain(&made), plain(after), "{before:?}");
        }
        let [edit] = &difference("a\nbcd\ne\n", "a\nbxd\ne\n")[..] else { panic!("one edit") };
        assert_eq!(*edit, Edit::replace(Span::new(3, 4), "x"));
    }
}
