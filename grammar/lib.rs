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

/// A node of a text, as a [`Reader`] notes it.
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
    fn tree_sitter_tamis_nodes(
        text: *const u8,
        size: u32,
        noted: *mut Noted,
        room: u32,
        known: *mut [Known; KNOWN],
    ) -> i64;
}

/// What the tables have for a state and a symbol, as `src/nodes.c` keeps it.
#[repr(C)]
#[derive(Debug, Clone, Copy, Default)]
struct Known {
    pair: u32,
    found: u16,
}

/// How many of them it keeps.
const KNOWN: usize = 2048;

/// Room for so many nodes is kept from text to text: a quarter of a megabyte.
const KEPT: usize = 1 << 14;

/// What it tells of a text that has more nodes than there is room for.
const NO_ROOM: i64 = -2;

/// Reads texts without making trees of them, by the same tables and the same scanner, in a quarter of the time.
#[derive(Debug)]
pub struct Reader {
    noted: Vec<Noted>,
    known: Box<[Known; KNOWN]>,
}

impl Default for Reader {
    fn default() -> Self {
        Reader { noted: Vec::new(), known: Box::new([Known::default(); KNOWN]) }
    }
}

impl Reader {
    /// The nodes of a text, each behind all below it. None for a text that cannot be read so, as a broken one; a tree-sitter parser reads
    /// every text.
    pub fn nodes(&mut self, text: &str) -> Option<&[Noted]> {
        let size = u32::try_from(text.len()).ok()?;
        self.noted.clear();
        self.noted.shrink_to(KEPT);
        self.noted.reserve(text.len() / 2 + 64);
        loop {
            let room = u32::try_from(self.noted.capacity()).unwrap_or(u32::MAX);
            let noted = self.noted.as_mut_ptr();
            // Sound: the text is borrowed as long as it is read, and no more is written than there is room for.
            let told = unsafe { tree_sitter_tamis_nodes(text.as_ptr(), size, noted, room, &raw mut *self.known) };
            match usize::try_from(told) {
                // Sound: so many have been written.
                Ok(count) => unsafe { self.noted.set_len(count) },
                Err(_) if told == NO_ROOM && room < u32::MAX => {
                    self.noted.reserve(self.noted.capacity() * 2);
                    continue;
                }
                Err(_) => return None,
            }
            return Some(&self.noted);
        }
    }
}

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
