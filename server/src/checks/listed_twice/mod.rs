//! `listed-twice`: the same ingredient stands twice in one list.

use smol_str::SmolStr;

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, words},
};
use crate::{
    recipe::{
        Ingredient, Name, Recipe, Tags,
        language::lexicon::{Roles, roles},
        measures::{Measure, Stated},
    },
    text::{Edit, Span},
};

/// The check.
pub const CHECK: Check =
    Check { code: "listed-twice", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let lines = &view.recipe.ingredients;
    for (index, line) in lines.iter().enumerate() {
        let first = lines.iter().take(index).find(|other| are_one(view.recipe, other, line));
        out.extend(first.map(|first| finding(view, first, line)));
    }
}

/// Whether two lines list the same thing for the same use: same heading, same name, same state, and nothing said of it that is
/// said only of one.
fn are_one(recipe: &Recipe, one: &Ingredient, other: &Ingredient) -> bool {
    let ([first], [second]) = (one.names.as_slice(), other.names.as_slice()) else { return false };
    // "Divided" says how the line is used, not what it lists.
    let tags = |line: &Ingredient| Tags { divided: false, ..line.tags };
    let behind = |line: &Ingredient| {
        let text = Span::new(line.mark.end, line.span.end).of(&recipe.text).to_lowercase();
        words::plain(&text.replace(", divided", ""))
    };
    one.group == other.group
        && tags(one) == tags(other)
        && first.part == second.part
        && (are_same(&first.all_words, &second.all_words) || are_synonyms(first, second))
        && behind(one) == behind(other)
        && one.reference.is_none()
}

/// Whether two names have the same words, in whichever order.
fn are_same(one: &[SmolStr], other: &[SmolStr]) -> bool {
    let count = |words: &[SmolStr], wanted: &str| words.iter().filter(|word| &***word == wanted).count();
    one.len() == other.len() && one.iter().all(|word| count(one, word) == count(other, word))
}

/// Scallions and green onions: two names of one food, neither of which says in what state.
fn are_synonyms(one: &Name, other: &Name) -> bool {
    let same = one.food.zip(other.food).is_some_and(|(one, other)| std::ptr::eq(one, other));
    let plain = |name: &Name| name.all_words.iter().all(|word| !roles(word).any(Roles::STATE.and(Roles::SIZE)));
    same && one.all_words.last() != other.all_words.last() && plain(one) && plain(other)
}

fn finding(view: &View<'_>, first: &Ingredient, line: &Ingredient) -> Finding {
    let recipe = view.recipe;
    let name = words::ingredient(recipe, line);
    let message = format!(
        "The list has the {name} twice. Whoever measures by it takes it once, or twice too much: make it one line, and say in \
         the steps how much goes where."
    );
    let found = Finding::new(CHECK.code, CHECK.severity, line.mark, message).certainty(Certainty::Likely);
    let found = found.related(first.mark, "listed here before");
    merged(view, first, line).into_iter().fold(found, Finding::fix)
}

/// The first line with both amounts, and the second gone.
fn merged(view: &View<'_>, first: &Ingredient, line: &Ingredient) -> Option<Fix> {
    let recipe = view.recipe;
    let measure = |line: &Ingredient| line.amount.and_then(|index| recipe.measures.get(index));
    let mut edits = match (measure(first), measure(line)) {
        (Some(one), Some(other)) => sums(view, one, other)?,
        (None, None) => Vec::new(),
        _ => return None,
    };
    edits.extend(list::delete(recipe, line.span));
    Some(Fix::new(format!("Make the {} one line", words::ingredient(recipe, line)), edits))
}

/// Each statement of the first amount with that of the second added; nothing where one of them has no partner.
fn sums(view: &View<'_>, one: &Measure, other: &Measure) -> Option<Vec<Edit>> {
    if one.restated.len() != other.restated.len() || !one.each.is_empty() || !other.each.is_empty() {
        return None;
    }
    one.statements().zip(other.statements()).map(|(one, other)| sum(view, one, other)).collect()
}

fn sum(view: &View<'_>, one: &Stated, other: &Stated) -> Option<Edit> {
    let house = &view.house.measures;
    let [term] = one.terms.as_slice() else { return None };
    let unit = term.amount()?.unit;
    let total = one.quantity(house)?.plus(&other.quantity(house)?)?;
    Some(Edit::replace(one.span, words::quantity(view, &total, unit)?))
}
