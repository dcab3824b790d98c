//! `vessel-nearly-empty`: what goes into the vessels hardly covers their bottoms.

use super::{Check, Finding, Severity, View, finding::Certainty, support::vessels_filled as filled};
use crate::recipe::{
    Recipe,
    batch::Filling,
    vessels::{Kind, Vessel},
};

/// The check.
pub const CHECK: Check =
    Check { code: "vessel-nearly-empty", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// A filling below this share of the brim bakes dry, or comes out as a sheet (pans are meant to be filled half to two thirds full:
/// common practice, no source).
const NEARLY_EMPTY: f64 = 0.25;

/// Words that tell of air, or of more to come: the volume is then not known. Folded.
const GROWS: &[&str] = &[
    "whip", "whipped", "peak", "foam", "foamy", "frothy", "fluffy", "pale", "volume", "double", "doubled", "proof",
    "prove", "rise", "risen", "meringue", "souffle", "ribbon",
];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.steps.is_empty() || !recipe.damage.is_empty() {
        return;
    }
    let vessels = view.vessels();
    if vessels.iter().all(|vessel| vessel.one.is_none()) {
        return;
    }
    let found = view.followed().fillings.iter().filter_map(|filling| finding(view, vessels, filling));
    out.extend(found.filter(|_| !filled::method_says(recipe, GROWS)));
}

fn finding(view: &View<'_>, vessels: &[Vessel], filling: &Filling) -> Option<Finding> {
    let (recipe, measures) = (view.recipe, &view.house.measures);
    let vessel = vessels.get(filling.vessel)?;
    // Batters and custards are meant to fill their vessel; bars, gratins and what is laid in a dish need not.
    let meant_to_fill = match vessel.kind {
        Kind::Loaf | Kind::Tube | Kind::Muffin => matches!(&*filling.called, "batter" | "mixture" | "dough"),
        Kind::Cake | Kind::Springform => &*filling.called == "batter",
        Kind::Ramekin => matches!(&*filling.called, "custard" | "batter" | "mousse" | "pudding"),
        _ => false,
    };
    if !meant_to_fill {
        return None;
    }
    let (most, holds) = (view.everything().volume?, vessel.holds()?);
    if most >= holds.least * NEARLY_EMPTY || is_thin(recipe) {
        return None;
    }
    let many = vessel.count.is_some_and(|count| count > 1.0);
    let message = format!(
        "All of it comes to {} at most, and {} {} at least {}: less than a quarter is filled, and what is baked so thin dries out before \
         it browns. Name {}, or make more.",
        filled::volume(most, measures),
        filled::name(recipe, vessel),
        if many { "hold" } else { "holds" },
        filled::volume(holds.least, measures),
        if many { "fewer of them, or smaller ones" } else { "a smaller one" },
    );
    let found = Finding::new(CHECK.code, CHECK.severity, vessel.span, message).certainty(Certainty::Likely);
    Some(if filling.span == vessel.span { found } else { found.related(filling.span, "filled here") })
}

/// Whether the dish is one that is baked thin: bars, brownies, flatbreads, crêpes.
fn is_thin(recipe: &Recipe) -> bool {
    const THIN: &[&str] = &[
        "bar",
        "brownie",
        "blondie",
        "flatbread",
        "roll",
        "roulade",
        "slice",
        "tray",
        "sheet",
        "thin",
        "pancake",
        "crepe",
        "fudge",
        "wafer",
    ];
    let title = recipe.name().to_lowercase();
    title.split(|c: char| !c.is_alphabetic()).any(|word| THIN.contains(&word.trim_end_matches('s')))
}
