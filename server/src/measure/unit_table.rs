//! The one table of what a unit is: its name, its plural, how the house writes it, and how much it is.
//! The words that a manuscript may use for it stand in `grammar/units.json`.

use super::units::Unit;

/// One unit's facts.
#[derive(Debug, Clone, Copy)]
pub(super) struct Facts {
    pub name: &'static str,
    pub plural: &'static str,
    pub symbol: &'static str,
    pub symbols: &'static str,
    pub size: Size,
}

/// How much one of a unit is. Those that depend on which cup, spoon or pint the house means say how many of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Size {
    Teaspoons(f64),
    Tablespoons(f64),
    Cups(f64),
    FluidOunces(f64),
    Pints(f64),
    Millilitres(f64),
    Grams(f64),
    Centimetres(f64),
    Seconds(f64),
    Fahrenheit,
    Celsius,
    /// Degrees that do not say of which scale.
    Degrees,
    GasMark,
    Count(f64),
    Loose,
}

/// Grams in an avoirdupois pound. NIST Handbook 44, Appendix C.
pub(super) const POUND: f64 = 453.592_37;
/// Grams in an avoirdupois ounce, 1/16 of a pound.
pub(super) const OUNCE: f64 = POUND / 16.0;
/// Centimetres in an inch. NIST Handbook 44, Appendix C.
pub(super) const INCH: f64 = 2.54;
const DAY: f64 = 86_400.0;
/// A twelfth of 365.25 days: near enough for 'keeps a month'.
const MONTH: f64 = 365.25 / 12.0 * DAY;

/// A unit that is written out: `2 cups`.
const fn word(name: &'static str, plural: &'static str, size: Size) -> Facts {
    Facts { name, plural, symbol: name, symbols: plural, size }
}

/// A unit with a short form that has no plural: `2 tbsp`.
const fn short(name: &'static str, plural: &'static str, symbol: &'static str, size: Size) -> Facts {
    Facts { name, plural, symbol, symbols: symbol, size }
}

/// A thing to be counted.
const fn counted(name: &'static str, plural: &'static str) -> Facts {
    word(name, plural, Size::Count(1.0))
}

/// A measure by eye.
const fn loose(name: &'static str, plural: &'static str) -> Facts {
    word(name, plural, Size::Loose)
}

impl Unit {
    pub(super) const fn facts(self) -> Facts {
        match self {
            Unit::Teaspoon => short("teaspoon", "teaspoons", "tsp", Size::Teaspoons(1.0)),
            Unit::Tablespoon => short("tablespoon", "tablespoons", "tbsp", Size::Tablespoons(1.0)),
            Unit::Dessertspoon => word("dessertspoon", "dessertspoons", Size::Millilitres(10.0)),
            Unit::Cup => word("cup", "cups", Size::Cups(1.0)),
            Unit::FluidOunce => short("fluid ounce", "fluid ounces", "fl oz", Size::FluidOunces(1.0)),
            Unit::Gill => word("gill", "gills", Size::Pints(0.25)),
            Unit::Pint => word("pint", "pints", Size::Pints(1.0)),
            Unit::Quart => word("quart", "quarts", Size::Pints(2.0)),
            Unit::Gallon => word("gallon", "gallons", Size::Pints(8.0)),
            Unit::Millilitre => short("millilitre", "millilitres", "ml", Size::Millilitres(1.0)),
            Unit::Centilitre => short("centilitre", "centilitres", "cl", Size::Millilitres(10.0)),
            Unit::Decilitre => short("decilitre", "decilitres", "dl", Size::Millilitres(100.0)),
            Unit::Litre => short("litre", "litres", "l", Size::Millilitres(1000.0)),
            Unit::Jigger => word("jigger", "jiggers", Size::FluidOunces(1.5)),
            Unit::Gram => short("gram", "grams", "g", Size::Grams(1.0)),
            Unit::Milligram => short("milligram", "milligrams", "mg", Size::Grams(0.001)),
            Unit::Kilogram => short("kilogram", "kilograms", "kg", Size::Grams(1000.0)),
            Unit::Ounce => short("ounce", "ounces", "oz", Size::Grams(OUNCE)),
            Unit::Pound => short("pound", "pounds", "lb", Size::Grams(POUND)),
            Unit::Inch => short("inch", "inches", "in", Size::Centimetres(INCH)),
            Unit::Foot => short("foot", "feet", "ft", Size::Centimetres(12.0 * INCH)),
            Unit::Millimetre => short("millimetre", "millimetres", "mm", Size::Centimetres(0.1)),
            Unit::Centimetre => short("centimetre", "centimetres", "cm", Size::Centimetres(1.0)),
            Unit::Metre => short("metre", "metres", "m", Size::Centimetres(100.0)),
            Unit::DegreeFahrenheit => short("degree Fahrenheit", "degrees Fahrenheit", "°F", Size::Fahrenheit),
            Unit::DegreeCelsius => short("degree Celsius", "degrees Celsius", "°C", Size::Celsius),
            Unit::Degree => short("degree", "degrees", "°", Size::Degrees),
            Unit::GasMark => word("gas mark", "gas mark", Size::GasMark),
            Unit::Second => short("second", "seconds", "sec", Size::Seconds(1.0)),
            Unit::Minute => short("minute", "minutes", "min", Size::Seconds(60.0)),
            Unit::Hour => short("hour", "hours", "h", Size::Seconds(3_600.0)),
            Unit::Day => word("day", "days", Size::Seconds(DAY)),
            Unit::Week => word("week", "weeks", Size::Seconds(7.0 * DAY)),
            Unit::Month => word("month", "months", Size::Seconds(MONTH)),
            Unit::Stick => counted("stick", "sticks"),
            Unit::Can => counted("can", "cans"),
            Unit::Tin => counted("tin", "tins"),
            Unit::Jar => counted("jar", "jars"),
            Unit::Bottle => counted("bottle", "bottles"),
            Unit::Carton => counted("carton", "cartons"),
            Unit::Packet => counted("packet", "packets"),
            Unit::Box => counted("box", "boxes"),
            Unit::Bag => counted("bag", "bags"),
            Unit::Tub => counted("tub", "tubs"),
            Unit::Tube => counted("tube", "tubes"),
            Unit::Bunch => counted("bunch", "bunches"),
            Unit::Head => counted("head", "heads"),
            Unit::Bulb => counted("bulb", "bulbs"),
            Unit::Clove => counted("clove", "cloves"),
            Unit::Stalk => counted("stalk", "stalks"),
            Unit::Sprig => counted("sprig", "sprigs"),
            Unit::Leaf => counted("leaf", "leaves"),
            Unit::Slice => counted("slice", "slices"),
            Unit::Sheet => counted("sheet", "sheets"),
            Unit::Rasher => counted("rasher", "rashers"),
            Unit::Strip => counted("strip", "strips"),
            Unit::Piece => counted("piece", "pieces"),
            Unit::Chunk => counted("chunk", "chunks"),
            Unit::Cube => counted("cube", "cubes"),
            Unit::Fillet => counted("fillet", "fillets"),
            Unit::Ear => counted("ear", "ears"),
            Unit::Block => counted("block", "blocks"),
            Unit::Bar => counted("bar", "bars"),
            Unit::Ball => counted("ball", "balls"),
            Unit::Loaf => counted("loaf", "loaves"),
            Unit::Round => counted("round", "rounds"),
            Unit::Wedge => counted("wedge", "wedges"),
            Unit::Punnet => counted("punnet", "punnets"),
            Unit::Portion => counted("portion", "portions"),
            Unit::Batch => counted("batch", "batches"),
            Unit::Recipe => counted("recipe", "recipes"),
            Unit::Dozen => word("dozen", "dozen", Size::Count(12.0)),
            Unit::Scoop => counted("scoop", "scoops"),
            Unit::Mug => counted("mug", "mugs"),
            Unit::Glass => counted("glass", "glasses"),
            Unit::Bowl => counted("bowl", "bowls"),
            Unit::Pinch => loose("pinch", "pinches"),
            Unit::Dash => loose("dash", "dashes"),
            Unit::Smidgen => loose("smidgen", "smidgens"),
            Unit::Drop => loose("drop", "drops"),
            Unit::Splash => loose("splash", "splashes"),
            Unit::Drizzle => loose("drizzle", "drizzles"),
            Unit::Glug => loose("glug", "glugs"),
            Unit::Squeeze => loose("squeeze", "squeezes"),
            Unit::Knob => loose("knob", "knobs"),
            Unit::Pat => loose("pat", "pats"),
            Unit::Dollop => loose("dollop", "dollops"),
            Unit::Handful => loose("handful", "handfuls"),
            Unit::Sprinkle => loose("sprinkle", "sprinkle"),
            Unit::Grating => loose("grating", "gratings"),
            Unit::Thumb => loose("thumb", "thumbs"),
            Unit::Spoonful => loose("spoonful", "spoonfuls"),
        }
    }
}
