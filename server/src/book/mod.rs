//! (layer book)
