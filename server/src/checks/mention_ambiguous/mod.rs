//! `mention-ambiguous`: a marked mention that fits two things equally.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{bracket, words},
};
use crate::{
    recipe::{
        Recipe,
        language::clause::Sense,
        mentions::{Link, Mention, Target, Unlisted},
    },
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "mention-ambiguous", severity: Severity::Error, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let ties = view.recipe.flow.unlisted.iter().filter(|unlisted| !unlisted.ties.is_empty());
    out.extend(ties.map(|unlisted| finding(view.recipe, unlisted)));
    out.extend(view.recipe.flow.mentions.iter().filter_map(|mention| plain(view.recipe, mention)));
}

/// "Add the onion", where the list has a red one and a white one, and nothing tells which.
fn plain(recipe: &Recipe, mention: &Mention) -> Option<Finding> {
    let lines: Option<Vec<_>> = mention.targets.iter().map(|target| recipe.ingredient(target.ingredient()?)).collect();
    let lines = lines.filter(|lines| lines.len() > 1)?;
    let written = recipe.at(mention.span);
    if mention.marked || mention.sense != Sense::Use || mention.link > Link::Partial || words::is_plural(written) {
        return None;
    }
    let names: Vec<String> = lines.iter().map(|line| format!("the {}", words::ingredient(recipe, line))).collect();
    let message = format!(
        "“{}” may be {}, and a cook has to guess. Write enough of the name to tell them apart.",
        words::plain(written),
        words::or(&names)
    );
    let found = Finding::new(CHECK.code, Severity::Info, mention.span, message).certainty(Certainty::Guess);
    Some(lines.iter().fold(found, |found, line| found.related(line.mark, "it may be this one")))
}

fn finding(recipe: &Recipe, tied: &Unlisted) -> Finding {
    let mut names: Vec<String> =
        tied.ties.iter().map(|target| format!("the {}", words::target(recipe, *target))).collect();
    let alike = names.len();
    names.dedup();
    let written = words::plain(recipe.at(tied.span));
    let message = if names.len() == alike {
        format!(
            "{written} may be {}, and a cook has to guess. Write enough of the name to tell them apart.",
            words::or(&names)
        )
    } else {
        format!(
            "{written} may be any of {alike} lines of the list that have the same name, and a cook has to guess. Make \
             them one line, or give them different names."
        )
    };
    let mut found = Finding::new(CHECK.code, CHECK.severity, tied.span, message);
    for target in &tied.ties {
        if let Some(line) = target.ingredient().and_then(|index| recipe.ingredient(index)) {
            found = found.related(line.mark, "it may be this one");
        }
        if let Some(choice) = choice(recipe, tied, *target) {
            found = found.fix(choice);
        }
    }
    found
}

/// The mention with enough of the name to mean this one alone; its share stays.
fn choice(recipe: &Recipe, tied: &Unlisted, target: Target) -> Option<Fix> {
    let place = bracket::Place::In(tied.step);
    let marked = bracket::ingredient(recipe, target.ingredient()?, place)?;
    let words = marked.strip_prefix('[')?.strip_suffix(']').filter(|words| !words.contains(']'))?;
    let name = recipe.mark_name(tied.step, tied.span)?;
    Some(Fix::new(format!("Write “{words}”"), vec![Edit::replace(name, words)]))
}
