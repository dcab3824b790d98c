//! Kitchen prose as tokens, sentences and clauses: what a word does, before anybody asks what it means.

pub mod clause;
pub mod lexicon;
pub mod token;
mod words;
