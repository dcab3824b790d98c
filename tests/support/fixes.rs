//! What every fix promises.

use std::sync::Arc;

use tamis::{
    book::House,
    checks::{Finding, Fix},
    text::Edit,
    workspace::Manuscript,
};

/// Everything found in a text.
pub fn found(text: &str, house: &Arc<House>) -> Vec<Finding> {
    Manuscript::new(text, house.clone()).findings()
}

/// A fix takes its finding away, leaves fewer than before that hurt as much, of all checks together, and nothing that cannot be
/// read. What it breaks of that, in words; nothing where it keeps it.
pub fn broken_promise(text: &str, finding: &Finding, fix: &Fix, house: &Arc<House>) -> Option<String> {
    let fixed = Edit::apply_all(text, &fix.edits);
    let (before, after) = (found(text, house), found(&fixed, house));
    let told = |what: String| Some(format!("`{}` ({}) {what}:\n{fixed}", fix.title, finding.message));
    let of_code = |findings: &[Finding]| findings.iter().filter(|other| other.code == finding.code).count();
    let (had, left) = (of_code(&before), of_code(&after));
    if left >= had {
        return told(format!("leaves {left} of {had} {}", finding.code));
    }
    let heavy = |findings: &[Finding]| findings.iter().filter(|other| other.severity <= finding.severity).count();
    if heavy(&after) >= heavy(&before) {
        let codes = |findings: &[Finding]| findings.iter().map(|finding| finding.code).collect::<Vec<_>>().join(", ");
        return told(format!("brings as much as it takes away: {} become {}", codes(&before), codes(&after)));
    }
    (damage(&fixed, house) > damage(text, house)).then(|| told("leaves damage".into())).flatten()
}

fn damage(text: &str, house: &Arc<House>) -> usize {
    Manuscript::new(text, house.clone()).recipes().map(|(_, recipe)| recipe.damage.len()).sum()
}
