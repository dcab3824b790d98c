//! The tables that the larder is read from. A new file in `shelves/` needs a line here; a test says so.

/// File name and text of every shelf.
pub const SHELVES: &[(&str, &str)] = &[
    ("baking_sundries.tsv", include_str!("shelves/baking_sundries.tsv")),
    ("cheeses.tsv", include_str!("shelves/cheeses.tsv")),
    ("cocoa_and_chocolate.tsv", include_str!("shelves/cocoa_and_chocolate.tsv")),
    ("condiments.tsv", include_str!("shelves/condiments.tsv")),
    ("dairy_and_eggs.tsv", include_str!("shelves/dairy_and_eggs.tsv")),
    ("fats_and_oils.tsv", include_str!("shelves/fats_and_oils.tsv")),
    ("fish_and_seafood.tsv", include_str!("shelves/fish_and_seafood.tsv")),
    ("flours_and_starches.tsv", include_str!("shelves/flours_and_starches.tsv")),
    ("fruit.tsv", include_str!("shelves/fruit.tsv")),
    ("grains_and_pasta.tsv", include_str!("shelves/grains_and_pasta.tsv")),
    ("herbs.tsv", include_str!("shelves/herbs.tsv")),
    ("leavenings.tsv", include_str!("shelves/leavenings.tsv")),
    ("liquids.tsv", include_str!("shelves/liquids.tsv")),
    ("meats.tsv", include_str!("shelves/meats.tsv")),
    ("mushrooms_and_sea_vegetables.tsv", include_str!("shelves/mushrooms_and_sea_vegetables.tsv")),
    ("nuts_and_seeds.tsv", include_str!("shelves/nuts_and_seeds.tsv")),
    ("poultry.tsv", include_str!("shelves/poultry.tsv")),
    ("pulses.tsv", include_str!("shelves/pulses.tsv")),
    ("salts.tsv", include_str!("shelves/salts.tsv")),
    ("soups_and_ready.tsv", include_str!("shelves/soups_and_ready.tsv")),
    ("spices_and_seasonings.tsv", include_str!("shelves/spices_and_seasonings.tsv")),
    ("sugars_and_syrups.tsv", include_str!("shelves/sugars_and_syrups.tsv")),
    ("sundries.tsv", include_str!("shelves/sundries.tsv")),
    ("vegetables.tsv", include_str!("shelves/vegetables.tsv")),
];
