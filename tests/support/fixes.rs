//! What every fix promises.

use tamis::{
    book::Book,
    checks::{Finding, Fix},
    text::Edit,
    workspace::Manuscript,
};

/// Everything found in a text.
pub fn found(text: &str, book: &Book) -> Vec<Finding> {
    Manuscript::in_book(text, book.clone()).findings()
}

/// A fix takes its finding away, leaves fewer than before that hurt as much, of all checks together, and nothing that cannot be
/// read. What it breaks of that, in words; nothing where it keeps it.
pub fn broken_promise(text: &str, finding: &Finding, fix: &Fix, book: &Book) -> Option<String> {
    let fixed = Edit::apply_all(text, &fix.edits);
    let (before, after) = (found(text, book), found(&fixed, book));
    let told = |what: String| Some(format!("`{}` ({}) {what}:\n{fixed}", fix.title, finding.message));
    let of_code = |findings: &[Finding]| findings.iter().filter(|other| other.code == finding.code).count();
    let (had, left) = (of_code(&before), of_code(&after));
    if left >= had {
        return told(format!("leaves {left} of {had} {}", finding.code));
    }
    let weighs = |other: &&Finding| other.severity <= finding.severity;
    // What stood there before and is only surer now has not been brought.
    let lighter: Vec<(&str, &str)> =
        before.iter().filter(|other| !weighs(other)).map(|other| (other.code, other.span.of(text))).collect();
    let was_there = |other: &&Finding| lighter.contains(&(other.code, other.span.of(&fixed)));
    let heavy_after = after.iter().filter(weighs).filter(|other| !was_there(other)).count();
    if heavy_after >= before.iter().filter(weighs).count() {
        let codes = |findings: &[Finding]| findings.iter().map(|finding| finding.code).collect::<Vec<_>>().join(", ");
        return told(format!("brings as much as it takes away: {} become {}", codes(&before), codes(&after)));
    }
    (damage(&fixed, book) > damage(text, book)).then(|| told("leaves damage".into())).flatten()
}

fn damage(text: &str, book: &Book) -> usize {
    Manuscript::in_book(text, book.clone()).recipes().map(|(_, recipe)| recipe.damage.len()).sum()
}
