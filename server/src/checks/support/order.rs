//! Where a thing's place in the list puts it in the method.

use super::bracket::Place;
use crate::recipe::{
    Recipe,
    flow::Use,
    mentions::{Link, Mention},
};

/// The steps that the neighbours of an ingredient in the list are first used in.
#[derive(Debug, Clone, Copy)]
pub struct Neighbours {
    /// The nearest one above it that a step uses.
    pub above: Option<Use>,
    /// The nearest one below it that a step uses.
    pub below: Option<Use>,
}

/// The used neighbours of an ingredient: those under its heading, or of the whole list where no step uses any of them.
pub fn neighbours(recipe: &Recipe, index: usize) -> Neighbours {
    let group = recipe.ingredient(index).and_then(|line| line.group);
    let of = |within: bool| {
        let near = move |other: usize| {
            let line = recipe.ingredient(other).filter(|line| !within || line.group == group)?;
            (!line.tags.pan).then(|| first_sure_use(recipe, other)).flatten()
        };
        Neighbours {
            above: (0..index).rev().find_map(near),
            below: (index + 1..recipe.ingredients.len()).find_map(near),
        }
    };
    let own = of(true);
    if own.above.is_some() || own.below.is_some() { own } else { of(false) }
}

/// The first use of an ingredient by its own name, or by a part of it.
pub fn first_sure_use(recipe: &Recipe, index: usize) -> Option<Use> {
    recipe.flow.uses(index).into_iter().find(|found| found.link <= Link::Part)
}

impl Neighbours {
    /// Where the list puts the ingredient in the method: behind the step that first uses the one above it, and not after
    /// the one that first uses the one below.
    pub fn place(&self) -> Option<Place> {
        match (self.above, self.below) {
            (Some(above), Some(below)) => Some(Place::After(above.step.min(below.step))),
            (Some(above), None) => Some(Place::After(above.step)),
            (None, Some(below)) => Some(Place::Before(below.step)),
            (None, None) => None,
        }
    }

    /// The mention beside which the ingredient can be named, and whether it goes behind it.
    pub fn beside<'r>(&self, recipe: &'r Recipe) -> Option<(&'r Mention, bool)> {
        let mention = |found: Use| recipe.flow.mentions.get(found.mention);
        let above = self.above.filter(|above| self.below.is_none_or(|below| above.step <= below.step));
        above
            .and_then(mention)
            .map(|mention| (mention, true))
            .or(self.below.and_then(mention).map(|found| (found, false)))
    }
}
