//! `part-unused`: the list takes a food apart, and one of the parts goes nowhere.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{bracket, words},
};
use crate::{
    larder::words::fold,
    recipe::{Ingredient, Part, Recipe, SectionKind, flow::Use},
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "part-unused", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// Parts that a cook has to find a use for (common practice, no source). Peel, pits and bones may go.
const WORTH_KEEPING: &[&str] = &["yolk", "white", "zest", "juice"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, line) in recipe.ingredients.iter().enumerate() {
        let mut wanted =
            line.parts.iter().filter(|part| WORTH_KEEPING.contains(&part.name) && belongs(line, part)).peekable();
        if wanted.peek().is_none() {
            continue;
        }
        let uses = recipe.flow.uses(index);
        // A mention of the whole food means its parts as well.
        if uses.is_empty() || uses.iter().any(|found| found.part.is_none()) {
            continue;
        }
        let idle =
            wanted.filter(|part| !uses.iter().any(|found| found.part == Some(part.name)) && !kept(recipe, part.name));
        out.extend(idle.map(|part| finding(recipe, line, part, &uses)));
    }
}

/// Whether the line lists the part, and does not only say which part of the food is meant (`white part only`).
fn belongs(line: &Ingredient, part: &Part) -> bool {
    let egg = matches!(part.name, "yolk" | "white");
    let food = line.names.first().and_then(|name| name.food);
    !egg || food.is_some_and(|food| food.part("yolk").is_some())
}

/// Whether headnote, notes or storage say what becomes of it.
fn kept(recipe: &Recipe, part: &str) -> bool {
    let prose = recipe.sections.iter().filter(|section| section.kind == SectionKind::Prose).map(|section| section.span);
    let says = |word: &str| {
        let word = fold(word);
        word == part || word.strip_suffix('s') == Some(part)
    };
    let mut texts = prose.chain(recipe.headnotes.iter().copied()).map(|span| recipe.at(span));
    texts.any(|text| text.split(|c: char| !c.is_alphanumeric()).any(says))
}

fn finding(recipe: &Recipe, line: &Ingredient, part: &Part, uses: &[Use]) -> Finding {
    let name = words::ingredient(recipe, line);
    let part_name = plural(part.name);
    let message = format!(
        "The list takes the {name} apart, but no step uses the {part_name}. A cook wants to know whether to keep or to bin \
         what is left: say so in the step."
    );
    let mut found = Finding::new(CHECK.code, CHECK.severity, part.span, message).certainty(Certainty::Likely);
    let last = uses.iter().filter_map(|found| recipe.flow.mentions.get(found.mention)).next_back();
    let Some(mention) = last else { return found };
    found = found.related(mention.span, "the other part is used here");
    let step = recipe.steps.get(mention.step);
    let place = bracket::Place::In(mention.step);
    let marked =
        bracket::only(recipe, place, &part_name, |target| target.ingredient() == uses_ingredient(recipe, line));
    match step.zip(marked) {
        Some((step, marked)) => {
            let text = format!(" Keep the {marked} for another use.");
            let title = format!("Say in {} that the {part_name} are kept", words::step(recipe, mention.step));
            found.fix(Fix::new(title, vec![Edit::insert(step.body.end, text)]))
        }
        None => found,
    }
}

fn uses_ingredient(recipe: &Recipe, line: &Ingredient) -> Option<usize> {
    recipe.ingredients.iter().position(|other| other.span == line.span)
}

fn plural(part: &str) -> String {
    if matches!(part, "yolk" | "white") { format!("{part}s") } else { part.to_owned() }
}
