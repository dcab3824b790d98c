//! The only place that knows files and folders.

pub mod read;
pub mod trouble;
pub mod walk;
