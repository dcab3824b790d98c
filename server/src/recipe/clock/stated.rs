//! What the line `Time:` promises: how long altogether, and how much of it is work.

use uom::si::f64::Time;

use super::durations;
use crate::{
    larder::words::fold,
    measure::Interval,
    recipe::{Recipe, measures::Place},
    text::{Span, Words},
};

/// What the line `Time:` says.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated {
    /// What stands behind the label.
    pub span: Span,
    /// How long altogether; `None` where a part of it is left open (`plus chilling`).
    pub total: Option<Interval<Time>>,
    /// Where the total stands, where it stands in one place and is no sum.
    pub total_at: Option<Span>,
    /// How much of it is work for the cook, and where that stands.
    pub active: Option<(Interval<Time>, Span)>,
    /// Whether a word hedges it: about.
    pub hedged: bool,
}

/// A time of the line with the words that belong to it.
struct Part {
    span: Span,
    time: Interval<Time>,
    words: Vec<String>,
}

/// What the line `Time:` says; nothing where there is none, or where it holds no time that can be read.
pub fn stated(recipe: &Recipe) -> Option<Stated> {
    let (index, header) = recipe.headers_called("time").next()?;
    let value = header.value;
    let (parts, open) = parts(recipe, index, value);
    let said = |part: &&Part, words: &[&str]| part.words.iter().any(|word| words.contains(&&**word));
    let total = parts.iter().find(|part| said(part, &["total", "altogether", "all", "finish"]));
    let active = parts
        .iter()
        .find(|part| said(part, &["active", "hand", "handson", "work"]) && !said(part, &["total", "inactive"]));
    let active = active.filter(|active| total.is_none_or(|total| total.span != active.span));
    let sum = || parts.iter().map(|part| part.time).reduce(|sum, time| sum.plus(&time));
    // Work alone says nothing of the whole.
    let alone = total.is_none() && active.is_some() && parts.len() == 1;
    let whole = total.map(|total| total.time).or_else(sum).filter(|_| !open && !alone);
    let written = recipe.at(value).to_lowercase();
    let hedged = ["about", "around", "approx", "roughly", "~", "ca."].iter().any(|hedge| written.contains(hedge));
    let only = match parts.as_slice() {
        [part] if !alone => Some(part.span),
        _ => None,
    };
    (!parts.is_empty()).then(|| Stated {
        span: value,
        total: whole,
        total_at: total.map(|total| total.span).or(only),
        active: active.map(|active| (active.time, active.span)),
        hedged,
    })
}

/// The times of the line, and whether something without a time is added: `30 min plus chilling`.
fn parts(recipe: &Recipe, index: usize, value: Span) -> (Vec<Part>, bool) {
    let own = recipe.measures.iter().filter(|measure| measure.place == Place::Header(index));
    let times: Vec<(Span, Interval<Time>)> =
        own.filter_map(|measure| Some((measure.span, durations::time_of(measure)?))).collect();
    let mut open = false;
    let mut out = Vec::new();
    let mut from = value.start;
    for end in bounds(recipe, value) {
        let span = Span::new(from, end);
        let folded = folded(recipe.at(span));
        let mut inside = times.iter().filter(|(place, _)| span.contains(*place)).peekable();
        open |= inside.peek().is_none() && folded.iter().any(|word| WAITS.contains(word));
        out.extend(inside.map(|(place, time)| Part { span: *place, time: *time, words: folded.clone() }));
        from = end;
    }
    (out, open)
}

/// What may be added without saying how long it takes.
static WAITS: Words = Words::new(
    "overnight chilling cooling rising proving proofing marinating soaking resting standing freezing setting refrigeration \
     steeping infusing drying curing time wait waiting baking extra more day",
);

/// Where the parts of the line end: at commas, semicolons, parentheses, "plus" and "and then".
fn bounds(recipe: &Recipe, value: Span) -> Vec<usize> {
    let text = recipe.at(value);
    let marks =
        text.char_indices().filter(|(_, c)| matches!(c, ',' | ';' | '(' | ')' | '·' | '|' | '+')).map(|(at, _)| at);
    let plus = text.match_indices("plus").map(|(at, _)| at);
    let mut out: Vec<usize> = marks.chain(plus).map(|at| value.start + at).collect();
    // `1 hour, 20 minutes` is one time: a mark inside a measure parts nothing.
    out.retain(|at| !recipe.measures.iter().any(|measure| measure.span.start < *at && *at < measure.span.end));
    out.push(value.end);
    out.sort_unstable();
    out
}

fn folded(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphanumeric() && c != '-')
        .filter(|word| !word.is_empty())
        .map(|word| fold(word).replace('-', ""))
        .collect()
}
