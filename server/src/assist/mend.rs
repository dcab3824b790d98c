//! What can be mended without a decision: which fixes can be made together.

use crate::{checks::Finding, text::Edit};

/// Whether anything can be mended without a decision.
pub fn can_mend(findings: &[Finding]) -> bool {
    findings.iter().any(|finding| finding.fixes.iter().any(|fix| fix.safe))
}

/// The edits of every safe fix that does not get into the way of one before it, in order, and how many fixes those are. The others
/// have their turn once these are made.
pub fn safe_fixes(findings: &[Finding]) -> (Vec<Edit>, usize) {
    let mut taken: Vec<Edit> = Vec::new();
    let mut count = 0;
    for fix in findings.iter().filter_map(|finding| finding.fixes.iter().find(|fix| fix.safe)) {
        if !fix.edits.iter().any(|edit| taken.iter().any(|other| edit.span.meets(other.span))) {
            taken.extend(fix.edits.iter().cloned());
            count += 1;
        }
    }
    taken.sort_by_key(|edit| edit.span);
    (taken, count)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::{Fix, Severity};
    use crate::text::Span;

    #[test]
    fn fixes_that_would_get_into_each_others_way_are_not_made_in_one_round() {
        let finding = |edits: Vec<Edit>, safe: bool| Finding {
            fixes: vec![Fix { title: "Mend it".into(), edits, safe }],
            ..Finding::new("word-repeated", Severity::Hint, Span::at(0), "")
        };
        let findings = [
            finding(vec![Edit::replace(Span::new(4, 8), "one")], true),
            finding(vec![Edit::insert(8, "two")], true),
            finding(vec![Edit::delete(Span::new(9, 10)), Edit::insert(0, "three")], true),
            finding(vec![Edit::delete(Span::new(20, 21))], false),
        ];
        let (edits, count) = safe_fixes(&findings);
        let texts: Vec<_> = edits.iter().map(|edit| edit.text.as_str()).collect();
        assert_eq!((texts, count), (vec!["three", "one", ""], 2));
    }
}
