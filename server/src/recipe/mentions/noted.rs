//! What the steps of a method note, one after the other.

use rustc_hash::FxHashSet;

use super::{
    Mention, Share, Unlisted,
    find::{Gathering, Reading},
};
use crate::text::Span;

/// What of a method is as it was before an edit, with all that its uses are found by.
#[derive(Debug, Clone, Copy, Default)]
pub struct Known {
    /// So many of its first steps.
    pub steps: usize,
    /// How far they have moved.
    pub moved: Moved,
}

/// How far steps have moved that stand behind an edit and read the same.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Moved {
    /// In bytes of the text.
    pub bytes: isize,
    /// Among all measures of the recipe.
    pub measures: isize,
}

impl Moved {
    /// Where a span stands now.
    pub fn span(self, span: Span) -> Span {
        let now = |offset: usize| offset.saturating_add_signed(self.bytes);
        Span::new(now(span.start), now(span.end))
    }

    /// The index that a measure has now.
    pub fn measure(self, index: usize) -> usize {
        index.saturating_add_signed(self.measures)
    }

    fn share(self, share: Share) -> Share {
        match share {
            Share::Amount(measure) => Share::Amount(self.measure(measure)),
            Share::AllBut(measure) => Share::AllBut(self.measure(measure)),
            Share::RestAmount(measure) => Share::RestAmount(self.measure(measure)),
            Share::Whole | Share::Fraction(..) | Share::Rest | Share::RestAgain | Share::Some => share,
        }
    }

    fn mention(self, mention: &Mention) -> Mention {
        Mention {
            span: self.span(mention.span),
            share: self.share(mention.share),
            measure: mention.measure.map(|measure| self.measure(measure)),
            ..mention.clone()
        }
    }

    fn unlisted(self, unlisted: &Unlisted) -> Unlisted {
        let measure = unlisted.measure.map(|measure| self.measure(measure));
        Unlisted { span: self.span(unlisted.span), measure, ..unlisted.clone() }
    }

    fn gathering(self, gathering: &Gathering) -> Gathering {
        Gathering { span: self.span(gathering.span), ..gathering.clone() }
    }
}

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
    /// What the steps that are known have noted.
    pub fn of(&self, known: Known) -> Noted {
        let Known { steps, moved } = known;
        let above = |mentions: &[Mention]| -> Vec<Mention> {
            mentions.iter().filter(|mention| mention.step < steps).map(|mention| moved.mention(mention)).collect()
        };
        let unlisted = self.reading.unlisted.iter().filter(|unlisted| unlisted.step < steps);
        let gatherings = self.gatherings.iter().filter(|gathering| gathering.step < steps);
        let mentions = above(&self.reading.mentions);
        let own = |places: &FxHashSet<usize>| places.iter().copied().filter(|at| *at < mentions.len()).collect();
        let (tied, kinds) = (own(&self.tied), own(&self.kinds));
        let reading = Reading {
            mentions,
            unlisted: unlisted.map(|unlisted| moved.unlisted(unlisted)).collect(),
            equipment: self.reading.equipment.iter().filter(|(_, step)| *step < steps).copied().collect(),
            results: Vec::new(),
        };
        let gatherings = gatherings.map(|gathering| moved.gathering(gathering)).collect();
        Noted { reading, gatherings, tied, kinds, fallbacks: above(&self.fallbacks) }
    }
}

/// The step and the food of something that the list does not have.
pub(super) fn named_in_step(unlisted: &Unlisted) -> Option<(usize, &'static str)> {
    Some((unlisted.step, unlisted.food?.name))
}
