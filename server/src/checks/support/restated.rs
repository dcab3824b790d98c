//! Pairs of an amount and its restatement, and what would make them agree.

use uom::si::f64::Length;

use crate::{
    book::House,
    checks::{Severity, View},
    larder::Density,
    measure::{
        Amount, Comparison, Interval, Quantity, Style, System, UnitKind, Verdict, compare, kitchen_amounts,
        print_amounts,
    },
    recipe::{
        Recipe,
        language::{
            lexicon::{Roles, roles},
            token,
        },
        measures::{Measure, Place, Stated, Term},
        weights,
    },
    text::{Edit, Span},
};

/// An amount with one of its restatements.
pub struct Pair<'r> {
    /// The measure that holds both.
    pub measure: &'r Measure,
    /// The amount.
    pub written: &'r Stated,
    /// The same amount again, as the manuscript has it.
    pub restated: &'r Stated,
    /// How the two compare.
    pub comparison: Comparison,
    /// The density by which they were compared, where one is known.
    pub density: Option<Density>,
}

/// Every pair of the recipe that can be read; pans and what only looks like a restatement are left out.
pub fn pairs<'r>(view: &View<'r>) -> Vec<Pair<'r>> {
    let recipe = view.recipe;
    let mut out = Vec::new();
    for (index, measure) in recipe.measures.iter().enumerate() {
        if matches!(measure.place, Place::Test(_)) || is_difference(recipe, measure) || is_pan(recipe, measure) {
            continue;
        }
        let density = weights::food_of(recipe, index).and_then(|food| weights::density_of(recipe, measure, food));
        let mut add = |written: &'r Stated, restated: &'r Stated| {
            out.extend(pair(view.house, measure, written, restated, density));
        };
        for restated in &measure.restated {
            add(&measure.stated, restated);
        }
        if let [written, rest @ ..] = measure.each.as_slice() {
            rest.iter().for_each(|restated| add(written, restated));
        }
    }
    out
}

/// "Lower the oven by 25°F (14°C)": a difference, and no temperature.
pub fn is_difference(recipe: &Recipe, measure: &Measure) -> bool {
    let heat = measure
        .stated
        .terms
        .first()
        .and_then(Term::amount)
        .is_some_and(|amount| amount.kind() == UnitKind::Temperature);
    let before = recipe.text.get(..measure.span.start).unwrap_or_default().trim_end();
    let after = recipe.text.get(measure.span.end..).unwrap_or_default().trim_start();
    let word = before.rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or_default().to_lowercase();
    let next = after.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default().to_lowercase();
    heat && (matches!(word.as_str(), "by" | "another")
        || matches!(
            next.as_str(),
            "over" | "above" | "below" | "under" | "higher" | "lower" | "hotter" | "cooler" | "more" | "less"
        ))
}

/// Whether a measure is the size of something that is cooked in: it stands in the equipment, has sides, or a vessel follows.
pub fn is_pan(recipe: &Recipe, measure: &Measure) -> bool {
    if measure.stated.unit().is_none_or(|unit| unit.kind() != UnitKind::Length) {
        return false;
    }
    if matches!(measure.place, Place::Equipment(_)) || measure.stated.sides {
        return true;
    }
    let after = Span::new(measure.span.end, (measure.span.end + 40).min(recipe.text.len()));
    let after = Span::new(
        after.start,
        (after.start..=after.end).rev().find(|end| recipe.text.is_char_boundary(*end)).unwrap_or(after.start),
    );
    let words = token::tokens(&recipe.text, after, &[]);
    let near = words.iter().take_while(|word| word.kind == token::TokenKind::Word).take(3);
    near.into_iter().any(|word| {
        roles(&word.fold).any(Roles::VESSEL)
            && !word.one_of(&["work", "side", "base", "bottom", "hand", "paper", "foil", "cup", "board", "surface"])
    })
}

fn pair<'r>(
    house: &House,
    measure: &'r Measure,
    written: &'r Stated,
    restated: &'r Stated,
    density: Option<Density>,
) -> Option<Pair<'r>> {
    if written.sides || restated.sides || restated.each {
        return None;
    }
    let (one, two) = (amounts(written)?, amounts(restated)?);
    if one.is_empty() || two.is_empty() || two.iter().any(|amount| amount.unit.is_none()) {
        return None;
    }
    let range = density.map(|density| Interval::between(density.low, density.high));
    let comparison = compare(&one, &two, &house.measures, range.as_ref());
    Some(Pair { measure, written, restated, comparison, density })
}

/// The amounts of a statement, where every number can be read.
pub fn amounts(stated: &Stated) -> Option<Vec<Amount>> {
    stated.terms.iter().map(Term::amount).collect()
}

/// The sides of a pan, where they are lengths.
pub fn sides(house: &House, stated: &Stated) -> Option<Vec<Length>> {
    let amounts = amounts(stated)?;
    let lengths = amounts.iter().map(|amount| match amount.quantity(&house.measures) {
        Quantity::Length(length) if length.is_exact() => Some(length.least),
        _ => None,
    });
    lengths.collect()
}

/// How badly a verdict hurts; nothing where the two agree.
pub fn severity(verdict: Verdict) -> Option<Severity> {
    match verdict {
        Verdict::Agrees => None,
        Verdict::Query => Some(Severity::Info),
        Verdict::Misleading => Some(Severity::Warning),
        Verdict::Wrong => Some(Severity::Error),
    }
}

/// What `of` comes to in the system and the kind of `like`, as a kitchen rounds it; nothing where that cannot be told.
pub fn in_place_of(house: &House, of: &Stated, like: &Stated, density: Option<&Density>) -> Option<Vec<Amount>> {
    let quantity = of.quantity(&house.measures)?;
    let unit = like.unit()?;
    let typical = density.map(|density| Interval::exactly(density.typical));
    let wanted = match (&quantity, unit.kind()) {
        (Quantity::Volume(_), UnitKind::Weight) => Quantity::Weight(quantity.weight(&typical?)?),
        (Quantity::Weight(_), UnitKind::Volume) => Quantity::Volume(quantity.volume(&typical?)?),
        _ if quantity.kind() == unit.kind() => quantity,
        _ => return None,
    };
    let found = kitchen_amounts(&wanted, unit.system().unwrap_or(System::Metric), &house.measures);
    (!found.is_empty()).then_some(found)
}

/// The edit that puts what `of` comes to in the place of `like`, with the text it puts there. Nothing where the two would still
/// disagree.
pub fn rewritten(house: &House, of: &Stated, like: &Stated, density: Option<&Density>) -> Option<(Edit, String)> {
    let amounts = in_place_of(house, of, like, density)?;
    let range = density.map(|density| Interval::between(density.low, density.high));
    let agrees = match compare(&self::amounts(of)?, &amounts, &house.measures, range.as_ref()) {
        Comparison::Compared(agreement) => {
            agreement.verdict(&house.tolerances) == Verdict::Agrees && agreement.other.is_none()
        }
        _ => false,
    };
    let text = print_amounts(&amounts, &Style::default());
    agrees.then(|| (Edit::replace(like.span, text.clone()), text))
}
