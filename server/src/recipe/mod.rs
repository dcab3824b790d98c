//! (layer recipe)
