//! `result-used-early`: a step uses something that only a later step makes.

use super::{Check, Finding, Severity, View, support::words};
use crate::recipe::mentions::{Mention, Target};

/// The check.
pub const CHECK: Check =
    Check { code: "result-used-early", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    for mention in &view.recipe.flow.mentions {
        let later = mention.targets.iter().find_map(|target| match target {
            Target::Result(index) => view.recipe.flow.results.get(*index).filter(|result| result.step > mention.step),
            _ => None,
        });
        out.extend(later.map(|result| finding(view, mention, result.step)));
    }
}

fn finding(view: &View<'_>, mention: &Mention, made: usize) -> Finding {
    let recipe = view.recipe;
    let name = mention.targets.first().map(|target| words::target(recipe, *target)).unwrap_or_default();
    let message = format!(
        "{} uses the {name}, but {} is the first to make {it}. A cook who gets here does not have {it} yet: put the steps \
         in order.",
        words::sentence(&words::step(recipe, mention.step)),
        words::step(recipe, made),
        it = words::it(&name)
    );
    let found = Finding::new(CHECK.code, CHECK.severity, mention.span, message);
    match recipe.steps.get(made).and_then(|step| step.results.first()) {
        Some(result) => found.related(result.span, "made here"),
        None => found,
    }
}
