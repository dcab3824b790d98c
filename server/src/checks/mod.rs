//! (layer checks)
