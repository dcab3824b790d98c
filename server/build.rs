//! Puts the names on the larder's shelves in order, so that the program need not do it at each start.

use std::collections::BTreeSet;
use std::path::Path;
use std::{env, fs, io};

// The table is made by the program's own code, of which not all is needed here.
#[allow(dead_code)]
#[path = "src/text/line_ending.rs"]
mod line_ending;
#[allow(dead_code)]
#[path = "src/text/span.rs"]
mod span;
#[path = "src/larder/table.rs"]
mod table;
#[allow(dead_code)]
#[path = "src/larder/words.rs"]
mod words;

mod text {
    pub use super::span::Span;
}
use line_ending::LineEnding;

const SHELVES: &str = "src/larder/shelves";

fn main() -> io::Result<()> {
    for source in [SHELVES, "src/larder/table.rs", "src/larder/words.rs", "src/text"] {
        println!("cargo:rerun-if-changed={source}");
    }
    let mut shelves: Vec<_> = fs::read_dir(SHELVES)?.map(|file| Ok(file?.path())).collect::<io::Result<_>>()?;
    shelves.sort();
    let shelves: Vec<String> = shelves.iter().map(fs::read_to_string).collect::<io::Result<_>>()?;
    let rows: Vec<Vec<&str>> = shelves.iter().flat_map(|shelf| rows(shelf)).collect();
    let table =
        table::Table::of(rows.iter().enumerate().flat_map(|(food, row)| names(row).map(move |name| (name, food))));
    let parts: BTreeSet<_> = rows.iter().flat_map(|row| parts(row)).map(words::fold).collect();
    let parts: Vec<_> = parts.into_iter().collect();
    let out = format!(
        "pub const FIRST: Drawers = Drawers {{ text: {:?}, ends: &{:?} }};\n\
         pub const BEHIND: Drawers = Drawers {{ text: {:?}, ends: &{:?} }};\n\
         /// The folded words for parts of foods.\n\
         pub const PARTS: &str = {:?};\n",
        table.first,
        table.first_ends,
        table.behind,
        table.behind_ends,
        parts.join(" "),
    );
    let folder = env::var_os("OUT_DIR").ok_or(io::Error::other("OUT_DIR is not set: this is to be run by cargo"))?;
    fs::write(Path::new(&folder).join("larder.rs"), out)
}

/// The cells of each food on a shelf: all lines but comments and the header.
fn rows(shelf: &str) -> impl Iterator<Item = Vec<&str>> {
    let lines = shelf.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines.skip(1).map(|line| line.split('\t').map(str::trim_ascii).collect())
}

/// The name of a food and its synonyms.
fn names<'s>(row: &[&'s str]) -> impl Iterator<Item = &'s str> + use<'s> {
    row.first().copied().into_iter().chain(list(row.get(1).copied()))
}

/// What its parts are called.
fn parts<'s>(row: &[&'s str]) -> impl Iterator<Item = &'s str> + use<'s> {
    list(row.get(7).copied()).map(|part| part.split('=').next().unwrap_or(part).trim_ascii())
}

/// The entries of a cell.
fn list(cell: Option<&str>) -> impl Iterator<Item = &str> {
    cell.unwrap_or_default().split(';').map(str::trim_ascii).filter(|entry| !entry.is_empty())
}
