//! How much of a dish there is at a time: what has been put together, and what that comes to by weight and by volume.
//!
//! Two figures, and both on the safe side. [`follow`] tells what is *surely* in the bowl and what that comes to *at least*: it
//! counts no air, follows only what the words make plain, and lets what is cooked shrink. [`everything_by`] tells what *may* be in
//! it and what that comes to *at most*.

pub mod airless;
mod fill;
mod follow;
mod losses;
mod most;
mod orders;
pub mod weigh;

use uom::si::f64::{Mass, Volume};

pub use follow::{Followed, follow};
pub use most::{Most, everything_by};
pub use weigh::{Stock, Stocks};

use smol_str::SmolStr;

use crate::text::Span;

/// Something that is surely in the bowl.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Content {
    /// The ingredient, as an index.
    pub ingredient: usize,
    /// The part of it, where not the whole.
    pub part: Option<&'static str>,
    /// What there is of it at least.
    pub weight: Mass,
    /// The volume that it takes up at least, without any air.
    pub volume: Volume,
}

impl Content {
    /// The same, of which only a share is left.
    fn times(self, share: f64) -> Self {
        Content { weight: self.weight * share, volume: self.volume * share, ..self }
    }
}

/// What is surely in a bowl.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Batch {
    /// Each thing in it.
    pub contents: Vec<Content>,
}

impl Batch {
    /// What it weighs at least.
    pub fn weight(&self) -> Mass {
        self.contents.iter().map(|content| content.weight).fold(Mass::default(), |sum, weight| sum + weight)
    }

    /// The volume that it takes up at least, without any air.
    pub fn volume(&self) -> Volume {
        self.contents.iter().map(|content| content.volume).fold(Volume::default(), |sum, volume| sum + volume)
    }

    /// Whether an ingredient is in it.
    pub fn holds(&self, ingredient: usize) -> bool {
        self.contents.iter().any(|content| content.ingredient == ingredient)
    }
}

/// What has been put into one vessel.
#[derive(Debug, Clone, PartialEq)]
pub struct Filling {
    /// The vessel, as an index.
    pub vessel: usize,
    /// The step that puts it there, or the first of them, as an index.
    pub step: usize,
    /// The order that does.
    pub span: Span,
    /// What the order calls it, folded: `batter`; empty where it says no name.
    pub called: SmolStr,
    /// What is surely in the vessel.
    pub batch: Batch,
}
