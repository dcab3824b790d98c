//! Tamis reads a recipe manuscript once, turns it into a plain model of the kitchen, and answers every question from that model.
//!
//! The layers, each importing only those before it:
//! `text`, `syntax`, `measure`, `larder`, `recipe`, `book`, `checks` and `assist`, `workspace`, `lsp` and `cli`.

pub mod assist;
pub mod book;
pub mod checks;
pub mod cli;
pub mod larder;
pub mod lsp;
pub mod measure;
pub mod recipe;
pub mod syntax;
pub mod text;
pub mod workspace;
