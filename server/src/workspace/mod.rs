//! The only place that knows files and folders.

pub mod baseline;
pub mod book;
pub mod leaf;
mod manuscript;
mod piece;
pub mod posts;
pub mod read;
pub mod recipes;
mod rewrite;
pub mod schema;
pub mod sheet_help;
mod tried;
pub mod trouble;
pub mod walk;
mod world;
pub mod write;

pub use manuscript::Manuscript;
pub use rewrite::Mended;

use crate::larder::larder;

/// Reads what every manuscript is read by, so that the first one need not wait for it.
pub fn prepare() {
    larder();
}
