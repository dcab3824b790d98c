//! The names of foods, folded and put in order, so that one is found without reading the others.
//!
//! Compiled twice: `build.rs` makes the table of the shelves, which the program brings along; a table of other foods, as a house has
//! them, is made when its style sheet is read.

use std::collections::{BTreeMap, BTreeSet};

use super::words;

/// The names of some foods, in two texts that are cut into drawers by the first two letters of what stands in them.
#[derive(Debug, Default)]
pub struct Table {
    /// The words that begin names, a line each: `brown<tab>rice vinegar=12;sugar=7;=9`. The names that a word begins stand behind it without
    /// it, those of more words first, each with the position of its food.
    pub first: String,
    /// Where each drawer of them ends, in bytes.
    pub first_ends: Vec<u32>,
    /// The [marks](mark_of) of those words, a bit each. Most words of a text have that of none, and need not be looked for.
    pub first_marks: Vec<u64>,
    /// The words that stand behind the first of some name, each once, with a blank behind each.
    pub behind: String,
    /// Where each drawer of them ends, in bytes.
    pub behind_ends: Vec<u32>,
    /// Names that mean another food already: the name, the food that keeps it, and the one that does not get it.
    pub clashes: Vec<(String, usize, usize)>,
}

/// The names that begin with one word: the words behind it, and the food.
type Group = Vec<(Vec<String>, usize)>;

impl Table {
    /// The table of names, each with the position of its food. Of two that are the same the first keeps its food.
    pub fn of<'n>(names: impl IntoIterator<Item = (&'n str, usize)>) -> Table {
        let mut table = Table::default();
        let mut groups: BTreeMap<(usize, String), Group> = BTreeMap::new();
        let mut behind: BTreeSet<(usize, String)> = BTreeSet::new();
        for (name, food) in names {
            let mut words = words::iter(name).map(|word| word.folded.into_owned());
            let Some(first) = words.next() else { continue };
            let rest: Vec<String> = words.collect();
            behind.extend(rest.iter().map(|word| (drawer_of(word), word.clone())));
            let group = groups.entry((drawer_of(&first), first)).or_default();
            match group.iter().find(|(known, _)| *known == rest) {
                Some((_, keeper)) if *keeper == food => {}
                Some((_, keeper)) => table.clashes.push((name.to_owned(), *keeper, food)),
                None => group.push((rest, food)),
            }
        }
        table.first_marks = vec![0; MARKS / 64];
        for (_, first) in groups.keys() {
            let mark = usize::from(mark_of(first));
            if let Some(bits) = table.first_marks.get_mut(mark / 64) {
                *bits |= 1 << (mark % 64);
            }
        }
        let lines = groups.into_iter().map(|((drawer, first), group)| (drawer, line(&first, group)));
        (table.first, table.first_ends) = in_drawers(lines);
        (table.behind, table.behind_ends) = in_drawers(behind.into_iter().map(|(drawer, word)| (drawer, word + " ")));
        table
    }
}

/// The line of a first word.
fn line(first: &str, mut group: Group) -> String {
    group.sort_by_key(|(rest, _)| std::cmp::Reverse(rest.len()));
    let names: Vec<String> = group.iter().map(|(rest, food)| format!("{}={food}", rest.join(" "))).collect();
    format!("{first}\t{}\n", names.join(";"))
}

/// One text of what lies in the drawers, in their order, and where each of them ends in it.
fn in_drawers(things: impl Iterator<Item = (usize, String)>) -> (String, Vec<u32>) {
    let (mut text, mut ends) = (String::new(), Vec::with_capacity(DRAWERS));
    let end = |text: &String| u32::try_from(text.len()).unwrap_or(u32::MAX);
    for (drawer, thing) in things {
        ends.resize(drawer, end(&text));
        text.push_str(&thing);
    }
    ends.resize(DRAWERS, end(&text));
    (text, ends)
}

/// The places that a letter or a figure may have, with one for all else.
pub const LETTERS: usize = 37;
/// How many drawers there are.
pub const DRAWERS: usize = LETTERS * LETTERS;

/// How many marks there are: some for each word that begins a name.
pub const MARKS: usize = 1 << 15;

/// A number below [`MARKS`] that is the same for the same word, and mostly another for another (the hash of Fowler, Noll and Vo, 1a).
pub fn mark_of(word: &str) -> u16 {
    let hash = word.bytes().fold(0x811c_9dc5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    ((hash ^ hash >> 15) as usize % MARKS) as u16
}

/// The drawer of a folded word.
pub fn drawer_of(word: &str) -> usize {
    letter_of(word) * LETTERS + place(word.as_bytes().get(1))
}

/// The place of the letter that a folded word begins with; its drawers lie side by side.
pub fn letter_of(word: &str) -> usize {
    place(word.as_bytes().first())
}

fn place(byte: Option<&u8>) -> usize {
    match byte {
        Some(letter @ b'a'..=b'z') => usize::from(letter - b'a') + 1,
        Some(figure @ b'0'..=b'9') => usize::from(figure - b'0') + 27,
        _ => 0,
    }
}
