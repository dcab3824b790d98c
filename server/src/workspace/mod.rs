//! The only place that knows files and folders.

mod manuscript;
pub mod read;
pub mod trouble;
pub mod walk;

pub use manuscript::Manuscript;
