//! `salt-kind-unsaid`: spoons of salt, and nothing says of which crystal.

use uom::si::{f64::MassDensity, mass::gram, volume::milliliter};

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{setting, words},
};
use crate::{
    larder::Larder,
    measure::{Interval, Quantity, Unit, UnitKind, print_interval, round_number},
    recipe::{Ingredient, Name, Recipe},
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "salt-kind-unsaid", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// From this many millilitres on: a tablespoon, by any of the spoons but the largest.
const A_TABLESPOON: f64 = 14.7;

/// Words by which the salt of a list says how coarse it is. (That of a can or a curing mix has a food of its own.)
const SAID: &[&str] =
    &["fine", "finely", "table", "coarse", "coarsely", "ground", "grain", "flaky", "crystal", "rolled", "hollow"];

/// Words of a step in which salt goes into water that is poured away.
const POURED_AWAY: &[&str] = &["boil", "boiling", "blanch", "parboil", "pasta", "drain", "rinse"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, line) in recipe.ingredients.iter().enumerate() {
        let measures = || line.measures.iter().filter_map(|measure| recipe.measures.get(*measure));
        let weighed =
            measures().flat_map(|measure| measure.statements()).any(|stated| stated.kind() == Some(UnitKind::Weight));
        let Some((name, densities)) = salt(recipe, line).filter(|_| !weighed) else { continue };
        let Some(measure) = line.amount.and_then(|amount| recipe.measures.get(amount)) else { continue };
        let Some(Quantity::Volume(volume)) = measure.stated.quantity(&view.house.measures) else { continue };
        if volume.least.get::<milliliter>() < A_TABLESPOON || is_poured_away(recipe, index) {
            continue;
        }
        let grams = |density: MassDensity| round_number((density * volume.least).get::<gram>(), Unit::Gram);
        let range = Interval::between(grams(densities.least), densities.most.map_or(f64::INFINITY, grams));
        let message = format!(
            "{} of {} weighs {} g, by how coarse its crystals are, and nothing says which are meant. A cook with the other box \
             in the cupboard makes the dish half as salty, or twice. Say which salt it is, or give its weight.",
            words::plain(recipe.at(measure.stated.span)),
            words::ingredient(recipe, line),
            print_interval(&range, Some(Unit::Gram), &setting::style(view))
        );
        let found = Finding::new(CHECK.code, CHECK.severity, name.span, message).certainty(Certainty::Likely);
        out.push(fixes(recipe, name).into_iter().fold(found, Finding::fix));
    }
}

/// The one salt of a line that does not say how coarse it is, with what it may weigh: from the lightest crystals to the heaviest
/// that go by its name.
fn salt<'r>(recipe: &Recipe, line: &'r Ingredient) -> Option<(&'r Name, Interval<MassDensity>)> {
    let names: Vec<&Name> = line.names.iter().filter(|name| !name.aside).collect();
    let [name] = names.as_slice() else { return None };
    let said = name.all_words.iter().any(|word| SAID.contains(&&**word));
    let food = name.food.filter(|_| !said)?;
    let larder: &Larder = recipe.larder;
    let lightest = |food: &str| larder.food(food)?.density.map(|density| density.low);
    let heaviest = |food: &str| larder.food(food)?.density.map(|density| density.high);
    match food.name {
        // "Cooking salt" and "kitchen salt" are fine by name; bare "salt" is whatever stands in the cupboard.
        "salt" if name.all_words.len() == 1 => Some(Interval::between(lightest("kosher salt")?, heaviest("salt")?)),
        "sea salt" | "kosher salt" => Some(Interval::between(lightest(food.name)?, heaviest(food.name)?)),
        _ => None,
    }
    .map(|range| (*name, range))
}

/// Whether the salt goes into water that the dish does not keep: there a spoon more or less does no harm.
fn is_poured_away(recipe: &Recipe, index: usize) -> bool {
    let steps = recipe.flow.uses(index).into_iter().filter_map(|found| recipe.steps.get(found.step));
    let mut tokens = steps.map(|step| &step.tokens);
    tokens.any(|tokens| {
        tokens.iter().any(|token| token.word("water")) && tokens.iter().any(|token| token.one_of(POURED_AWAY))
    })
}

/// The words that would say it. Which of two kosher salts is meant only its weight can tell.
fn fixes(recipe: &Recipe, name: &Name) -> Vec<Fix> {
    let written = words::plain(recipe.at(name.span)).to_lowercase();
    if written.contains("kosher") {
        return Vec::new();
    }
    ["fine", "coarse"]
        .map(|kind| format!("{kind} {written}"))
        .map(|text| Fix::new(format!("Write “{text}”"), vec![Edit::replace(name.span, text)]))
        .into()
}
