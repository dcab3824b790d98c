//! Answers for whoever writes: what stands under the cursor, and what can be done about it. One file a feature.

mod clock;
mod completion;
mod definition;
mod facts;
mod folds;
mod hints;
mod hover;
mod labels;
mod ledger;
mod left;
mod links;
mod outline;
mod rename;
mod selection;
mod share;
mod summary;
mod things;
mod tokens;
mod tools;
pub mod wording;

pub use completion::{Asked, Proposal, ProposalKind, Proposals, Topic, completion, explain};
pub use definition::{Origin, definition, type_definition};
pub use facts::{Amounts, Facts, NotKnown, Sourced, Spread, facts, tidy};
pub use folds::{Fold, folds};
pub use hints::{Hint, HintKind, hints};
pub use hover::{Hover, hover};
pub use labels::{LABELS, Label, LabelKind, label_of};
pub use links::{Destination, Link, links};
pub use outline::{Entry, EntryKind, outline};
pub use rename::{Refusal, renamable, rename};
pub use selection::selection;
pub use share::share;
pub use summary::summary;
pub use things::{Named, Occurrence, Role, Thing, named_at, occurrences};
pub use tokens::{Token, TokenKind, tokens};
