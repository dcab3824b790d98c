//! (layer cli)
