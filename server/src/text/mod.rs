//! Documents, positions and edits. Knows nothing of recipes.
//!
//! Everything inside the project counts in bytes ([`Span`], [`Edit`]). Lines and columns are spoken only at the two faces:
//! by a [`Document`] to an editor, by a [`LineIndex`] to a terminal.

mod backlog;
mod difference;
mod document;
mod line_ending;
mod line_index;
mod position;
mod span;
mod words;

pub use backlog::Backlog;
pub use difference::difference;
pub use document::Document;
pub use line_ending::{LineEnding, lines};
pub use line_index::LineIndex;
pub use position::{Encoding, Position};
pub use span::{Edit, Span};
pub use words::{Words, place_of};
