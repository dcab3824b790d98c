//! What several checks ask of a recipe: worked out once, when the first of them asks.

use std::cell::OnceCell;

use super::{
    View,
    support::{restated::Compared, vessels_portions::Fault},
};
use crate::recipe::{
    batch::{Followed, follow},
    vessels::{Vessel, vessels},
};

/// What has been worked out so far. Empty for a recipe that no check has looked at.
#[derive(Debug, Default)]
pub struct Worked<'v> {
    vessels: OnceCell<Vec<Vessel>>,
    followed: OnceCell<Followed>,
    pub(super) compared: OnceCell<Vec<Compared<'v>>>,
    pub(super) portions: OnceCell<Vec<Fault>>,
}

impl<'v> View<'v> {
    /// Every vessel that the recipe names.
    pub fn vessels(&self) -> &'v [Vessel] {
        self.worked.vessels.get_or_init(|| vessels(self.recipe, &self.house.measures))
    }

    /// What the method puts together.
    pub fn followed(&self) -> &'v Followed {
        self.worked.followed.get_or_init(|| follow(self.recipe, &self.house.measures, self.vessels()))
    }
}
