//! `pan-size-disagrees`: a pan's size in inches and in centimetres are two different pans.

use uom::si::{f64::Length, length::centimeter};

use super::{
    Check, Finding, Fix, Severity, View,
    support::{restated::plain, rewriting, vessels},
};
use crate::{
    measure::{Amount, Interval, Unit, print_decimal, round_number},
    recipe::{
        measures::{Stated, Term},
        pairs::Pair,
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "pan-size-disagrees", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

/// How far a side or a diameter may be off: an eighth more or less of batter, and a fifth, which is the next pan that is made
/// (common practice, no source).
const MISLEADING: f64 = 0.06;
const WRONG: f64 = 0.095;

/// A depth may be off by this much: it is rounded coarsely, and seldom filled (common practice, no source).
const DEPTH: f64 = 0.25;

/// Up to so many centimetres a measurement is a depth.
const DEEPEST: f64 = 8.5;

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let pans = view.pairs().iter().filter(|pair| vessels::is_size_of_one(view.recipe, pair));
    out.extend(pans.filter_map(|pair| finding(view, pair)));
}

fn finding(view: &View<'_>, pair: &Pair<'_>) -> Option<Finding> {
    let (written, restated) = (pair.written.lengths()?, pair.restated.lengths()?);
    let severity = how_far_apart(&written, &restated)?;
    let (one, other) = (plain(view.recipe, pair.written), plain(view.recipe, pair.restated));
    let holds = holds(&written, &restated).map(|share| format!("; it holds {share}")).unwrap_or_default();
    let article =
        if one.starts_with(['8', '⅛']) || one.starts_with("11") || one.starts_with("18") { "An" } else { "A" };
    let message = format!(
        "{article} {one} pan is not a {other} pan{holds}. Whoever measures in the other unit takes the wrong one, and the dish runs over \
         or comes out thin."
    );
    let found =
        Finding::new(CHECK.code, severity, pair.restated.span, message).related(pair.written.span, "the same pan");
    let fixes = [(pair.restated, &written), (pair.written, &restated)];
    let fixes = fixes.into_iter().filter(|(stated, _)| !(std::ptr::eq(*stated, pair.written) && pair.others));
    Some(fixes.filter_map(|(stated, sides)| fix(view, stated, sides)).fold(found, Finding::fix))
}

/// How badly two pans differ, side by side, the longest with the longest; nothing where they do not, or are not as many.
fn how_far_apart(written: &[Length], restated: &[Length]) -> Option<Severity> {
    let sorted = |sides: &[Length]| {
        let mut sides: Vec<f64> = sides.iter().map(|side| side.get::<centimeter>()).collect();
        sides.sort_by(f64::total_cmp);
        sides
    };
    if written.len() != restated.len() {
        return None;
    }
    let pairs = sorted(written).into_iter().zip(sorted(restated)).filter(|(mine, _)| *mine > 0.0);
    let severities = pairs.filter_map(|(mine, theirs)| {
        let apart = ((theirs - mine) / mine).abs();
        match mine.max(theirs) <= DEEPEST {
            true => (apart > DEPTH).then_some(Severity::Warning),
            false if apart > WRONG => Some(Severity::Error),
            false => (apart > MISLEADING).then_some(Severity::Warning),
        }
    });
    severities.min()
}

/// `23 % less`: what the second pan holds, beside the first, at one depth.
fn holds(written: &[Length], restated: &[Length]) -> Option<String> {
    let area = |sides: &[Length]| match sides {
        [side] => Some(side.value * side.value),
        [long, wide, ..] => Some(long.value * wide.value),
        [] => None,
    };
    let share = (area(restated)? / area(written)? - 1.0) * 100.0;
    let way = if share > 0.0 { "more" } else { "less" };
    (share.abs() >= 5.0).then(|| format!("{} % {way}", print_decimal(share.abs().round())))
}

/// Writes the sides of the other pan in the place of these, in the unit that these have.
fn fix(view: &View<'_>, stated: &Stated, sides: &[Length]) -> Option<Fix> {
    let unit = stated.terms.iter().filter_map(Term::amount).find_map(|amount| amount.unit)?;
    let amounts: Vec<Amount> =
        sides.iter().map(|side| Amount::new(Interval::exactly(in_unit(*side, unit)), Some(unit))).collect();
    let (edit, text) = match amounts.as_slice() {
        [_] => rewriting::rewrite(view, stated, &amounts),
        _ => {
            let edit = each_number(view, stated, &amounts)?;
            let text = edit.text.clone();
            (edit, text)
        }
    };
    Some(Fix::new(format!("Write {text}"), vec![edit]))
}

/// The length in a unit, as makers round it: inches to the half, centimetres to the whole, small ones to the half.
fn in_unit(side: Length, unit: Unit) -> f64 {
    let per = Amount::new(Interval::exactly(1.0), Some(unit)).quantity(&Default::default());
    let number = match per {
        crate::measure::Quantity::Length(one) => side.value / one.least.value,
        _ => return side.value,
    };
    round_number(number, unit)
}

/// The same text with other numbers in it: `20 x 33 cm` as `23 x 33 cm`.
fn each_number(view: &View<'_>, stated: &Stated, amounts: &[Amount]) -> Option<Edit> {
    let text = &view.recipe.text;
    let mut out = String::new();
    let mut from = stated.span.start;
    for (term, amount) in stated.terms.iter().zip(amounts) {
        out.push_str(text.get(from..term.number.start)?);
        out.push_str(&crate::measure::print_interval(&amount.number, amount.unit, &Default::default()));
        from = term.number.end;
    }
    out.push_str(text.get(from..stated.span.end)?);
    Some(Edit::replace(stated.span, out))
}
