//! `fraction-style`: fractions are set in several ways, or in another than the house's.

use super::{
    Check, Finding, Severity, View,
    support::setting::{Odd, and_others, figures, finding, may_have_fraction, usual_way},
};
use crate::{
    measure::{FractionStyle, Unit, print_number},
    recipe::{Recipe, measures::Term},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "fraction-style", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let terms = view.terms().iter().map(|(_, term)| *term).filter(|term| may_have_fraction(recipe.at(term.number)));
    let set: Vec<Fraction> = terms.flat_map(|term| fractions(recipe, term)).collect();
    let house = view.house.setting.fractions;
    let Some(way) = house.or_else(|| usual_way(set.iter().map(|fraction| fraction.way))) else { return };
    let odd: Vec<Odd> = set.iter().filter_map(|fraction| fraction.odd(recipe, way)).collect();
    let Some(first) = odd.first() else { return };
    let written = recipe.at(first.span);
    let message = match house {
        Some(_) => format!("The house sets this as {}, and here it is {written}.", first.text),
        None => format!(
            "Most fractions of this recipe are set as {}, and this one as {written}. The eye takes them for two kinds of \
             number: keep to one.",
            example(&set, recipe, way)
        ),
    };
    let title = format!("Write {}{}", first.text, and_others(&odd));
    out.extend(finding(&CHECK, odd, message, title));
}

/// A number with a fraction.
struct Fraction {
    span: Span,
    value: f64,
    way: FractionStyle,
    unit: Option<Unit>,
}

/// The fractions of a number or a range. Decimals are of weights and metric measures by right: only those count that a measuring cup
/// or a spoon has as a fraction.
fn fractions(recipe: &Recipe, term: &Term) -> Vec<Fraction> {
    let unit = term.amount().and_then(|amount| amount.unit);
    let all = figures(recipe.at(term.number)).into_iter().filter_map(|figure| {
        let (span, value) = (figure.span.shifted(term.number.start), figure.value);
        Some(Fraction { span, value, way: figure.way?, unit })
    });
    all.filter(|fraction| fraction.way != FractionStyle::Decimal || by_cup(unit) && fraction.is_in_the_set()).collect()
}

/// Whether it is measured in what a set of cups and spoons has.
fn by_cup(unit: Option<Unit>) -> bool {
    matches!(unit, Some(Unit::Cup | Unit::Tablespoon | Unit::Teaspoon))
}

impl Fraction {
    fn is_in_the_set(&self) -> bool {
        print_number(self.value, FractionStyle::Slash).contains('/')
    }

    /// The same set in that way, where that is another and says exactly as much.
    fn odd(&self, recipe: &Recipe, way: FractionStyle) -> Option<Odd> {
        if self.way == way || way == FractionStyle::Decimal && !by_cup(self.unit) {
            return None;
        }
        let text = print_number(self.value, way);
        let [again] = figures(&text).try_into().ok()?;
        let exact = (again.value - self.value).abs() < 1e-9 && again.way == Some(way);
        (exact && text != recipe.at(self.span)).then_some(Odd { span: self.span, text })
    }
}

/// The first fraction that is set in that way.
fn example<'r>(set: &[Fraction], recipe: &'r Recipe, way: FractionStyle) -> &'r str {
    set.iter().find(|fraction| fraction.way == way).map_or("", |fraction| recipe.at(fraction.span))
}
