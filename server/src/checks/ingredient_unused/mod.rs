//! `ingredient-unused`: the list has it, and no step uses it.

mod places;

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{bracket, likely::Likely, list, order, steps, words},
};
use crate::larder::larder;
use crate::recipe::{
    Ingredient, Recipe,
    language::{clause::Sense, lexicon::Roles, token::Token},
    mentions::{Link, Target, Unlisted},
};

/// The check.
pub const CHECK: Check =
    Check { code: "ingredient-unused", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.steps.is_empty() {
        return;
    }
    for (index, line) in recipe.ingredients.iter().enumerate() {
        let open = !line.tags.remark && !recipe.flow.is_used(index) && names_something(recipe, line);
        if open && !is_told_elsewhere(recipe, index, line) {
            out.push(finding(recipe, index, line));
        }
    }
}

/// Whether the line names anything yet. A mark alone and an amount alone are lines that are being typed; but what is a unit
/// elsewhere may be a food (`6 cloves`).
fn names_something(recipe: &Recipe, line: &Ingredient) -> bool {
    let amount = line.amount.and_then(|index| recipe.measures.get(index));
    let only_amount = amount.is_some_and(|amount| amount.stated.span.contains(line.mark));
    let known = line.names.iter().any(|name| name.food.is_some());
    recipe.at(line.mark).contains(char::is_alphabetic) && (known || !only_amount)
}

/// Whether another finding asks the same question: mentions that tie, enough of them for all that they may mean, or the same
/// line twice.
fn is_told_elsewhere(recipe: &Recipe, index: usize, line: &Ingredient) -> bool {
    let words = |line: &Ingredient| line.names.iter().map(|name| name.all_words.clone()).collect::<Vec<_>>();
    let twice = recipe.ingredients.iter().enumerate().any(|(other, same)| {
        other != index && same.group == line.group && words(same) == words(line) && recipe.flow.is_used(other)
    });
    if (line.tags.optional || line.tags.serving) && recipe.steps.iter().any(|step| garnishes(&step.tokens)) {
        return true;
    }
    let may_mean = |ties: &[Target]| ties.iter().any(|target| target.ingredient() == Some(index));
    let tied: Vec<&[Target]> =
        recipe.flow.unlisted.iter().map(|unlisted| &*unlisted.ties).filter(|ties| may_mean(ties)).collect();
    let idle = |ties: &&[Target]| {
        ties.iter().filter_map(|target| target.ingredient()).filter(|other| !recipe.flow.is_used(*other)).count()
    };
    twice || tied.first().is_some_and(|ties| idle(ties) <= tied.len())
}

/// "Add the garnish", "top with your toppings": what is optional or for the table may be that.
fn garnishes(tokens: &[Token]) -> bool {
    const BEFORE: &[&str] = &["add", "the", "any", "your", "with", "of", "desired", "favorite", "optional"];
    tokens.windows(2).any(|pair| match pair {
        [before, noun] => before.one_of(BEFORE) && noun.one_of(&["garnish", "topping", "accompaniment"]),
        _ => false,
    })
}

fn finding(recipe: &Recipe, index: usize, line: &Ingredient) -> Finding {
    let (evidence, severity, certainty) = grade(recipe, index, line);
    let name = words::ingredient(recipe, line);
    let message = match evidence {
        Evidence::None => format!(
            "No step uses the {}. Whoever cooks from the page has {it} left over when the dish is done: say what to do with \
             {it}, or take {it} off the list.",
            words::with_amount(recipe, line),
            it = words::it(&name)
        ),
        Evidence::AtTable => format!("No step says what to do with the {name}. A few words in the right place would."),
        Evidence::Everything => {
            let it = words::it(&name);
            format!("No step names the {name}; “everything” may mean {it} too. Name {it} in the step that uses {it}.")
        }
        Evidence::Implied(step) => format!(
            "No step names the {name}; {} may mean {it}, but a cook cannot be sure. Name {it} in the step that uses {it}.",
            words::step(recipe, step),
            it = words::it(&name)
        ),
    };
    let mut found = Finding::new(CHECK.code, severity, line.mark, message).certainty(certainty);
    let above = order::above(recipe, index);
    if let Some(mention) = above.and_then(|above| recipe.flow.mentions.get(above.mention)) {
        found = found.related(mention.span, "the line above it in the list is first used here");
    }
    fixes(recipe, index, line, severity).into_iter().fold(found, Finding::fix)
}

/// What speaks for the ingredient being used after all.
enum Evidence {
    /// Nothing.
    None,
    /// It is optional, for the table or for the pan.
    AtTable,
    /// "Mix everything" may mean it.
    Everything,
    /// A word for its kind, an act that needs such a food, or a cue that names it, in this step.
    Implied(usize),
}

fn grade(recipe: &Recipe, index: usize, line: &Ingredient) -> (Evidence, Severity, Certainty) {
    if line.tags.optional || line.tags.serving || line.tags.pan {
        return (Evidence::AtTable, Severity::Info, Certainty::Likely);
    }
    if recipe.flow.loosely_used(index) {
        return (Evidence::Everything, Severity::Info, Certainty::Guess);
    }
    if let Some(step) = may_be_called(recipe, line) {
        return (Evidence::Implied(step), Severity::Info, Certainty::Guess);
    }
    match implied(recipe, index, line) {
        Some(step) => (Evidence::Implied(step), Severity::Warning, Certainty::Guess),
        None => (Evidence::None, Severity::Error, Certainty::Sure),
    }
}

/// The first step that names a kind of food which the list lacks, where nobody knows what kind the line is of: "the pasta", for
/// a shape from another valley.
fn may_be_called(recipe: &Recipe, line: &Ingredient) -> Option<usize> {
    let unknown = line.names.iter().all(|name| name.food.is_none());
    let kind = |unlisted: &&Unlisted| {
        unlisted.measure.is_none() && unlisted.food.is_some_and(|food| larder().is_kind(food.name))
    };
    recipe.flow.unlisted.iter().find(kind).filter(|_| unknown).map(|unlisted| unlisted.step)
}

/// Acts that need a food of one of these kinds (common practice, no source). The words stand folded.
const ACTS: &[(&[&str], &[&str])] = &[
    (
        &["grease", "greased", "buttered", "oiled", "fry", "saute", "sauteed", "brown", "sear"],
        &["fat", "oil", "butter"],
    ),
    (&["floured", "dust", "dusted", "dredge", "thicken"], &["flour", "starch"]),
    (&["season", "seasoned"], &["seasoning", "salt", "spice", "herb"]),
    (&["garnish", "decorate", "sprinkle"], &["herb", "cheese", "nut", "topping"]),
    (&["sweeten"], &["sugar", "sweetener", "syrup"]),
    (&["boil", "soak", "dissolve", "cook", "simmer", "poach", "steam"], &["water"]),
];

/// Kinds of food that, alone, only say how something is: "if it gets too dry".
const HOW: &[&str] = &["dry", "wet"];

/// The first step with a word that may mean the ingredient though it has not been taken for a use of it.
fn implied(recipe: &Recipe, index: usize, line: &Ingredient) -> Option<usize> {
    let named = recipe.flow.mentions.iter().find(|mention| {
        mention.sense != Sense::Negated && mention.targets.iter().any(|target| target.ingredient() == Some(index))
    });
    if let Some(mention) = named {
        return Some(mention.step);
    }
    let foods = || line.names.iter().filter_map(|name| name.food);
    let kind = |kinds: &[&str]| foods().any(|food| kinds.iter().any(|kind| food.is(kind) || food.name == *kind));
    let means = |word: &str| {
        foods().any(|food| food.is(word)) || ACTS.iter().any(|(acts, kinds)| acts.contains(&word) && kind(kinds))
    };
    // "Soy sauce" is a sauce, and says by itself which.
    let named = |token: &Token| {
        recipe.flow.mentions.iter().any(|mention| mention.link <= Link::Part && mention.span.contains(token.span))
    };
    let may_mean = |token: &Token| {
        !token.is(Roles::SMALL) && !token.fold.is_empty() && !token.one_of(HOW) && means(&token.fold) && !named(token)
    };
    recipe.steps.iter().position(|step| step.tokens.iter().any(may_mean))
}

/// Lines of a list whose order is looked at for each line that is lost.
const LONGEST_LIST: usize = 60;

fn fixes(recipe: &Recipe, index: usize, line: &Ingredient, severity: Severity) -> Vec<Fix> {
    let name = words::ingredient(recipe, line);
    let mut out = Vec::new();
    let likely = Likely::of(recipe, index);
    // A list that goes in another order than the steps hurts less than a line that is lost, but as much as one that may be meant.
    // Of a list longer than a cook would read nobody asks; what a fix brings is tried before it is offered all the same.
    let as_light = severity >= Severity::Info
        && recipe.ingredients.len() <= LONGEST_LIST
        && !order::may_stand_anywhere(recipe, index);
    let placed = if as_light { order::placed(recipe, line.group) } else { Vec::new() };
    let fits = |place| !as_light || !order::is_upset_by(recipe, index, place, &placed);
    let last = recipe.steps.len().checked_sub(1).map(bracket::Place::After);
    let place = if line.tags.serving { None } else { likely.new_step(recipe, fits) };
    let place = place.or(last.filter(|last| fits(*last)));
    if let Some((place, marked)) = place.and_then(|place| Some((place, bracket::ingredient(recipe, index, place)?))) {
        let edits = steps::insert(recipe, place, &sentence(recipe, line, &marked, place));
        out.push(Fix::new(format!("Add a step that uses the {name}"), edits));
    }
    let steps = likely.steps().into_iter().filter(|step| fits(bracket::Place::In(*step)));
    out.extend(steps.filter_map(|step| places::name_in(recipe, index, step)));
    let named = recipe
        .flow
        .mentions
        .iter()
        .any(|mention| mention.targets.iter().any(|target| target.ingredient() == Some(index)));
    if !named && recipe.ingredients.len() > 1 {
        out.push(Fix::new(format!("Take the {name} off the list"), list::delete(recipe, line.span)));
    }
    out
}

/// The new step, in the words that a cook would use for such a food.
fn sentence(recipe: &Recipe, line: &Ingredient, marked: &str, place: bracket::Place) -> String {
    let food = line.names.first().and_then(|name| name.food);
    let is = |kinds: &[&str]| food.is_some_and(|food| kinds.iter().any(|kind| food.is(kind)));
    let says = |word: &str| recipe.at(line.span).to_lowercase().contains(word);
    if line.tags.serving {
        return format!("Serve with the {marked}.");
    }
    if line.tags.pan {
        return match () {
            () if says("fry") => format!("Heat the {marked} for frying."),
            () if is(&["flour", "starch"]) => format!("Dust the work surface with the {marked}."),
            () if is(&["fat", "oil", "butter"]) => format!("Grease the pan with the {marked}."),
            () => format!("Brush with the {marked}."),
        };
    }
    let begins = match place {
        bracket::Place::Before(step) => has_nothing_yet(recipe, step),
        bracket::Place::After(step) => has_nothing_yet(recipe, step + 1),
        bracket::Place::In(_) => false,
    };
    let order = match () {
        () if begins => format!("Put the {marked} in a bowl"),
        () if is(&["salt"]) || food.is_some_and(|food| food.name.ends_with("pepper") && food.is("seasoning")) => {
            format!("Season with the {marked}")
        }
        () if is(&["liquid", "wet", "flour", "starch"]) && !is(&["egg", "vegetable", "fruit"]) => {
            format!("Stir in the {marked}")
        }
        () => format!("Add the {marked}"),
    };
    if line.tags.optional { format!("{order}, if you like.") } else { format!("{order}.") }
}

/// Whether no step before this one has anything in a bowl or a pan.
fn has_nothing_yet(recipe: &Recipe, step: usize) -> bool {
    let puts = recipe.flow.mentions.iter().any(|mention| mention.step < step && mention.sense == Sense::Use);
    !puts && !recipe.flow.results.iter().any(|result| result.step < step)
}
