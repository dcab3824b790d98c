//! Documents, positions and edits. Knows nothing of recipes.

mod span;

pub use span::{Edit, Span};
