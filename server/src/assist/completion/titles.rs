//! Titles of recipes, between `[[` and `]]`.

use super::{Asked, Proposal, ProposalKind, begun, here::Here};
use crate::text::Span;

pub fn propose(asked: &Asked<'_>, here: &Here<'_>, start: usize) -> Vec<Proposal> {
    let span = Span::new(start, here.offset);
    let typed = span.of(&asked.recipe.text);
    let own = asked.recipe.name();
    let others = asked.titles.iter().filter(|title| **title != own && !title.is_empty());
    let fitting = others.filter_map(|title| Some((*title, begun(title, typed)?)));
    let mut out: Vec<Proposal> = fitting
        .map(|(title, filter)| Proposal {
            label: title.to_owned(),
            filter: filter.to_owned(),
            ..Proposal::new(ProposalKind::Title, span, format!("{title}{}", here.closing("]]")))
        })
        .collect();
    out.sort_by(|one, other| one.label.cmp(&other.label));
    out.dedup_by(|one, other| one.label == other.label);
    out
}
