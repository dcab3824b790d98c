//! `dash-style`: ranges are set in several ways, or in another than the house's.

use super::{
    Check, Finding, Severity, View,
    support::setting::{Odd, and_others, figures, finding, usual_way},
};
use crate::{
    measure::{RangeStyle, read_number},
    recipe::{Recipe, measures::Term},
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "dash-style", severity: Severity::Hint, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let ranges: Vec<Range> = view.terms().iter().filter_map(|(_, term)| range(recipe, term)).collect();
    let house = view.house.setting.ranges;
    // In prose a range is spoken, "2 to 3", in a list it may be a dash: only two dashes are two ways of writing one thing.
    let dashes = || ranges.iter().map(|range| range.way).filter(|way| *way != RangeStyle::To);
    let Some(way) = house.or_else(|| usual_way(dashes())) else { return };
    let odd: Vec<Odd> = ranges.iter().filter_map(|range| range.odd(way, house.is_some())).collect();
    let Some(first) = ranges.iter().find(|range| odd.first().is_some_and(|odd| odd.span == range.gap)) else { return };
    let (written, right) = (recipe.at(first.number), first.written_as(way));
    let message = match house {
        Some(_) => format!("The house sets this range as {right}, and here it is {written}."),
        None => format!(
            "Most ranges of this recipe are set as {}, and this one as {written}. Keep to one kind of dash.",
            ranges.iter().find(|range| range.way == way).map_or("", |range| recipe.at(range.number))
        ),
    };
    let title = format!("Write {right}{}", and_others(&odd));
    out.extend(finding(&CHECK, odd, message, title));
}

/// Two numbers and what stands between them.
struct Range {
    number: Span,
    text: String,
    gap: Span,
    way: RangeStyle,
}

fn range(recipe: &Recipe, term: &Term) -> Option<Range> {
    let text = recipe.at(term.number);
    // Most numbers are a figure or two.
    if !text.bytes().any(|byte| matches!(byte, b'-' | b't') || !byte.is_ascii()) {
        return None;
    }
    let [low, high] = figures(text).try_into().ok()?;
    let gap = Span::new(low.span.end, high.span.start);
    let way = match gap.of(text).trim() {
        "-" | "‐" | "‑" => RangeStyle::Hyphen,
        "–" | "—" | "−" => RangeStyle::Dash,
        "to" => RangeStyle::To,
        // "2- to 3-inch", "2 or 3"
        _ => return None,
    };
    Some(Range { number: term.number, text: text.to_owned(), gap: gap.shifted(term.number.start), way })
}

impl Range {
    /// The whole range with another sign between its ends.
    fn written_as(&self, way: RangeStyle) -> String {
        let start = self.gap.start - self.number.start;
        let mut text = self.text.clone();
        text.replace_range(start..start + self.gap.len(), sign(way));
        text
    }

    /// The sign that should stand between the ends, where it is another and the range can be read as before.
    fn odd(&self, way: RangeStyle, asked: bool) -> Option<Odd> {
        if self.way == way || self.way == RangeStyle::To && !asked {
            return None;
        }
        let same = read_number(&self.written_as(way)).ok() == read_number(&self.text).ok();
        same.then(|| Odd { span: self.gap, text: sign(way).to_owned() })
    }
}

fn sign(way: RangeStyle) -> &'static str {
    match way {
        RangeStyle::To => " to ",
        RangeStyle::Dash => "–",
        RangeStyle::Hyphen => "-",
    }
}
