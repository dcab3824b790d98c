//! What the steps of a method note, one after the other.

use rustc_hash::FxHashSet;

use super::{
    Mention, Unlisted,
    find::{Gathering, Reading},
};

/// What is noted on the way through the method, before it is known what each thing means in the light of all others. A step adds to what
/// those above it have noted, and changes nothing of it.
#[derive(Debug, Clone, Default)]
pub struct Noted {
    pub(super) reading: Reading,
    pub(super) gatherings: Vec<Gathering>,
    /// Mentions that fit several things equally, by index.
    pub(super) tied: FxHashSet<usize>,
    /// Mentions of a kind of food, by index.
    pub(super) kinds: FxHashSet<usize>,
    /// Mentions that count only where nothing else uses what they mean.
    pub(super) fallbacks: Vec<Mention>,
}

impl Noted {
    /// What the steps before this one have noted.
    pub(super) fn before(&self, step: usize) -> Noted {
        let above = |mentions: &[Mention]| -> Vec<Mention> {
            mentions.iter().filter(|mention| mention.step < step).cloned().collect()
        };
        let mentions = above(&self.reading.mentions);
        let own = |places: &FxHashSet<usize>| places.iter().copied().filter(|at| *at < mentions.len()).collect();
        let (tied, kinds) = (own(&self.tied), own(&self.kinds));
        let reading = Reading {
            mentions,
            unlisted: self.reading.unlisted.iter().filter(|unlisted| unlisted.step < step).cloned().collect(),
            equipment: self.reading.equipment.iter().filter(|(_, own)| *own < step).copied().collect(),
            results: Vec::new(),
        };
        let gatherings = self.gatherings.iter().filter(|gathering| gathering.step < step).cloned().collect();
        Noted { reading, gatherings, tied, kinds, fallbacks: above(&self.fallbacks) }
    }
}

/// The step and the food of something that the list does not have.
pub(super) fn named_in_step(unlisted: &Unlisted) -> Option<(usize, &'static str)> {
    Some((unlisted.step, unlisted.food?.name))
}
