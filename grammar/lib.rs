//! The tree-sitter grammar of the Tamis manuscript format, and the table of unit words that it shares with the server.

/// One row of `units.json`: every spelling of one unit.
#[derive(Debug, Clone, Copy)]
pub struct UnitWords {
    /// The unit's full name in the singular: `tablespoon`.
    pub name: &'static str,
    /// `volume`, `weight`, `length`, `temperature`, `time`, `count` or `loose`.
    pub kind: &'static str,
    /// Spellings that are the same unit in any case.
    pub words: &'static [&'static str],
    /// Spellings in which the case tells units apart: `T` is a tablespoon, `t` a teaspoon.
    pub cased: &'static [&'static str],
    /// Spellings that are the unit only after a hyphen, in `N x N`, or before punctuation or a noun of size: `in`.
    pub guarded: &'static [&'static str],
}

/// Every unit that the grammar knows, in the order of `units.json`.
pub const UNITS: &[UnitWords] = include!(concat!(env!("OUT_DIR"), "/units.rs"));

/// A node of a text, as [`nodes`] notes it.
#[repr(C)]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Noted {
    /// Its first byte.
    pub start: u32,
    /// The byte behind its last.
    pub end: u32,
    /// How many are noted of it: itself and all below it, hidden ones too.
    pub count: u32,
    /// What it is, by the number of the grammar; hidden nodes have one too.
    pub symbol: u16,
}

unsafe extern "C" {
    fn tree_sitter_tamis() -> *const ();
    fn tree_sitter_tamis_nodes(text: *const u8, size: u32, noted: *mut Noted, room: u32) -> i64;
}

/// Reads a text without making a tree of it, in a quarter of the time: by the same tables and the same scanner. Puts its nodes into `noted`,
/// each behind all below it. False, and nothing there, for a text that cannot be read so; a tree-sitter parser reads every text.
pub fn nodes(text: &str, noted: &mut Vec<Noted>) -> bool {
    noted.clear();
    let Ok(size) = u32::try_from(text.len()) else { return false };
    noted.reserve(text.len() / 2 + 64);
    loop {
        let room = u32::try_from(noted.capacity()).unwrap_or(u32::MAX);
        // Sound: the text is borrowed as long as it is read, and no more is written than there is room for.
        match unsafe { tree_sitter_tamis_nodes(text.as_ptr(), size, noted.as_mut_ptr(), room) } {
            count if count >= 0 => {
                let count = usize::try_from(count).unwrap_or_default();
                debug_assert!(count <= noted.capacity());
                // Sound: so many have been written.
                unsafe { noted.set_len(count) };
                return true;
            }
            NO_ROOM if room < u32::MAX => noted.reserve(noted.capacity() * 2),
            _ => return false,
        }
    }
}

/// What is told of a text that has more nodes than there is room for.
const NO_ROOM: i64 = -2;

/// The language, for a tree-sitter parser.
// Sound: the function is that of the generated parser, which is compiled into this crate.
pub const LANGUAGE: tree_sitter_language::LanguageFn =
    unsafe { tree_sitter_language::LanguageFn::from_raw(tree_sitter_tamis) };

/// Colours, for editors that read tree-sitter queries.
pub const HIGHLIGHTS_QUERY: &str = include_str!("queries/highlights.scm");

/// What folds: a recipe and each of its sections.
pub const FOLDS_QUERY: &str = include_str!("queries/folds.scm");

/// Where lines are indented: the further lines of an item or a step.
pub const INDENTS_QUERY: &str = include_str!("queries/indents.scm");

/// Other languages inside a manuscript: that of remarks.
pub const INJECTIONS_QUERY: &str = include_str!("queries/injections.scm");

/// Scopes, definitions and references: results and their mentions inside one recipe.
pub const LOCALS_QUERY: &str = include_str!("queries/locals.scm");

/// What can be gone to: recipes, groups and results.
pub const TAGS_QUERY: &str = include_str!("queries/tags.scm");

/// Every kind of node, with its fields and children, as JSON.
pub const NODE_TYPES: &str = include_str!("src/node-types.json");
