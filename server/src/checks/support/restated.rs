//! Amounts that are stated twice, and how the two compare.

use uom::si::thermodynamic_temperature::degree_celsius;

use super::{around, heat, rewriting, vessels};
use crate::{
    checks::{Severity, View},
    measure::{Agreement, Amount, Comparison, Off, Quantity, Steps, Tolerances, Unit, UnitKind, Verdict, compare},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
        mentions::Share,
        pairs::Pair,
        weights,
    },
    text::Edit,
};

/// An amount and the same amount again, compared.
#[derive(Debug)]
pub struct Compared<'r> {
    /// The two.
    pub pair: Pair<'r>,
    /// The measure that the first stands in.
    pub measure: &'r Measure,
    /// What the first comes to, packs multiplied and hedges heeded.
    pub written: Vec<Amount>,
    /// What the second comes to.
    pub restated: Vec<Amount>,
    /// How the two compare.
    pub comparison: Comparison,
}

/// One of the two.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The first.
    Written,
    /// The second.
    Restated,
}

/// Every pair of the recipe that can be read. Sizes of vessels have a check of their own; a fan oven's setting beside a
/// conventional one's and differences of temperature are no restatements.
pub fn compared<'r>(view: &View<'r>) -> &'r [Compared<'r>] {
    view.worked.compared.get_or_init(|| {
        let pairs = view.pairs().iter().filter(|pair| !vessels::is_size_of_one(view.recipe, pair));
        pairs.filter_map(|pair| one(view, *pair)).collect()
    })
}

fn one<'r>(view: &View<'r>, pair: Pair<'r>) -> Option<Compared<'r>> {
    let recipe = view.recipe;
    let (written, restated) = recipe.amounts(&pair)?;
    if pair.written.kind() == Some(UnitKind::Temperature) {
        let fan = heat::is_fan(recipe, pair.written) != heat::is_fan(recipe, pair.restated);
        if fan || heat::is_difference(recipe, pair.written.span) || agree_as_differences(&written, &restated) {
            return None;
        }
    }
    let density = is_by_density(&pair).then(|| weights::range_of(recipe, pair.measure)).flatten();
    let comparison = compare(&written, &restated, &view.house.measures, density.as_ref());
    Some(Compared { pair, measure: recipe.measures.get(pair.measure)?, written, restated, comparison })
}

/// Whether a pair is of a volume and a weight, which only what is measured connects.
pub fn is_by_density(pair: &Pair<'_>) -> bool {
    let kinds = (pair.written.kind(), pair.restated.kind());
    matches!(kinds, (Some(UnitKind::Volume), Some(UnitKind::Weight)) | (Some(UnitKind::Weight), Some(UnitKind::Volume)))
}

/// Beyond this many degrees a difference is not met in a kitchen.
const LARGEST_DIFFERENCE: f64 = 100.0;

/// `25°F (14°C)` can only be a difference, whatever the words say.
fn agree_as_differences(written: &[Amount], restated: &[Amount]) -> bool {
    let celsius = |amounts: &[Amount]| match amounts {
        [Amount { number, .. }] if number.least > LARGEST_DIFFERENCE => None,
        [Amount { unit: Some(Unit::DegreeFahrenheit), number }] => Some(number.middle() / 1.8),
        [Amount { unit: Some(Unit::DegreeCelsius), number }] => Some(number.middle()),
        _ => None,
    };
    celsius(written).zip(celsius(restated)).is_some_and(|(one, other)| (one - other).abs() <= 1.5)
}

impl Compared<'_> {
    /// How well the two agree, where they measure the same thing.
    pub fn agreement(&self) -> Option<Agreement> {
        match self.comparison {
            Comparison::Compared(agreement) => Some(agreement),
            _ => None,
        }
    }

    /// How badly it hurts that the two are apart; nothing where they agree.
    pub fn severity(&self, view: &View<'_>) -> Option<Severity> {
        let agreement = self.agreement()?;
        let tolerances =
            if let Off::Degrees(_) = agreement.off { self.of_heat(view, &agreement) } else { view.house.tolerances };
        match agreement.verdict(&tolerances) {
            Verdict::Agrees => None,
            Verdict::Query => Some(Severity::Info),
            Verdict::Misleading => Some(Severity::Warning),
            Verdict::Wrong => Some(Severity::Error),
        }
    }

    /// The house's tolerances, half as wide for a temperature that is no oven's, where a few degrees decide: meat, milk, yeast.
    fn of_heat(&self, view: &View<'_>, agreement: &Agreement) -> Tolerances {
        let house = view.house.tolerances;
        let Steps { misleading, wrong, .. } = house.degrees;
        let degrees = Steps { misleading: misleading / 2.0, wrong: wrong / 2.0, ..house.degrees };
        let narrow = Tolerances { degrees, ..house };
        // Most pairs are so close, or so far apart, that it does not matter what is heated.
        if agreement.verdict(&narrow) == agreement.verdict(&house) {
            return house;
        }
        let Some(Quantity::Temperature(heat)) = Amount::total(&self.written, &view.house.measures) else {
            return house;
        };
        let oven = heat.least.get::<degree_celsius>() >= COOLEST_OVEN
            || around::sentence_has(view.recipe, self.pair.written.span, &["oven", "bake", "roast"]);
        if oven { house } else { narrow }
    }

    /// The edit that makes one of the two agree with the other, and what then stands there. Nothing where that cannot be told,
    /// or where more hangs on the first: how much is in each pack, further restatements, steps that take a part of it.
    pub fn rewritten(&self, view: &View<'_>, side: Side) -> Option<(Edit, String)> {
        let (stated, amounts) = self.as_other_says(view, side)?;
        let free = self.pair.times.is_none() && !self.pair.others && !self.is_shared_out(view.recipe);
        (side == Side::Restated || free).then(|| rewriting::rewrite(view, stated, &amounts))
    }

    /// Whether a step takes so and so much of what the first amount lists.
    fn is_shared_out(&self, recipe: &Recipe) -> bool {
        let Place::Ingredient(line) = self.measure.place else { return false };
        let mut shares = recipe.flow.mentions.iter().filter(|mention| matches!(mention.share, Share::Amount(_)));
        shares.any(|mention| mention.targets.iter().any(|target| target.ingredient() == Some(line)))
    }

    /// What one side would have to say to agree with the other.
    pub fn as_other_says(&self, view: &View<'_>, side: Side) -> Option<(&Stated, Vec<Amount>)> {
        let pair = &self.pair;
        let (stated, from) = match side {
            Side::Restated if pair.times.is_some() => (pair.restated, self.written.clone()),
            Side::Restated => (pair.restated, pair.written.amounts()?),
            Side::Written => (pair.written, pair.restated.amounts()?),
        };
        let density = weights::density_of(view.recipe, pair.measure).map(|density| density.typical);
        let amounts = rewriting::in_measures_of(stated, &from, density, &view.house.measures)?;
        let (written, restated) = match side {
            Side::Restated => (&self.written, &amounts),
            Side::Written => (&amounts, &self.restated),
        };
        let range = weights::range_of(view.recipe, pair.measure);
        let comparison = compare(written, restated, &view.house.measures, range.as_ref());
        let again = Compared { comparison, written: written.clone(), restated: restated.clone(), ..*self };
        let agrees =
            again.agreement().is_some_and(|agreement| agreement.other.is_none()) && again.severity(view).is_none();
        agrees.then_some((stated, amounts))
    }
}

/// Below this many °C nothing is an oven's setting.
const COOLEST_OVEN: f64 = 90.0;

/// A stated amount on one line, as a sentence can hold it.
pub fn plain(recipe: &Recipe, stated: &Stated) -> String {
    super::words::plain(recipe.at(stated.span))
}
