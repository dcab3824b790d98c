//! Whether as many portions come out as a recipe says, and as large.

use uom::si::{
    f64::{Length, Mass, Volume},
    length::centimeter,
};

use super::{around, rewriting, vessels_filled as filled, words};
use crate::{
    checks::{Finding, Fix, Severity, View, finding::Certainty},
    measure::{Amount, Interval, Quantity, Unit, UnitKind, round_number},
    recipe::{
        Recipe,
        batch::everything_by,
        language::token::Token,
        measures::{Measure, Place, Stated},
        yields::{self, Portions},
    },
    text::{Edit, Span},
};

/// So much more than all that the list has may be needed before something is wrong: scales and spoons (common practice, no source).
const MORE_THAN_ALL: f64 = 1.05;

/// A cup is seldom quite full (common practice, no source).
const MORE_BY_VOLUME: f64 = 1.15;

/// So much of a batch may be left over: what sticks to the bowl, and a last piece that is smaller (common practice, no source).
const LEFT_OVER: f64 = 0.85;

/// A spoon that portions a dough is heaped, up to twice what it holds; a cup or a ladle a little (common practice, no source).
const HEAPED_SPOON: f64 = 2.0;
const HEAPED_CUP: f64 = 1.3;

/// Words that tell of air: how much room the batch takes is then not known. Folded.
const AIR: &[&str] = &[
    "whip", "whipped", "peak", "fluffy", "foamy", "frothy", "rise", "risen", "double", "doubled", "proof", "prove",
    "puff", "churn", "maker",
];

/// Words that tell that what is left over is meant to be. Folded.
const LEFT: &[&str] =
    &["leftover", "remaining", "remainder", "scrap", "trimming", "discard", "trim", "reserve", "extra", "left"];

/// Words of heat: what has been cooked weighs less, and nobody here knows how much. Folded.
const HEAT: &[&str] = &[
    "bake", "roast", "fry", "cook", "boil", "simmer", "grill", "broil", "oven", "toast", "steam", "saute", "heat",
    "reduce", "drain", "strain", "squeeze",
];

/// What is wrong with a number of portions. Its finding has no code yet: the check that it belongs to gives its own.
#[derive(Debug)]
pub struct Fault {
    /// Whether fewer come out than is said; else more.
    pub short: bool,
    /// The finding.
    pub finding: Finding,
}

/// Every number of portions that does not come out.
pub fn faults<'v>(view: &View<'v>) -> &'v [Fault] {
    view.worked.portions.get_or_init(|| all(view))
}

fn all(view: &View<'_>) -> Vec<Fault> {
    let recipe = view.recipe;
    if recipe.steps.is_empty() || recipe.ingredients.is_empty() || !recipe.damage.is_empty() {
        return Vec::new();
    }
    let measures = &view.house.measures;
    let (stated, divided) = (yields::stated(recipe, measures), yields::divided(recipe, measures));
    let all: Vec<&Portions> = stated.iter().chain(&divided).collect();
    let mut out: Vec<Fault> = Vec::new();
    for portions in &all {
        // A number that a step contradicts is wrong whatever the size.
        let contradicted = by_count(view, portions, &divided);
        out.extend(contradicted.or_else(|| by_size(view, portions, &all)));
    }
    out.extend(by_bowls(view));
    out.extend(by_length(view, &divided));
    out
}

fn fault(short: bool, span: Span, message: String) -> Fault {
    let finding = Finding::new("", Severity::Warning, span, message).certainty(Certainty::Likely);
    Fault { short, finding }
}

/// What a batch comes to, least and most, in the kind of quantity that the portions are measured in.
struct Batch {
    least: f64,
    most: Option<f64>,
    /// What it comes to most likely, where that can be told closely.
    likely: Option<f64>,
}

fn by_size(view: &View<'_>, portions: &Portions, others: &[&Portions]) -> Option<Fault> {
    let (each, size) = portions.each?;
    let batch = batch(view, portions, &each)?;
    let one = plain(&each)?;
    let needed = one.scaled(&portions.count);
    let most_needed = needed.most.map(|most| most * heaped(&each, view.recipe, size));
    let more = if matches!(each, Quantity::Volume(_)) { MORE_BY_VOLUME } else { MORE_THAN_ALL };
    let is_short = batch.most.is_some_and(|most| needed.least > most * more);
    let is_over = most_needed.is_some_and(|needed| needed < batch.least * LEFT_OVER)
        && portions.whole
        && !says_left(view.recipe, portions);
    let (comes_to, fits) = match (is_short, is_over) {
        (true, _) => (batch.most?, (batch.most? / one.middle()).floor()),
        (_, true) => (batch.least, (batch.least / one.middle()).floor()),
        _ => return None,
    };
    let recipe = view.recipe;
    let print = |value: f64| filled::both(&like(&each, value), &view.house.measures);
    let said = words::plain(recipe.at(portions.span));
    let said = match portions.span.contains(size) {
        true => said,
        false => format!("{said} of {}", words::plain(recipe.at(size))),
    };
    let take = if portions.count.most.is_some_and(|most| most <= 1.0) { "takes" } else { "take" };
    let all = match portions.place {
        Place::Step(_) => "what has gone in by then",
        _ => "everything in the list",
    };
    let (needed, comes_to, fits) = match is_short {
        true => (print(needed.least), format!("{} at most", print(comes_to)), how_many(fits)),
        false => (print(needed.most.unwrap_or(needed.least)), format!("at least {}", print(comes_to)), how_many(fits)),
    };
    let what_to_do = match is_short {
        true => "Whoever follows it runs out. Say how many come out, or make them smaller.",
        false => "Say how many come out, make them larger, or say what becomes of the rest.",
    };
    let message = format!("{said} {take} {needed}, and {all} comes to {comes_to}: enough for {fits}. {what_to_do}");
    let found = fault(is_short, portions.span, message);
    let found = match portions.span.contains(size) {
        true => found,
        false => Fault { finding: found.finding.related(size, "for each"), ..found },
    };
    let same_count = others.iter().filter(|other| other.count == portions.count).count() > 1;
    let fixes = [
        batch.likely.and_then(|likely| of_size(view, portions, size, likely)),
        batch.likely.filter(|_| !same_count).and_then(|likely| of_number(portions, (likely / one.middle()).floor())),
    ];
    Some(Fault { finding: fixes.into_iter().flatten().fold(found.finding, Finding::fix), ..found })
}

fn how_many(count: f64) -> String {
    if count < 1.0 { "not even one".to_owned() } else { format!("about {count}") }
}

fn batch(view: &View<'_>, portions: &Portions, each: &Quantity) -> Option<Batch> {
    let recipe = view.recipe;
    let most = match portions.place {
        Place::Step(step) => everything_by(recipe, view.stocks(), step),
        _ => *view.everything(),
    };
    let surely = || {
        let followed = view.followed();
        match portions.place {
            Place::Step(_) => followed.at(portions.span.start).cloned(),
            // What has been cooked has lost nobody knows how much.
            _ if filled::method_says(recipe, HEAT) => None,
            _ => followed.at_hand.last().map(|(_, batch)| batch.clone()),
        }
    };
    match each {
        Quantity::Weight(_) => {
            let (least, most, listed) = (
                surely().map_or(0.0, |batch| batch.weight().value),
                most.weight.map(|most| most.value),
                most.least.value,
            );
            let close = most.filter(|most| *most <= listed * 1.25).map(|most| (most + listed) / 2.0);
            Some(Batch { least, most, likely: close })
        }
        Quantity::Volume(_) => {
            let least = surely().map_or(0.0, |batch| batch.volume().value);
            let air = filled::method_says(recipe, AIR);
            Some(Batch { least, most: most.volume.map(|most| most.value).filter(|_| !air), likely: None })
        }
        _ => None,
    }
}

/// A weight in kilograms or a volume in cubic metres, as a bare number; [`like`] turns it back.
fn plain(quantity: &Quantity) -> Option<Interval> {
    match quantity {
        Quantity::Weight(weight) => Some(weight.map(|weight| weight.value)),
        Quantity::Volume(volume) => Some(volume.map(|volume| volume.value)),
        _ => None,
    }
}

fn like(quantity: &Quantity, value: f64) -> Quantity {
    let of_mass = || Mass { value, ..Mass::default() };
    let of_volume = || Volume { value, ..Volume::default() };
    match quantity {
        Quantity::Volume(_) => Quantity::Volume(Interval::exactly(of_volume())),
        _ => Quantity::Weight(Interval::exactly(of_mass())),
    }
}

fn heaped(each: &Quantity, recipe: &Recipe, size: Span) -> f64 {
    match each {
        Quantity::Volume(_) => {
            let stated = stated_at(recipe, size).and_then(|(stated, _)| stated.unit());
            if matches!(stated, Some(Unit::Teaspoon | Unit::Tablespoon)) { HEAPED_SPOON } else { HEAPED_CUP }
        }
        _ => 1.0,
    }
}

/// Whether the step that divides, or one behind it, speaks of what is left.
fn says_left(recipe: &Recipe, portions: &Portions) -> bool {
    let first = if let Place::Step(step) = portions.place { step } else { 0 };
    recipe.steps.iter().skip(first).any(|step| {
        // "The rest", and not "let rest".
        let the_rest = |pair: &[Token]| matches!(pair, [the, rest] if the.word("the") && rest.word("rest"));
        step.tokens.iter().any(|token| token.one_of(LEFT)) || step.tokens.windows(2).any(the_rest)
    })
}

fn stated_at(recipe: &Recipe, span: Span) -> Option<(&Stated, &Measure)> {
    recipe.measures.iter().find_map(|measure| {
        let stated = measure.statements().chain(&measure.each).find(|stated| stated.span == span)?;
        Some((stated, measure))
    })
}

/// The size that as many come out at.
fn of_size(view: &View<'_>, portions: &Portions, size: Span, likely: f64) -> Option<Fix> {
    let (stated, measure) = stated_at(view.recipe, size)?;
    // A size that is said twice would have to be written twice.
    let alone = if measure.each.is_empty() { measure.restated.is_empty() } else { measure.each.len() == 1 };
    let unit = stated.unit().filter(|unit| alone && unit.kind() == UnitKind::Weight)?;
    let one = Quantity::Weight(Interval::exactly(Mass { value: likely / portions.count.middle(), ..Mass::default() }));
    let number = one.number_of(unit, &view.house.measures)?.map(|number| round_number(number, unit));
    let (edit, text) = rewriting::rewrite(view, stated, &[Amount::new(number, Some(unit))]);
    Some(Fix::new(format!("Write {text}"), vec![edit]))
}

fn of_number(portions: &Portions, number: f64) -> Option<Fix> {
    let exact = portions.count.is_exact() && number >= 1.0;
    exact.then(|| Fix::new(format!("Write {number}"), vec![Edit::replace(portions.number, format!("{number}"))]))
}

/// `Yield: 16 bars`, and the last step cuts 12 bars.
fn by_count(view: &View<'_>, yielded: &Portions, divided: &[Portions]) -> Option<Fault> {
    let recipe = view.recipe;
    if !matches!(yielded.place, Place::Header(_)) || !yielded.count.is_exact() {
        return None;
    }
    // Only the last division tells what comes out: "into 2 pieces, and each into 6".
    let step = divided.last().filter(|last| last.noun == yielded.noun)?;
    let once = divided.iter().filter(|portions| portions.noun == yielded.noun).count() == 1;
    let behind = recipe.steps.iter().flat_map(|step| &step.tokens).filter(|token| token.span.start >= step.span.start);
    let again = behind.into_iter().any(|token| token.one_of(&["each", "repeat", "batch", "another", "halve", "half"]));
    if !once || again || !step.whole || !step.count.is_exact() || step.count == yielded.count {
        return None;
    }
    let Place::Step(index) = step.place else { return None };
    let short = step.count.least < yielded.count.least;
    let (made, said) = (words::plain(recipe.at(step.span)), words::plain(recipe.at(yielded.span)));
    let message = format!(
        "{} makes {made}, and the yield says {said}. Whoever counts on it has too {}. Write the number that comes out.",
        words::sentence(&words::step(recipe, index)),
        if short { "few" } else { "many" }
    );
    let found = fault(short, yielded.span, message);
    let number = format!("{}", step.count.least);
    let fix = Fix::new(format!("Write {number}"), vec![Edit::replace(yielded.number, number)]);
    Some(Fault { finding: found.finding.related(step.span, "made here").fix(fix), ..found })
}

/// Words that tell that bowls are filled to be eaten from, and those that tell otherwise. Folded.
const AT_TABLE: &[&str] = &["serve", "ladle", "garnish", "top", "warm", "warmed", "serving"];
const NOT_AT_TABLE: &[&str] = &[
    "half",
    "if",
    "or",
    "each",
    "first",
    "remaining",
    "rest",
    "batter",
    "dough",
    "white",
    "yolk",
    "mix",
    "whisk",
    "beat",
];

/// `Serves: 8`, and the soup is ladled into 6 bowls.
fn by_bowls(view: &View<'_>) -> Option<Fault> {
    let recipe = view.recipe;
    let (serves, place) = yields::servings(recipe)?;
    let bowls = recipe.measures.iter().filter_map(|measure| {
        let Place::Step(_) = measure.place else { return None };
        let Quantity::Count { count, unit } = measure.stated.quantity(&view.house.measures)? else { return None };
        let before = around::before(recipe, measure.span.start, 1);
        if !before.iter().any(|word| matches!(&**word, "among" | "between" | "into" | "onto")) {
            return None;
        }
        let behind = around::behind(recipe, measure.span.start, 5);
        let at_table = matches!(unit, Some(Unit::Bowl | Unit::Glass | Unit::Mug))
            || unit.is_none() && behind.iter().take(4).any(|word| matches!(&**word, "plate" | "bowl" | "glass"));
        let small =
            behind.iter().any(|word| matches!(&**word, "mixing" | "large" | "small" | "deep" | "more" | "batch"));
        (at_table && !small).then_some((measure, count))
    });
    let mut bowls: Vec<(&Measure, Interval)> = bowls.collect();
    let (measure, count) = bowls.pop().filter(|_| bowls.is_empty())?;
    let doubtful = around::sentence_has(recipe, measure.span, NOT_AT_TABLE);
    // Two bowls may be there to mix in.
    let served = around::sentence_has(recipe, measure.span, AT_TABLE);
    if doubtful || !served || !count.is_exact() || serves.contains(count.least) || count.least < 2.0 {
        return None;
    }
    let short = count.least < serves.least;
    let message = format!(
        "It serves {}, and here it is divided among {}: {}. Let the two agree.",
        words::plain(recipe.at(place)),
        words::plain(recipe.at(measure.stated.span)),
        if short { "somebody goes without" } else { "who is to eat the others" },
    );
    let found = fault(short, measure.span, message);
    Some(Fault { finding: found.finding.related(place, "for so many"), ..found })
}

/// A log of 12 inches, cut into 24 slices of 1 inch.
fn by_length(view: &View<'_>, divided: &[Portions]) -> Option<Fault> {
    let recipe = view.recipe;
    let mut logs = recipe.measures.iter().filter_map(|measure| {
        let Place::Step(step) = measure.place else { return None };
        let Quantity::Length(length) = measure.quantity(&view.house.measures)? else { return None };
        let behind = around::behind(recipe, measure.span.end, 3);
        let log = behind.iter().any(|word| matches!(&**word, "log" | "rope" | "cylinder" | "sausage"));
        let wide = behind.iter().any(|word| matches!(&**word, "thick" | "wide" | "diameter"));
        (log && !wide).then_some((step, measure, length))
    });
    let (step, log, length) = logs.next().filter(|_| logs.next().is_none())?;
    let several = around::sentence_has(
        recipe,
        log.span,
        &["each", "half", "piece", "log's", "two", "three", "four", "both", "portion"],
    );
    let portions = divided.iter().find(|portions| {
        portions.whole
            && matches!(portions.place, Place::Step(own) if own >= step)
            && portions.count.is_exact()
            && portions.span.start > log.span.end
    })?;
    let thick = thickness(view, portions)?;
    let needed = thick.times(portions.count.least);
    let long = |length: Length| length.get::<centimeter>();
    let short = length.most.is_some_and(|most| long(needed.least) > long(most) * 1.15);
    let over = needed.most.is_some_and(|needed| long(needed) < long(length.least) * 0.75);
    if several || !(short || over) || says_left(recipe, portions) {
        return None;
    }
    let fits = (long(length.middle()) / long(thick.middle())).floor();
    let message = format!(
        "A {} log gives about {fits} slices of that thickness, not {}. Let the length, the thickness and the number agree.",
        words::plain(recipe.at(log.stated.span)),
        portions.count.least,
    );
    let found = fault(short, portions.span, message);
    Some(Fault { finding: found.finding.related(log.span, "the log"), ..found })
}

/// How thick each slice is: `24 1-inch slices`, `24 slices, each 1 inch thick`.
fn thickness(view: &View<'_>, portions: &Portions) -> Option<Interval<Length>> {
    let behind = Span::new(portions.number.end, around::sentence(view.recipe, portions.span).end);
    let own = view
        .recipe
        .measures
        .iter()
        .filter(|measure| measure.place == portions.place && behind.touches(measure.span.start));
    let packed = view
        .recipe
        .measures
        .iter()
        .filter(|measure| measure.span.contains(portions.number))
        .flat_map(|measure| &measure.each);
    let lengths =
        packed.chain(own.map(|measure| &measure.stated)).filter_map(|stated| stated.quantity(&view.house.measures));
    lengths.into_iter().find_map(|quantity| match quantity {
        Quantity::Length(length) => Some(length),
        _ => None,
    })
}
