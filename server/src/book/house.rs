//! The house style: what the house measures with, what it lets pass, how it grades the checks.

use std::{collections::BTreeMap, sync::OnceLock};

use super::Severity;
use crate::{
    larder::{AllergenList, Food, Larder, OwnFood, larder},
    measure::{FractionStyle, Measures, RangeStyle, Style, Tolerances, Unit, UnitStyle},
    recipe::SectionKind,
};

/// The house style. The default is that of a US manuscript with metric restated.
#[derive(Debug, Clone, PartialEq)]
pub struct House {
    /// Which cup, spoon, pint and scale.
    pub measures: Measures,
    /// How far restated amounts may be apart.
    pub tolerances: Tolerances,
    /// How numbers, ranges and units are set.
    pub setting: Setting,
    /// The labels that every recipe must have: `Serves`.
    pub labels: Vec<&'static str>,
    /// The most things that one step may tell a cook to do; what is usual where the house says nothing.
    pub actions: Option<usize>,
    /// Sections that every recipe must have.
    pub required: Vec<SectionKind>,
    /// Sections of prose that every recipe must have, by their headings: `Storage`.
    pub required_prose: Vec<&'static str>,
    /// Foods that need not be listed, besides water, ice, and a pinch of salt or pepper.
    pub unlisted: Vec<String>,
    /// Which allergens a recipe has to declare.
    pub allergens: AllergenList,
    /// Foods that the house knows besides, or knows better: names, weights, allergens.
    pub foods: Vec<OwnFood>,
    /// Checks that the house turns off or grades otherwise, by code.
    pub grades: BTreeMap<String, Grade>,
    /// Made from `foods` when a manuscript is first read.
    pub larder: HouseLarder,
}

/// The larder with the house's foods in it. It follows from the foods, so that two are always as equal as those.
#[derive(Debug, Clone, Default)]
pub struct HouseLarder(OnceLock<&'static Larder>);

impl PartialEq for HouseLarder {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// How a house sets what is measured. Where it says nothing, each recipe may have its own way and has to keep to it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Setting {
    /// Fractions.
    pub fractions: Option<FractionStyle>,
    /// Ranges.
    pub ranges: Option<RangeStyle>,
    /// Units.
    pub units: Option<UnitStyle>,
    /// Units that are spelt in one way, whatever holds for the others: behind a one, and behind more.
    pub spellings: BTreeMap<Unit, (String, String)>,
}

/// What the house says of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grade {
    /// It does not run.
    Off,
    /// Its findings are this bad.
    As(Severity),
}

impl Default for House {
    fn default() -> Self {
        House {
            measures: Measures::default(),
            tolerances: Tolerances::default(),
            setting: Setting::default(),
            labels: Vec::new(),
            actions: None,
            required: vec![SectionKind::Ingredients, SectionKind::Method],
            required_prose: Vec::new(),
            unlisted: Vec::new(),
            allergens: AllergenList::default(),
            foods: Vec::new(),
            grades: BTreeMap::new(),
            larder: HouseLarder::default(),
        }
    }
}

impl House {
    /// What the house says of this check, where it says anything.
    pub fn grade(&self, code: &str) -> Option<Grade> {
        self.grades.get(code).copied()
    }

    /// How amounts are printed in this house.
    pub fn style(&self) -> Style {
        let Setting { fractions, ranges, units, .. } = &self.setting;
        let (fractions, ranges) = (fractions.unwrap_or_default(), ranges.unwrap_or_default());
        Style { fractions, ranges, units: units.unwrap_or_default() }
    }

    /// Whether this food is one of those that the house does not want listed, by its name or by a kind that it is.
    pub fn exempts(&self, food: &Food) -> bool {
        let means =
            |name: &String| self.larder().food(name).is_some_and(|named| named.name == food.name) || food.is(name);
        self.unlisted.iter().any(means)
    }

    /// All foods, those of the house before the others.
    pub fn larder(&self) -> &'static Larder {
        self.larder.0.get_or_init(|| if self.foods.is_empty() { larder() } else { larder().with(&self.foods) })
    }
}
