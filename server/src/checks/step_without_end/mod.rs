//! `step-without-end`: something is baked, simmered or fried, and nothing says for how long or until what.

use super::{Check, Finding, Fix, Severity, View, finding::Certainty, support::words};
use crate::{
    recipe::{
        Recipe,
        clock::{Act, ActKind},
        language::token::TokenKind,
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "step-without-end", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let acts = &view.recipe.clock.acts;
    let open = acts.iter().filter(|act| act.kind.cooks() && !act.ends && !act.perhaps);
    out.extend(open.filter(|act| !ends_of_itself(view.recipe, act)).map(|act| finding(view.recipe, act)));
}

fn finding(recipe: &Recipe, act: &Act) -> Finding {
    let verb = recipe.at(act.span).to_lowercase();
    let message = format!(
        "{}: for how long, or until what? Who has never made it cannot see when to stop. Give a time, a cue to look for, or both.",
        words::sentence(&verb),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, act.span, message).certainty(Certainty::Likely);
    let Some(end) = end_of_sentence(recipe, act) else { return found };
    cues(act.kind).iter().fold(found, |found, cue| {
        found.fix(Fix::new(format!("Add “until {cue}”"), vec![Edit::insert(end, format!(" until {cue}"))]))
    })
}

/// What to look for (common practice, no source); its author chooses.
fn cues(kind: ActKind) -> &'static [&'static str] {
    match kind {
        ActKind::Bake | ActKind::Roast | ActKind::Broil | ActKind::Grill | ActKind::Fry => {
            &["browned", "cooked through"]
        }
        ActKind::Saute => &["soft", "browned"],
        ActKind::Reduce => &["reduced by half", "thickened"],
        ActKind::Simmer | ActKind::Stew | ActKind::Braise => &["tender", "thickened"],
        _ => &["tender", "cooked through"],
    }
}

/// Where the sentence of an act ends, before its full stop, where the act is what it ends with.
fn end_of_sentence(recipe: &Recipe, act: &Act) -> Option<usize> {
    let acts = recipe.clock.acts_of(act.step).filter(|other| other.sentence == act.sentence);
    let last = acts.last().is_some_and(|last| last.span == act.span);
    let text = recipe.at(act.sentence);
    let words = text.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, '.' | '!' | ';' | ','));
    (last && !words.ends_with([')', ']', ':'])).then(|| act.sentence.start + words.len())
}

/// Whether nothing has to end: water that is boiled, a pan that is got going, eggs that are hard-boiled.
fn ends_of_itself(recipe: &Recipe, act: &Act) -> bool {
    let tokens = recipe.steps.get(act.step).map_or(&[][..], |step| &step.tokens);
    let Some(at) = tokens.iter().position(|token| token.span == act.span) else { return true };
    let before = at.checked_sub(1).and_then(|before| tokens.get(before));
    let behind = tokens.get(at + 1..).unwrap_or_default();
    let object = behind.iter().take_while(|token| !matches!(token.kind, TokenKind::Comma | TokenKind::Stop));
    let object: Vec<_> = object.take(7).collect();
    let begun = before.is_some_and(|before| before.one_of(&["start", "begin", "hard", "soft", "finish", "resume"]));
    let liquid = matches!(act.kind, ActKind::Boil | ActKind::Cook)
        && object.iter().any(|token| token.one_of(&["water", "kettle", "milk", "liquid"]))
        && !object.iter().any(|token| token.one_of(&["in", "with"]));
    // "Roast the garlic: wrap it in foil …" tells what is about to be told.
    let mark = behind
        .iter()
        .find(|token| !matches!(token.kind, TokenKind::Word | TokenKind::Measure(_) | TokenKind::Mention(_)));
    let heading = mark.is_some_and(|mark| mark.kind == TokenKind::Pause && recipe.at(mark.span) == ":");
    begun || liquid || heading
}
