//! `ingredient-unlisted`: a step uses it, and the list does not have it.

mod unmade;

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, order, shares, words},
};
use crate::{
    larder::{Food, spelling, words::fold},
    measure::UnitKind,
    recipe::{
        Recipe,
        mentions::{Share, Unlisted},
    },
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
    let mut foods: Vec<(String, Vec<&Unlisted>, Severity)> = Vec::new();
    for unlisted in recipe.flow.unlisted.iter().filter(|unlisted| unlisted.ties.is_empty()) {
        let Some(severity) = severity(view, unlisted) else { continue };
        let written = || fold_all(recipe.at(name(recipe, unlisted)));
        let key = unlisted.food.map_or_else(written, |food| food.name.to_owned());
        match foods.iter_mut().find(|(held, ..)| *held == key) {
            Some((_, places, held)) => {
                places.push(unlisted);
                *held = severity.min(*held);
            }
            None => foods.push((key, vec![unlisted], severity)),
        }
    }
    out.extend(foods.iter().filter_map(|(_, places, severity)| finding(view, places, *severity)));
    out.extend(unmade::findings(recipe));
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
        _ if is_for_the_table(view.recipe, unlisted) => (!is_drunk_with_it(unlisted)).then_some(Severity::Hint),
        Unlisted { added: true, .. } => Some(Severity::Info),
        _ if is_definite(view.recipe, unlisted) => Some(Severity::Info),
        _ => None,
    }
}

/// "Warm the honey": as if it stood on the table. What a kitchen makes, like the bread or the sauce, may stand there, and what is
/// kept or thrown away has come off something else.
fn is_definite(recipe: &Recipe, unlisted: &Unlisted) -> bool {
    const MADE: &[&str] = &[
        "bread", "cake", "cookie", "pastry", "dough", "sauce", "dressing", "icing", "stock", "jam", "juice", "crumb",
        "pickle",
    ];
    let made = |food: &Food| food.name.ends_with("syrup") || MADE.iter().any(|kind| food.is(kind));
    let made = unlisted.food.is_none_or(made);
    let sentence = shares::sentence(recipe, unlisted.step, unlisted.span);
    let before = sentence.iter().take_while(|token| token.span.start < unlisted.span.start).last();
    let by_product =
        sentence.iter().any(|token| token.one_of(&["save", "reserve", "keep", "discard", "compost", "strain"]));
    !made && !by_product && before.is_some_and(|before| before.word("the"))
}

/// Whether nobody has to list it: water and ice, a pinch of salt or pepper, what keeps things from sticking, and what the house
/// has in its cupboard.
fn needs_no_line(view: &View<'_>, food: &Food, loose: bool) -> bool {
    let seasoning = food.is("salt") || food.name == "salt" || food.name.ends_with("pepper") && food.is("seasoning");
    food.is("water")
        || ["water", "ice", "cooking spray"].contains(&food.name)
        || seasoning && loose
        || view.house.exempts(food)
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

/// Whether it is only what the dish goes to the table with: "serve over noodles", "pass the hot sauce". Cooks take it as advice.
fn is_for_the_table(recipe: &Recipe, unlisted: &Unlisted) -> bool {
    const SERVES: &[&str] =
        &["serve", "served", "serving", "eat", "enjoy", "pass", "offer", "garnish", "accompany", "alongside"];
    let sentence = shares::sentence(recipe, unlisted.step, unlisted.span);
    sentence.iter().take_while(|token| token.span.start < unlisted.span.start).any(|token| token.one_of(SERVES))
}

/// "Enjoy with tea", "serve with a cold beer": nobody shops for that by the list.
fn is_drunk_with_it(unlisted: &Unlisted) -> bool {
    unlisted
        .food
        .is_some_and(|food| ["tea", "coffee", "wine", "beer", "cider", "alcohol"].iter().any(|kind| food.is(kind)))
}

/// Things in brackets that are no food: another check speaks of them.
fn names_a_tool(marked: &str) -> bool {
    let last = marked.trim_end_matches(']').rsplit(' ').next().unwrap_or_default();
    super::support::tools::is_tool(&fold(last.trim_start_matches('[')))
}

fn finding(view: &View<'_>, places: &[&Unlisted], severity: Severity) -> Option<Finding> {
    let recipe = view.recipe;
    let (unlisted, others) = places.split_first()?;
    let named = words::plain(recipe.at(name(recipe, unlisted)));
    let step = words::step(recipe, unlisted.step);
    let taken = match unlisted.measure.and_then(|index| recipe.measures.get(index)) {
        // "1/2 tsp of caraway seeds", but "2 eggs".
        Some(measure) if measure.stated.unit().is_some() => {
            format!("{} of {named}", words::plain(recipe.at(measure.span)))
        }
        Some(measure) => format!("{} {named}", words::plain(recipe.at(measure.span))),
        None => named.clone(),
    };
    let message = if unlisted.food.is_none() {
        format!(
            "Nothing in the list and no result before {step} is called “{named}”. Write it as the list does, or add it to \
             the list."
        )
    } else {
        format!(
            "{} uses {taken}, and the list has none. Whoever shops by the list will not have {it}: add {it} to the list.",
            words::sentence(&step),
            it = words::it(&named)
        )
    };
    let certainty = if unlisted.marked { Certainty::Sure } else { Certainty::Likely };
    let mut found = Finding::new(CHECK.code, severity, unlisted.span, message).certainty(certainty);
    for other in others {
        found = found.related(other.span, "used here too");
    }
    let fixes = meant(recipe, unlisted).into_iter().chain(add(view, places));
    Some(fixes.fold(found, Finding::fix))
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

/// A line of the list for it with all that the steps take of it, where the order of use puts it.
fn add(view: &View<'_>, places: &[&Unlisted]) -> Option<Fix> {
    let recipe = view.recipe;
    let unlisted = places.first()?;
    // Half of it, or the rest: nobody can say how much the list ought to have.
    let is_it = |other: &&Unlisted| other.food.zip(unlisted.food).is_some_and(|(other, own)| std::ptr::eq(other, own));
    let all = recipe.flow.unlisted.iter().filter(is_it).chain(places.iter().copied());
    if all
        .map(|place| recipe.share_at(place.step, place.span))
        .any(|share| matches!(share, Share::Fraction(..) | Share::Rest | Share::RestAmount(_) | Share::RestAgain))
    {
        return None;
    }
    let named = words::plain(recipe.at(name(recipe, unlisted)));
    // The step leaves the amount to the cook, and so must the list until somebody knows better.
    let line = amount(view, places).map_or_else(|| format!("{named}, as needed"), |amount| format!("{amount} {named}"));
    let edits = match order::beside_in_list(recipe, unlisted.step)? {
        (above, true) => list::insert_after(recipe, above.span, &line),
        (below, false) => list::insert_before(recipe, below.span, &line),
    };
    Some(Fix::new(format!("Add the {named} to the list"), edits))
}

/// What the list ought to have of it: the one amount as the step writes it, or the sum of several; nothing where a step gives
/// none, takes it of a larger amount, or where they cannot be added.
fn amount(view: &View<'_>, places: &[&Unlisted]) -> Option<String> {
    let recipe = view.recipe;
    // "1/4 cup of the cheese" takes some of an amount that nobody knows.
    let measure = |unlisted: &&Unlisted| {
        let measure = recipe.measures.get(unlisted.measure?)?;
        let between = Span::new(measure.span.end, name(recipe, unlisted).start);
        (!recipe.at(between).contains(" of the")).then_some(measure)
    };
    let all: Vec<_> = places.iter().map(measure).collect::<Option<_>>()?;
    if let [one] = all.as_slice() {
        return Some(words::plain(recipe.at(one.span)));
    }
    let house = &view.house.measures;
    let unit = all.first()?.stated.unit();
    let quantities: Option<Vec<_>> = all.iter().map(|measure| measure.stated.quantity(house)).collect();
    let sum = quantities?.into_iter().map(Some).reduce(|sum, next| sum?.plus(&next?)).flatten()?;
    words::quantity(view, &sum, unit)
}
