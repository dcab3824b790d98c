//! Puts the names on the larder's shelves in order, so that the program need not do it at each start.

use std::collections::BTreeSet;
use std::path::Path;
use std::{env, fs, io};

// The table is made by the program's own code, of which not all is needed here.
#[path = "src/larder/cells.rs"]
mod cells;
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
    for source in [SHELVES, "src/larder/cells.rs", "src/larder/table.rs", "src/larder/words.rs", "src/text"] {
        println!("cargo:rerun-if-changed={source}");
    }
    let mut shelves: Vec<_> = fs::read_dir(SHELVES)?.map(|file| Ok(file?.path())).collect::<io::Result<_>>()?;
    shelves.sort();
    let shelves: Vec<String> = shelves.iter().map(fs::read_to_string).collect::<io::Result<_>>()?;
    let rows: Vec<&str> = shelves.iter().flat_map(|shelf| cells::rows(shelf)).collect();
    let names = rows.iter().enumerate().flat_map(|(food, row)| cells::names(row).map(move |name| (name, food)));
    let table = table::Table::of(names);
    let parts: BTreeSet<_> = rows.iter().flat_map(|row| cells::part_names(row)).map(words::fold).collect();
    let parts: Vec<_> = parts.into_iter().collect();
    let out = format!(
        "pub const FIRST: Drawers = Drawers {{ text: {:?}, ends: &{:?} }};\n\
         pub static FIRST_MARKS: &[u64] = &{:?};\n\
         pub const BEHIND: Drawers = Drawers {{ text: {:?}, ends: &{:?} }};\n\
         /// The folded words for parts of foods.\n\
         pub const PARTS: &str = {:?};\n",
        table.first,
        table.first_ends,
        table.first_marks,
        table.behind,
        table.behind_ends,
        parts.join(" "),
    );
    let folder = env::var_os("OUT_DIR").ok_or(io::Error::other("OUT_DIR is not set: this is to be run by cargo"))?;
    fs::write(Path::new(&folder).join("larder.rs"), out)
}
