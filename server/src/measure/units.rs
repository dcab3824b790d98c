use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use tree_sitter_tamis::UNITS;

use super::unit_table::Size;

/// A unit of the trade, one for every row of `grammar/units.json`.
#[expect(missing_docs, reason = "a unit's name says what it is")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[rustfmt::skip]
pub enum Unit {
    Teaspoon, Tablespoon, Dessertspoon, Cup, FluidOunce, Gill, Pint, Quart, Gallon, Millilitre, Centilitre,
    Decilitre, Litre, Jigger,
    Gram, Milligram, Kilogram, Ounce, Pound,
    Inch, Foot, Millimetre, Centimetre, Metre,
    DegreeFahrenheit, DegreeCelsius, Degree, GasMark,
    Second, Minute, Hour, Day, Week, Month,
    Stick, Can, Tin, Jar, Bottle, Carton, Packet, Box, Bag, Tub, Tube, Bunch, Head, Bulb, Clove, Stalk, Sprig, Leaf,
    Slice, Sheet, Rasher, Strip, Piece, Chunk, Cube, Fillet, Ear, Block, Bar, Ball, Loaf, Round, Wedge, Punnet,
    Portion, Batch, Recipe, Dozen, Scoop, Mug, Glass, Bowl,
    Pinch, Dash, Smidgen, Drop, Splash, Drizzle, Glug, Squeeze, Knob, Pat, Dollop, Handful, Sprinkle, Grating, Thumb,
    Spoonful,
}

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum UnitKind {
    /// Cups, spoons, millilitres.
    Volume,
    /// Grams, ounces of weight.
    Weight,
    /// Inches, centimetres.
    Length,
    /// Degrees and gas marks.
    Temperature,
    /// Seconds up to months.
    Time,
    /// Things counted: cans, cloves, slices.
    Count,
    /// Measures by eye, legal and never exact: a pinch, a glug.
    Loose,
}

impl UnitKind {
    /// Its name in a message: `volume`, `weight` …
    pub fn name(self) -> &'static str {
        match self {
            UnitKind::Volume => "volume",
            UnitKind::Weight => "weight",
            UnitKind::Length => "length",
            UnitKind::Temperature => "temperature",
            UnitKind::Time => "time",
            UnitKind::Count => "count",
            UnitKind::Loose => "loose measure",
        }
    }
}

/// A family of units that a reader measures with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum System {
    /// Cups, spoons, pounds, inches, degrees Fahrenheit.
    Customary,
    /// Millilitres, grams, centimetres, degrees Celsius.
    Metric,
}

impl System {
    /// The one that is not this.
    pub fn other(self) -> System {
        match self {
            System::Customary => System::Metric,
            System::Metric => System::Customary,
        }
    }
}

impl Unit {
    /// Every unit, in the order of `grammar/units.json`.
    pub fn all() -> impl Iterator<Item = Unit> {
        ALL.iter().copied()
    }

    /// The unit that `text` writes, whatever its case, full stops, hyphens and spaces: `Tbsp.`, `fl. oz.`, `LBS`.
    ///
    /// Where the case tells two apart it decides: `T` is a tablespoon and `t` a teaspoon, `c` a cup and `C` degrees Celsius.
    pub fn find(text: &str) -> Option<Unit> {
        let text = text.trim().trim_end_matches('.');
        if let Some(unit) = WORDS.cased.get(text).or_else(|| WORDS.any_case.get(text)) {
            return Some(*unit);
        }
        WORDS.any_case.get(plain(text).as_str()).copied()
    }

    /// As [`Unit::find`], but a lone `C` or `c` means what its number allows:
    /// `1 1/2 C` and `2 C` are cups, `180 c` degrees Celsius.
    pub fn find_beside(text: &str, number: &super::Interval) -> Option<Unit> {
        match text.trim().trim_end_matches('.') {
            "C" if number.least > 0.0 && number.most.is_some_and(|most| most <= 3.0) => Some(Unit::Cup),
            "c" if number.least >= 20.0 => Some(Unit::DegreeCelsius),
            text => Unit::find(text),
        }
    }

    /// Its name in the singular: `tablespoon`.
    pub fn name(self) -> &'static str {
        self.facts().name
    }

    /// Its name in the plural: `tablespoons`.
    pub fn plural(self) -> &'static str {
        self.facts().plural
    }

    /// As the house writes it after a one: `tbsp`, `g`, `cup`.
    pub fn symbol(self) -> &'static str {
        self.facts().symbol
    }

    /// As the house writes it after `number`: `1/2 cup`, `1 1/2 cups`, `2 tbsp`. One and less take the singular.
    pub fn symbol_for(self, number: f64) -> &'static str {
        if number > 1.0 { self.facts().symbols } else { self.facts().symbol }
    }

    /// What it measures.
    pub fn kind(self) -> UnitKind {
        match self.facts().size {
            Size::Teaspoons(_)
            | Size::Tablespoons(_)
            | Size::Cups(_)
            | Size::FluidOunces(_)
            | Size::Pints(_)
            | Size::Millilitres(_) => UnitKind::Volume,
            Size::Grams(_) => UnitKind::Weight,
            Size::Centimetres(_) => UnitKind::Length,
            Size::Fahrenheit | Size::Celsius | Size::Degrees | Size::GasMark => UnitKind::Temperature,
            Size::Seconds(_) => UnitKind::Time,
            Size::Count(_) => UnitKind::Count,
            Size::Loose => UnitKind::Loose,
        }
    }

    /// The family it belongs to; none for times, counts, loose measures and degrees without a scale.
    pub fn system(self) -> Option<System> {
        match self {
            Unit::Millilitre | Unit::Centilitre | Unit::Decilitre | Unit::Litre => Some(System::Metric),
            Unit::Gram | Unit::Milligram | Unit::Kilogram => Some(System::Metric),
            Unit::Millimetre | Unit::Centimetre | Unit::Metre | Unit::DegreeCelsius => Some(System::Metric),
            Unit::Degree => None,
            _ => match self.kind() {
                UnitKind::Volume | UnitKind::Weight | UnitKind::Length | UnitKind::Temperature => {
                    Some(System::Customary)
                }
                UnitKind::Time | UnitKind::Count | UnitKind::Loose => None,
            },
        }
    }

    /// Every spelling that the grammar takes for it, the usual one first.
    pub fn words(self) -> impl Iterator<Item = &'static str> {
        let row = UNITS.iter().find(|row| row.name.eq_ignore_ascii_case(self.name()));
        row.into_iter().flat_map(|row| row.words.iter().chain(row.cased).chain(row.guarded).copied())
    }
}

/// Every spelling, looked up once for each measure that is read.
struct Words {
    cased: FxHashMap<&'static str, Unit>,
    any_case: FxHashMap<String, Unit>,
}

static WORDS: LazyLock<Words> = LazyLock::new(|| {
    let mut words = Words { cased: FxHashMap::default(), any_case: FxHashMap::default() };
    for row in UNITS {
        let Some(unit) = Unit::all().find(|unit| unit.name().eq_ignore_ascii_case(row.name)) else { continue };
        words.cased.extend(row.cased.iter().map(|word| (*word, unit)));
        words.any_case.extend(row.words.iter().chain(row.guarded).map(|word| (plain(word), unit)));
    }
    words
});

/// Lower case, without full stops, with single spaces in the place of hyphens and runs of white space.
fn plain(word: &str) -> String {
    let mut plain = String::with_capacity(word.len());
    for part in word.split(|c: char| c.is_whitespace() || c == '-').filter(|part| !part.is_empty()) {
        if !plain.is_empty() {
            plain.push(' ');
        }
        plain.extend(part.chars().filter(|c| *c != '.').flat_map(char::to_lowercase));
    }
    plain
}

#[rustfmt::skip]
const ALL: [Unit; 92] = [
    Unit::Teaspoon, Unit::Tablespoon, Unit::Dessertspoon, Unit::Cup, Unit::FluidOunce, Unit::Gill, Unit::Pint,
    Unit::Quart, Unit::Gallon, Unit::Millilitre, Unit::Centilitre, Unit::Decilitre, Unit::Litre, Unit::Jigger,
    Unit::Gram, Unit::Milligram, Unit::Kilogram, Unit::Ounce, Unit::Pound,
    Unit::Inch, Unit::Foot, Unit::Millimetre, Unit::Centimetre, Unit::Metre,
    Unit::DegreeFahrenheit, Unit::DegreeCelsius, Unit::Degree, Unit::GasMark,
    Unit::Second, Unit::Minute, Unit::Hour, Unit::Day, Unit::Week, Unit::Month,
    Unit::Stick, Unit::Can, Unit::Tin, Unit::Jar, Unit::Bottle, Unit::Carton, Unit::Packet, Unit::Box, Unit::Bag,
    Unit::Tub, Unit::Tube, Unit::Bunch, Unit::Head, Unit::Bulb, Unit::Clove, Unit::Stalk, Unit::Sprig, Unit::Leaf,
    Unit::Slice, Unit::Sheet, Unit::Rasher, Unit::Strip, Unit::Piece, Unit::Chunk, Unit::Cube, Unit::Fillet,
    Unit::Ear, Unit::Block, Unit::Bar, Unit::Ball, Unit::Loaf, Unit::Round, Unit::Wedge, Unit::Punnet, Unit::Portion,
    Unit::Batch, Unit::Recipe, Unit::Dozen, Unit::Scoop, Unit::Mug, Unit::Glass, Unit::Bowl,
    Unit::Pinch, Unit::Dash, Unit::Smidgen, Unit::Drop, Unit::Splash, Unit::Drizzle, Unit::Glug, Unit::Squeeze,
    Unit::Knob, Unit::Pat, Unit::Dollop, Unit::Handful, Unit::Sprinkle, Unit::Grating, Unit::Thumb, Unit::Spoonful,
];

#[cfg(test)]
mod tests {
    use super::{super::Interval, *};

    #[test]
    fn every_row_of_the_table_of_words_is_a_unit() {
        let rows: Vec<&str> = UNITS.iter().map(|row| row.name).collect();
        let units: Vec<String> = Unit::all().map(|unit| unit.name().to_lowercase()).collect();
        assert_eq!(units, rows, "units.json and units.rs have the same units in the same order");
    }

    #[test]
    fn every_word_finds_its_unit_and_its_kind() {
        for row in UNITS {
            for word in row.words.iter().chain(row.cased).chain(row.guarded) {
                let unit = Unit::find(word).unwrap_or_else(|| panic!("{word}"));
                assert_eq!(unit.name().to_lowercase(), row.name, "{word}");
                assert_eq!(format!("{:?}", unit.kind()).to_lowercase(), row.kind, "{word}");
            }
        }
    }

    #[test]
    fn the_house_reads_what_it_writes() {
        for unit in Unit::all() {
            for text in [unit.name(), unit.plural(), unit.symbol(), unit.symbol_for(2.0)] {
                assert_eq!(Unit::find(text), Some(unit), "{text}");
            }
            assert!(unit.words().next().is_some(), "{}", unit.name());
        }
    }

    #[test]
    fn finds_a_unit_in_any_dress() {
        let table = [
            ("T", Unit::Tablespoon),
            ("t", Unit::Teaspoon),
            ("T.", Unit::Tablespoon),
            ("c", Unit::Cup),
            ("c.", Unit::Cup),
            ("C", Unit::DegreeCelsius),
            ("F", Unit::DegreeFahrenheit),
            ("L", Unit::Litre),
            ("tbsp.", Unit::Tablespoon),
            ("Tbsp", Unit::Tablespoon),
            ("TABLESPOONS", Unit::Tablespoon),
            ("lb.", Unit::Pound),
            ("Lbs.", Unit::Pound),
            ("fl. oz.", Unit::FluidOunce),
            ("Fl.Oz.", Unit::FluidOunce),
            ("fl-oz", Unit::FluidOunce),
            ("fluid  ounces", Unit::FluidOunce),
            ("in", Unit::Inch),
            ("in.", Unit::Inch),
            ("°F", Unit::DegreeFahrenheit),
            ("º C", Unit::DegreeCelsius),
            ("degrees F", Unit::DegreeFahrenheit),
            ("°", Unit::Degree),
            ("Gas Mark", Unit::GasMark),
        ];
        for (text, unit) in table {
            assert_eq!(Unit::find(text), Some(unit), "{text}");
        }
        for text in ["", " ", ".", "cusp", "egg", "cups of"] {
            assert_eq!(Unit::find(text), None, "{text}");
        }
    }

    #[test]
    fn a_lone_c_means_what_its_number_allows() {
        let find = |text, number| Unit::find_beside(text, &Interval::exactly(number));
        assert_eq!(find("C", 1.5), Some(Unit::Cup));
        assert_eq!(find("C", 180.0), Some(Unit::DegreeCelsius));
        assert_eq!(find("C", 4.0), Some(Unit::DegreeCelsius));
        assert_eq!(find("c", 180.0), Some(Unit::DegreeCelsius));
        assert_eq!(find("c", 4.0), Some(Unit::Cup));
        assert_eq!(find("°C", 2.0), Some(Unit::DegreeCelsius));
    }
}
