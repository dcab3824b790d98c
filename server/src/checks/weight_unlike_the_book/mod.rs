//! `weight-unlike-the-book`: a cup of a food weighs something else here than in the rest of the book.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{
        restated::{Compared, compared, is_by_density, plain},
        rewriting, setting,
    },
};
use crate::{
    book::habits::{Measured, volume_and_weight},
    larder::{Food, HOUSE_SOURCE},
    measure::{
        Amount, Comparison, Interval, Quantity, Unit, UnitKind, Verdict, compare, print_amount, print_decimal,
        round_number,
    },
    recipe::{measures::Stated, weights},
};

/// The check.
pub const CHECK: Check =
    Check { code: "weight-unlike-the-book", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// How far a weight may be from the one that the style sheet lays down: no more than rounding makes of it. Common practice, no source.
const OFF_THE_HOUSE: f64 = 0.03;

/// Grams that rounding takes or adds where a kitchen rounds to 5 g, and to 1 g below that: common practice, no source.
fn rounding(grams: f64) -> f64 {
    if grams < 15.0 { 0.5 } else { 2.5 }
}

/// How far it may be from what the other recipes say, who round too.
const OFF_THE_BOOK: f64 = 0.075;

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for compared in compared(view).iter().filter(|compared| is_by_density(&compared.pair)) {
        // What no cup of the food can weigh is a matter of another check.
        if compared.severity(view).is_none() {
            out.extend(finding(view, compared));
        }
    }
}

fn finding(view: &View<'_>, compared: &Compared<'_>) -> Option<Finding> {
    let (recipe, pair) = (view.recipe, &compared.pair);
    let food = weights::food_of(recipe, pair.measure)?;
    let mut said = states(food).filter_map(|form| says(view, food, form)).peekable();
    said.peek()?;
    let (millilitres, grams) = volume_and_weight(recipe, pair, &view.house.measures)?;
    let right = |says: &Says| says.grams * millilitres / view.house.measures.cup.millilitres();
    let is_apart = |says: &Says| (grams - right(says)).abs() > (says.off * right(says)).max(rounding(right(says)));
    // Most weights agree with all that is said of the food, whichever state it is in.
    if !said.any(|says| is_apart(&says)) {
        return None;
    }
    let of = weights::state_of(recipe, pair.measure)?;
    let says = says(view, food, of.1).filter(is_apart)?;
    let right = right(&says);
    let weight = [pair.written, pair.restated].into_iter().find(|stated| stated.kind() == Some(UnitKind::Weight))?;
    let amount = in_unit_of(weight, right)?;
    if weight.amounts()? == [amount] {
        return None;
    }
    let name = name(of);
    let cup = print_decimal(tidy(says.grams, Unit::Gram));
    let volume = [pair.written, pair.restated].into_iter().find(|stated| stated.kind() == Some(UnitKind::Volume))?;
    let who = match says.recipes {
        None => format!("A cup of {name} weighs {cup} g in this house"),
        Some(recipes) => format!("{recipes} recipes of this book take a cup of {name} for {cup} g"),
    };
    let message = format!(
        "{who}, so {} comes to {}, and here it is {}. Whoever cooks from the book by the cup and whoever weighs get two \
         different dishes.",
        plain(recipe, volume),
        print_amount(&amount, &setting::style(view)),
        plain(recipe, weight)
    );
    let found = Finding::new(CHECK.code, CHECK.severity, weight.span, message).certainty(Certainty::Likely);
    if !agrees(view, compared, weight, amount) {
        return Some(found);
    }
    let (edit, written) = rewriting::rewrite(view, weight, &[amount]);
    Some(found.fix(Fix::new(format!("Write {written}"), vec![edit])))
}

/// `sifted all-purpose flour`
fn name((food, form): Measured) -> String {
    form.map_or(food.to_owned(), |form| format!("{form} {food}"))
}

/// The states that a food may be measured in: as it is, or in one of its forms.
fn states(food: &Food) -> impl Iterator<Item = Option<&'static str>> {
    std::iter::once(None).chain(food.forms.iter().map(|form| Some(form.name)))
}

/// What a cup weighs by the style sheet, or by the other recipes.
struct Says {
    grams: f64,
    off: f64,
    recipes: Option<usize>,
}

fn says(view: &View<'_>, food: &Food, form: Option<&'static str>) -> Option<Says> {
    let cup = view.house.measures.cup.millilitres();
    let density = food.density.filter(|density| density.source == HOUSE_SOURCE && form.is_none());
    if let Some(density) = density {
        let grams = Quantity::millilitres(Interval::exactly(cup));
        let Quantity::Volume(volume) = grams else { return None };
        let grams = (density.typical * volume.least).get::<uom::si::mass::gram>();
        return Some(Says { grams, off: OFF_THE_HOUSE, recipes: None });
    }
    let usual = view.habits.usual((food.name, form))?;
    Some(Says { grams: usual.grams, off: OFF_THE_BOOK, recipes: Some(usual.recipes) })
}

/// So many grams in the one unit that a weight is stated in, rounded as a kitchen rounds.
fn in_unit_of(weight: &Stated, grams: f64) -> Option<Amount> {
    let [term] = weight.terms.as_slice() else { return None };
    let unit = term.amount()?.unit?;
    let number = Quantity::grams(Interval::exactly(grams)).number_of(unit, &Default::default())?;
    Some(Amount::new(number.map(|number| tidy(number, unit)), Some(unit)))
}

/// Rounded as a kitchen rounds, but for grams that end in 0 or 5 already: a house that lays down 355 g wants 355 g.
fn tidy(number: f64, unit: Unit) -> f64 {
    let fives = (number / 5.0).round() * 5.0;
    let whole = unit == Unit::Gram && (number - fives).abs() < 0.05;
    if whole { fives } else { round_number(number, unit) }
}

/// Whether the volume and the weight agree once the weight is that.
fn agrees(view: &View<'_>, compared: &Compared<'_>, weight: &Stated, amount: Amount) -> bool {
    let first = std::ptr::eq(weight, compared.pair.written);
    let amount = vec![amount];
    let (written, restated) = if first { (&amount, &compared.restated) } else { (&compared.written, &amount) };
    let range = weights::range_of(view.recipe, compared.pair.measure);
    let comparison = compare(written, restated, &view.house.measures, range.as_ref());
    let right = |comparison: &Comparison| match comparison {
        Comparison::Compared(agreement) => {
            agreement.other.is_none() && agreement.verdict(&view.house.tolerances) == Verdict::Agrees
        }
        _ => false,
    };
    right(&comparison) && !compared.pair.others
}
