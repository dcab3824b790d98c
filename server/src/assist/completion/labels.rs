//! Labels and headings, at the start of a line.

use super::{Asked, Proposal, ProposalKind, begun, here::Here};
use crate::{
    assist::wording::header,
    recipe::{Recipe, SectionKind},
};

/// The labels above the sections, in the order in which a recipe has them.
const HEADERS: &[(&str, &str)] = &[
    ("Yield", "what it makes"),
    ("Serves", "how many it feeds"),
    ("Time", "active and total"),
    ("Course", "what part of a meal"),
    ("Cuisine", "whose kitchen"),
    ("Diet", "whom it suits"),
    ("Allergens", "what it holds"),
    ("Author", "whose it is"),
    ("Photo", "a picture of it"),
    ("Keywords", "for the index"),
    ("Status", "how far it is"),
];

/// The sections; what stands behind each says how it goes on.
const SECTIONS: &[(&str, Option<SectionKind>, &str)] = &[
    ("Equipment", Some(SectionKind::Equipment), "what to cook it with"),
    ("Ingredients", Some(SectionKind::Ingredients), "the list"),
    ("Method", Some(SectionKind::Method), "the steps"),
    ("Notes", None, "prose"),
    ("Storage", None, "how it keeps"),
    ("Make ahead", None, "what can be done before"),
    ("Variations", None, "what can be done otherwise"),
    ("Sidebar", None, "prose beside the recipe"),
    ("Tests", Some(SectionKind::Tests), "what was tried in the kitchen"),
];

/// The labels and headings that the recipe does not have yet, what it must have first; and the label of another recipe.
pub fn propose(asked: &Asked<'_>, here: &Here<'_>) -> Vec<Proposal> {
    let typed = here.before;
    let word = typed.chars().all(|c| c.is_alphabetic() || c == ' ') && !typed.starts_with(' ');
    if !here.fresh || !word || !asked.wanted || here.behind.trim_start().starts_with(':') {
        return Vec::new();
    }
    let recipe = asked.recipe;
    let mut out = Vec::new();
    if !recipe.is_recipe() {
        out.push(label(here, ProposalKind::Header, "Recipe", ": ", "starts a recipe"));
    } else if here.section.is_none() {
        let missing = HEADERS.iter().filter(|(name, _)| header(recipe, name).is_none());
        out.extend(missing.map(|(name, detail)| label(here, ProposalKind::Header, name, ": ", detail)));
    }
    let missing = SECTIONS.iter().filter(|(name, ..)| !has_section(recipe, name));
    let mut sections: Vec<_> = missing.collect();
    sections.sort_by_key(|(_, kind, _)| !kind.is_some_and(|kind| asked.house.required.contains(&kind)));
    let section = |(name, kind, detail): &&(&str, Option<SectionKind>, &str)| {
        label(here, ProposalKind::Section, name, if kind.is_some() { ":" } else { ": " }, detail)
    };
    out.extend(sections.iter().map(section));
    if recipe.is_recipe() {
        out.push(label(here, ProposalKind::Header, "Recipe", ": ", "starts another recipe"));
    }
    out.into_iter().flatten().collect()
}

fn label(here: &Here<'_>, kind: ProposalKind, name: &str, colon: &str, detail: &str) -> Option<Proposal> {
    let filter = begun(name, here.before)?.to_owned();
    let proposal = Proposal::new(kind, here.typed(here.before), format!("{name}{colon}")).detail(detail);
    Some(Proposal { label: format!("{name}:"), filter, ..proposal })
}

/// Whether the recipe has a section of that name, or one that is read as such.
fn has_section(recipe: &Recipe, name: &str) -> bool {
    let kind = SECTIONS.iter().find(|(own, ..)| *own == name).and_then(|(_, kind, _)| *kind);
    let named = |heading: &str| heading.get(..name.len()).is_some_and(|start| start.eq_ignore_ascii_case(name));
    recipe.sections.iter().any(|section| Some(section.kind) == kind || named(recipe.at(section.heading)))
}
