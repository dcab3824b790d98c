//! `ingredient-unlisted`: a step uses it, and the list does not have it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, order, shares, words},
};
use crate::{
    larder::{Food, larder, spelling, words::fold},
    measure::UnitKind,
    recipe::{Recipe, mentions::Unlisted},
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "ingredient-unlisted", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.ingredients.is_empty() {
        return;
    }
    // Each food once, where the method first uses it; the other places belong to it.
    let mut first: Vec<(String, Finding)> = Vec::new();
    for unlisted in recipe.flow.unlisted.iter().filter(|unlisted| unlisted.ties.is_empty()) {
        let Some(severity) = severity(view, unlisted) else { continue };
        let key =
            unlisted.food.map_or_else(|| fold_all(recipe.at(name(recipe, unlisted))), |food| food.name.to_owned());
        match first.iter_mut().find(|(held, _)| *held == key) {
            Some((_, held)) => {
                held.severity = held.severity.min(severity);
                held.related.push((unlisted.span, "used here too".to_owned()));
            }
            None => first.push((key, finding(recipe, unlisted, severity))),
        }
    }
    out.extend(first.into_iter().map(|(_, finding)| finding));
}

fn fold_all(text: &str) -> String {
    text.split_whitespace().map(|word| fold(word).into_owned()).collect::<Vec<_>>().join(" ")
}

fn severity(view: &View<'_>, unlisted: &Unlisted) -> Option<Severity> {
    let measure = unlisted.measure.and_then(|index| view.recipe.measures.get(index));
    let loose = measure.is_none_or(|measure| measure.amount().is_none_or(|amount| amount.kind() == UnitKind::Loose));
    if unlisted.food.is_some_and(|food| needs_no_line(view, food, loose)) {
        return None;
    }
    match unlisted {
        Unlisted { marked: true, food: None, .. } if names_a_tool(view.recipe.at(unlisted.span)) => None,
        Unlisted { marked: true, .. } => Some(Severity::Error),
        Unlisted { food: None, .. } => None,
        _ if is_only_suggested(view.recipe, unlisted) => None,
        _ if !loose => Some(Severity::Warning),
        Unlisted { added: true, .. } => Some(Severity::Info),
        _ => None,
    }
}

/// Whether nobody has to list it: water and ice, a pinch of salt or pepper, what keeps things from sticking, and what the house
/// has in its cupboard.
fn needs_no_line(view: &View<'_>, food: &Food, loose: bool) -> bool {
    let seasoning = food.is("salt") || food.name == "salt" || food.name.ends_with("pepper") && food.is("seasoning");
    let own =
        |name: &String| larder().food(name).is_some_and(|own| std::ptr::eq(own, food)) || food.is(&fold_all(name));
    food.is("water")
        || ["water", "ice", "cooking spray"].contains(&food.name)
        || seasoning && loose
        || view.house.unlisted.iter().any(own)
}

/// Words of a sentence that says what one could do besides.
const SUGGESTS: &[&str] =
    &["if", "can", "could", "may", "might", "optional", "optionally", "desired", "like", "instead", "example"];

/// Whether prose names it only as something that one could add, or compares with it.
fn is_only_suggested(recipe: &Recipe, unlisted: &Unlisted) -> bool {
    let sentence = shares::sentence(recipe, unlisted.step, unlisted.span);
    let before = sentence.iter().take_while(|token| token.span.start < unlisted.span.start).last();
    sentence.iter().any(|token| token.one_of(SUGGESTS))
        || before.is_some_and(|before| before.one_of(&["as", "to", "or"]))
}

/// Things in brackets that are no food: another check speaks of them.
fn names_a_tool(marked: &str) -> bool {
    let last = marked.trim_end_matches(']').rsplit(' ').next().unwrap_or_default();
    super::support::tools::is_tool(&fold(last.trim_start_matches('[')))
}

fn finding(recipe: &Recipe, unlisted: &Unlisted, severity: Severity) -> Finding {
    let named = words::plain(recipe.at(name(recipe, unlisted)));
    let step = words::step(recipe, unlisted.step);
    let amount = unlisted.measure.and_then(|index| recipe.measures.get(index));
    let amount = amount.map(|measure| words::plain(recipe.at(measure.span)));
    let message = match &amount {
        Some(amount) => format!(
            "{} uses {amount} of {named}, and the list has none. Whoever shops by the list will not have it: add it to \
             the list.",
            words::sentence(&step)
        ),
        None if unlisted.food.is_none() => format!(
            "Nothing in the list and no result before {step} is called “{named}”. Write it as the list does, or add it to \
             the list."
        ),
        None => format!(
            "{} uses {named}, and the list has none. Whoever shops by the list will not have it: add it to the list.",
            words::sentence(&step)
        ),
    };
    let certainty = if unlisted.marked { Certainty::Sure } else { Certainty::Likely };
    let found = Finding::new(CHECK.code, severity, unlisted.span, message).certainty(certainty);
    let fixes = meant(recipe, unlisted).into_iter().chain(add(recipe, unlisted, amount.as_deref()));
    fixes.fold(found, Finding::fix)
}

/// The name without brackets and without what stands before it.
fn name(recipe: &Recipe, unlisted: &Unlisted) -> Span {
    recipe.mark_name(unlisted.step, unlisted.span).unwrap_or(unlisted.span)
}

/// A marked name that is nearly one of the list, or of a result: that one.
fn meant(recipe: &Recipe, unlisted: &Unlisted) -> Option<Fix> {
    let own = name(recipe, unlisted);
    let written = fold_all(recipe.at(own));
    if !unlisted.marked || written.chars().count() < 4 {
        return None;
    }
    let listed = recipe.ingredients.iter().flat_map(|line| &line.names).map(|name| words::plain(recipe.at(name.span)));
    let earlier = recipe.steps.get(..unlisted.step).unwrap_or_default();
    let results = earlier.iter().flat_map(|step| &step.results).map(|result| words::plain(recipe.at(result.span)));
    let near = listed.chain(results).filter_map(|name| {
        let slips = spelling::slips(&fold_all(&name), &written, 2)?;
        Some((slips, name))
    });
    let (_, name) = near.min_by_key(|(slips, _)| *slips)?;
    Some(Fix::new(format!("Write “{name}”"), vec![Edit::replace(own, name)]))
}

/// A line of the list for it, behind the line whose first use stands nearest before this one.
fn add(recipe: &Recipe, unlisted: &Unlisted, amount: Option<&str>) -> Option<Fix> {
    let named = words::plain(recipe.at(name(recipe, unlisted)));
    let line = amount.map_or_else(|| named.clone(), |amount| format!("{amount} {named}"));
    let mut uses = recipe.ingredients.iter().enumerate().filter_map(|(index, line)| {
        let found = order::first_sure_use(recipe, index)?;
        let mention = recipe.flow.mentions.get(found.mention)?;
        Some((mention.span.start, line))
    });
    let before = uses.clone().filter(|(at, _)| *at < unlisted.span.start).max_by_key(|(at, _)| *at);
    let edits = match before {
        Some((_, above)) => list::insert_after(recipe, above.span, &line),
        None => match uses.next() {
            Some((_, below)) => list::insert_before(recipe, below.span, &line),
            None => list::insert_after(recipe, recipe.ingredients.last()?.span, &line),
        },
    };
    Some(Fix::new(format!("Add the {named} to the list"), edits))
}
