//! Runs the checks over one recipe, lets stand what the author lets stand, and grades the rest as the house does.

use std::panic::{AssertUnwindSafe, catch_unwind};

use super::{CHECKS, Certainty, Check, Finding, Severity, View, Worked};
use crate::{
    book::{Book, Grade, House, Titles},
    recipe::Recipe,
    text::Span,
};

/// Checks that speak about the stets themselves run when all others have.
const ABOUT_STETS: &[&str] = &["stet-unused"];

/// Every finding in each of some recipes of a book, in the order of its places; the titles are what a recipe may refer to. Each check looks at
/// all of them before the next, so that its code is fetched once.
pub fn run(recipes: &[(&Recipe, Titles<'_>)], book: &Book) -> Vec<Vec<Finding>> {
    let (house, habits) = (&*book.house, &*book.habits);
    let mut found = vec![Vec::new(); recipes.len()];
    let worked: Vec<Worked> = recipes.iter().map(|_| Worked::default()).collect();
    for check in CHECKS.iter().filter(|check| !ABOUT_STETS.contains(&check.code) && wanted(check, house)) {
        for ((&(recipe, titles), worked), found) in recipes.iter().zip(&worked).zip(&mut found) {
            one(check, &View { recipe, house, habits, titles, stets_used: &[], worked }, found);
        }
    }
    for (&(recipe, titles), found) in recipes.iter().zip(&mut found) {
        let mut used = vec![false; recipe.stets.len()];
        found.retain(|finding| !stands(recipe, finding, &mut used));
        let worked = Worked::default();
        let last = View { recipe, house, habits, titles, stets_used: &used, worked: &worked };
        for check in CHECKS.iter().filter(|check| ABOUT_STETS.contains(&check.code) && wanted(check, house)) {
            one(check, &last, found);
        }
        grade(found, house);
    }
    found
}

/// Grades findings as the house does, and puts them into the order of their places.
fn grade(found: &mut [Finding], house: &House) {
    for finding in &mut *found {
        if let Some(Grade::As(severity)) = house.grade(finding.code) {
            finding.severity = severity;
        }
    }
    found.sort_by(|one, two| (one.span, one.severity, one.code).cmp(&(two.span, two.severity, two.code)));
}

fn wanted(check: &Check, house: &House) -> bool {
    match house.grade(check.code) {
        Some(Grade::Off) => false,
        Some(Grade::As(_)) => true,
        None => check.on,
    }
}

/// A check that fails is a bug of ours: it is reported once, and the others still run.
fn one(check: &Check, view: &View<'_>, found: &mut Vec<Finding>) {
    let mut own = Vec::new();
    if catch_unwind(AssertUnwindSafe(|| (check.find)(view, &mut own))).is_ok() {
        found.append(&mut own);
        return;
    }
    let place = view.recipe.title.unwrap_or(Span::at(0));
    let message = format!(
        "The check {} broke down on this recipe. That is a fault of Tamis, not of yours: please report it. The other checks still ran.",
        check.code
    );
    found.push(Finding::new(check.code, Severity::Info, place, message).certainty(Certainty::Sure));
}

/// Whether a stet lets the finding stand; it then counts as used.
fn stands(recipe: &Recipe, finding: &Finding, used: &mut [bool]) -> bool {
    let mut stands = false;
    for (stet, used) in recipe.stets.iter().zip(used) {
        if recipe.at(stet.check) == finding.code && stet.scope.contains(Span::at(finding.span.start)) {
            *used = true;
            stands = true;
        }
    }
    stands
}
