//! Titles of recipes, between `[[` and `]]`.

use super::{Asked, Proposal, ProposalKind, Proposals, begun, here::Here};
use crate::text::Span;

/// As many are proposed at most; whoever writes on is asked again.
const MOST: usize = 200;

pub fn propose(asked: &Asked<'_>, here: &Here<'_>, start: usize) -> Proposals {
    let span = Span::new(start, here.offset);
    let typed = span.of(&asked.recipe.text);
    let own = asked.recipe.name();
    let others = asked.titles.all().into_iter().filter(|title| *title != own && !title.is_empty());
    let mut fitting = others.filter_map(|title| Some((title, begun(title, typed)?)));
    let items = fitting.by_ref().take(MOST).map(|(title, filter)| Proposal {
        label: title.to_owned(),
        filter: filter.to_owned(),
        ..Proposal::new(ProposalKind::Title, span, format!("{title}{}", here.closing("]]")))
    });
    Proposals { items: items.collect(), more: fitting.next().is_some() }
}
