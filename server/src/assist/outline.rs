//! The outline of a recipe: its sections, their groups, and the lines and steps in those.

use super::wording::{first_words, header, one_line, trimmed};
use crate::{
    recipe::{Group, Recipe, Section, SectionKind, Step},
    text::Span,
};

/// About how many characters of a line stand in an outline.
const WIDTH: usize = 60;

/// What an entry of the outline is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EntryKind {
    /// The recipe.
    Recipe,
    /// A section of it.
    Section,
    /// A heading inside a section, with what stands under it.
    Group,
    /// A line of the ingredient list.
    Ingredient,
    /// A line of the equipment.
    Equipment,
    /// A step.
    Step,
    /// What a step makes.
    Result,
    /// A line of the tests.
    Test,
}

/// One entry of the outline. Spans are in the recipe's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What it is.
    pub kind: EntryKind,
    /// What it is called; never empty.
    pub name: String,
    /// A few words more: the amount, what a step makes. May be empty.
    pub detail: String,
    /// All of it.
    pub span: Span,
    /// The part of it that names it.
    pub selection: Span,
    /// What stands in it.
    pub children: Vec<Entry>,
}

/// The outline of a recipe.
pub fn outline(recipe: &Recipe) -> Entry {
    let selection = recipe.title.or_else(|| recipe.sections.first().map(|section| section.heading)).unwrap_or_default();
    let line = recipe.text.get(..selection.start).and_then(|above| above.rfind(['\n', '\r'])).map_or(0, |at| at + 1);
    let name = one_line(recipe.name());
    Entry {
        kind: EntryKind::Recipe,
        name: if name.is_empty() { "Recipe without a title".to_owned() } else { name },
        detail: served(recipe),
        span: Span::new(line, recipe.text.trim_end().len().max(selection.end)),
        selection,
        children: recipe.sections.iter().map(|section| of_section(recipe, section)).collect(),
    }
}

/// For how many it is, and how long it takes, as far as it says so.
fn served(recipe: &Recipe) -> String {
    let serves = header(recipe, "Serves").map(|value| format!("serves {value}"));
    let yields = || header(recipe, "Yield").map(str::to_owned);
    let said = [serves.or_else(yields), header(recipe, "Time").map(str::to_owned)];
    one_line(&said.into_iter().flatten().collect::<Vec<_>>().join(" · "))
}

fn of_section(recipe: &Recipe, section: &Section) -> Entry {
    let span = trimmed(&recipe.text, section.span).joined(section.heading);
    let mut lines = lines(recipe, section);
    lines.sort_by_key(|entry| entry.span.start);
    let groups: Vec<&Group> = recipe.groups.iter().filter(|group| section.span.contains(group.name)).collect();
    let mut children: Vec<Entry> = Vec::new();
    let mut groups = groups.into_iter().peekable();
    for line in lines {
        while let Some(group) = groups.next_if(|group| group.name.start <= line.span.start) {
            children.push(of_group(recipe, group));
        }
        match children.last_mut().filter(|last| last.kind == EntryKind::Group) {
            Some(group) => {
                group.span = group.span.joined(line.span);
                group.children.push(line);
            }
            None => children.push(line),
        }
    }
    children.extend(groups.map(|group| of_group(recipe, group)));
    Entry {
        kind: EntryKind::Section,
        name: named(recipe, section.heading),
        detail: String::new(),
        span,
        selection: section.heading,
        children,
    }
}

fn of_group(recipe: &Recipe, group: &Group) -> Entry {
    Entry {
        kind: EntryKind::Group,
        name: named(recipe, group.name),
        detail: String::new(),
        span: group.name,
        selection: group.name,
        children: Vec::new(),
    }
}

/// The lines and steps of one section.
fn lines(recipe: &Recipe, section: &Section) -> Vec<Entry> {
    let inside = |span: Span| section.span.contains(span);
    let line = |kind: EntryKind, span: Span, detail: String| Entry {
        kind,
        name: named(recipe, span),
        detail,
        span,
        selection: span,
        children: Vec::new(),
    };
    match section.kind {
        SectionKind::Ingredients => {
            let own = recipe.ingredients.iter().filter(|own| inside(own.span) && !own.tags.remark);
            let entry = |own: &crate::recipe::Ingredient| {
                let amount = own.amount.and_then(|index| recipe.measures.get(index)).map(|measure| measure.span);
                let detail = amount.map(|span| one_line(recipe.at(span))).unwrap_or_default();
                let title =
                    own.reference.and_then(|index| recipe.references.get(index)).map(|reference| reference.title);
                Entry { span: own.span, ..line(EntryKind::Ingredient, title.unwrap_or(own.mark), detail) }
            };
            own.map(entry).collect()
        }
        SectionKind::Equipment => {
            let own = recipe.equipment.iter().filter(|own| inside(own.span));
            own.map(|own| line(EntryKind::Equipment, own.span, String::new())).collect()
        }
        SectionKind::Method => {
            recipe.steps.iter().filter(|own| inside(own.span)).map(|step| of_step(recipe, step)).collect()
        }
        SectionKind::Tests => {
            let own = recipe.tests.iter().filter(|own| inside(**own));
            own.map(|own| line(EntryKind::Test, *own, String::new())).collect()
        }
        SectionKind::Prose => Vec::new(),
    }
}

fn of_step(recipe: &Recipe, step: &Step) -> Entry {
    let results = step.results.iter().map(|result| Entry {
        kind: EntryKind::Result,
        name: named(recipe, result.span),
        detail: String::new(),
        span: result.span,
        selection: result.span,
        children: Vec::new(),
    });
    let children: Vec<Entry> = results.collect();
    let made: Vec<&str> = children.iter().map(|result| result.name.as_str()).collect();
    let body = if step.body.is_empty() { step.span } else { step.body };
    let number = step.number.filter(|number| step.span.contains(*number)).map(|number| recipe.at(number).trim());
    let words = named(recipe, body);
    Entry {
        kind: EntryKind::Step,
        name: match number {
            Some(number) if body != step.span => format!("{number} {words}"),
            _ => words,
        },
        detail: if made.is_empty() { String::new() } else { format!("=> {}", made.join(", ")) },
        span: step.span.joined(body),
        selection: body,
        children,
    }
}

/// What stands at `span`, cut to the width of an outline; an ellipsis where nothing does.
fn named(recipe: &Recipe, span: Span) -> String {
    let words = first_words(recipe.at(span), WIDTH);
    if words.is_empty() { "…".to_owned() } else { words }
}
