//! The text of a shelf: its rows, their cells, and the lists in a cell. Compiled twice, as the table of names is: by `build.rs` too.

/// The column of the parts, from 0.
const PARTS: usize = 7;

/// The lines of a shelf that are no comments, the header first, with their numbers from 0.
pub fn lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().filter(|(_, line)| !line.is_empty() && !line.starts_with('#'))
}

/// The rows of a shelf, without comments and header.
pub fn rows(text: &str) -> impl Iterator<Item = &str> {
    lines(text).skip(1).map(|(_, row)| row)
}

/// The name of the food of a row as it stands there, and then its synonyms.
pub fn names(row: &str) -> impl Iterator<Item = &str> {
    let mut cells = cells(row);
    std::iter::once(cells.next().unwrap_or_default()).chain(list(cells.next().unwrap_or_default()))
}

/// What the parts of the food of a row are called, as it stands there.
pub fn part_names(row: &str) -> impl Iterator<Item = &str> {
    let mut marks = memchr::memchr_iter(b'\t', row.as_bytes());
    let (start, end) = (marks.nth(PARTS - 1).map_or(row.len(), |mark| mark + 1), marks.next());
    let parts = row.get(start..end.unwrap_or(row.len())).unwrap_or_default();
    list(parts).map(|part| cut(part, b'=').map_or(part, |(name, _)| name.trim_ascii()))
}

/// The cells of a row.
pub fn cells(row: &str) -> impl Iterator<Item = &str> {
    split(row, b'\t')
}

/// The entries of a cell: `a; b; c`.
pub fn list(cell: &str) -> impl Iterator<Item = &str> {
    split(cell, b';').filter(|entry| !entry.is_empty())
}

/// What stands between the marks, without the space around it.
pub fn split(text: &str, mark: u8) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let (piece, behind) =
            rest.and_then(|rest| cut(rest, mark)).map_or((rest?, None), |(piece, behind)| (piece, Some(behind)));
        rest = behind;
        Some(piece.trim_ascii())
    })
}

/// What stands before and behind the first mark.
pub fn cut(text: &str, mark: u8) -> Option<(&str, &str)> {
    let at = memchr::memchr(mark, text.as_bytes())?;
    Some((text.get(..at)?, text.get(at + 1..)?))
}
