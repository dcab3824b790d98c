//! The tables that the larder is read from. A new file in `shelves/` needs a line here; a test says so.

/// File name and text of every shelf.
pub(super) const SHELVES: &[(&str, &str)] = &[
    ("fish_and_seafood.tsv", include_str!("shelves/fish_and_seafood.tsv")),
    ("flours_and_starches.tsv", include_str!("shelves/flours_and_starches.tsv")),
    ("fruit.tsv", include_str!("shelves/fruit.tsv")),
    ("meats.tsv", include_str!("shelves/meats.tsv")),
    ("poultry.tsv", include_str!("shelves/poultry.tsv")),
    ("vegetables.tsv", include_str!("shelves/vegetables.tsv")),
];
