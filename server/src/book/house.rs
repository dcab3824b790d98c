//! The house style: what the house measures with, what it lets pass, how it grades the checks.

use std::collections::BTreeMap;

use super::Severity;
use crate::{
    measure::{Measures, Tolerances},
    recipe::SectionKind,
};

/// The house style. The default is that of a US manuscript with metric restated.
#[derive(Debug, Clone, PartialEq)]
pub struct House {
    /// Which cup, spoon, pint and scale.
    pub measures: Measures,
    /// How far restated amounts may be apart.
    pub tolerances: Tolerances,
    /// Sections that every recipe must have.
    pub required: Vec<SectionKind>,
    /// Foods that need not be listed, besides water, ice, and a pinch of salt or pepper.
    pub unlisted: Vec<String>,
    /// Checks that the house turns off or grades otherwise, by code.
    pub grades: BTreeMap<String, Grade>,
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
            required: vec![SectionKind::Ingredients, SectionKind::Method],
            unlisted: Vec::new(),
            grades: BTreeMap::new(),
        }
    }
}

impl House {
    /// What the house says of this check, where it says anything.
    pub fn grade(&self, code: &str) -> Option<Grade> {
        self.grades.get(code).copied()
    }
}
