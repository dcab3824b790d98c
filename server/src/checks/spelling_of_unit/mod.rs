//! `spelling-of-unit`: a unit is written in several ways, or in another than the house's.

use super::{
    Check, Finding, Severity, View,
    support::setting::{Odd, and_others, finding, usual_way},
};
use crate::{
    book::Setting,
    measure::{System, Unit, UnitKind, UnitStyle},
    recipe::{
        Recipe,
        measures::{Place, Term},
    },
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "spelling-of-unit", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let setting = &view.house.setting;
    let asked = setting.units.is_some() || !setting.spellings.is_empty();
    // A list is set tight and prose is spoken: only within the list are two spellings two.
    let terms = view.terms().iter().filter(|(place, term)| asked || is_amount(recipe, *place, term));
    let written: Vec<Written> = terms.filter_map(|(_, term)| Written::read(recipe, term)).collect();
    let mut odd: Vec<Odd> = Vec::new();
    if asked {
        odd.extend(written.iter().filter_map(|one| one.as_the_house(recipe, setting)));
    } else {
        let mut units: Vec<Unit> = written.iter().map(|one| one.unit).collect();
        units.sort_unstable();
        units.dedup();
        for unit in units {
            let own = || written.iter().filter(|one| one.unit == unit);
            if let Some(way) = usual_way(own().map(|one| one.way)) {
                let others = own().filter(|one| one.way != way).map(|one| one.spelt(way));
                // "Cup" is its short form too, where others are written "c".
                odd.extend(others.filter(|odd| odd.text != recipe.at(odd.span)));
            }
        }
        odd.sort_by_key(|odd| odd.span);
    }
    let Some(first) = odd.first() else { return };
    let (here, right) = (recipe.at(first.span).trim_start_matches(HYPHENS), first.text.trim_start_matches(HYPHENS));
    let message = match asked {
        true => format!("The house writes “{right}”, and here it is “{here}”."),
        false => format!(
            "The list has “{right}” in other lines and “{here}” in this one. A reader who learns a recipe's abbreviations from \
             its first line should find no others further down."
        ),
    };
    let title = format!("Write “{right}”{}", and_others(&odd));
    out.extend(finding(&CHECK, odd, message, title));
}

const HYPHENS: &[char] = &['-', '‐', '‑'];

/// A unit of volume or weight as it stands. Inches, degrees and times are written by rules of their own.
struct Written {
    unit: Unit,
    way: UnitStyle,
    /// The word, with the stop of an abbreviation.
    span: Span,
    /// Whether a hyphen ties it to its number: `14-oz`.
    tied: bool,
    /// Whether it stands behind one or less.
    single: bool,
}

impl Written {
    fn read(recipe: &Recipe, term: &Term) -> Option<Written> {
        let (amount, span) = (term.amount()?, term.unit?);
        let unit = amount.unit.filter(|unit| matches!(unit.kind(), UnitKind::Volume | UnitKind::Weight))?;
        let hyphens = recipe.at(span).len() - recipe.at(span).trim_start_matches(HYPHENS).len();
        let word = Span::new(span.start + hyphens, span.end);
        // Which spoon a lone letter means is a question of another check.
        let long = is_long(unit, recipe.at(word));
        if recipe.at(word).trim().chars().count() < 2 && !matches!(unit, Unit::Gram | Unit::Litre | Unit::Cup) {
            return None;
        }
        Some(Written {
            unit,
            way: if long { UnitStyle::Long } else { UnitStyle::Short },
            span: if long { word } else { with_stop(recipe, word) },
            tied: hyphens > 0,
            single: hyphens > 0 || amount.number.most.is_some_and(|most| most <= 1.0),
        })
    }

    /// The same spelt in that way.
    fn spelt(&self, way: UnitStyle) -> Odd {
        let word = match way {
            UnitStyle::Long if self.single => self.unit.name(),
            UnitStyle::Long => self.unit.plural(),
            UnitStyle::Short => self.unit.symbol_for(if self.single { 1.0 } else { 2.0 }),
        };
        Odd { span: self.span, text: word.to_owned() }
    }

    /// As the house spells it, where it is spelt otherwise.
    fn as_the_house(&self, recipe: &Recipe, setting: &Setting) -> Option<Odd> {
        let text = match (setting.spellings.get(&self.unit), setting.units) {
            (Some((one, more)), _) => if self.single { one } else { more }.clone(),
            // Nobody spells grams out between parentheses.
            (None, Some(UnitStyle::Long)) if self.unit.system() == Some(System::Metric) => return None,
            // "Cup" is both its name and all there is.
            (None, Some(UnitStyle::Short)) if self.unit.symbol() == self.unit.name() => return None,
            (None, Some(way)) if way != self.way => self.spelt(way).text,
            _ => return None,
        };
        // Two words hang on no hyphen: `8-fl oz` would be read as 8 and something else.
        let sound = !(self.tied && text.contains(' ')) && text != recipe.at(self.span);
        sound.then_some(Odd { span: self.span, text })
    }
}

/// Whether it is the amount of its line, and not one in a remark.
fn is_amount(recipe: &Recipe, place: Place, term: &Term) -> bool {
    let Place::Ingredient(line) = place else { return false };
    let amount = recipe.ingredient(line).and_then(|line| recipe.measures.get(line.amount?));
    amount.is_some_and(|measure| measure.span.contains(term.span))
}

/// Whether a word is the unit's name and no abbreviation of it. (`liter`, `litre`: to whom it matters, the house says.)
fn is_long(unit: Unit, word: &str) -> bool {
    let word = word.trim();
    [unit.name(), unit.plural()].into_iter().any(|name| {
        let american = || name.contains("litre") && word.to_lowercase().replace("liter", "litre") == name;
        word.len() == name.len() && (word.eq_ignore_ascii_case(name) || american())
    })
}

/// The word with the full stop behind it, unless that may end a sentence.
fn with_stop(recipe: &Recipe, word: Span) -> Span {
    let behind = recipe.text.get(word.end..).unwrap_or_default();
    let goes_on = |rest: &str| {
        let next = rest.trim_start_matches([' ', '\u{a0}']).chars().next();
        next.is_some_and(|next| next.is_lowercase() || next.is_ascii_digit() || matches!(next, '(' | ')' | '/' | ','))
    };
    match behind.strip_prefix('.') {
        Some(rest) if goes_on(rest) => Span::new(word.start, word.end + 1),
        _ => word,
    }
}
