//! `subrecipe-short`: a recipe asks for more of another than that one makes.

use uom::si::{mass::gram, volume::milliliter};

use super::{Check, Finding, Severity, View, finding::Certainty, support::words};
use crate::{
    book::title_key,
    measure::{Interval, Quantity, Unit},
    recipe::Ingredient,
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "subrecipe-short", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// What is made may fall short by this share before anybody is told: a yield is a round figure, and 950 ml are 4 cups (both common
/// practice, no source).
const ROUNDING: f64 = 0.1;

/// What a recipe asks for of another, over all its lines.
struct Asked {
    key: String,
    title: Span,
    /// Per line, each way that it states its amount, with the unit that it is stated in.
    lines: Vec<Vec<(Quantity, Option<Unit>)>>,
}

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for asked in asked(view) {
        let titled = view.titles.titled(&asked.key);
        let [titled] = titled.as_slice() else { continue };
        let short = titled.summary.makes.iter().find_map(|makes| short(&asked.lines, makes));
        let Some((wants, makes, unit)) = short else { continue };
        let title = &titled.summary.title;
        let (Some(wants), Some(makes)) = (words::quantity(view, &wants, unit), words::quantity(view, &makes, unit))
        else {
            continue;
        };
        let message = format!(
            "This takes {wants} of {title}, and that recipe makes {makes}: the cook runs out halfway. Ask for less, or say how \
             many batches to make."
        );
        out.push(Finding::new(CHECK.code, CHECK.severity, asked.title, message).certainty(Certainty::Likely));
    }
}

/// What the lines of the list ask for; a recipe of which any line asks for a share, or for no amount, is left out.
fn asked(view: &View<'_>) -> Vec<Asked> {
    let recipe = view.recipe;
    let mut out: Vec<Asked> = Vec::new();
    for line in &recipe.ingredients {
        let Some(reference) = line.reference.and_then(|index| recipe.references.get(index)) else { continue };
        let key = title_key(recipe.at(reference.title));
        let amounts = amounts(view, line);
        match out.iter_mut().find(|asked| asked.key == key) {
            Some(asked) => asked.lines.push(amounts),
            None => out.push(Asked { key, title: reference.title, lines: vec![amounts] }),
        }
    }
    out
}

fn amounts(view: &View<'_>, line: &Ingredient) -> Vec<(Quantity, Option<Unit>)> {
    let measure =
        line.amount.and_then(|index| view.recipe.measures.get(index)).filter(|measure| measure.each.is_empty());
    let statements = measure.into_iter().flat_map(|measure| measure.statements());
    let whole = statements.filter(|stated| !stated.each);
    whole.filter_map(|stated| Some((stated.quantity(&view.house.measures)?, stated.unit()))).collect()
}

/// What is asked for and what is made, and the unit to speak of both, where the one is more than the other by more than rounding.
fn short(lines: &[Vec<(Quantity, Option<Unit>)>], makes: &Quantity) -> Option<(Quantity, Quantity, Option<Unit>)> {
    let made = number(makes)?;
    let (mut wanted, mut unit) = (0.0, None);
    for line in lines {
        let (same, own) = line.iter().find(|(quantity, _)| same_measure(quantity, makes))?;
        wanted += number(same)?.least;
        unit = unit.or(*own);
    }
    let most = made.most?;
    (wanted > most * (1.0 + ROUNDING)).then(|| (with_number(makes, wanted), *makes, unit))
}

/// Volumes with volumes, weights with weights, pieces with pieces: a batch or a jar is no piece.
fn same_measure(one: &Quantity, other: &Quantity) -> bool {
    match (one, other) {
        (Quantity::Volume(_), Quantity::Volume(_)) | (Quantity::Weight(_), Quantity::Weight(_)) => true,
        (Quantity::Count { unit: one, .. }, Quantity::Count { unit: other, .. }) => one.is_none() && other.is_none(),
        _ => false,
    }
}

/// In millilitres, in grams, in pieces.
fn number(quantity: &Quantity) -> Option<Interval> {
    match quantity {
        Quantity::Volume(volume) => Some(volume.map(|volume| volume.get::<milliliter>())),
        Quantity::Weight(weight) => Some(weight.map(|weight| weight.get::<gram>())),
        Quantity::Count { count, unit: None } => Some(*count),
        _ => None,
    }
}

/// The same measure with so many millilitres, grams or pieces.
fn with_number(like: &Quantity, number: f64) -> Quantity {
    let number = Interval::exactly(number);
    match like {
        Quantity::Volume(_) => Quantity::millilitres(number),
        Quantity::Weight(_) => Quantity::grams(number),
        Quantity::Count { unit, .. } => Quantity::Count { count: number, unit: *unit },
        other => *other,
    }
}
