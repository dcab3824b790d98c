//! Which of the fixes of a finding keep their word. Each is made on a copy and what comes of it is checked: that is for whoever may
//! make one, and not for every keystroke.

use std::{collections::HashSet, sync::Arc};

use super::Manuscript;
use crate::{
    checks::{Finding, Fix},
    recipe::Recipe,
    text::{Edit, Span},
};

impl Manuscript {
    /// The fixes that, made, take their finding away, bring nothing that hurts as much, and leave nothing that cannot be read. Spans
    /// are in the whole text.
    pub fn tried(&self, finding: &Finding) -> Vec<Fix> {
        finding.fixes.iter().filter(|fix| self.keeps_its_word(finding, fix)).cloned().collect()
    }

    fn keeps_its_word(&self, finding: &Finding, fix: &Fix) -> bool {
        let Some(edit) = self.in_one(&fix.edits) else { return true };
        let mut mended = self.clone();
        mended.apply(&edit);
        let (before, after) = (Stand::of(self, &mended), Stand::of(&mended, self));
        let of_code = |stand: &Stand<'_>| stand.findings().filter(|(_, other)| other.code == finding.code).count();
        let weighs = |other: &Finding| other.severity <= finding.severity;
        // What stood there before and is only surer now has not been brought.
        let lighter = |recipe: &Recipe, other: &Finding| {
            before.findings().any(|(own, held)| {
                !weighs(held) && held.code == other.code && own.at(held.span) == recipe.at(other.span)
            })
        };
        let heavy = before.findings().filter(|(_, other)| weighs(other)).count();
        let brought =
            after.findings().filter(|(recipe, other)| weighs(other) && !lighter(recipe, other)).take(heavy).count();
        of_code(&after) < of_code(&before) && brought < heavy && after.damage() <= before.damage()
    }

    /// Several edits as one, so that no recipe is read more than once for them.
    fn in_one(&self, edits: &[Edit]) -> Option<Edit> {
        let span = edits.iter().map(|edit| edit.span).reduce(Span::joined)?;
        let inside = |edit: &Edit| {
            let own = Span::new(edit.span.start - span.start, edit.span.end - span.start);
            Edit::replace(own, self.document().line_ending().put_into(&edit.text))
        };
        let edits: Vec<Edit> = edits.iter().map(inside).collect();
        Some(Edit::replace(span, Edit::apply_all(&self.document().slice(span), &edits)))
    }
}

/// The recipes of a manuscript of which something else is known in another one.
struct Stand<'m>(Vec<(&'m Arc<Recipe>, &'m Arc<[Finding]>)>);

impl<'m> Stand<'m> {
    fn of(own: &'m Manuscript, other: &Manuscript) -> Self {
        let shared: HashSet<_> =
            other.findings_by_recipe().map(|(_, recipe, found)| (Arc::as_ptr(recipe), Arc::as_ptr(found))).collect();
        let all = own.findings_by_recipe().map(|(_, recipe, found)| (recipe, found));
        Stand(all.filter(|(recipe, found)| !shared.contains(&(Arc::as_ptr(recipe), Arc::as_ptr(found)))).collect())
    }

    fn findings(&self) -> impl Iterator<Item = (&'m Recipe, &'m Finding)> + '_ {
        self.0.iter().flat_map(|(recipe, found)| found.iter().map(move |finding| (&***recipe, finding)))
    }

    fn damage(&self) -> usize {
        self.0.iter().map(|(recipe, _)| recipe.damage.len()).sum()
    }
}
