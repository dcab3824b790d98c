//! The vessels of a recipe, as its equipment and its steps name them: what kind, how many, and what each holds to the brim.

mod capacity;
mod nouns;
mod read;
mod sizes;

use smol_str::SmolStr;
use uom::si::f64::Volume;

use super::{Recipe, measures::Place};
use crate::{
    measure::{Interval, Measures},
    text::Span,
};

/// What kind of vessel it is, by what its measurements mean.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A cake pan or tin, round, square or oblong.
    Cake,
    /// One whose side comes off.
    Springform,
    /// For a loaf.
    Loaf,
    /// With a tube in its middle, plain or fluted.
    Tube,
    /// A pie dish or plate.
    Pie,
    /// A tart or quiche tin.
    Tart,
    /// A muffin or bun tin: what it holds is that of one cup, and its number that of the cups.
    Muffin,
    /// Small ones for one portion each: ramekins, custard cups, pots.
    Ramekin,
    /// A baking dish, a casserole, a terrine, a basin.
    Dish,
    /// A skillet or frying pan.
    Skillet,
    /// A saucepan, a pot, a Dutch oven.
    Pot,
    /// A mixing bowl.
    Bowl,
    /// A flat sheet or tray.
    Sheet,
    /// A jar or bottle.
    Jar,
}

/// A vessel as it is named once.
#[derive(Debug, Clone, PartialEq)]
pub struct Vessel {
    /// From its size or its number to the noun that names it.
    pub span: Span,
    /// The equipment line or the step that names it.
    pub place: Place,
    /// What kind it is.
    pub kind: Kind,
    /// The folded nouns that it can be called again by: `springform`, `pan`.
    pub nouns: Vec<SmolStr>,
    /// How many there are, where that is said.
    pub count: Option<f64>,
    /// Where that number stands, where it is written.
    pub number: Option<Span>,
    /// Whether it is named in the plural.
    pub plural: bool,
    /// What one of them holds to the brim, where its size is known.
    pub one: Option<Interval<Volume>>,
    /// Whether it only stands for one that has been named before: "the pan".
    pub again: bool,
}

impl Vessel {
    /// What all of them hold together to the brim; nothing where their size or their number is not known.
    pub fn holds(&self) -> Option<Interval<Volume>> {
        let count = self.count.or((!self.plural).then_some(1.0))?;
        Some(self.one?.times(count))
    }
}

/// Every vessel that the recipe names, in the order of the text: first its equipment, then its steps.
pub fn vessels(recipe: &Recipe, measures: &Measures) -> Vec<Vessel> {
    let mut out = Vec::new();
    for (index, line) in recipe.equipment.iter().enumerate() {
        out.extend(read::vessels(recipe, measures, line.span, Place::Equipment(index)));
    }
    for (index, step) in recipe.steps.iter().enumerate() {
        out.extend(read::vessels(recipe, measures, step.body, Place::Step(index)));
    }
    out
}

/// Which vessel the one of this index is: itself where it says its size, else the one named before that it stands for. Nothing
/// where that is not clear.
pub fn meant(vessels: &[Vessel], index: usize) -> Option<usize> {
    let own = vessels.get(index)?;
    if own.one.is_some() {
        return Some(index);
    }
    let fits = |other: &Vessel| {
        other.one.is_some()
            && (own.kind == other.kind
                || own.nouns.iter().any(|noun| other.nouns.iter().any(|theirs| same(noun, theirs))))
    };
    let before: Vec<usize> =
        vessels.iter().enumerate().take(index).filter(|(_, other)| fits(other)).map(|(index, _)| index).collect();
    let last = *before.last()?;
    let size = |index: &usize| vessels.get(*index).map(|vessel| (vessel.one, vessel.count));
    // Two of different sizes: nobody can say which.
    let one_only = before.iter().all(|other| size(other).map(|(one, _)| one) == size(&last).map(|(one, _)| one));
    let same_step = vessels.get(last).is_some_and(|other| other.place == own.place);
    (one_only || same_step).then_some(last)
}

/// Nouns that stand for each other: what is a pan in America is a tin in Britain.
fn same(one: &str, other: &str) -> bool {
    const ALIKE: &[&[&str]] = &[&["pan", "tin"], &["mold", "mould"], &["dish", "casserole"]];
    one == other || ALIKE.iter().any(|alike| alike.contains(&one) && alike.contains(&other))
}
