//! An amount in the other measures of a kitchen, and what the answer rests on.

use uom::si::{mass::gram, volume::milliliter};

use super::figures;
use crate::{
    book::House,
    larder::{Density, Food},
    measure::{
        Amount, Interval, Measures, Quantity, System, Unit, UnitKind, equivalents, kitchen_amounts, print_amounts,
        taken_as,
    },
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
        weights,
    },
};

/// Below this many grams an ounce is a decimal that no scale shows.
const SMALLEST_OUNCES: f64 = 14.0;

/// A quantity, and all that is known of what it measures.
pub struct Measured<'r> {
    /// How much.
    pub quantity: Quantity,
    /// The units that stand on the page already: nobody needs telling.
    pub written: Vec<Unit>,
    /// Ways of measuring that the answer has already named.
    pub said: Vec<(UnitKind, System)>,
    /// Of what.
    pub food: Option<&'static Food>,
    /// How heavy that is in the state that the line gives.
    pub density: Option<Density>,
    /// The size that the line says: `large`.
    pub size: &'r str,
}

impl<'r> Measured<'r> {
    /// One statement of the measure of this index.
    pub fn new(recipe: &'r Recipe, house: &House, index: usize, stated: &Stated) -> Option<Self> {
        let measure = recipe.measures.get(index)?;
        Some(Measured {
            quantity: stated.quantity(&house.measures)?,
            written: units(stated),
            said: Vec::new(),
            food: weights::food_of(recipe, index),
            // What is in a can is wet, and the larder's cup is often of the dry food.
            density: weights::density_of(recipe, index).filter(|_| measure.each.is_empty()),
            size: size(recipe, measure),
        })
    }

    /// The amount of a line, as stated first; of packs, what all of them hold.
    pub fn whole(recipe: &'r Recipe, house: &House, index: usize) -> Option<Self> {
        let measure = recipe.measures.get(index)?;
        let holds = |stated: &&Stated| matches!(stated.kind(), Some(UnitKind::Volume | UnitKind::Weight));
        let Some(pack) = measure.each.iter().find(holds) else {
            return Measured::new(recipe, house, index, &measure.stated);
        };
        let mut of_one = Measured::new(recipe, house, index, pack)?;
        of_one.written = measure.each.iter().flat_map(units).collect();
        if let Some(Quantity::Count { count, .. }) = measure.stated.quantity(&house.measures)
            && count != Interval::exactly(1.0)
        {
            of_one.quantity = of_one.quantity.scaled(&count);
            of_one.written.clear();
        }
        Some(of_one)
    }

    /// The answer and what it rests on, a paragraph each; none where there is nothing to convert.
    pub fn answer(&self, house: &House) -> Vec<String> {
        match &self.quantity {
            Quantity::Count { count, unit } => self.counted(house, count, *unit),
            Quantity::Loose { count, unit } => loose(house, count, *unit),
            _ => self.converted(house),
        }
    }

    fn converted(&self, house: &House) -> Vec<String> {
        let density = self.density.zip(self.food);
        let mut others = equivalents(&self.quantity, density.map(|(density, _)| density.typical), &house.measures);
        others.retain(|amounts| self.is_news(amounts));
        others.sort_by_key(|amounts| self.place(amounts));
        let printed: Vec<String> = others.iter().map(|amounts| print_amounts(amounts, &house.style())).collect();
        let Some(first) = answer(&printed) else { return Vec::new() };
        let rests =
            density.map(|(density, food)| figures::of_volume(food, &density, self.is_small(house), &house.measures));
        std::iter::once(first).chain(rests).collect()
    }

    /// Whether it is neither written beside nor a decimal of an ounce.
    fn is_news(&self, amounts: &[Amount]) -> bool {
        let written = amounts.iter().all(|amount| amount.unit.is_some_and(|unit| self.written.contains(&unit)));
        let tiny = match Amount::total(amounts, &Measures::default()) {
            Some(Quantity::Weight(weight)) => weight.least.get::<gram>() < SMALLEST_OUNCES,
            _ => false,
        };
        let said = amounts.first().and_then(way).is_some_and(|way| self.said.contains(&way));
        let ounces = amounts.iter().any(|amount| amount.unit == Some(Unit::Ounce));
        !(written || said || tiny && ounces)
    }

    /// Whether it is measured by the spoon.
    fn is_small(&self, house: &House) -> bool {
        let volume = match self.quantity {
            Quantity::Weight(weight) => self.density.map(|density| weight.map(|weight| weight / density.typical)),
            Quantity::Volume(volume) => Some(volume),
            _ => None,
        };
        let quarter_cup = 0.24 * house.measures.cup.millilitres();
        volume.is_some_and(|volume| volume.least.get::<milliliter>() < quarter_cup)
    }

    /// The answer comes first: what a reader of the other system would measure, solids in grams and liquids in millilitres; and
    /// in cups, what is written in grams.
    fn place(&self, amounts: &[Amount]) -> usize {
        use System::{Customary, Metric};
        use UnitKind::{Volume, Weight};
        let liquid = self.food.is_some_and(|food| food.is("liquid")) || self.density.is_none();
        let written = self.written.first().copied().and_then(Unit::system).unwrap_or(Customary);
        let order: [(UnitKind, System); 3] = match (self.quantity.kind(), written) {
            (Volume, Customary) if liquid => [(Volume, Metric), (Weight, Metric), (Weight, Customary)],
            (Volume, Customary) => [(Weight, Metric), (Weight, Customary), (Volume, Metric)],
            (Volume, Metric) if liquid => [(Volume, Customary), (Weight, Metric), (Weight, Customary)],
            (Volume, Metric) => [(Weight, Metric), (Volume, Customary), (Weight, Customary)],
            (_, Customary) => [(Weight, Metric), (Volume, Customary), (Volume, Metric)],
            (_, Metric) => [(Volume, Customary), (Weight, Customary), (Volume, Metric)],
        };
        let own = amounts.first().and_then(way);
        order.iter().position(|wanted| own == Some(*wanted)).unwrap_or(order.len())
    }

    /// Counted things by the weight of one.
    fn counted(&self, house: &House, count: &Interval, unit: Option<Unit>) -> Vec<String> {
        let Some(food) = self.food else { return Vec::new() };
        let by: [&str; 2] = [unit.map_or(self.size, |unit| unit.name()), "one"];
        let found = by.iter().take(if unit.is_some() { 1 } else { 2 }).find_map(|by| Some((*by, food.each(by)?)));
        let Some((by, weight)) = found else { return Vec::new() };
        let total = Quantity::grams(count.times(weight.typical.get::<gram>()));
        let both = [System::Metric, System::Customary]
            .map(|system| kitchen_amounts(&total, system, &house.measures))
            .into_iter()
            .filter(|amounts| self.is_news(amounts));
        let printed: Vec<String> = both.map(|amounts| print_amounts(&amounts, &house.style())).collect();
        answer(&printed).into_iter().chain([figures::of_one(food, &figures::one(by), &weight)]).collect()
    }
}

/// `**125 g** · 4 1/2 oz · 240 ml`
pub fn answer(printed: &[String]) -> Option<String> {
    let (first, rest) = printed.split_first()?;
    Some(format!("**{first}**{}", rest.iter().map(|other| format!(" · {other}")).collect::<String>()))
}

/// What an amount measures, and in whose measures.
pub fn way(amount: &Amount) -> Option<(UnitKind, System)> {
    let unit = amount.unit?;
    Some((unit.kind(), unit.system()?))
}

fn units(stated: &Stated) -> Vec<Unit> {
    stated.terms.iter().filter_map(|term| term.amount()?.unit).collect()
}

fn size<'r>(recipe: &'r Recipe, measure: &Measure) -> &'r str {
    const SIZES: &[&str] = &["extra-large", "small", "medium", "large", "jumbo"];
    let Place::Ingredient(index) = measure.place else { return "" };
    let line = recipe.ingredients.get(index).map_or("", |ingredient| recipe.at(ingredient.span));
    SIZES.iter().find(|size| line.to_lowercase().contains(**size)).copied().unwrap_or_default()
}

/// Loose measures by what readers take them to be.
fn loose(house: &House, count: &Interval, unit: Unit) -> Vec<String> {
    let Some(taken) = taken_as(unit) else { return Vec::new() };
    let millilitres = taken.volume.map(|volume| volume.get::<milliliter>()).scaled(count);
    let printed = [System::Customary, System::Metric].map(|system| {
        let amounts = kitchen_amounts(&Quantity::millilitres(millilitres), system, &house.measures);
        print_amounts(&amounts, &house.style())
    });
    let of = taken.of.map(|of| format!(" of {of}")).unwrap_or_default();
    vec![
        answer(&printed).unwrap_or_default(),
        format!("What readers take one {}{of} to be ({})", unit.name(), taken.source),
    ]
}
