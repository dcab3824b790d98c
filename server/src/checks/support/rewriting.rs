//! Writes an amount anew so that it agrees with the one beside it, as the house rounds and as its author writes.

use uom::si::f64::MassDensity;

use super::setting;
use crate::{
    checks::View,
    measure::{
        Amount, Comparison, Measures, Quantity, Style, Tolerances, Unit, UnitKind, Verdict, compare, kitchen_amounts,
        print_amounts, print_interval, round_number,
    },
    recipe::{Recipe, measures::Stated},
    text::Edit,
};

/// What `from` comes to where it is measured as `like` is: in its unit where that comes out close enough, else in those that a
/// kitchen of that system would choose. Nothing where neither agrees with `from`.
pub fn in_measures_of(
    like: &Stated,
    from: &[Amount],
    density: Option<MassDensity>,
    house: &Measures,
) -> Option<Vec<Amount>> {
    let quantity = of_kind(&Amount::total(from, house)?, like.kind()?, density)?;
    let own = match like.terms.as_slice() {
        [term] => term.amount().and_then(|amount| amount.unit),
        _ => None,
    };
    let own = own.and_then(|unit| in_one(&quantity, unit, house));
    let system = like.unit().and_then(Unit::system);
    let kitchen = system.map(|system| kitchen_amounts(&quantity, system, house)).filter(|amounts| !amounts.is_empty());
    own.into_iter().chain(kitchen).find(|amounts| agree(amounts, &quantity, house))
}

fn in_one(quantity: &Quantity, unit: Unit, house: &Measures) -> Option<Vec<Amount>> {
    let number = quantity.number_of(unit, house)?.map(|number| round_number(number, unit));
    // Less than one of a large metric unit is a number of small ones: 800 g, not 0.8 kg.
    if matches!(unit, Unit::Kilogram | Unit::Litre | Unit::Metre) && number.least < 1.0 {
        return None;
    }
    Some(vec![Amount::new(number, Some(unit))])
}

/// Whether a rounding is near enough to be printed for the exact amount.
fn agree(rounded: &[Amount], exact: &Quantity, house: &Measures) -> bool {
    let unit = rounded.first().and_then(|amount| amount.unit);
    let exact = unit.and_then(|unit| exact.number_of(unit, house).map(|number| Amount::new(number, Some(unit))));
    let compared = exact.map(|exact| compare(&[exact], rounded, house, None));
    matches!(compared, Some(Comparison::Compared(agreement)) if agreement.verdict(&Tolerances::default()) == Verdict::Agrees)
}

fn of_kind(quantity: &Quantity, kind: UnitKind, density: Option<MassDensity>) -> Option<Quantity> {
    match (quantity, kind) {
        _ if quantity.kind() == kind => Some(*quantity),
        (Quantity::Volume(volume), UnitKind::Weight) => {
            let density = density?;
            Some(Quantity::Weight(volume.map(|volume| volume * density)))
        }
        (Quantity::Weight(weight), UnitKind::Volume) => {
            let density = density?;
            Some(Quantity::Volume(weight.map(|weight| weight / density)))
        }
        _ => None,
    }
}

/// The edit that puts `amounts` in the place of a stated amount, in the words of its author where the unit stays the same; and
/// what stands there afterwards.
pub fn rewrite(view: &View<'_>, stated: &Stated, amounts: &[Amount]) -> (Edit, String) {
    rewrite_in(view.recipe, stated, amounts, &setting::style(view))
}

/// The same, outside a check.
pub fn rewrite_in(recipe: &Recipe, stated: &Stated, amounts: &[Amount], style: &Style) -> (Edit, String) {
    let text = in_own_words(recipe, stated, amounts, style).unwrap_or_else(|| print_amounts(amounts, style));
    (Edit::replace(stated.span, text.clone()), text)
}

fn in_own_words(recipe: &Recipe, stated: &Stated, amounts: &[Amount], style: &Style) -> Option<String> {
    let ([term], [amount]) = (stated.terms.as_slice(), amounts) else { return None };
    let (unit, span) = (amount.unit?, term.unit?);
    if term.amount()?.unit != Some(unit) {
        return None;
    }
    let number = print_interval(&amount.number, Some(unit), style);
    let before = recipe.text.get(stated.span.start..term.number.start)?;
    let behind = recipe.text.get(term.number.end..stated.span.end)?;
    let word = recipe.at(span);
    let many = amount.number.most.is_none_or(|most| most > 1.0);
    let inflected = match () {
        () if many && word.eq_ignore_ascii_case(unit.name()) => unit.plural(),
        () if !many && word.eq_ignore_ascii_case(unit.plural()) => unit.name(),
        () => word,
    };
    Some(format!("{before}{number}{}", behind.replacen(word, inflected, 1)))
}
