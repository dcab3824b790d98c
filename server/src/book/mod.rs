//! The book: its house style, and what its recipes know of each other. Pure data.

mod house;
mod severity;

pub use house::{Grade, House};
pub use severity::Severity;
