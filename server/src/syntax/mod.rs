//! (layer syntax)
