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

unsafe extern "C" {
    fn tree_sitter_tamis() -> *const ();
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
