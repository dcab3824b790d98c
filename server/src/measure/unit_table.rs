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
    pub(super) const fn facts(self) -> &'static Facts {
        match self {
            Unit::Teaspoon => &const { short("teaspoon", "teaspoons", "tsp", Size::Teaspoons(1.0)) },
            Unit::Tablespoon => &const { short("tablespoon", "tablespoons", "tbsp", Size::Tablespoons(1.0)) },
            Unit::Dessertspoon => &const { word("dessertspoon", "dessertspoons", Size::Millilitres(10.0)) },
            Unit::Cup => &const { word("cup", "cups", Size::Cups(1.0)) },
            Unit::FluidOunce => &const { short("fluid ounce", "fluid ounces", "fl oz", Size::FluidOunces(1.0)) },
            Unit::Gill => &const { word("gill", "gills", Size::Pints(0.25)) },
            Unit::Pint => &const { word("pint", "pints", Size::Pints(1.0)) },
            Unit::Quart => &const { word("quart", "quarts", Size::Pints(2.0)) },
            Unit::Gallon => &const { word("gallon", "gallons", Size::Pints(8.0)) },
            Unit::Millilitre => &const { short("millilitre", "millilitres", "ml", Size::Millilitres(1.0)) },
            Unit::Centilitre => &const { short("centilitre", "centilitres", "cl", Size::Millilitres(10.0)) },
            Unit::Decilitre => &const { short("decilitre", "decilitres", "dl", Size::Millilitres(100.0)) },
            Unit::Litre => &const { short("litre", "litres", "l", Size::Millilitres(1000.0)) },
            Unit::Jigger => &const { word("jigger", "jiggers", Size::FluidOunces(1.5)) },
            Unit::Gram => &const { short("gram", "grams", "g", Size::Grams(1.0)) },
            Unit::Milligram => &const { short("milligram", "milligrams", "mg", Size::Grams(0.001)) },
            Unit::Kilogram => &const { short("kilogram", "kilograms", "kg", Size::Grams(1000.0)) },
            Unit::Ounce => &const { short("ounce", "ounces", "oz", Size::Grams(OUNCE)) },
            Unit::Pound => &const { short("pound", "pounds", "lb", Size::Grams(POUND)) },
            Unit::Inch => &const { short("inch", "inches", "in", Size::Centimetres(INCH)) },
            Unit::Foot => &const { short("foot", "feet", "ft", Size::Centimetres(12.0 * INCH)) },
            Unit::Millimetre => &const { short("millimetre", "millimetres", "mm", Size::Centimetres(0.1)) },
            Unit::Centimetre => &const { short("centimetre", "centimetres", "cm", Size::Centimetres(1.0)) },
            Unit::Metre => &const { short("metre", "metres", "m", Size::Centimetres(100.0)) },
            Unit::DegreeFahrenheit => {
                &const { short("degree Fahrenheit", "degrees Fahrenheit", "°F", Size::Fahrenheit) }
            }
            Unit::DegreeCelsius => &const { short("degree Celsius", "degrees Celsius", "°C", Size::Celsius) },
            Unit::Degree => &const { short("degree", "degrees", "°", Size::Degrees) },
            Unit::GasMark => &const { word("gas mark", "gas mark", Size::GasMark) },
            Unit::Second => &const { short("second", "seconds", "sec", Size::Seconds(1.0)) },
            Unit::Minute => &const { short("minute", "minutes", "min", Size::Seconds(60.0)) },
            Unit::Hour => &const { short("hour", "hours", "h", Size::Seconds(3_600.0)) },
            Unit::Day => &const { word("day", "days", Size::Seconds(DAY)) },
            Unit::Week => &const { word("week", "weeks", Size::Seconds(7.0 * DAY)) },
            Unit::Month => &const { word("month", "months", Size::Seconds(MONTH)) },
            Unit::Stick => &const { counted("stick", "sticks") },
            Unit::Can => &const { counted("can", "cans") },
            Unit::Tin => &const { counted("tin", "tins") },
            Unit::Jar => &const { counted("jar", "jars") },
            Unit::Bottle => &const { counted("bottle", "bottles") },
            Unit::Carton => &const { counted("carton", "cartons") },
            Unit::Packet => &const { counted("packet", "packets") },
            Unit::Box => &const { counted("box", "boxes") },
            Unit::Bag => &const { counted("bag", "bags") },
            Unit::Tub => &const { counted("tub", "tubs") },
            Unit::Tube => &const { counted("tube", "tubes") },
            Unit::Bunch => &const { counted("bunch", "bunches") },
            Unit::Head => &const { counted("head", "heads") },
            Unit::Bulb => &const { counted("bulb", "bulbs") },
            Unit::Clove => &const { counted("clove", "cloves") },
            Unit::Stalk => &const { counted("stalk", "stalks") },
            Unit::Sprig => &const { counted("sprig", "sprigs") },
            Unit::Leaf => &const { counted("leaf", "leaves") },
            Unit::Slice => &const { counted("slice", "slices") },
            Unit::Sheet => &const { counted("sheet", "sheets") },
            Unit::Rasher => &const { counted("rasher", "rashers") },
            Unit::Strip => &const { counted("strip", "strips") },
            Unit::Piece => &const { counted("piece", "pieces") },
            Unit::Chunk => &const { counted("chunk", "chunks") },
            Unit::Cube => &const { counted("cube", "cubes") },
            Unit::Fillet => &const { counted("fillet", "fillets") },
            Unit::Ear => &const { counted("ear", "ears") },
            Unit::Block => &const { counted("block", "blocks") },
            Unit::Bar => &const { counted("bar", "bars") },
            Unit::Ball => &const { counted("ball", "balls") },
            Unit::Loaf => &const { counted("loaf", "loaves") },
            Unit::Round => &const { counted("round", "rounds") },
            Unit::Wedge => &const { counted("wedge", "wedges") },
            Unit::Punnet => &const { counted("punnet", "punnets") },
            Unit::Portion => &const { counted("portion", "portions") },
            Unit::Batch => &const { counted("batch", "batches") },
            Unit::Recipe => &const { counted("recipe", "recipes") },
            Unit::Dozen => &const { word("dozen", "dozen", Size::Count(12.0)) },
            Unit::Scoop => &const { counted("scoop", "scoops") },
            Unit::Mug => &const { counted("mug", "mugs") },
            Unit::Glass => &const { counted("glass", "glasses") },
            Unit::Bowl => &const { counted("bowl", "bowls") },
            Unit::Pinch => &const { loose("pinch", "pinches") },
            Unit::Dash => &const { loose("dash", "dashes") },
            Unit::Smidgen => &const { loose("smidgen", "smidgens") },
            Unit::Drop => &const { loose("drop", "drops") },
            Unit::Splash => &const { loose("splash", "splashes") },
            Unit::Drizzle => &const { loose("drizzle", "drizzles") },
            Unit::Glug => &const { loose("glug", "glugs") },
            Unit::Squeeze => &const { loose("squeeze", "squeezes") },
            Unit::Knob => &const { loose("knob", "knobs") },
            Unit::Pat => &const { loose("pat", "pats") },
            Unit::Dollop => &const { loose("dollop", "dollops") },
            Unit::Handful => &const { loose("handful", "handfuls") },
            Unit::Sprinkle => &const { loose("sprinkle", "sprinkle") },
            Unit::Grating => &const { loose("grating", "gratings") },
            Unit::Thumb => &const { loose("thumb", "thumbs") },
            Unit::Spoonful => &const { loose("spoonful", "spoonfuls") },
        }
    }
}
