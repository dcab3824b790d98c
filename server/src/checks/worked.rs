//! What several checks ask of a recipe: worked out once, when the first of them asks.

use std::cell::OnceCell;

use super::{
    View,
    support::{restated::Compared, setting, vessels_portions::Fault},
};
use crate::recipe::{
    batch::{Followed, Most, Stocks, everything_by, follow},
    measures::{Place, Term},
    pairs::Pair,
    vessels::{Vessel, vessels},
};

/// What has been worked out so far. Empty for a recipe that no check has looked at.
#[derive(Debug, Default)]
pub struct Worked<'v> {
    vessels: OnceCell<Vec<Vessel>>,
    stocks: OnceCell<Stocks<'v>>,
    followed: OnceCell<Followed>,
    everything: OnceCell<Most>,
    terms: OnceCell<Vec<(Place, &'v Term)>>,
    pairs: OnceCell<Vec<Pair<'v>>>,
    pub(super) compared: OnceCell<Vec<Compared<'v>>>,
    pub(super) portions: OnceCell<Vec<Fault>>,
}

impl<'v> View<'v> {
    /// Every vessel that the recipe names.
    pub fn vessels(&self) -> &'v [Vessel] {
        self.worked.vessels.get_or_init(|| vessels(self.recipe, &self.house.measures))
    }

    /// How much there is of each line of the list.
    pub fn stocks(&self) -> &'v Stocks<'v> {
        self.worked.stocks.get_or_init(|| Stocks::new(self.recipe, &self.house.measures))
    }

    /// What the method puts together.
    pub fn followed(&self) -> &'v Followed {
        self.worked.followed.get_or_init(|| follow(self.recipe, self.stocks(), self.vessels()))
    }

    /// Everything that may have gone in by the end of the method.
    pub fn everything(&self) -> &'v Most {
        let last = self.recipe.steps.len().saturating_sub(1);
        self.worked.everything.get_or_init(|| everything_by(self.recipe, self.stocks(), last))
    }

    /// Every number with its unit that the recipe itself states.
    pub fn terms(&self) -> &'v [(Place, &'v Term)] {
        self.worked.terms.get_or_init(|| setting::terms(self.recipe))
    }

    /// Every amount that is stated twice.
    pub fn pairs(&self) -> &'v [Pair<'v>] {
        self.worked.pairs.get_or_init(|| self.recipe.pairs())
    }
}
