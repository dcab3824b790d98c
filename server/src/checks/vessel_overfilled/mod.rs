//! `vessel-overfilled`: more goes into the vessels than they hold.

use uom::si::{
    f64::{MassDensity, Volume},
    mass_density::gram_per_cubic_centimeter,
};

use super::{Check, Finding, Fix, Severity, View, finding::Certainty, support::vessels_filled as filled};
use crate::{
    larder::Food,
    recipe::{
        Recipe,
        batch::{self, Filling},
        vessels::{Kind, Vessel},
        yields::{servings, stated},
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "vessel-overfilled", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// A batter with a raising agent rises by a third at the least: a pan that it fills to this share runs over (bakers fill pans half
/// to two thirds full: common practice, no source).
const RAISED: f64 = 0.85;

/// A batter with a raising agent weighs this much per millilitre at the most, however little air is in it: quick breads 1.0,
/// brownies 1.1 (common practice, no source).
const BATTER: f64 = 1.1;

/// Fruit is heaped into a pie up to half as high again as its rim (common practice, no source).
const HEAPED: f64 = 1.5;

/// Fat for frying foams up when food goes in, and burns where it runs over: a pot is filled half with it at the most (common
/// practice, no source).
const FRYING: f64 = 0.5;

/// Words that tell that not all goes in at once, or that what is left over is meant to be. Folded.
const IN_TURNS: &[&str] =
    &["batch", "leftover", "excess", "handful", "overflow", "collar", "mound", "heap", "repeat", "extra", "overfill"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.steps.is_empty() || !recipe.damage.is_empty() {
        return;
    }
    let vessels = view.vessels();
    if vessels.iter().all(|vessel| vessel.one.is_none()) {
        return;
    }
    out.extend(view.followed().fillings.iter().filter_map(|filling| finding(view, vessels, filling)));
}

fn finding(view: &View<'_>, vessels: &[Vessel], filling: &Filling) -> Option<Finding> {
    let vessel = vessels.get(filling.vessel)?;
    let (recipe, measures) = (view.recipe, &view.house.measures);
    // What does not fit a jar is thrown away or eaten, and a sheet has no brim.
    let unmeasured = matches!(vessel.kind, Kind::Jar | Kind::Sheet);
    if unmeasured || in_turns(recipe, filling) || vessel.kind == Kind::Muffin && makes_more(view, vessel) {
        return None;
    }
    let holds = vessel.holds()?.most?;
    let content = Content::of(recipe, filling);
    let goes_in = content.volume(filling);
    if goes_in <= holds * content.limit(vessel.kind) {
        return None;
    }
    let what = if NAMELESS.contains(&&*filling.called) { String::new() } else { format!(" of {}", filling.called) };
    let (name, many) = (filled::name(recipe, vessel), vessel.count.is_some_and(|count| count > 1.0));
    let why = match content {
        Content::Fat => "and no pot is filled more than half with hot fat: it foams up, runs over and burns",
        Content::Raised if goes_in <= holds => "and it has yet to rise: it will run over in the oven",
        _ => "to the brim: the rest has nowhere to go",
    };
    let message = format!(
        "At least {}{what} goes into {name}, which {} {} at most, {why}. Name {}, or make less.",
        filled::volume(goes_in, measures),
        if many { "hold" } else { "holds" },
        filled::volume(holds, measures),
        if many { "more of them, or larger ones" } else { "a larger one" },
    );
    let found = Finding::new(CHECK.code, CHECK.severity, vessel.span, message).certainty(Certainty::Likely);
    let found = if filling.span == vessel.span { found } else { found.related(filling.span, "filled here") };
    Some(as_many_as_are_served(view, vessel, goes_in).into_iter().fold(found, Finding::fix))
}

/// What an order to fill a vessel calls its filling where it does not say what it is; folded.
const NAMELESS: &[&str] = &["", "it", "them", "all", "everything", "content", "mixture", "mix"];

/// What the filling is, as far as that bears on how full a vessel may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Content {
    /// A batter or dough with a raising agent.
    Raised,
    /// Fat to fry in.
    Fat,
    /// Fruit that is heaped.
    Fruit,
    /// Anything else.
    Other,
}

impl Content {
    fn of(recipe: &Recipe, filling: &Filling) -> Content {
        let lines = || filling.batch.contents.iter().filter_map(|content| recipe.ingredient(content.ingredient));
        let foods = || lines().flat_map(|line| &line.names).filter(|name| !name.aside).map(|name| name.food);
        let holds = |kinds: &[&str]| foods().flatten().any(|food| is(food, kinds));
        match () {
            () if holds(&["flour"]) && holds(&["leavening", "yeast"]) => Content::Raised,
            () if is_for_frying(recipe, filling) => Content::Fat,
            () if holds(&["fruit"]) && !holds(&["milk", "cream", "egg"]) => Content::Fruit,
            () => Content::Other,
        }
    }

    /// What it comes to at least.
    fn volume(self, filling: &Filling) -> Volume {
        let airless = filling.batch.volume();
        let batter = filling.batch.weight() / MassDensity::new::<gram_per_cubic_centimeter>(BATTER);
        if self == Content::Raised && batter > airless { batter } else { airless }
    }

    /// The share of the brim that it may come to.
    fn limit(self, kind: Kind) -> f64 {
        match (kind, self) {
            (Kind::Pie | Kind::Tart | Kind::Dish, Content::Fruit) => HEAPED,
            (Kind::Pot | Kind::Skillet, Content::Fat) => FRYING,
            // Muffins are filled to the top where they are to come out domed.
            (Kind::Pot | Kind::Skillet | Kind::Bowl | Kind::Muffin, _) => 1.0,
            (_, Content::Raised) => RAISED,
            _ => 1.0,
        }
    }
}

/// Whether most of the filling is fat, and something is fried in it.
fn is_for_frying(recipe: &Recipe, filling: &Filling) -> bool {
    let fat = |content: &&batch::Content| {
        let line = recipe.ingredient(content.ingredient);
        line.and_then(batch::weigh::name).and_then(|name| name.food).is_some_and(|food| is(food, &["oil", "fat"]))
    };
    let fats = filling.batch.contents.iter().filter(fat).map(|content| content.volume);
    let fat = fats.fold(Volume::default(), |sum, volume| sum + volume);
    fat > filling.batch.volume() * 0.5 && filled::method_says(recipe, &["fry", "frying", "deep-fry"])
}

fn is(food: &Food, kinds: &[&str]) -> bool {
    kinds.iter().any(|kind| food.is(kind))
}

/// Whether more come out than the tin has cups: then it is filled more than once.
fn makes_more(view: &View<'_>, vessel: &Vessel) -> bool {
    let cups = vessel.count.unwrap_or_default();
    stated(view.recipe, &view.house.measures).iter().any(|portions| portions.count.least > cups)
}

/// Whether the step that fills the vessel, or one behind it, says that not all goes in at once.
fn in_turns(recipe: &Recipe, filling: &Filling) -> bool {
    let steps = recipe.steps.iter().skip(filling.step);
    steps.flat_map(|step| &step.tokens).any(|token| token.one_of(IN_TURNS))
}

/// `Serves: 6`, and four pots: six would do.
fn as_many_as_are_served(view: &View<'_>, vessel: &Vessel, goes_in: Volume) -> Option<Fix> {
    let (place, one) = (vessel.number.filter(|_| vessel.kind == Kind::Ramekin)?, vessel.one?.middle());
    let yields = stated(view.recipe, &view.house.measures).into_iter().map(|portions| portions.count);
    let counts = yields.chain(servings(view.recipe).map(|(count, _)| count));
    let mut fitting = counts.filter(|count| count.is_exact() && goes_in <= one * count.least);
    let number = filled::number_like(view.recipe.at(place), fitting.next()?.least);
    Some(Fix::new(format!("Write {number}"), vec![Edit::replace(place, number)]))
}
