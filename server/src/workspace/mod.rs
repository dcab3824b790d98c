//! (layer workspace)
