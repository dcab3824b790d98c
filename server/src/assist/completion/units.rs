//! Units, behind a number.

use std::cmp::Reverse;

use super::{Asked, Proposal, ProposalKind, Topic, begun, here::Here};
use crate::{
    measure::{Interval, Unit, UnitKind},
    recipe::{Recipe, SectionKind, measures::Place},
};

/// What a list measures with, the usual first.
#[rustfmt::skip]
pub const LIST: &[Unit] = &[
    Unit::Cup, Unit::Tablespoon, Unit::Teaspoon, Unit::Gram, Unit::Ounce, Unit::Pound, Unit::Millilitre, Unit::Kilogram, Unit::Litre,
    Unit::FluidOunce, Unit::Quart, Unit::Pint, Unit::Pinch, Unit::Clove, Unit::Can, Unit::Stick, Unit::Bunch, Unit::Sprig, Unit::Slice,
    Unit::Head, Unit::Stalk, Unit::Packet, Unit::Batch,
];

/// What a step measures with.
#[rustfmt::skip]
pub const METHOD: &[Unit] = &[
    Unit::Minute, Unit::Hour, Unit::DegreeFahrenheit, Unit::DegreeCelsius, Unit::Cup, Unit::Tablespoon, Unit::Teaspoon, Unit::Gram,
    Unit::Millilitre, Unit::Inch, Unit::Centimetre, Unit::Second, Unit::Day,
];

/// What pans and dishes are measured with.
pub const EQUIPMENT: &[Unit] =
    &[Unit::Inch, Unit::Centimetre, Unit::Quart, Unit::Litre, Unit::Cup, Unit::FluidOunce, Unit::Millilitre];

/// The units for a number that stands right before: those that the recipe measures with in such places first, then the usual
/// ones; the others, once one of them has been begun.
pub fn propose(asked: &Asked<'_>, here: &Here<'_>, usual: &[Unit]) -> Vec<Proposal> {
    let Some(number) = here.number() else { return Vec::new() };
    let typed = here.word();
    let mut units: Vec<Unit> = usual.to_vec();
    if !typed.is_empty() {
        units.extend(Unit::all().filter(|unit| !usual.contains(unit)));
    }
    let fitting = units.into_iter().filter_map(|unit| {
        let text = written(asked.recipe, here, unit, &number);
        let filter = begun(&text, typed).or_else(|| unit.words().find_map(|word| begun(word, typed)))?.to_owned();
        let topic = Some(Topic::Unit(unit.name().to_owned()));
        let proposal = Proposal::new(ProposalKind::Unit, here.typed(typed), text).detail(unit.name());
        Some((unit, Proposal { filter, topic, ..proposal }))
    });
    let mut fitting: Vec<(Unit, Proposal)> = fitting.collect();
    let expected = expected(here);
    fitting.sort_by_key(|(unit, _)| (Some(unit.kind()) != expected, Reverse(uses(asked.recipe, here, *unit))));
    fitting.into_iter().map(|(_, proposal)| proposal).collect()
}

/// What a number measures behind a word like this: *for* 40 minutes, *at* 350 degrees.
fn expected(here: &Here<'_>) -> Option<UnitKind> {
    let words = here.before.strip_suffix(here.word())?.split_whitespace().rev();
    let mut words = words.skip_while(|word| word.starts_with(|c: char| c.is_numeric()) || *word == "or");
    match (words.next()?, words.next()) {
        ("for" | "another", _) => Some(UnitKind::Time),
        ("to", Some(before)) if before.starts_with(|c: char| c.is_numeric()) => {
            words.next().filter(|word| *word == "for").map(|_| UnitKind::Time)
        }
        ("to" | "at", _) => Some(UnitKind::Temperature),
        _ => None,
    }
}

/// How often a unit stands in this section of the recipe.
fn uses(recipe: &Recipe, here: &Here<'_>, unit: Unit) -> usize {
    let terms = recipe.measures.iter().filter(|measure| !measure.span.touches(here.offset)).filter(|measure| {
        matches!(
            (measure.place, here.section),
            (Place::Ingredient(_), Some(SectionKind::Ingredients))
                | (Place::Step(_), Some(SectionKind::Method))
                | (Place::Equipment(_), Some(SectionKind::Equipment))
        )
    });
    terms
        .flat_map(|measure| &measure.stated.terms)
        .filter(|term| term.amount().and_then(|own| own.unit) == Some(unit))
        .count()
}

/// A unit as the recipe writes it elsewhere, else as the house does; times are written out.
fn written(recipe: &Recipe, here: &Here<'_>, unit: Unit, number: &Interval) -> String {
    let many = number.most.unwrap_or(f64::INFINITY);
    let elsewhere = recipe.measures.iter().filter(|measure| !measure.span.touches(here.offset));
    let mut terms = elsewhere.flat_map(|measure| &measure.stated.terms);
    let own = terms.find_map(|term| {
        let word = recipe.at(term.unit.filter(|_| term.amount().and_then(|own| own.unit) == Some(unit))?);
        Some(word.eq_ignore_ascii_case(unit.name()) || word.eq_ignore_ascii_case(unit.plural()))
    });
    match own.unwrap_or(unit.kind() == UnitKind::Time) {
        true if many > 1.0 => unit.plural().to_owned(),
        true => unit.name().to_owned(),
        false => unit.symbol_for(many).to_owned(),
    }
}
