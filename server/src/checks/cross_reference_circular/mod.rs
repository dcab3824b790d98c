//! `cross-reference-circular`: a recipe asks, by way of others, for itself.

use std::collections::HashSet;

use super::{Check, Finding, Severity, View};
use crate::book::title_key;

/// The check.
pub const CHECK: Check = Check {
    code: "cross-reference-circular",
    severity: Severity::Error,
    on: true,
    docs: include_str!("docs.md"),
    find,
};

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let asked = recipe.ingredients.iter().filter_map(|line| recipe.references.get(line.reference?));
    let mut asked = asked.peekable();
    let own = if asked.peek().is_some() { title_key(recipe.name()) } else { return };
    if own.is_empty() {
        return;
    }
    let mut told = HashSet::new();
    for reference in asked {
        let key = title_key(recipe.at(reference.title));
        if !told.insert(key.clone()) {
            continue;
        }
        let Some(way) = way_back(view, &own, &key) else { continue };
        let asks = way.iter().map(|title| format!("“{title}”")).collect::<Vec<_>>().join(", which asks for ");
        let message = match way.len() {
            0 => "This recipe asks for itself: nobody can begin to cook it. Name what is meant.".to_owned(),
            _ => format!(
                "This asks for {asks}, which asks for this recipe again: nobody can begin to cook either. Name what is meant."
            ),
        };
        out.push(Finding::new(CHECK.code, CHECK.severity, reference.title, message));
    }
}

/// The titles on the shortest way from the recipe of this key back to the one of `own`, which is not among them.
fn way_back(view: &View<'_>, own: &str, key: &str) -> Option<Vec<String>> {
    if key == own {
        return Some(Vec::new());
    }
    let mut seen: HashSet<String> = HashSet::from([key.to_owned()]);
    let mut ways: Vec<(String, Vec<String>)> = vec![(key.to_owned(), Vec::new())];
    while !ways.is_empty() {
        let mut longer = Vec::new();
        for (key, way) in ways {
            // Of two recipes of one title nobody knows which is asked for.
            let titled = view.titles.titled(&key);
            let [titled] = titled.as_slice() else { continue };
            let way: Vec<String> = way.into_iter().chain([titled.summary.title.clone()]).collect();
            if titled.summary.asks.iter().any(|asked| asked == own) {
                return Some(way);
            }
            let further = titled.summary.asks.iter().filter(|asked| seen.insert((*asked).clone()));
            longer.extend(further.map(|asked| (asked.clone(), way.clone())).collect::<Vec<_>>());
        }
        ways = longer;
    }
    None
}
