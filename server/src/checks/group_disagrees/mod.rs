//! `group-disagrees`: the list has it for one part of the dish, and the method puts it into another.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, shares, words},
};
use crate::recipe::{
    Group, Ingredient, Recipe, SectionKind,
    language::clause::Sense,
    mentions::{Link, Mention, Target},
};

/// The check.
pub const CHECK: Check =
    Check { code: "group-disagrees", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| !goes_anywhere(line)) {
        let Some(own) = line.group.and_then(|group| recipe.groups.get(group)).filter(|own| has_steps(recipe, own))
        else {
            continue;
        };
        let uses: Vec<(&Mention, Option<&Group>)> = uses(recipe, index);
        let elsewhere = |heading: &Option<&Group>| {
            heading.is_some_and(|heading| is_of_list(recipe, heading) && !same(heading, own))
        };
        let apart = uses.iter().all(|(_, heading)| elsewhere(heading)) && !is_meant_at_home(recipe, index, own);
        if let Some((mention, Some(heading))) = uses.first().filter(|_| apart) {
            let fixes = moved(recipe, line, heading);
            out.push(fixes.into_iter().fold(finding(recipe, line, own, mention, heading), Finding::fix));
        }
    }
}

/// Whether a word for several things, under its own heading, may mean it: "whisk everything for the glaze".
fn is_meant_at_home(recipe: &Recipe, index: usize, own: &Group) -> bool {
    // What is taken in shares may be listed where most of it goes.
    if recipe.flow.loosely_used(index) || shares::are_taken(recipe, Target::Ingredient(index, None)) {
        return true;
    }
    recipe.flow.mentions.iter().any(|mention| {
        let means = mention.targets.iter().any(|target| match target {
            Target::Group(group) => recipe.groups.get(*group).is_some_and(|group| same(group, own)),
            target => target.ingredient() == Some(index),
        });
        let heading = recipe.steps.get(mention.step).and_then(|step| recipe.groups.get(step.group?));
        means && heading.is_some_and(|heading| same(heading, own))
    })
}

/// The line at the end of the part that uses it; not where it would leave a heading with nothing under it.
fn moved(recipe: &Recipe, line: &Ingredient, heading: &Group) -> Option<Fix> {
    let under = |group: Option<usize>| group.and_then(|group| recipe.groups.get(group));
    let last = recipe.ingredients.iter().rfind(|other| under(other.group).is_some_and(|own| same(own, heading)))?;
    let alone = recipe.ingredients.iter().filter(|other| other.group == line.group).count() < 2;
    let stands = recipe.stets.iter().any(|stet| stet.scope == line.span);
    if alone || stands {
        return None;
    }
    let mut edits = list::insert_after(recipe, last.span, recipe.at(line.span));
    edits.extend(list::delete(recipe, line.span));
    let title = format!("List it under “{}”", words::plain(recipe.at(heading.name)));
    Some(Fix::new(title, edits))
}

/// Each use by name, with the heading that its step stands under.
fn uses(recipe: &Recipe, index: usize) -> Vec<(&Mention, Option<&Group>)> {
    let own = recipe.flow.mentions.iter().filter(|mention| {
        mention.sense == Sense::Use
            && mention.link <= Link::Part
            && matches!(mention.targets.as_slice(), [Target::Ingredient(target, _)] if *target == index)
    });
    let heading = |mention: &Mention| recipe.groups.get(recipe.steps.get(mention.step)?.group?);
    own.map(|mention| (mention, heading(mention))).collect()
}

/// Whether method and list both have such a heading.
fn is_of_list(recipe: &Recipe, heading: &Group) -> bool {
    recipe.groups.iter().any(|group| group.section == SectionKind::Ingredients && same(group, heading))
}

fn has_steps(recipe: &Recipe, own: &Group) -> bool {
    let mut headings = recipe.steps.iter().filter_map(|step| recipe.groups.get(step.group?));
    headings.any(|heading| same(heading, own))
}

fn same(one: &Group, other: &Group) -> bool {
    !one.words.is_empty() && one.words == other.words
}

/// What stands under one heading and is used under all: salt, water, what is for the pan or the table.
fn goes_anywhere(line: &Ingredient) -> bool {
    let staple = line
        .names
        .iter()
        .filter_map(|name| name.food)
        .any(|food| food.is("seasoning") || food.is("water") || food.name == "water");
    line.tags.serving || line.tags.pan || line.tags.more || line.tags.divided || staple
}

fn finding(recipe: &Recipe, line: &Ingredient, own: &Group, mention: &Mention, heading: &Group) -> Finding {
    let name = words::ingredient(recipe, line);
    let (listed, used) = (words::plain(recipe.at(own.name)), words::plain(recipe.at(heading.name)));
    let message = format!(
        "The list has the {name} under “{listed}”, and the only step that uses {it} stands under “{used}”. A cook who makes one \
         part at a time misses {it}: move the line or the words.",
        it = words::it(&name),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, mention.span, message).certainty(Certainty::Likely);
    found.related(line.mark, "listed here")
}
