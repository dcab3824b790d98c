//! One recipe as plain data, and the flow of what goes into it. Built from one recipe's text alone.

pub mod batch;
pub mod clock;
pub mod fingerprint;
pub mod flow;
pub mod language;
pub mod measures;
pub mod mentions;
pub mod model;
mod names;
pub mod pairs;
pub mod portions;
mod reading;
mod tags;
pub mod trials;
pub mod vessels;
pub mod weights;
pub mod yields;

pub use mentions::NamedFood;
pub use model::*;
pub use reading::{link, read, read_again, skim};

impl Recipe {
    /// Whether the text holds a recipe, and not only prose.
    pub fn is_recipe(&self) -> bool {
        self.labelled || !self.sections.is_empty()
    }
}
