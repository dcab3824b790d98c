//! The tables that the larder is read from. A new file in `shelves/` needs a line here; a test says so.

/// File name and text of every shelf.
pub(super) const SHELVES: &[(&str, &str)] =
    &[("flours_and_starches.tsv", include_str!("shelves/flours_and_starches.tsv"))];
