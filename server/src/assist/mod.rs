//! (layer assist)
