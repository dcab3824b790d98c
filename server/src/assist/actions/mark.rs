//! Plain mentions that brackets would make exact.

use super::{Change, One};
use crate::{checks::support::marking, recipe::Recipe};

/// Every mention that can be marked without meaning anything else.
pub fn all(recipe: &Recipe) -> Vec<One> {
    let markable = marking::markable(recipe).into_iter();
    let one = |(_, span)| One {
        change: Change::Mark,
        place: span,
        text: recipe.at(span).split_whitespace().collect::<Vec<_>>().join(" "),
        edits: marking::bracketed(span),
        only_here: false,
    };
    markable.map(one).collect()
}
