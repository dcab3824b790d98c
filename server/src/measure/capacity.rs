//! What baking pans hold.

use uom::si::{f64::Length, length::inch};

use super::{Cup, Interval};

/// Kinds of pans whose capacities are published.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Mold {
    /// A round cake pan.
    Round,
    /// A springform pan.
    Springform,
    /// A square pan.
    Square,
    /// A rectangular pan or dish.
    Rectangular,
    /// A loaf pan.
    Loaf,
    /// A fluted tube pan.
    FlutedTube,
    /// A tube pan with smooth sides.
    Tube,
    /// A pie plate.
    Pie,
    /// A tart pan with a removable bottom.
    Tart,
    /// A rimmed sheet, or a jelly roll pan.
    Sheet,
}

/// What a pan holds, filled to the rim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capacity {
    /// In US customary cups, from the least to the most that is published for it.
    pub cups: Interval,
    /// How deep it was taken to be, where its depth was not said.
    pub depth: Option<Length>,
}

/// A pan of the trade in inches, the longer side first (0 for the second side of a round one), its depth, and its cups.
struct Row(Mold, (f64, f64), f64, (f64, f64));

/// Capacities to the rim as US tables of baking pans give them: news-journalonline.com/story/lifestyle/food/2016/09/27/
/// know-volume-of-your-baking-pans and studylib.net/doc/18320804; the pie, tart and rimmed pans are trade practice, from memory.
/// Of one size the usual depth stands first. Tables differ by up to 15 % for the same pan.
const PANS: &[Row] = &[
    Row(Mold::Round, (6.0, 0.0), 2.0, (4.0, 4.0)),
    Row(Mold::Round, (8.0, 0.0), 2.0, (6.0, 6.0)),
    Row(Mold::Round, (8.0, 0.0), 1.5, (4.0, 4.0)),
    Row(Mold::Round, (9.0, 0.0), 2.0, (8.0, 8.0)),
    Row(Mold::Round, (9.0, 0.0), 1.5, (6.0, 6.0)),
    Row(Mold::Round, (10.0, 0.0), 2.0, (10.0, 11.0)),
    Row(Mold::Springform, (8.0, 0.0), 3.0, (10.0, 11.0)),
    Row(Mold::Springform, (9.0, 0.0), 3.0, (12.0, 12.0)),
    Row(Mold::Springform, (9.0, 0.0), 2.5, (10.0, 10.0)),
    Row(Mold::Springform, (10.0, 0.0), 2.5, (12.0, 12.0)),
    Row(Mold::Square, (8.0, 8.0), 2.0, (8.0, 8.0)),
    Row(Mold::Square, (8.0, 8.0), 1.5, (6.0, 6.0)),
    Row(Mold::Square, (9.0, 9.0), 2.0, (10.0, 10.0)),
    Row(Mold::Square, (9.0, 9.0), 1.5, (8.0, 8.0)),
    Row(Mold::Square, (10.0, 10.0), 2.0, (12.0, 12.0)),
    Row(Mold::Rectangular, (11.0, 7.0), 2.0, (6.0, 10.0)),
    Row(Mold::Rectangular, (13.0, 9.0), 2.0, (12.0, 14.0)),
    Row(Mold::Loaf, (8.0, 4.0), 2.5, (4.0, 4.0)),
    Row(Mold::Loaf, (8.5, 4.5), 2.5, (6.0, 6.0)),
    Row(Mold::Loaf, (9.0, 5.0), 3.0, (8.0, 8.0)),
    Row(Mold::FlutedTube, (7.5, 0.0), 3.0, (6.0, 6.0)),
    Row(Mold::FlutedTube, (9.0, 0.0), 3.0, (9.0, 9.0)),
    Row(Mold::FlutedTube, (10.0, 0.0), 3.5, (12.0, 12.0)),
    Row(Mold::Tube, (8.0, 0.0), 3.0, (9.0, 9.0)),
    Row(Mold::Tube, (9.0, 0.0), 3.0, (12.0, 12.0)),
    Row(Mold::Tube, (10.0, 0.0), 4.0, (16.0, 16.0)),
    Row(Mold::Pie, (8.0, 0.0), 1.5, (4.0, 4.0)),
    Row(Mold::Pie, (9.0, 0.0), 1.5, (4.0, 5.0)),
    Row(Mold::Pie, (9.0, 0.0), 1.25, (4.0, 4.0)),
    Row(Mold::Pie, (9.0, 0.0), 2.0, (7.0, 8.0)),
    Row(Mold::Pie, (9.5, 0.0), 2.0, (7.0, 8.0)),
    Row(Mold::Pie, (10.0, 0.0), 1.5, (6.0, 6.0)),
    Row(Mold::Tart, (9.0, 0.0), 1.0, (4.0, 4.0)),
    Row(Mold::Tart, (9.5, 0.0), 1.5, (4.0, 4.0)),
    Row(Mold::Tart, (11.0, 0.0), 1.0, (6.0, 6.0)),
    Row(Mold::Sheet, (15.5, 10.5), 1.0, (10.0, 10.0)),
    Row(Mold::Sheet, (17.5, 12.5), 1.0, (12.0, 12.0)),
];

/// Inches by which a side may differ from the row's: 23 cm are 9.06 in, 28 cm are 11.02 in.
const SIDE: f64 = 0.26;
/// Inches by which a depth may: 5 cm are 1.97 in, 8 cm are 3.15 in.
const DEPTH: f64 = 0.2;

/// What a pan of these measurements holds: one side or two, and the depth last where it is said. Nothing where no table has such a
/// pan.
pub fn capacity(mold: Mold, sides: &[Length]) -> Option<Capacity> {
    let (plan, depth) = split(mold, sides)?;
    let near = |one: f64, other: f64, by: f64| (one - other).abs() <= by;
    let fits = |row: &&Row| {
        let Row(kind, (long, wide), deep, _) = row;
        *kind == mold
            && near(*long, plan.0, SIDE)
            && near(*wide, plan.1, SIDE)
            && depth.is_none_or(|depth| near(*deep, depth, DEPTH))
    };
    let Row(_, _, deep, (least, most)) = PANS.iter().find(fits)?;
    let taken = depth.is_none().then(|| Length::new::<inch>(*deep));
    Some(Capacity { cups: Interval::between(*least, *most), depth: taken })
}

/// The plan, the longer side first, and the depth, in inches. A round pan has one side.
fn split(mold: Mold, sides: &[Length]) -> Option<((f64, f64), Option<f64>)> {
    let inches: Vec<f64> = sides.iter().map(|side| side.get::<inch>()).collect();
    let round = !matches!(mold, Mold::Square | Mold::Rectangular | Mold::Loaf | Mold::Sheet);
    match (inches.as_slice(), round) {
        ([side], true) => Some(((*side, 0.0), None)),
        ([side, depth], true) => Some(((*side, 0.0), Some(*depth))),
        ([side], false) if mold == Mold::Square => Some(((*side, *side), None)),
        ([one, other], false) if *other <= 3.25 && mold == Mold::Square => Some(((*one, *one), Some(*other))),
        ([one, other], false) => Some(((one.max(*other), one.min(*other)), None)),
        ([one, other, depth], false) => Some(((one.max(*other), one.min(*other)), Some(*depth))),
        _ => None,
    }
}

impl Capacity {
    /// In millilitres.
    pub fn millilitres(&self) -> Interval {
        self.cups.times(Cup::UsCustomary.millilitres())
    }
}
