//! (layer measure)
