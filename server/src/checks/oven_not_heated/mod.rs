//! `oven-not-heated`: something is baked in an oven that no step heats, or of which nothing says how hot it is.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{bracket::Place, oven, sentences, steps, waits, words},
};
use crate::{
    larder::words::fold,
    recipe::{
        Recipe, SectionKind,
        clock::{ActKind, OvenEvent, OvenTurn, names_another},
        measures::{Measure, Place as Stands},
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "oven-not-heated", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let events = &recipe.clock.oven;
    let heated = events.iter().any(|event| event.turn == OvenTurn::Heated || event.preheated);
    let said = events.iter().any(|event| event.heat.is_some());
    if heated && said {
        return;
    }
    let uses = events.iter().filter(|event| event.turn == OvenTurn::Used && !is_for_some(recipe, event));
    let mut uses = uses.filter(|event| (event.certain || event.heat.is_some()) && !is_elsewhere(recipe, event));
    let Some(first) = uses.next() else { return };
    if events.iter().any(|event| event.in_words) || is_done_otherwise(recipe) {
        return;
    }
    out.extend(match events.iter().find_map(|event| setting(view, event)) {
        Some(heat) => (!heated).then(|| late(view, first, heat)),
        None => (!said && !is_said_beside(view)).then(|| unsaid(view, first, heated)),
    });
}

/// The temperature is said where something is baked, but nobody is told to heat the oven before.
fn late(view: &View<'_>, first: &OvenEvent, heat: &Measure) -> Finding {
    let recipe = view.recipe;
    let written = oven::written(recipe, heat);
    let message = format!(
        "Nothing says to heat the oven before {}. A cook who reads {written} only here stands with a filled pan before a cold \
         oven for a quarter of an hour. Say it first: heat the oven to {written}.",
        words::step(recipe, first.step),
    );
    let found = Finding::new(CHECK.code, Severity::Info, first.span, message).certainty(Certainty::Likely);
    let sentence = format!("Heat the oven to {written}.");
    found.fix(Fix::new(format!("Add the step “{sentence}”"), place(view, first, &sentence)))
}

/// Nothing says how hot the oven is.
fn unsaid(view: &View<'_>, first: &OvenEvent, heated: bool) -> Finding {
    let act = first.act.and_then(|act| view.recipe.clock.acts.get(act)).map(|act| act.kind);
    let does = if act == Some(ActKind::Roast) { "roasts" } else { "bakes" };
    let step = words::sentence(&words::step(view.recipe, first.step));
    let message = if heated {
        format!(
            "{step} {does}, and nothing says how hot the oven is. 25°C too much or too little spoils it: give the temperature."
        )
    } else {
        format!(
            "{step} {does} in an oven that no step heats, and nothing says how hot. Give the temperature, and say when to heat it."
        )
    };
    Finding::new(CHECK.code, CHECK.severity, first.span, message).certainty(Certainty::Likely)
}

/// The new step goes first, but not before hours in which something only rises or chills.
fn place(view: &View<'_>, first: &OvenEvent, sentence: &str) -> Vec<Edit> {
    let recipe = view.recipe;
    let waits = recipe.clock.acts.iter().filter(|act| act.span.start < first.span.start && waits::is_long(act));
    match waits.map(|act| act.step).next_back() {
        Some(step) if step + 1 < first.step => steps::insert(recipe, Place::After(step), sentence),
        Some(step) if step < first.step => steps::insert(recipe, Place::Before(first.step), sentence),
        Some(_) => Vec::new(),
        None => sentences::first(recipe, sentence),
    }
}

/// The oven's setting that belongs to an event.
fn setting<'r>(view: &View<'r>, event: &OvenEvent) -> Option<&'r Measure> {
    oven::heat_of(view.recipe, event.heat).filter(|measure| oven::is_setting(view, measure))
}

fn is_for_some(recipe: &Recipe, event: &OvenEvent) -> bool {
    event.act.and_then(|act| recipe.clock.acts.get(act)).is_some_and(|act| act.perhaps)
}

/// What bakes without an oven, or in one that needs no heating beforehand.
const DEVICES: &[&str] = &[
    "microwave",
    "grill",
    "barbecue",
    "bbq",
    "smoker",
    "fryer",
    "airfryer",
    "cooker",
    "crockpot",
    "machine",
    "maker",
    "toaster",
    "waffle",
    "griddle",
    "campfire",
    "coal",
    "ember",
    "ash",
    "clay",
    "fire",
    "tandoor",
    "panini",
    "dutch",
    "hearth",
    "rotisserie",
    "roaster",
    "solar",
];

/// Words that send the cook elsewhere for how it is baked.
const ELSEWHERE: &[&str] = &[
    "direction",
    "directed",
    "instruction",
    "instructed",
    "described",
    "usual",
    "usually",
    "package",
    "packet",
    "packaging",
    "label",
    "recipe",
    "according",
    "page",
    "frozen",
];

/// Whether the place of use says that it is baked in something else, or as is said elsewhere.
fn is_elsewhere(recipe: &Recipe, event: &OvenEvent) -> bool {
    let Some(step) = recipe.steps.get(event.step) else { return true };
    let inside = |words: &[&str], span: Span| words_of(recipe, span).iter().any(|word| words.contains(&word.as_str()));
    let heading = step.group.and_then(|group| recipe.groups.get(group));
    let referred = recipe.references.iter().any(|reference| event.sentence.contains(reference.span));
    referred
        || inside(ELSEWHERE, event.sentence)
        || inside(DEVICES, step.body)
        || heading.is_some_and(|heading| inside(DEVICES, heading.name))
}

/// Whether the whole recipe is for another device.
fn is_done_otherwise(recipe: &Recipe) -> bool {
    let named = |span: Span| words_of(recipe, span).iter().any(|word| DEVICES.contains(&word.as_str()));
    recipe.title.is_some_and(named)
        || recipe.equipment.iter().any(|line| named(line.span))
        || recipe.steps.iter().any(|step| names_another(&step.tokens))
}

fn words_of(recipe: &Recipe, span: Span) -> Vec<String> {
    let words = recipe.at(span).split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(|word| fold(word).into_owned()).collect()
}

/// Whether a header, the headnote or the notes give an oven's temperature.
fn is_said_beside(view: &View<'_>) -> bool {
    let recipe = view.recipe;
    let prose = recipe.measures.iter().filter(|measure| matches!(measure.place, Stands::Prose | Stands::Header(_)));
    let in_notes = recipe.sections.iter().any(|section| {
        section.kind == SectionKind::Prose && words_of(recipe, section.span).iter().any(|word| word == "oven")
    });
    prose.into_iter().any(|measure| oven::is_setting(view, measure)) || in_notes
}
