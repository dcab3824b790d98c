//! The tables that the larder is read from. A new file in `shelves/` needs a line here; a test says so.

/// File name and text of every shelf.
pub(super) const SHELVES: &[(&str, &str)] = &[
    ("fish_and_seafood.tsv", include_str!("shelves/fish_and_seafood.tsv")),
    ("flours_and_starches.tsv", include_str!("shelves/flours_and_starches.tsv")),
    ("fruit.tsv", include_str!("shelves/fruit.tsv")),
    ("herbs.tsv", include_str!("shelves/herbs.tsv")),
    ("meats.tsv", include_str!("shelves/meats.tsv")),
    ("mushrooms_and_sea_vegetables.tsv", include_str!("shelves/mushrooms_and_sea_vegetables.tsv")),
    ("poultry.tsv", include_str!("shelves/poultry.tsv")),
    ("spices_and_seasonings.tsv", include_str!("shelves/spices_and_seasonings.tsv")),
    ("vegetables.tsv", include_str!("shelves/vegetables.tsv")),
];
