//! `form-disagrees`: the list has it in one form, and a step asks for another.

use std::borrow::Cow;

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{orders, shares, words},
};
use crate::{
    larder::words::fold,
    recipe::{
        Ingredient, Recipe,
        language::{clause::Sense, lexicon::Roles, token::TokenKind},
        mentions::{Link, Mention, Target},
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "form-disagrees", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

/// Forms that no food has at once, each pair both ways, with the words of a step that make the second of the first; folded. Common
/// practice, no source.
const OPPOSITE: &[(&str, &str, &[&str])] = &[
    ("fresh", "dried", &["dry", "dehydrate", "hang"]),
    ("dried", "fresh", &[]),
    (
        "whole",
        "ground",
        &["grind", "grinder", "mortar", "pestle", "crush", "pound", "mill", "process", "blend", "pulse"],
    ),
    ("ground", "whole", &[]),
    ("salted", "unsalted", &[]),
    ("unsalted", "salted", &["salt"]),
    ("sweetened", "unsweetened", &[]),
    ("unsweetened", "sweetened", &["sweeten", "sugar", "honey", "syrup"]),
    ("fresh", "frozen", &["freeze", "freezer"]),
    ("frozen", "fresh", &[]),
    ("canned", "dried", &[]),
    ("dried", "canned", &[]),
    ("boneless", "bone-in", &[]),
    ("bone-in", "boneless", &["bone", "debone", "remove", "cut"]),
    ("skinless", "skin-on", &[]),
    ("skin-on", "skinless", &["skin", "remove", "peel"]),
];

/// What the list says and the step does not, and what mends it.
struct Fault {
    listed: &'static str,
    asked: &'static str,
    /// Where a step says what it asks for in a word that the list's can stand for.
    word: Option<Span>,
}

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for mention in &recipe.flow.mentions {
        let [Target::Ingredient(index, _)] = mention.targets.as_slice() else { continue };
        let Some(line) = recipe.ingredient(*index).filter(|line| !line.alternatives) else { continue };
        if mention.sense == Sense::Use && mention.link <= Link::Part {
            let fault = form(recipe, line, mention)
                .or_else(|| taken_apart(recipe, line, mention))
                .or_else(|| with_juice(recipe, line, mention))
                .filter(|_| !is_open(recipe, mention));
            out.extend(fault.map(|fault| finding(recipe, line, mention, &fault)));
        }
    }
}

/// "If you use dried thyme, take a third of it."
fn is_open(recipe: &Recipe, mention: &Mention) -> bool {
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    sentence.iter().any(|token| token.one_of(&["if", "or", "instead", "optional"]))
}

/// Whether the line says so, in the name or behind it.
fn says(recipe: &Recipe, line: &Ingredient, word: &str) -> bool {
    place(recipe, line.span, word).is_some()
}

/// Where this folded word stands in a stretch of text.
fn place(recipe: &Recipe, within: Span, word: &str) -> Option<Span> {
    written(recipe, within).find(|(own, _)| fold(own) == word).map(|(_, span)| span)
}

/// The words of a stretch of text, hyphens inside them included, and where each stands.
fn written(recipe: &Recipe, within: Span) -> impl Iterator<Item = (&str, Span)> {
    let mut start = within.start;
    recipe.at(within).split_inclusive(|c: char| !(c.is_alphabetic() || c == '-')).map(move |piece| {
        let own = piece.trim_end_matches(|c: char| !(c.is_alphabetic() || c == '-'));
        let span = Span::new(start, start + own.len());
        start += piece.len();
        (own, span)
    })
}

/// "Fresh" in the list, "dried" before the name in the step; or the other way round.
fn form(recipe: &Recipe, line: &Ingredient, mention: &Mention) -> Option<Fault> {
    let before = orders::words_before(recipe, mention).take(2).map(|token| (Cow::Borrowed(&*token.fold), token.span));
    let own = written(recipe, mention.span).map(|(word, span)| (fold(word), span));
    let is_form = |word: &str| OPPOSITE.iter().any(|(_, asked, _)| *asked == word);
    let own: Vec<(Cow<'_, str>, Span)> = before.chain(own).filter(|(word, _)| is_form(word)).collect();
    if own.is_empty() {
        return None;
    }
    let asks = |word: &str| own.iter().find(|(own, _)| own == word).map(|(_, span)| *span);
    OPPOSITE.iter().find_map(|(listed, asked, become_so)| {
        let word = asks(asked).filter(|_| asks(listed).is_none())?;
        let differs = says(recipe, line, listed) && !says(recipe, line, asked);
        (differs && !has_become_so(recipe, mention, become_so)).then_some(Fault { listed, asked, word: Some(word) })
    })
}

/// Whether the method has made it so before: ground the whole cumin, frozen the fresh berries.
fn has_become_so(recipe: &Recipe, mention: &Mention, verbs: &[&str]) -> bool {
    let tokens = recipe.steps.iter().take(mention.step + 1).flat_map(|step| &step.tokens);
    tokens.take_while(|token| token.span.start < mention.span.start).any(|token| token.one_of(verbs))
}

/// "1 egg, beaten" in the list, "separate the egg" in the step.
fn taken_apart(recipe: &Recipe, line: &Ingredient, mention: &Mention) -> Option<Fault> {
    if !line.names.iter().filter_map(|name| name.food).any(|food| food.is("egg")) {
        return None;
    }
    let verb = orders::words_before(recipe, mention).find(|token| !token.is(Roles::SMALL))?;
    let listed = || ["beaten", "whisked"].into_iter().find(|word| says(recipe, line, word));
    let listed = if verb.word("separate") { listed()? } else { return None };
    Some(Fault { listed, asked: "whole, to take apart", word: None })
}

/// "1 can tomatoes, drained" in the list, "the tomatoes and their juice" in the step.
fn with_juice(recipe: &Recipe, line: &Ingredient, mention: &Mention) -> Option<Fault> {
    let [and, their, juice, ..] = orders::behind(recipe, mention) else { return None };
    let with = and.one_of(&["and", "with"]) || and.kind == TokenKind::And;
    let juice = with && their.one_of(&["their", "its"]) && juice.one_of(&["juice", "liquid", "brine"]);
    let kept = || ["reserved", "saved", "kept", "undrained"].into_iter().any(|word| says(recipe, line, word));
    let asked = if their.word("its") { "with its juice" } else { "with their juice" };
    (juice && says(recipe, line, "drained") && !kept()).then_some(Fault { listed: "drained", asked, word: None })
}

fn finding(recipe: &Recipe, line: &Ingredient, mention: &Mention, fault: &Fault) -> Finding {
    let Fault { listed, asked, word } = fault;
    let written = words::ingredient(recipe, line);
    let food = line.names.first().and_then(|name| name.food).filter(|_| written.contains(listed));
    let name = food.map_or(written, |food| food.name.to_owned());
    let message = format!(
        "The list has the {name} {listed}, and {} wants {it} {asked}. Whoever has bought or prepared {it} by the list cannot \
         do that: make the two agree.",
        words::step(recipe, mention.step),
        it = words::it(&name),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, mention.span, message).certainty(Certainty::Likely);
    let write = |place: &str, at: Option<Span>, word: &str| {
        let edits = at.map(|at| Edit::replace(at, word)).into_iter().collect();
        Fix::new(format!("Write “{word}” in the {place}"), edits)
    };
    let own = word.and_then(|_| place(recipe, line.span, listed));
    found.related(line.mark, "listed here").fix(write("step", *word, listed)).fix(write("list", own, asked))
}
