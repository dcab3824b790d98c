//! The part of a long line that is shown. Paragraphs are often written as one line, which no terminal has room for.

use std::ops::Range;

use crate::cli::wrap::columns;

/// What stands for the part of a line that is left out.
pub const ELLIPSIS: &str = "…";

/// The part of `line` around `marked` that takes about `room` columns, broken between words; all of it where it fits. Behind
/// the mark, `label` columns are kept free on the line below. What is marked comes first: where it is wider than the room, its
/// beginning is shown.
pub fn cut(line: &str, marked: Range<usize>, label: usize, room: usize) -> Range<usize> {
    if fits(line, room) {
        return 0..line.len();
    }
    let part = |start: usize, end: usize| line.get(start..end).unwrap_or_default();
    let (mut start, mut end) = (marked.start, marked.end);
    while !fits(part(start, end), room) {
        end = part(start, end).char_indices().next_back().map_or(start, |(last, _)| start + last);
    }
    loop {
        let right = end_of_next_word(line, end).filter(|next| fits(part(start, *next), room));
        end = right.unwrap_or(end);
        let left = start_of_word_before(line, start).filter(|next| {
            fits(part(*next, end), room) && fits(part(*next, marked.end.min(end)), room.saturating_sub(label))
        });
        start = left.unwrap_or(start);
        if left.is_none() && right.is_none() {
            return start..end;
        }
    }
}

/// Whether `text` takes no more than `room` columns. Looks at no more of a long text than it must.
fn fits(text: &str, room: usize) -> bool {
    // No letter takes more than 4 bytes; a line full of marks that combine is cut a little early.
    text.len() <= room || text.len() <= 4 * room && columns(text) <= room
}

fn end_of_next_word(line: &str, from: usize) -> Option<usize> {
    let rest = line.get(from..).filter(|rest| !rest.is_empty())?;
    let word = rest.find(|letter: char| !letter.is_whitespace()).unwrap_or(rest.len());
    let length = rest.get(word..)?.find(char::is_whitespace).unwrap_or(rest.len() - word);
    Some(from + word + length)
}

fn start_of_word_before(line: &str, from: usize) -> Option<usize> {
    let rest = line.get(..from).filter(|rest| !rest.is_empty())?.trim_end();
    let space = rest.char_indices().rev().find(|(_, letter)| letter.is_whitespace());
    Some(space.map_or(0, |(at, letter)| at + letter.len_utf8()))
}

#[cfg(test)]
mod tests {
    use super::*;

    const STEP: &str =
        "Toss the crème-de-la-crème of the plums with the sugar, the juice of the lemon and a pinch of salt.";

    #[test]
    fn the_part_around_the_mark_is_kept() {
        let table = [
            ("the sugar", 0, 200, STEP),
            ("the sugar", 0, 40, "the plums with the sugar, the juice of"),
            ("the sugar", 20, 40, "plums with the sugar, the juice of the"),
            ("Toss", 0, 20, "Toss the"),
            ("salt.", 0, 20, "and a pinch of salt."),
            ("plums with the sugar", 0, 10, "plums with"),
            ("", 0, 8, "Toss the"),
        ];
        for (marked, label, room, shown) in table {
            let start = STEP.find(marked).unwrap();
            let kept = cut(STEP, start..start + marked.len(), label, room);
            assert_eq!(&STEP[kept], shown, "{marked} in {room} columns");
        }
    }

    #[test]
    fn a_line_without_a_space_is_cut_all_the_same() {
        let line = "味".repeat(5_000_000);
        assert_eq!(cut(&line, 3000..3003, 0, 10), 3000..3003);
        assert_eq!(cut(&line, 3000..12_000, 0, 10), 3000..3015);
    }
}
