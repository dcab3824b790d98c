//! `pan-size-disagrees`: a pan's size in inches and in centimetres are two different pans.

use uom::si::{
    f64::Length,
    length::{centimeter, inch},
};

use super::{
    Check, Finding, Fix, Severity, View,
    support::restated::{is_pan, sides},
};
use crate::{
    measure::{pans_apart, print_decimal},
    recipe::measures::{Measure, Stated},
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "pan-size-disagrees", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

/// Pans are made in whole inches and restated to the half centimetre: beyond this they are two pans (common practice, no source).
const APART: f64 = 0.06;

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let pans = view.recipe.measures.iter().filter(|measure| is_pan(view.recipe, measure));
    for measure in pans {
        let Some(written) = sides(view.house, &measure.stated).filter(|sides| !sides.is_empty()) else { continue };
        for restated in &measure.restated {
            let Some(other) = sides(view.house, restated) else { continue };
            if pans_apart(&written, &other).is_some_and(|apart| apart.abs() > APART) {
                out.push(finding(view, measure, restated, &written, &other));
            }
        }
    }
}

fn finding(view: &View<'_>, measure: &Measure, restated: &Stated, written: &[Length], other: &[Length]) -> Finding {
    let recipe = view.recipe;
    let (one, two) = (recipe.at(measure.stated.span), recipe.at(restated.span));
    let message = format!(
        "A pan of {one} is not one of {two}. A cook with a ruler in the other unit takes the wrong pan, and the dish comes out too thin or runs over."
    );
    let related =
        Finding::new(CHECK.code, CHECK.severity, restated.span, message).related(measure.stated.span, "the same pan");
    let fixes = [(restated, written, two), (&measure.stated, other, one)];
    fixes.into_iter().fold(related, |found, (place, sides, old)| {
        let text = print(sides, old);
        found.fix(Fix::new(format!("Write {text}"), vec![Edit::replace(place.span, text)]))
    })
}

/// The sides in the unit that `like` is written in, as makers round: inches to the half, small centimetres to the half.
fn print(sides: &[Length], like: &str) -> String {
    let metric = like.contains("cm") || like.contains("centi");
    let rounded = sides.iter().map(|side| {
        let number = if metric { side.get::<centimeter>() } else { side.get::<inch>() };
        let steps = if metric && number >= 15.0 { 1.0 } else { 2.0 };
        (number * steps).round() / steps
    });
    let numbers: Vec<String> = rounded.map(print_decimal).collect();
    let unit = match () {
        () if metric => " cm",
        () if like.contains("-in") => "-inch",
        () if like.contains("inch") => " inches",
        () => " in",
    };
    format!("{}{unit}", numbers.join(" x "))
}
