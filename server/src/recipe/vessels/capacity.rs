//! What a vessel holds to the brim.

use uom::si::{
    f64::{Length, Volume},
    length::centimeter,
    volume::milliliter,
};

use super::Kind;
use crate::measure::{Interval, Outline, Pan};

/// How deep vessels of a kind are where nobody says so, in centimetres, and what share of upright sides they hold: sides slope,
/// corners are round, a tube or flutes take room.
struct Make {
    kind: Kind,
    depth: (f64, f64),
    share: (f64, f64),
}

/// What makers make. The shares come from a published table of pans and the cups they hold (*The News-Journal*, "Know the volume
/// of your baking pans", 27 September 2016: each of its pans lies inside what this gives, see the test); the depths are common
/// practice, no source: pans of 1 1/2 to 3 inches, and tins for fruit cakes up to 9 cm.
const MAKES: &[Make] = &[
    Make { kind: Kind::Cake, depth: (3.5, 9.0), share: (0.74, 1.05) },
    Make { kind: Kind::Springform, depth: (5.0, 9.0), share: (0.85, 1.1) },
    Make { kind: Kind::Loaf, depth: (5.5, 9.0), share: (0.7, 1.05) },
    Make { kind: Kind::Tube, depth: (7.0, 11.5), share: (0.6, 1.05) },
    Make { kind: Kind::Pie, depth: (2.5, 5.5), share: (0.7, 1.05) },
    Make { kind: Kind::Tart, depth: (2.0, 4.5), share: (0.85, 1.15) },
    Make { kind: Kind::Dish, depth: (4.0, 9.0), share: (0.5, 1.05) },
    Make { kind: Kind::Skillet, depth: (4.0, 8.0), share: (0.7, 1.05) },
];

/// A vessel that states its volume may hold as much more or less: tables of the same pan differ by 15 % (the same table).
const STATED: (f64, f64) = (0.85, 1.15);

/// What one cup of a muffin tin holds, least and most, in millilitres: 1/2 cup; 2 tablespoons for a mini one, 1 cup for a large
/// (the same table; the spread between makers is common practice, no source).
const MUFFIN: (f64, f64) = (84.0, 136.0);
const MINI_MUFFIN: (f64, f64) = (22.0, 54.0);
const LARGE_MUFFIN: (f64, f64) = (170.0, 270.0);

/// What a British loaf tin holds that is sold by the weight of its loaf, in millilitres for each pound (common practice, no source).
const LOAF_OF_A_POUND: (f64, f64) = (400.0, 900.0);

/// How large a cup of a muffin tin is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MuffinSize {
    /// Some 2 tablespoons.
    Mini,
    /// Half a cup.
    Usual,
    /// A cup.
    Large,
}

/// What else the words tell of a vessel's shape.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Shape {
    /// `square`: a single side is that of a square.
    pub square: bool,
    /// `round`: a single side is a diameter.
    pub round: bool,
    /// `deep`: as deep as any.
    pub deep: bool,
    /// `sandwich`, `layer`: no deeper than one layer of a cake.
    pub shallow: bool,
    /// A pan, as America says, and not a tin: those for fruit cakes are deeper.
    pub pan: bool,
}

/// How deep a vessel can be, in centimetres, where the words narrow that down: a layer pan 2 inches, an American pan 3 inches, a
/// deep one 4 (common practice, no source).
fn deepest(usual: f64, shape: Shape) -> f64 {
    match shape {
        Shape { shallow: true, .. } => usual.min(5.1),
        Shape { deep: true, .. } => usual.max(10.2),
        Shape { pan: true, .. } => usual.min(7.7),
        _ => usual,
    }
}

/// What a vessel holds that says so itself.
pub fn of_volume(stated: &Interval<Volume>) -> Interval<Volume> {
    let (least, most) = STATED;
    Interval { least: stated.least * least, most: stated.most.map(|end| end * most) }
}

/// What one cup of a muffin tin holds.
pub fn of_muffin_cup(size: MuffinSize) -> Interval<Volume> {
    let (least, most) = match size {
        MuffinSize::Mini => MINI_MUFFIN,
        MuffinSize::Usual => MUFFIN,
        MuffinSize::Large => LARGE_MUFFIN,
    };
    Interval::between(least, most).map(Volume::new::<milliliter>)
}

/// What a loaf tin of so many pounds holds.
pub fn of_loaf_by_pounds(pounds: f64) -> Interval<Volume> {
    let (least, most) = LOAF_OF_A_POUND;
    Interval::between(least * pounds, most * pounds).map(Volume::new::<milliliter>)
}

/// What a vessel of this kind holds by its sides, as they are written.
pub fn of_sides(kind: Kind, sides: &[Length], shape: Shape) -> Option<Interval<Volume>> {
    let make = MAKES.iter().find(|make| make.kind == kind)?;
    // A loaf pan has two sides that differ; one alone says too little.
    if kind == Kind::Loaf && sides.len() < 2 {
        return None;
    }
    let may_be_square = shape.square || !shape.round && matches!(kind, Kind::Cake | Kind::Dish);
    let depth = |cm: f64| Length::new::<centimeter>(cm);
    let most_depth = if matches!(kind, Kind::Cake | Kind::Dish) { deepest(make.depth.1, shape) } else { make.depth.1 };
    let least = pan(kind, sides, shape.square)?.volume(depth(make.depth.0)) * make.share.0;
    let most = pan(kind, sides, may_be_square)?.volume(depth(most_depth)) * make.share.1;
    Some(Interval::between(least, most))
}

fn pan(kind: Kind, sides: &[Length], square: bool) -> Option<Pan> {
    let round = matches!(kind, Kind::Tube | Kind::Springform | Kind::Pie | Kind::Tart | Kind::Skillet);
    match sides {
        // `10 x 4` of a tube pan is its diameter and its depth.
        [diameter, depth] if round && *depth * 2.0 <= *diameter => {
            Some(Pan { outline: Outline::Round(*diameter), depth: Some(*depth) })
        }
        _ => Pan::from_dimensions(sides, square),
    }
}

#[cfg(test)]
mod tests {
    use uom::si::length::inch;

    use super::*;
    use crate::larder::CUP_MILLILITRES;

    /// *The News-Journal* (Daytona Beach), "Know the volume of your baking pans", 27 September 2016: inches, and the US cups that
    /// fill the pan to its rim.
    #[test]
    fn pans_hold_what_the_published_table_says() {
        let table: &[(Kind, &[f64], bool, f64)] = &[
            (Kind::Cake, &[6.0, 2.0], false, 4.0),
            (Kind::Cake, &[8.0, 1.5], false, 4.0),
            (Kind::Cake, &[8.0, 2.0], false, 6.0),
            (Kind::Cake, &[9.0, 1.5], false, 6.0),
            (Kind::Cake, &[9.0, 2.0], false, 8.0),
            (Kind::Cake, &[10.0, 2.0], false, 11.0),
            (Kind::Springform, &[9.0, 2.5], false, 10.0),
            (Kind::Springform, &[9.0, 3.0], false, 12.0),
            (Kind::Springform, &[10.0, 2.5], false, 12.0),
            (Kind::Springform, &[8.0, 3.0], false, 11.0),
            (Kind::Cake, &[8.0, 8.0, 1.5], true, 6.0),
            (Kind::Cake, &[8.0, 8.0, 2.0], true, 8.0),
            (Kind::Cake, &[9.0, 9.0, 1.5], true, 8.0),
            (Kind::Cake, &[9.0, 9.0, 2.0], true, 10.0),
            (Kind::Cake, &[10.0, 10.0, 2.0], true, 12.0),
            (Kind::Dish, &[11.0, 7.0, 2.0], false, 6.0),
            (Kind::Cake, &[13.0, 9.0, 2.0], false, 14.0),
            (Kind::Loaf, &[8.0, 4.0, 2.5], false, 4.0),
            (Kind::Loaf, &[8.5, 4.5, 2.5], false, 6.0),
            (Kind::Loaf, &[9.0, 5.0, 3.0], false, 8.0),
            (Kind::Tube, &[7.5, 3.0], false, 6.0),
            (Kind::Tube, &[9.0, 3.0], false, 9.0),
            (Kind::Tube, &[10.0, 3.5], false, 12.0),
            (Kind::Tube, &[8.0, 3.0], false, 9.0),
            (Kind::Tube, &[9.0, 3.0], false, 12.0),
            (Kind::Tube, &[10.0, 4.0], false, 16.0),
            (Kind::Pie, &[8.0, 1.5], false, 4.0),
            (Kind::Pie, &[9.0, 1.25], false, 4.0),
            (Kind::Pie, &[9.0, 1.5], false, 5.0),
            (Kind::Pie, &[10.0, 1.5], false, 6.0),
            (Kind::Tart, &[9.0, 1.0], false, 4.0),
            (Kind::Tart, &[11.0, 1.0], false, 6.0),
        ];
        for (kind, inches, square, cups) in table {
            let sides: Vec<Length> = inches.iter().map(|side| Length::new::<inch>(*side)).collect();
            let holds = of_sides(*kind, &sides, Shape { square: *square, round: !*square, ..Shape::default() })
                .unwrap_or_else(|| panic!("{kind:?} {inches:?}"));
            let in_cups = holds.map(|volume| volume.get::<milliliter>() / CUP_MILLILITRES);
            assert!(in_cups.contains(*cups), "{kind:?} {inches:?}: {in_cups:?}, published {cups}");
        }
    }

    #[test]
    fn what_the_words_leave_open_widens_the_answer() {
        let inches = |sides: &[f64]| sides.iter().map(|side| Length::new::<inch>(*side)).collect::<Vec<_>>();
        let most = |kind, sides: &[f64], shape| {
            of_sides(kind, &inches(sides), shape).and_then(|holds| holds.most).map(|most| most.get::<milliliter>())
        };
        let (any, round) = (Shape::default(), Shape { round: true, ..Shape::default() });
        assert!(most(Kind::Cake, &[9.0], any) > most(Kind::Cake, &[9.0], round));
        assert!(most(Kind::Cake, &[9.0], round) > most(Kind::Cake, &[9.0, 2.0], round));
        assert!(most(Kind::Cake, &[9.0], round) > most(Kind::Cake, &[9.0], Shape { shallow: true, ..round }));
        assert_eq!(most(Kind::Loaf, &[9.0], any), None);
        assert_eq!(most(Kind::Sheet, &[13.0, 18.0], any), None);
    }
}
