//! `oven-heated-unused`: an oven is heated and nothing goes in, or something is baked at another temperature than it was set to.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{around, oven, sentences, words},
};
use crate::{
    measure::UnitKind,
    recipe::{
        clock::{OvenEvent, OvenTurn},
        measures::Measure,
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "oven-heated-unused", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    out.extend(idle(view));
    out.extend(otherwise(view));
}

/// An oven that is heated for nothing.
fn idle(view: &View<'_>) -> Option<Finding> {
    let recipe = view.recipe;
    let events = &recipe.clock.oven;
    let heated = events.first().filter(|first| first.turn == OvenTurn::Heated)?;
    let only = events.iter().all(|event| event.turn == OvenTurn::Heated);
    // What is made of another recipe may be baked as it says.
    if !only || !recipe.references.is_empty() || is_for_later(view, heated) {
        return None;
    }
    let message = "The oven is heated and nothing goes into it: either the baking is missing, or the oven stays hot for nothing. Say \
                   what is baked, or leave this out.";
    let found = Finding::new(CHECK.code, CHECK.severity, heated.span, message).certainty(Certainty::Likely);
    let orders = recipe.clock.acts.iter().filter(|act| act.sentence == heated.sentence).count();
    let fix = Fix::new("Leave the oven cold", sentences::remove(recipe, heated.step, heated.sentence));
    Some(if orders == 1 { found.fix(fix) } else { found })
}

/// Whether a remark says what the oven is for, or leaves it to the cook.
fn is_for_later(view: &View<'_>, heated: &OvenEvent) -> bool {
    let conditional = view.recipe.clock.acts.iter().any(|act| act.sentence == heated.sentence && act.perhaps);
    // "Oven 400°F, 25 minutes": both in one.
    let timed = view
        .recipe
        .measures
        .iter()
        .any(|measure| heated.sentence.contains(measure.span) && measure.stated.kind() == Some(UnitKind::Time));
    conditional
        || timed
        || around::sentence_has(view.recipe, heated.span, &["if", "plate", "warm", "dry", "proof", "rise"])
}

/// What the oven is set to while the method is read.
#[derive(Clone, Copy)]
struct Set<'v> {
    /// The order that set it.
    by: &'v OvenEvent,
    /// How hot.
    heat: &'v Measure,
    /// Whether something has been in it since.
    used: bool,
}

/// Whatever is baked at another temperature than the oven was set to.
fn otherwise(view: &View<'_>) -> Vec<Finding> {
    let recipe = view.recipe;
    let mut out = Vec::new();
    let mut set: Option<Set<'_>> = None;
    for event in &recipe.clock.oven {
        let heat = oven::heat_of(recipe, event.heat).filter(|measure| oven::is_setting(view, measure));
        match event.turn {
            OvenTurn::Heated | OvenTurn::Changed => set = heat.map(|heat| Set { by: event, heat, used: false }),
            OvenTurn::Off => set = None,
            OvenTurn::MayBeUsed => {}
            OvenTurn::Used => {
                let before = set.zip(heat).filter(|(set, heat)| !oven::is_same(view, set.heat, heat));
                if let Some((set, heat)) = before.filter(|(set, _)| !is_meant(view, event) && !is_meant(view, set.by)) {
                    out.push(finding(view, set, event, heat));
                }
                // From here on the oven is taken to be as it is said last.
                set = match (heat, set) {
                    (Some(heat), _) => Some(Set { by: event, heat, used: true }),
                    (None, set) => set.map(|set| Set { used: true, ..set }),
                };
            }
        }
    }
    out
}

/// Words of a sentence that knows of several temperatures: one for each kind of oven, or one after the other.
const MEANT: &[&str] = &[
    "then",
    "fan",
    "convection",
    "conventional",
    "first",
    "last",
    "finish",
    "broil",
    "broiler",
    "other",
    "second",
    "two",
    "both",
    "if",
    "or",
    "lower",
    "reduce",
    "reducing",
    "raise",
    "increase",
    "turn",
    "down",
    "up",
    "another",
    "separate",
    "toaster",
    "between",
    "range",
    "depending",
];

fn is_meant(view: &View<'_>, event: &OvenEvent) -> bool {
    let perhaps = event.act.and_then(|act| view.recipe.clock.acts.get(act)).is_some_and(|act| act.perhaps);
    perhaps || around::sentence_has(view.recipe, event.span, MEANT)
}

fn finding(view: &View<'_>, set: Set<'_>, event: &OvenEvent, heat: &Measure) -> Finding {
    let recipe = view.recipe;
    let (is, was) = (oven::written(recipe, heat), oven::written(recipe, set.heat));
    let place = words::step(recipe, set.by.step);
    let hotter = oven::is_hotter(view, heat, set.heat);
    let found = if set.used {
        let turn = if hotter { "up" } else { "down" };
        let message = format!(
            "The oven is still at {was} from {place}, and nobody is told to turn it {turn} to {is}. It takes some minutes to get \
             there: say when."
        );
        let order = format!("Turn the oven {turn} to {is}.");
        let edit = Edit::insert(event.sentence.start, format!("{order} "));
        Finding::new(CHECK.code, Severity::Info, oven::place(heat), message)
            .fix(Fix::new(format!("Write “{order}”"), vec![edit]))
    } else {
        let message = format!(
            "{} heats the oven to {was}, and this goes in at {is}. One of the two is wrong, or the change is not said; the cook \
             {}.",
            words::sentence(&place),
            if hotter { "takes out something pale and raw" } else { "takes out something burnt" },
        );
        let replace = |measure: &Measure, text: &str| vec![Edit::replace(oven::place(measure), text)];
        Finding::new(CHECK.code, CHECK.severity, oven::place(heat), message)
            .fix(Fix::new(format!("Heat the oven to {is} in {place}"), replace(set.heat, &is)))
            .fix(Fix::new(format!("Write {was} here"), replace(heat, &was)))
    };
    found.related(oven::place(set.heat), "The oven is set here.").certainty(Certainty::Likely)
}
