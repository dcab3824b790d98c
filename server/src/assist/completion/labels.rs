//! Labels and headings, at the start of a line.

use super::{Asked, Proposal, ProposalKind, begun, here::Here};
use crate::{
    assist::{
        labels::{LABELS, Label, LabelKind},
        wording::header,
    },
    recipe::{Recipe, SectionKind},
};

/// The labels and headings that the recipe does not have yet, what it must have first; and the label of another recipe.
pub fn propose(asked: &Asked<'_>, here: &Here<'_>) -> Vec<Proposal> {
    let typed = here.before;
    let word = typed.chars().all(|c| c.is_alphabetic() || c == ' ') && !typed.starts_with(' ');
    if !here.fresh || !word || !asked.wanted || here.behind.trim_start().starts_with(':') {
        return Vec::new();
    }
    let recipe = asked.recipe;
    let headers = LABELS.iter().filter(|label| label.kind == LabelKind::Header);
    let sections = LABELS.iter().filter(|label| label.kind == LabelKind::Prose || section_of(label).is_some());
    let mut out = Vec::new();
    if !recipe.is_recipe() {
        out.push(label(here, ProposalKind::Header, "Recipe", ": ", "starts a recipe"));
    } else if here.section.is_none() {
        let missing = headers.filter(|label| header(recipe, label.name()).is_none());
        out.extend(missing.map(|own| label(here, ProposalKind::Header, own.name(), ": ", own.brief)));
    }
    let mut sections: Vec<&Label> = sections.filter(|label| !has_section(recipe, label)).collect();
    sections.sort_by_key(|label| !section_of(label).is_some_and(|kind| asked.house.required.contains(&kind)));
    let section = |own: &&Label| {
        let colon = if own.kind == LabelKind::Prose { ": " } else { ":" };
        label(here, ProposalKind::Section, own.name(), colon, own.brief)
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

fn section_of(label: &Label) -> Option<SectionKind> {
    match label.kind {
        LabelKind::Section(kind) => Some(kind),
        _ => None,
    }
}

/// Whether the recipe has a section of that name, or one that is read as such.
fn has_section(recipe: &Recipe, label: &Label) -> bool {
    let (name, kind) = (label.name(), section_of(label));
    let named = |heading: &str| heading.get(..name.len()).is_some_and(|start| start.eq_ignore_ascii_case(name));
    recipe.sections.iter().any(|section| Some(section.kind) == kind || named(recipe.at(section.heading)))
}
