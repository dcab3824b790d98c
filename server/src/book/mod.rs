//! The book: its house style, and what its recipes know of each other. Pure data.

pub mod habits;
mod house;
pub mod near;
mod severity;
pub mod sheet;
pub mod titles;

pub use habits::Habits;
pub use house::{Grade, House, HouseLarder, Setting};
pub use severity::Severity;
pub use titles::{Catalogue, OwnTitles, Titles, title_key};

use std::sync::Arc;

/// The book that a manuscript stands in: all that it is checked by besides its own words.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Book {
    /// The house style.
    pub house: Arc<House>,
    /// What its recipes do.
    pub habits: Arc<Habits>,
    /// What they are called.
    pub catalogue: Arc<Catalogue>,
    /// The manuscript, as the catalogue calls it.
    pub file: Option<Arc<str>>,
}
