//! Answers for whoever writes: what stands under the cursor, and what can be done about it. One file a feature.

mod hover;
mod share;

pub use hover::{Hover, hover};
pub use share::share;
