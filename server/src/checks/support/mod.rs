//! What several checks share: what things are called in a message, how a step or a line is put in or taken out.

pub mod around;
pub mod bands;
pub mod bracket;
pub mod heat;
pub mod likely;
pub mod lines;
pub mod liquids;
pub mod list;
pub mod marking;
pub mod numbers;
pub mod order;
pub mod oven;
pub mod phrase;
pub mod restated;
pub mod restating;
pub mod rewriting;
pub mod sentences;
pub mod setting;
pub mod shares;
pub mod steps;
pub mod tools;
pub mod vessels;
pub mod vessels_filled;
pub mod vessels_portions;
pub mod waits;
pub mod words;
