//! How the house sets numbers, ranges and units.

use std::collections::BTreeMap;

use super::Places;
use super::faults::{StyleFault, listed, unknown};
use super::tables::{FractionWord, RangeWord, StyleTable, UnitsWord};
use crate::book::Setting;
use crate::book::near::nearest;
use crate::measure::{FractionStyle, RangeStyle, Unit, UnitStyle};

/// The setting that a sheet describes.
pub(super) fn setting(table: &StyleTable, places: &Places<'_>, faults: &mut Vec<StyleFault>) -> Setting {
    Setting {
        fractions: table.fractions.map(|word| match word {
            FractionWord::Slash => FractionStyle::Slash,
            FractionWord::Glyph => FractionStyle::Glyph,
            FractionWord::Decimal => FractionStyle::Decimal,
        }),
        ranges: table.ranges.map(|word| match word {
            RangeWord::To => RangeStyle::To,
            RangeWord::EnDash => RangeStyle::Dash,
            RangeWord::Hyphen => RangeStyle::Hyphen,
        }),
        units: table.units.map(|word| match word {
            UnitsWord::Short => UnitStyle::Short,
            UnitsWord::Long => UnitStyle::Long,
        }),
        spellings: spellings(table, places, faults),
    }
}

/// Units by their names, each with a spelling that a manuscript can be read by.
fn spellings(
    table: &StyleTable,
    places: &Places<'_>,
    faults: &mut Vec<StyleFault>,
) -> BTreeMap<Unit, (String, String)> {
    let mut spellings = BTreeMap::new();
    for (name, spelling) in &table.spellings {
        let path = ["style", "spellings", name];
        let Some(unit) = Unit::all().find(|unit| unit.name().eq_ignore_ascii_case(name)) else {
            let near = nearest(name, Unit::all().map(Unit::name));
            let instead = "Write the name of one, as teaspoon, ounce or millilitre.";
            faults.push(StyleFault::new(places.key(&path), unknown("unit called", name, near, instead)));
            continue;
        };
        let (one, more) = spelling.split_once('/').unwrap_or((spelling, spelling));
        if let Some(odd) = [one, more].into_iter().find(|word| Unit::find(word) != Some(unit)) {
            let mut words = vec![unit.symbol(), unit.name(), unit.plural()];
            words.dedup();
            let message = format!(
                "Nobody would read “{odd}” as a {}, and neither does Tamis. It reads {}, with or without a full stop.",
                unit.name(),
                listed(&words, "and")
            );
            faults.push(StyleFault::new(places.value(&path), message));
            continue;
        }
        spellings.insert(unit, (one.trim().to_owned(), more.trim().to_owned()));
    }
    spellings
}
