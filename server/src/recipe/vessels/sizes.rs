//! What the sizes come to that stand with a vessel.

use uom::si::{
    f64::{Length, Volume},
    volume::milliliter,
};

use super::{
    Kind,
    capacity::{self, MuffinSize, Shape},
    read::Parts,
};
use crate::{
    measure::{Amount, Interval, Measures, Quantity, Unit},
    recipe::language::token::Token,
    text::Span,
};

/// A pot, a mold or a dish that holds less than this is one of several, for a portion each, in millilitres.
const ONE_PORTION: f64 = 500.0;

/// What one vessel holds, and how many there are and where that stands.
pub(super) type Sized = (Option<Interval<Volume>>, Option<(f64, Option<Span>)>);

/// The size of a vessel that is no muffin tin.
pub(super) fn sized(parts: &mut Parts<'_>, measures: &Measures, noun: &Token, kind: Kind) -> Sized {
    let lengths = lengths(parts, measures);
    let says = |word: &str| parts.words.contains(&word);
    let shape = Shape {
        square: says("square"),
        round: says("round"),
        deep: says("deep"),
        shallow: says("sandwich") || says("layer") || says("shallow"),
        pan: noun.word("pan"),
    };
    let one = volume_of(parts, measures, kind);
    let one = one.or_else(|| if lengths.is_empty() { None } else { capacity::of_sides(kind, &lengths, shape) });
    (one, parts.counts.first().copied().or(parts.figures.first().map(|(count, place)| (*count, Some(*place)))))
}

/// The cups of a muffin tin: what one holds, and how many there are.
pub(super) fn muffin(parts: &Parts<'_>) -> Sized {
    let says = |word: &str| parts.words.contains(&word);
    let size = match () {
        () if says("mini") || says("small") => MuffinSize::Mini,
        () if says("jumbo") || says("large") || says("popover") => MuffinSize::Large,
        () => MuffinSize::Usual,
    };
    // "24-cup mini muffin tin": the cups are counted.
    let cups = parts.sizes.iter().find_map(|size| {
        let amount = size.terms.first()?.amount()?;
        (amount.unit == Some(Unit::Cup)).then_some(amount.number.least)
    });
    let counted = parts.counts.first().map(|(count, _)| *count);
    let wells = parts.figures.first().map(|(wells, _)| *wells).filter(|wells| *wells >= 4.0);
    let count = match (cups.or(wells), counted) {
        (Some(cups), Some(tins)) if tins <= 4.0 => Some(cups * tins),
        (Some(cups), _) => Some(cups),
        (None, Some(count)) if count >= 4.0 => Some(count),
        _ => None,
    };
    (count.map(|_| capacity::of_muffin_cup(size)), count.map(|count| (count, None)))
}

/// Whether a pot, a mold or a dish is one for a single portion, by what it holds.
pub(super) fn is_portion(kind: Kind, one: Option<Interval<Volume>>) -> bool {
    let most = one.and_then(|one| one.most).map(|most| most.get::<milliliter>());
    matches!(kind, Kind::Pot | Kind::Dish) && most.is_some_and(|most| most < ONE_PORTION)
}

/// What one holds by a stated volume; ounces of a small pot are fluid ounces, pounds of a loaf tin those of the loaf.
fn volume_of(parts: &Parts<'_>, measures: &Measures, kind: Kind) -> Option<Interval<Volume>> {
    parts.sizes.iter().find_map(|size| match size.quantity(measures)? {
        Quantity::Volume(volume) => Some(capacity::of_volume(&volume)),
        Quantity::Weight(_) => by_weight(size.terms.first()?.amount()?, measures, kind),
        _ => None,
    })
}

fn by_weight(amount: Amount, measures: &Measures, kind: Kind) -> Option<Interval<Volume>> {
    match (amount.unit?, kind) {
        (Unit::Ounce, Kind::Ramekin | Kind::Dish | Kind::Jar | Kind::Pot) => {
            match Amount::new(amount.number, Some(Unit::FluidOunce)).quantity(measures) {
                Quantity::Volume(volume) => Some(capacity::of_volume(&volume)),
                _ => None,
            }
        }
        (Unit::Pound, Kind::Loaf) => Some(capacity::of_loaf_by_pounds(amount.number.least)),
        _ => None,
    }
}

/// The sides of the vessel. What they take of the bare figures is no longer a number of vessels.
fn lengths(parts: &mut Parts<'_>, measures: &Measures) -> Vec<Length> {
    let stated =
        parts.sizes.iter().filter_map(|size| size.lengths()).find(|sides| !sides.is_empty()).unwrap_or_default();
    let by = parts.words.contains(&"by");
    match (parts.figures.as_slice(), stated.as_slice()) {
        // "9-by-13-inch": the unit stands with the last side only.
        (figures, [last]) if by && !figures.is_empty() => {
            let unit = parts.sizes.iter().find_map(|size| size.unit());
            let mut sides: Vec<Length> = figures.iter().filter_map(|(side, _)| length(*side, unit, measures)).collect();
            sides.push(*last);
            parts.figures.clear();
            sides
        }
        ([_, _] | [_, _, _], []) => {
            let unit = if parts.words.contains(&"inch") { Some(Unit::Inch) } else { unit_of_sides(&parts.figures) };
            let sides = parts.figures.drain(..).filter_map(|(side, _)| length(side, unit, measures));
            sides.collect()
        }
        _ => stated,
    }
}

/// `9x13`: inches up to 18, centimetres from 20 on.
fn unit_of_sides(sides: &[(f64, Span)]) -> Option<Unit> {
    let longest = sides.iter().map(|(side, _)| *side).fold(0.0, f64::max);
    match longest {
        7.0..=18.0 => Some(Unit::Inch),
        20.0..=50.0 => Some(Unit::Centimetre),
        _ => None,
    }
}

fn length(number: f64, unit: Option<Unit>, measures: &Measures) -> Option<Length> {
    match Amount::new(Interval::exactly(number), Some(unit?)).quantity(measures) {
        Quantity::Length(length) => Some(length.least),
        _ => None,
    }
}
