//! `temperature-implausible`: a temperature that no kitchen means: an oven at 40°F, sugar at 300°C.

use std::{borrow::Cow, ops::RangeInclusive};

use uom::si::thermodynamic_temperature::degree_celsius;

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{around, heat, words},
};
use crate::{
    measure::{Amount, Interval, Quantity, Unit, UnitKind, print_decimal},
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
    },
    text::{Edit, Span, Words},
};

/// The check.
pub const CHECK: Check = Check {
    code: "temperature-implausible",
    severity: Severity::Warning,
    on: true,
    docs: include_str!("docs.md"),
    find,
};

/// Something that is heated or cooled.
struct Heated {
    /// How a message calls it.
    name: &'static str,
    /// The words that tell it, folded.
    words: Words,
    /// Outside this many °C nobody can mean it.
    possible: RangeInclusive<f64>,
    /// Why not hotter, and why not colder.
    limits: [&'static str; 2],
    /// Within this many °C a guess at what was meant must lie.
    usual: RangeInclusive<f64>,
    /// Words of the same sentence that explain what is out of the ordinary.
    unless: Words,
    /// What in the same sentence has the better claim.
    yields_to: YieldsTo,
}

/// Which other things have a better claim to a temperature, wherever in the sentence they stand.
#[derive(Clone, Copy, PartialEq, Eq)]
enum YieldsTo {
    Nothing,
    /// `Toss with oil and roast at 220°C`
    Oven,
    /// `Boil the sugar with the water to 116°C`
    Anything,
}

/// What a home kitchen heats and cools, and how far (common practice, no source, but for: deep fat 163 to 191 °C, a sugar
/// thermometer's scale, yeast that dies above 60 °C).
const HEATED: &[Heated] = &[
    Heated {
        name: "an oven",
        words: Words::new("oven bake baking roast roasting preheat preheated"),
        possible: 60.0..=290.0,
        limits: ["no home oven goes beyond", "nothing bakes below"],
        usual: 120.0..=260.0,
        unless: Words::new(
            "pizza wood tandoor coal kiln stone clean rise proof prove proving proofing ferment yogurt dry dried drying dehydrate warm thaw light",
        ),
        yields_to: YieldsTo::Nothing,
    },
    Heated {
        name: "the inside of a dish",
        words: Words::new("internal core thickest"),
        possible: 30.0..=105.0,
        limits: ["nothing moist gets hotter inside than", "nothing is done inside below"],
        usual: 45.0..=99.0,
        unless: Words::new(""),
        yields_to: YieldsTo::Nothing,
    },
    Heated {
        name: "a refrigerator or a freezer",
        words: Words::new("refrigerator refrigerate refrigerated fridge freezer freeze chill"),
        possible: -40.0..=15.0,
        limits: ["food spoils above", "no home freezer goes below"],
        usual: -25.0..=8.0,
        unless: Words::new("oven bake thaw cool"),
        yields_to: YieldsTo::Oven,
    },
    Heated {
        name: "a rising dough",
        words: Words::new("rise proof prove proving proofing ferment"),
        possible: 0.0..=55.0,
        limits: ["yeast dies above", "nothing rises below"],
        usual: 15.0..=45.0,
        unless: Words::new("bake baking"),
        yields_to: YieldsTo::Oven,
    },
    Heated {
        name: "frying fat",
        words: Words::new("oil fat lard shortening tallow fryer"),
        possible: 20.0..=235.0,
        limits: ["fat smokes and can catch fire beyond", "nothing fries below"],
        usual: 140.0..=200.0,
        unless: Words::new("grill broiler broil"),
        yields_to: YieldsTo::Oven,
    },
    Heated {
        name: "sugar",
        words: Words::new("sugar syrup caramel candy toffee fudge"),
        possible: 0.0..=205.0,
        limits: ["sugar is burnt beyond", "sugar is no syrup below"],
        usual: 100.0..=180.0,
        unless: Words::new("grill broiler broil"),
        yields_to: YieldsTo::Oven,
    },
    Heated {
        name: "water or milk",
        words: Words::new("water milk yeast"),
        possible: -1.0..=105.0,
        limits: ["water boils away before", "water is ice below"],
        usual: 20.0..=99.0,
        unless: Words::new("pressure steam canner grill broiler oil smoker"),
        yields_to: YieldsTo::Anything,
    },
];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let steps = recipe.measures.iter().filter(|measure| matches!(measure.place, Place::Step(_) | Place::Ingredient(_)));
    let hot = steps.filter(|measure| measure.stated.kind() == Some(UnitKind::Temperature));
    out.extend(hot.filter_map(|measure| finding(view, measure)));
}

fn finding(view: &View<'_>, measure: &Measure) -> Option<Finding> {
    let recipe = view.recipe;
    if heat::is_difference(recipe, measure.span) {
        return None;
    }
    let heated = what_is_heated(recipe, measure.span)?;
    // Where one of two statements makes sense, it is their disagreement that an author has to look at.
    if measure.statements().any(|stated| is_within(view, stated, &heated.possible) != Some(false)) {
        return None;
    }
    let written = words::plain(recipe.at(measure.span));
    let celsius = celsius(view, &measure.stated)?;
    let [too_hot, too_cold] = heated.limits;
    let (why, limit) = if celsius.least > *heated.possible.end() {
        (too_hot, heated.possible.end())
    } else {
        (too_cold, heated.possible.start())
    };
    let meant = meant(view, measure, heated);
    let guess =
        meant.as_ref().map_or("Correct the figure or its scale.".to_owned(), |(_, text)| format!("Is {text} meant?"));
    let message = format!(
        "{} at {written}: {why} {}°C ({}°F). {guess}",
        words::sentence(heated.name),
        print_decimal(*limit),
        print_decimal((limit * 1.8 + 32.0).round()),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, measure.span, message).certainty(Certainty::Likely);
    Some(match meant {
        Some((edit, text)) => found.fix(Fix::new(format!("Write {text}"), vec![edit])),
        None => found,
    })
}

/// What the sentence heats to the temperature at `span`: what is named nearest to it.
fn what_is_heated(recipe: &Recipe, span: Span) -> Option<&'static Heated> {
    let sentence = around::sentence(recipe, span);
    let before = around::words_in(recipe, Span::new(sentence.start, span.start));
    let behind = around::words_in(recipe, Span::new(span.end, sentence.end));
    let distance = |heated: &Heated| {
        let named = |word: &Cow<'_, str>| heated.words.contains(word);
        let (before, behind) = (before.iter().rev().position(named), behind.iter().position(named));
        // At the same distance the word before has the better claim.
        before.map(|at| 2 * at).into_iter().chain(behind.map(|at| 2 * at + 1)).min()
    };
    let named: Vec<(usize, &Heated)> = HEATED.iter().filter_map(|heated| Some((distance(heated)?, heated))).collect();
    let oven = named.iter().any(|(_, heated)| heated.yields_to == YieldsTo::Nothing);
    let yields = |heated: &Heated| match heated.yields_to {
        YieldsTo::Nothing => false,
        YieldsTo::Oven => oven,
        YieldsTo::Anything => named.len() > 1,
    };
    let nearest = named.iter().filter(|(_, heated)| !yields(heated)).min_by_key(|(distance, _)| *distance);
    let (_, heated) = *nearest?;
    let explained = before.iter().chain(&behind).any(|word| heated.unless.contains(word));
    (!explained).then_some(heated)
}

/// Whether a stated temperature lies, if only at one end, within a range of °C.
fn is_within(view: &View<'_>, stated: &Stated, range: &RangeInclusive<f64>) -> Option<bool> {
    let celsius = celsius(view, stated)?;
    Some(celsius.overlaps(&Interval::between(*range.start(), *range.end())))
}

fn celsius(view: &View<'_>, stated: &Stated) -> Option<Interval> {
    match stated.quantity(&view.house.measures)? {
        Quantity::Temperature(heat) => Some(heat.map(|heat| heat.get::<degree_celsius>())),
        _ => None,
    }
}

/// What was likely meant: the same number of the other scale, or a zero more or less. Only for a temperature that stands alone.
fn meant(view: &View<'_>, measure: &Measure, heated: &Heated) -> Option<(Edit, String)> {
    let ([term], []) = (measure.stated.terms.as_slice(), measure.restated.as_slice()) else { return None };
    let (amount, unit) = (term.amount()?, term.unit?);
    let recipe = view.recipe;
    let other = match amount.unit? {
        Unit::DegreeFahrenheit => Unit::DegreeCelsius,
        Unit::DegreeCelsius => Unit::DegreeFahrenheit,
        _ => return None,
    };
    let fits = |amount: &Amount| match amount.quantity(&view.house.measures) {
        Quantity::Temperature(heat) => {
            let celsius = heat.map(|heat| heat.get::<degree_celsius>());
            heated.usual.contains(&celsius.least) && celsius.most.is_some_and(|most| heated.usual.contains(&most))
        }
        _ => false,
    };
    if fits(&Amount::new(amount.number, Some(other))) {
        let letter = recipe.at(unit).chars().count() == 1;
        let symbol = if letter { other.symbol().trim_start_matches('°') } else { other.symbol() };
        return Some(edited(recipe, measure, unit, symbol));
    }
    [10.0, 0.1].into_iter().find_map(|times| {
        let number = amount.number.map(|number| (number * times).round());
        let exact = number.is_exact() && fits(&Amount::new(number, amount.unit));
        exact.then(|| edited(recipe, measure, term.number, &print_decimal(number.least)))
    })
}

/// The edit, and the measure as it then reads.
fn edited(recipe: &Recipe, measure: &Measure, place: Span, text: &str) -> (Edit, String) {
    let edit = Edit::replace(place, text);
    let before = Span::new(measure.stated.span.start, place.start).of(&recipe.text);
    let behind = Span::new(place.end, measure.stated.span.end).of(&recipe.text);
    let reads = words::plain(&format!("{before}{text}{behind}"));
    (edit, reads)
}
