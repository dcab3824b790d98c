use super::unit_table::Size;

/// Millilitres in a US gallon: 231 cubic inches. NIST Handbook 44, Appendix C.
const US_GALLON: f64 = 3_785.411_784;
/// Millilitres in an imperial gallon. Units of Measurement Regulations 1995 (UK), schedule.
const IMPERIAL_GALLON: f64 = 4_546.09;

/// Which cup a manuscript means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Cup {
    /// 236.588 236 5 ml, half a US pint. NIST Handbook 44, Appendix C.
    #[default]
    UsCustomary,
    /// 240 ml, the cup of nutrition labels. 21 CFR 101.9(b)(5)(viii).
    UsLegal,
    /// 250 ml, the metric cup of Australia, New Zealand, Canada and South Africa. Common practice.
    Metric,
    /// 284.130 625 ml, half an imperial pint. Common practice in old British books.
    Imperial,
}

impl Cup {
    /// All of them.
    pub const ALL: [Cup; 4] = [Cup::UsCustomary, Cup::UsLegal, Cup::Metric, Cup::Imperial];

    /// What it holds, in millilitres.
    pub fn millilitres(self) -> f64 {
        match self {
            Cup::UsCustomary => US_GALLON / 16.0,
            Cup::UsLegal => 240.0,
            Cup::Metric => 250.0,
            Cup::Imperial => IMPERIAL_GALLON / 16.0,
        }
    }

    /// Its name in a message: `US customary`.
    pub fn name(self) -> &'static str {
        match self {
            Cup::UsCustomary => "US customary",
            Cup::UsLegal => "US legal",
            Cup::Metric => "metric",
            Cup::Imperial => "imperial",
        }
    }
}

/// Which tablespoon a manuscript means. The teaspoon goes with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Tablespoon {
    /// 14.787 ml, half a US fluid ounce. NIST Handbook 44, Appendix C.
    #[default]
    UsCustomary,
    /// 15 ml: Britain, Europe, New Zealand, Canada, South Africa, and nutrition labels (21 CFR 101.9(b)(5)(viii)).
    Metric,
    /// 20 ml, four teaspoons of 5 ml. Standards Australia's metric cup and spoon sets.
    Australian,
    /// 17.758 ml, 5/8 of an imperial fluid ounce. Common practice in old British books.
    Imperial,
}

impl Tablespoon {
    /// All of them.
    pub const ALL: [Tablespoon; 4] =
        [Tablespoon::UsCustomary, Tablespoon::Metric, Tablespoon::Australian, Tablespoon::Imperial];

    /// What it holds, in millilitres.
    pub fn millilitres(self) -> f64 {
        match self {
            Tablespoon::UsCustomary => US_GALLON / 256.0,
            Tablespoon::Metric => 15.0,
            Tablespoon::Australian => 20.0,
            Tablespoon::Imperial => IMPERIAL_GALLON / 256.0,
        }
    }

    /// What the teaspoon that goes with it holds, in millilitres.
    pub fn teaspoon_millilitres(self) -> f64 {
        match self {
            Tablespoon::UsCustomary | Tablespoon::Imperial => self.millilitres() / 3.0,
            Tablespoon::Metric | Tablespoon::Australian => 5.0,
        }
    }

    /// Its name in a message: `Australian (20 ml)`.
    pub fn name(self) -> &'static str {
        match self {
            Tablespoon::UsCustomary => "US customary",
            Tablespoon::Metric => "metric (15 ml)",
            Tablespoon::Australian => "Australian (20 ml)",
            Tablespoon::Imperial => "imperial",
        }
    }
}

/// Whose pint a manuscript means; the fluid ounce, gill, quart and gallon go with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Pint {
    /// 473.176 473 ml, 16 US fluid ounces. NIST Handbook 44, Appendix C.
    #[default]
    Us,
    /// 568.261 25 ml, 20 imperial fluid ounces. Units of Measurement Regulations 1995 (UK), schedule.
    Imperial,
}

impl Pint {
    /// All of them.
    pub const ALL: [Pint; 2] = [Pint::Us, Pint::Imperial];

    /// What it holds, in millilitres.
    pub fn millilitres(self) -> f64 {
        match self {
            Pint::Us => US_GALLON / 8.0,
            Pint::Imperial => IMPERIAL_GALLON / 8.0,
        }
    }

    /// What the fluid ounce that goes with it holds, in millilitres.
    pub fn fluid_ounce_millilitres(self) -> f64 {
        match self {
            Pint::Us => US_GALLON / 128.0,
            Pint::Imperial => IMPERIAL_GALLON / 160.0,
        }
    }

    /// Its name in a message: `imperial`.
    pub fn name(self) -> &'static str {
        match self {
            Pint::Us => "US",
            Pint::Imperial => "imperial",
        }
    }
}

/// The scale of degrees that do not say which: `bake at 350°`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Scale {
    /// °F
    #[default]
    Fahrenheit,
    /// °C
    Celsius,
}

/// The measures that a house means when its manuscripts do not say. The default is a US manuscript.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Measures {
    /// Which cup.
    pub cup: Cup,
    /// Which tablespoon and teaspoon.
    pub tablespoon: Tablespoon,
    /// Which pint, fluid ounce, gill, quart and gallon.
    pub pint: Pint,
    /// Which degrees.
    pub scale: Scale,
}

impl Measures {
    /// Millilitres of a size by volume; nothing for the others.
    pub(super) fn millilitres(&self, size: Size) -> Option<f64> {
        match size {
            Size::Teaspoons(count) => Some(count * self.tablespoon.teaspoon_millilitres()),
            Size::Tablespoons(count) => Some(count * self.tablespoon.millilitres()),
            Size::Cups(count) => Some(count * self.cup.millilitres()),
            Size::FluidOunces(count) => Some(count * self.pint.fluid_ounce_millilitres()),
            Size::Pints(count) => Some(count * self.pint.millilitres()),
            Size::Millilitres(count) => Some(count),
            _ => None,
        }
    }
}
