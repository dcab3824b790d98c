//! Codes of checks, behind `stet`.

use super::{Asked, Proposal, ProposalKind, Topic, begun};
use crate::{checks::CHECKS, text::Span};

/// Every check; those that find something in the recipe first, the nearest of what they find below here at the top.
pub fn propose(asked: &Asked<'_>, span: Span) -> Vec<Proposal> {
    let typed = span.of(&asked.recipe.text);
    let colon =
        asked.recipe.text.get(span.end..).is_none_or(|rest| !rest.trim_start_matches([' ', '\t']).starts_with(':'));
    let place = |code: &str| {
        let found = asked.findings.iter().filter(|finding| finding.code == code).map(|finding| finding.span.start);
        found
            .min_by_key(|start| (*start < span.end, *start))
            .map_or((2, 0), |start| (u8::from(start < span.end), start))
    };
    let mut checks: Vec<_> = CHECKS.iter().filter_map(|check| Some((check, begun(check.code, typed)?))).collect();
    checks.sort_by_key(|(check, _)| place(check.code));
    let proposal = |(check, filter): (&crate::checks::Check, &str)| {
        let text = format!("{}{}", check.code, if colon { ": " } else { "" });
        let proposal = Proposal::new(ProposalKind::Check, span, text).detail(super::topic::summary(check.docs));
        Proposal {
            label: check.code.to_owned(),
            filter: filter.to_owned(),
            topic: Some(Topic::Check(check.code.to_owned())),
            ..proposal
        }
    };
    checks.into_iter().map(proposal).collect()
}
