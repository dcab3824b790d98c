//! The book: its house style, and what its recipes know of each other. Pure data.

mod house;
pub mod near;
mod severity;
pub mod sheet;

pub use house::{Grade, House, HouseLarder, Setting};
pub use severity::Severity;
