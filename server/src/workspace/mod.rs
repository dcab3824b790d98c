//! The only place that knows files and folders.

pub mod book;
mod manuscript;
pub mod read;
pub mod recipes;
pub mod trouble;
pub mod walk;

pub use manuscript::Manuscript;
