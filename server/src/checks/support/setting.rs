//! How numbers, ranges and units are set: one way for a whole recipe, that of the house where it has one.

use crate::{
    book::House,
    checks::{Check, Finding, Fix, View, finding::Certainty},
    measure::{FractionStyle, Style, read_number},
    recipe::{
        Recipe,
        measures::{Place, Stated, Term},
    },
    text::{Edit, Span},
};

/// A place that is set in another way than it should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Odd {
    /// What stands there.
    pub span: Span,
    /// What should.
    pub text: String,
}

/// The way that most of a recipe's places are set in; of two that are as many, the one that comes first. Nothing where all are set in
/// one way.
pub fn usual_way<W: PartialEq + Copy>(ways: impl Iterator<Item = W>) -> Option<W> {
    most(ways).filter(|(_, all)| *all > 1).map(|(way, _)| way)
}

/// The way that is met most often, and how many ways there are.
fn most<W: PartialEq + Copy>(ways: impl Iterator<Item = W>) -> Option<(W, usize)> {
    let mut counted: Vec<(W, usize)> = Vec::new();
    for way in ways {
        match counted.iter_mut().find(|(known, _)| *known == way) {
            Some((_, count)) => *count += 1,
            None => counted.push((way, 1)),
        }
    }
    let most = counted.iter().map(|(_, count)| *count).max()?;
    let usual = counted.iter().find(|(_, count)| *count == most)?;
    Some((usual.0, counted.len()))
}

/// What the title of the fix says of the places besides the first.
pub fn and_others(odd: &[Odd]) -> String {
    match odd.len() {
        0 | 1 => String::new(),
        2 => " and the other one so".to_owned(),
        count => format!(" and {} others so", count - 1),
    }
}

/// How an amount is set that is put into a recipe: as the house has it, and where it says nothing as the recipe does.
pub fn style(view: &View<'_>) -> Style {
    style_in(view.recipe, view.house)
}

/// The same, outside a check.
pub fn style_in(recipe: &Recipe, house: &House) -> Style {
    let own = || {
        let numbers = terms(recipe)
            .into_iter()
            .map(|(_, term)| recipe.at(term.number))
            .filter(|number| may_have_fraction(number));
        let ways = numbers.flat_map(figures).filter_map(|figure| figure.way);
        most(ways.filter(|way| *way != FractionStyle::Decimal)).map(|(way, _)| way)
    };
    let fractions = house.setting.fractions.or_else(own).unwrap_or_default();
    Style { fractions, ..house.style() }
}

/// The finding about all odd places of a recipe together, with the fix that sets them anew.
pub fn finding(check: &Check, odd: Vec<Odd>, message: String, title: String) -> Option<Finding> {
    let (first, others) = odd.split_first()?;
    let found = Finding::new(check.code, check.severity, first.span, message).certainty(Certainty::Sure);
    let found = others.iter().fold(found, |found, other| found.related(other.span, "here too"));
    let edits = odd.iter().map(|odd| Edit::replace(odd.span, odd.text.clone())).collect();
    Some(found.fix(Fix::safe(title, edits)))
}

/// Every number with its unit that the recipe itself states, in order. What was found in a test is written as it was noted.
pub fn terms<'r>(recipe: &'r Recipe) -> Vec<(Place, &'r Term)> {
    let mut out = Vec::new();
    for measure in recipe.measures.iter().filter(|measure| !matches!(measure.place, Place::Test(_))) {
        let take = |stated: &'r Stated| out.extend(stated.terms.iter().map(|term| (measure.place, term)));
        if measure.each.is_empty() {
            measure.statements().for_each(take);
        } else {
            // The size of one stands among the statements: `2 (14-oz) cans`.
            let mut stated: Vec<&Stated> = measure.statements().chain(&measure.each).collect();
            stated.sort_by_key(|stated| stated.span);
            stated.into_iter().for_each(take);
        }
    }
    out
}

/// One number in figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Where it stands in its text.
    pub span: Span,
    /// What it is.
    pub value: f64,
    /// How its fraction is set, if it has one.
    pub way: Option<FractionStyle>,
}

/// The numbers in figures that a text holds: one for `1 1/2`, two for `2–2½`.
pub fn figures(text: &str) -> Vec<Figure> {
    let mut figures = Vec::new();
    if let Some(value) = whole(text) {
        return vec![Figure { span: Span::new(0, text.len()), value, way: None }];
    }
    let mut at = 0;
    while let Some((start, (length, way))) = starts(text, at).find_map(|at| Some((at, one(text.get(at..)?)?))) {
        let span = Span::new(start, start + length);
        at = span.end;
        if let Some(value) = read_number(span.of(text)).ok().filter(|number| number.is_exact()) {
            figures.push(Figure { span, value: value.least, way });
        }
    }
    figures
}

/// Whether a number may be or hold a fraction, however that is set. Most are a figure or two.
pub fn may_have_fraction(number: &str) -> bool {
    number.bytes().any(|byte| matches!(byte, b'/' | b'.') || !byte.is_ascii())
}

/// A number of a few figures and nothing else, which most are.
fn whole(text: &str) -> Option<f64> {
    let few = (1..=6).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse::<u32>().ok().filter(|number| few && *number > 0).map(f64::from)
}

fn starts(text: &str, from: usize) -> impl Iterator<Item = usize> {
    let rest = text.get(from..).unwrap_or_default();
    rest.char_indices().map(move |(at, _)| from + at)
}

/// How long the number is that a text starts with, and how its fraction is set.
fn one(text: &str) -> Option<(usize, Option<FractionStyle>)> {
    let whole = digits(text);
    let behind = text.get(whole..)?;
    if let Some(glyph) = glyph(behind) {
        return Some((whole + glyph, Some(FractionStyle::Glyph)));
    }
    let decimals = behind.strip_prefix('.').map_or(0, digits);
    if decimals > 0 {
        return Some((whole + 1 + decimals, Some(FractionStyle::Decimal)));
    }
    if whole == 0 {
        return None;
    }
    if let Some(length) = fraction(text) {
        return Some((length, Some(FractionStyle::Slash)));
    }
    let gap = behind.chars().next().filter(|c| matches!(c, ' ' | '\u{a0}' | '-')).map_or(0, char::len_utf8);
    let mixed = behind.get(gap..).unwrap_or_default();
    match (glyph(mixed), fraction(mixed)) {
        (Some(length), _) if gap > 0 => Some((whole + gap + length, Some(FractionStyle::Glyph))),
        (_, Some(length)) if gap > 0 => Some((whole + gap + length, Some(FractionStyle::Slash))),
        _ => Some((whole, None)),
    }
}

fn digits(text: &str) -> usize {
    text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len()
}

/// The length of `1/2`.
fn fraction(text: &str) -> Option<usize> {
    let over = digits(text);
    let under = digits(text.get(over..)?.strip_prefix('/')?);
    (over > 0 && under > 0).then_some(over + 1 + under)
}

/// The length of `½`.
fn glyph(text: &str) -> Option<usize> {
    let first = text.chars().next()?;
    matches!(first, '¼' | '½' | '¾' | '⅐'..='⅞').then_some(first.len_utf8())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_found_in_any_setting() {
        use FractionStyle::{Decimal, Glyph, Slash};
        type Row = (&'static str, &'static [(&'static str, f64, Option<FractionStyle>)]);
        let table: [Row; 12] = [
            ("3", &[("3", 3.0, None)]),
            ("1/2", &[("1/2", 0.5, Some(Slash))]),
            ("1 1/2", &[("1 1/2", 1.5, Some(Slash))]),
            ("1-1/2", &[("1-1/2", 1.5, Some(Slash))]),
            ("1½", &[("1½", 1.5, Some(Glyph))]),
            ("1 ½", &[("1 ½", 1.5, Some(Glyph))]),
            (".5", &[(".5", 0.5, Some(Decimal))]),
            ("2.25", &[("2.25", 2.25, Some(Decimal))]),
            ("2-3", &[("2", 2.0, None), ("3", 3.0, None)]),
            ("¾–1 1/4", &[("¾", 0.75, Some(Glyph)), ("1 1/4", 1.25, Some(Slash))]),
            ("1/2 to 3/4", &[("1/2", 0.5, Some(Slash)), ("3/4", 0.75, Some(Slash))]),
            ("half a dozen", &[]),
        ];
        for (text, expected) in table {
            let found = figures(text);
            let found: Vec<_> = found.iter().map(|one| (one.span.of(text), one.value, one.way)).collect();
            assert_eq!(found, expected, "{text}");
        }
    }

    #[test]
    fn the_usual_way_is_that_of_most_and_else_the_first() {
        assert_eq!(usual_way("aaba".chars()), Some('a'));
        assert_eq!(usual_way("abba".chars()), Some('a'));
        assert_eq!(usual_way("aaa".chars()), None);
        assert_eq!(usual_way("".chars()), None);
    }
}
