//! What the larder knows of one food, with the source of every figure.

use std::sync::OnceLock;

use uom::si::f64::{Mass, MassDensity, Volume};
use uom::si::mass::gram;
use uom::si::volume::milliliter;

use super::properties::{Allergen, Diet};
use super::shelf;
use super::vocabulary::{part_word, part_words};

/// One US customary cup in millilitres: 8 fluid ounces of 29.5735 ml (NIST Handbook 44, appendix C).
pub const CUP_MILLILITRES: f64 = 236.588_236_5;

/// One food: a row of a shelf. The text is borrowed from the shelves, which are part of the program.
#[derive(Debug, Clone, PartialEq)]
pub struct Food {
    /// The name it goes by in an American cookbook, in the singular where the trade lists it so: `egg`, `all-purpose flour`.
    pub name: &'static str,
    /// Its other names, spelt as people spell them.
    pub synonyms: Vec<&'static str>,
    /// What a cook may call it together with others, the narrowest first: `hard cheese`, `cheese`, `dairy`.
    pub kinds: Vec<&'static str>,
    /// Weight by volume as it is usually measured.
    pub density: Option<Density>,
    /// Weight by volume in other states: `sifted`, `packed`, `chopped`, `melted`.
    pub forms: Vec<Form>,
    /// Weight of one: by size (`large`), by counted unit (`clove`, `stick`, `can`), and `one`, which a bare count means.
    pub each: Vec<Each>,
    /// What a method may take it apart into: `yolk`, `white`; `zest`, `juice`.
    pub parts: Vec<Part>,
    /// The share of the weight as bought that is eaten.
    pub edible: Option<Edible>,
    /// The allergens it holds by definition or in ordinary make.
    pub allergens: Vec<Allergen>,
    /// The diets it has no place in.
    pub breaks: Vec<Diet>,
    /// Nutrients per 100 g of what is eaten, as they stand on the shelf, and their source.
    pub(super) nutrients: (&'static str, &'static str),
    /// The same, once somebody has asked.
    pub(super) read: OnceLock<Option<Nutrients>>,
}

/// Mass per volume, from the lightest to the heaviest way a cook fills the measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Density {
    /// The lightest usually met: published tables where they differ, else common practice.
    pub low: MassDensity,
    /// The figure to reckon with.
    pub typical: MassDensity,
    /// The heaviest usually met.
    pub high: MassDensity,
    /// Where the typical figure comes from: `SR26 20081` is the USDA database's food number.
    pub source: &'static str,
}

/// A weight with its spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weight {
    /// The lightest usually met.
    pub low: Mass,
    /// The figure to reckon with.
    pub typical: Mass,
    /// The heaviest usually met.
    pub high: Mass,
    /// Where the typical figure comes from.
    pub source: &'static str,
}

/// A state that changes how much of a food fills a measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Form {
    /// `sifted`, `packed`, `chopped`, `melted`, …
    pub name: &'static str,
    /// Its weight by volume in that state.
    pub density: Density,
}

/// What one of something weighs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Each {
    /// A size (`small`, `large`), a counted unit (`clove`, `stick`, `can`) or `one`.
    pub unit: &'static str,
    /// Weight of one, of the edible portion where the food has a share that is not eaten.
    pub weight: Weight,
}

/// Something that a method takes a food apart into.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// `zest`, `juice`, `yolk`, …
    pub name: &'static str,
    /// How much of it one gives, where that is published.
    pub weight: Option<Weight>,
}

/// The share of a food, as bought, that is eaten.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edible {
    /// 0 to 1.
    pub share: f64,
    /// Where the figure comes from.
    pub source: &'static str,
}

/// Nutrients per 100 g. A figure that is not published is `None`, which is not zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nutrients {
    /// Energy in kcal.
    pub kcal: f64,
    /// Protein in g.
    pub protein: f64,
    /// Fat in g.
    pub fat: f64,
    /// Carbohydrate by difference, fibre included, in g.
    pub carbohydrate: f64,
    /// Dietary fibre in g.
    pub fibre: Option<f64>,
    /// Sugars in g.
    pub sugars: Option<f64>,
    /// Sodium in mg.
    pub sodium: Option<f64>,
    /// Alcohol in g.
    pub alcohol: Option<f64>,
    /// Where the figures come from.
    pub source: &'static str,
}

impl Food {
    /// A food of which nothing is known but the name.
    pub(super) fn named(name: &'static str) -> Self {
        Food {
            name,
            synonyms: Vec::new(),
            kinds: Vec::new(),
            density: None,
            forms: Vec::new(),
            each: Vec::new(),
            parts: Vec::new(),
            edible: None,
            allergens: Vec::new(),
            breaks: Vec::new(),
            nutrients: ("", ""),
            read: OnceLock::new(),
        }
    }

    /// Whether it is of this kind: cheddar is a `cheese` and `dairy`.
    pub fn is(&self, kind: &str) -> bool {
        self.kinds.contains(&kind)
    }

    /// The weight of one `unit` (`large`, `clove`, `stick`), or of one at all for `one`.
    pub fn each(&self, unit: &str) -> Option<Weight> {
        self.each.iter().find(|each| each.unit == unit).map(|each| each.weight)
    }

    /// The part that a folded word names, if it has it.
    pub fn part(&self, word: &str) -> Option<&Part> {
        let name = part_word(word);
        self.parts.iter().find(|part| part.name == name)
    }

    /// The folded words that name its parts: `whites` besides `white`.
    pub fn part_words(&self) -> impl Iterator<Item = &'static str> {
        self.parts.iter().flat_map(|part| part_words(part.name))
    }

    /// The form of this name, if its weight is known.
    pub fn form(&self, name: &str) -> Option<&Form> {
        self.forms.iter().find(|form| form.name == name)
    }

    /// Nutrients per 100 g of what is eaten. Read when asked for: few manuscripts ask, and they are most of the shelves' figures.
    pub fn nutrients(&self) -> Option<Nutrients> {
        let (figures, source) = self.nutrients;
        *self.read.get_or_init(|| shelf::nutrients(figures, source).ok().flatten())
    }

    /// Whether it holds this allergen by definition or in ordinary make.
    pub fn holds(&self, allergen: Allergen) -> bool {
        self.allergens.contains(&allergen)
    }

    /// Whether it has no place in this diet.
    pub fn breaks(&self, diet: Diet) -> bool {
        self.breaks.contains(&diet)
    }
}

impl Density {
    /// A density from the weights of a US customary cup in grams.
    pub fn of_cup(low: f64, typical: f64, high: f64, source: &'static str) -> Self {
        let per_cup = |grams: f64| Mass::new::<gram>(grams) / Volume::new::<milliliter>(CUP_MILLILITRES);
        Density { low: per_cup(low), typical: per_cup(typical), high: per_cup(high), source }
    }

    /// What a volume of it weighs.
    pub fn weight_of(&self, volume: Volume) -> Weight {
        Weight { low: self.low * volume, typical: self.typical * volume, high: self.high * volume, source: self.source }
    }
}

impl Weight {
    /// A weight from grams.
    pub fn of_grams(low: f64, typical: f64, high: f64, source: &'static str) -> Self {
        let mass = |grams: f64| Mass::new::<gram>(grams);
        Weight { low: mass(low), typical: mass(typical), high: mass(high), source }
    }

    /// `count` times as much.
    pub fn times(&self, count: f64) -> Self {
        Weight { low: self.low * count, typical: self.typical * count, high: self.high * count, source: self.source }
    }
}
