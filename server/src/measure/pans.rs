//! Pans by their measurements.

use uom::si::{
    f64::{Area, Length, Volume},
    length::inch,
};

/// The outline of a pan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outline {
    /// By its diameter.
    Round(Length),
    /// By its two sides.
    Rectangular(Length, Length),
}

/// A pan by its measurements. Its depth is often not said.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pan {
    /// Its outline.
    pub outline: Outline,
    /// Its depth.
    pub depth: Option<Length>,
}

impl Pan {
    /// The pan that measurements describe, as they are written: `9`, `9 x 2`, `9 x 13`, `9 x 13 x 2`. `square` says whether
    /// a single measurement, or a first with a depth, is a side and not a diameter. A second measurement of at most
    /// 3 1/4 inches (8 cm) and 2/5 of the first is a depth: `9 x 3`, but not `14 x 4`. Nothing for none, more than three, or one that is not above zero.
    pub fn from_dimensions(dimensions: &[Length], square: bool) -> Option<Pan> {
        if dimensions.iter().any(|length| *length <= Length::default()) {
            return None;
        }
        let deepest = Length::new::<inch>(3.25);
        let one = |side| if square { Outline::Rectangular(side, side) } else { Outline::Round(side) };
        match *dimensions {
            [side] => Some(Pan { outline: one(side), depth: None }),
            [side, depth] if depth <= deepest && depth <= side * 0.4 => {
                Some(Pan { outline: one(side), depth: Some(depth) })
            }
            [long, wide] => Some(Pan { outline: Outline::Rectangular(long, wide), depth: None }),
            [long, wide, depth] => Some(Pan { outline: Outline::Rectangular(long, wide), depth: Some(depth) }),
            _ => None,
        }
    }

    /// The area of its bottom, taking the sides to be upright.
    pub fn area(&self) -> Area {
        match self.outline {
            Outline::Round(diameter) => diameter * diameter * (std::f64::consts::PI / 4.0),
            Outline::Rectangular(long, wide) => long * wide,
        }
    }

    /// What it holds to the brim, taking the sides to be upright; `usual_depth` where its own is not said.
    ///
    /// An upper bound: makers' pans slope, and hold up to 15 % less.
    pub fn volume(&self, usual_depth: Length) -> Volume {
        self.area() * self.depth.unwrap_or(usual_depth)
    }
}

/// How far the restated measurements of a pan are from the written ones: the largest difference of a pair, as a part of what is
/// written, the longest side with the longest. Nothing where they are not as many.
pub fn pans_apart(written: &[Length], restated: &[Length]) -> Option<f64> {
    if written.len() != restated.len() || written.is_empty() {
        return None;
    }
    let sorted = |lengths: &[Length]| {
        let mut lengths: Vec<f64> = lengths.iter().map(|length| length.value).collect();
        lengths.sort_by(f64::total_cmp);
        lengths
    };
    let pairs = sorted(written).into_iter().zip(sorted(restated));
    let differences = pairs.filter(|(mine, _)| *mine > 0.0).map(|(mine, theirs)| (theirs - mine) / mine);
    differences.max_by(|one, other| one.abs().total_cmp(&other.abs()))
}
