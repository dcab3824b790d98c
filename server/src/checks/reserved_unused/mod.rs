//! `reserved-unused`: a step keeps some of the water back, and no later step uses it.

use super::{Check, Finding, Severity, View, finding::Certainty, support::words};
use crate::{
    recipe::{
        Recipe, Step,
        language::{
            clause::sentences,
            token::{Token, TokenKind},
        },
    },
    text::{Span, Words},
};

/// The check.
pub const CHECK: Check =
    Check { code: "reserved-unused", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// What comes off other things while they cook, folded.
const BY_PRODUCTS: Words = Words::new("water liquid juice liquor broth syrup brine marinade fat dripping");
/// Words with which a step uses it without its name.
const USES: Words =
    Words::new("reserved saved moisten loosen thin dilute baste basting brush deglaze gravy sauce glaze adjust pour");
/// Words with which it is kept for another day.
const FOR_LATER: Words = Words::new("another later stock soup freeze freezer refrigerate future other needed");

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, step) in recipe.steps.iter().enumerate() {
        for sentence in sentences(&step.tokens) {
            let Some(tokens) = step.tokens.get(sentence.start..sentence.end) else { continue };
            let Some((span, noun, end)) = reserves(tokens) else { continue };
            let rest = step.tokens.get(sentence.start + end..).unwrap_or_default();
            let later = recipe.steps.iter().skip(index + 1).flat_map(|step| &step.tokens);
            let used = rest.iter().chain(later).any(|token| token.word(noun) || token.one_among(&USES));
            let for_later = tokens.iter().any(|token| token.one_among(&FOR_LATER));
            if !used && !for_later && !names_it(step) && !recipe.steps.iter().skip(index).any(names_it) {
                out.push(finding(recipe, index, span));
            }
        }
    }
}

/// "Reserve 1/2 cup of the cooking liquid": where it stands, the noun, and the token behind it.
fn reserves(tokens: &[Token]) -> Option<(Span, &str, usize)> {
    let at = tokens.iter().position(|token| token.one_of(&["reserve", "save", "reserving", "saving"]))?;
    let phrase = tokens.iter().enumerate().skip(at + 1).take(8);
    let mut phrase = phrase
        .take_while(|(_, token)| matches!(token.kind, TokenKind::Word | TokenKind::Measure(_) | TokenKind::Number));
    let (end, noun) = phrase.find(|(_, token)| token.one_among(&BY_PRODUCTS))?;
    let first = tokens.get(at)?;
    Some((first.span.joined(noun.span), &noun.fold, end + 1))
}

/// Whether the step names what it makes: other checks follow that.
fn names_it(step: &Step) -> bool {
    !step.results.is_empty()
}

fn finding(recipe: &Recipe, step: usize, span: Span) -> Finding {
    let kept = words::plain(recipe.at(span));
    let what = kept.split_once(' ').map_or(&*kept, |(_, what)| what);
    let message = format!(
        "{} keeps back {what}, and no step uses it. A cook stands there with a full cup: say what it is for, or let it go.",
        words::sentence(&words::step(recipe, step)),
    );
    Finding::new(CHECK.code, CHECK.severity, span, message).certainty(Certainty::Likely)
}
