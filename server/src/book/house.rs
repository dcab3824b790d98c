//! The house style: what the house measures with, what it lets pass, how it grades the checks.

use std::{collections::BTreeMap, sync::OnceLock};

use super::Severity;
use crate::{
    larder::{AllergenList, Food, Larder, OwnFood, larder},
    measure::{Measures, Style, Tolerances},
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
    pub style: Style,
    /// Sections that every recipe must have.
    pub required: Vec<SectionKind>,
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
            style: Style::default(),
            required: vec![SectionKind::Ingredients, SectionKind::Method],
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
