//! `share-left-over`: the shares that steps take leave some of it over, and nobody uses that.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{bracket, shares, steps, words},
};
use crate::{
    recipe::{
        Name, Recipe,
        flow::{Balance, Taken},
        mentions::{Mention, Target},
    },
    text::Span,
};

/// The check.
pub const CHECK: Check =
    Check { code: "share-left-over", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let left = view.recipe.flow.balances.iter().filter(|balance| balance.left_over());
    out.extend(left.filter_map(|balance| finding(view, balance)));
}

fn finding(view: &View<'_>, balance: &Balance) -> Option<Finding> {
    let recipe = view.recipe;
    let claims = shares::definite(recipe, balance);
    let (_, last) = *claims.last()?;
    let doubtful = claims.iter().any(|(_, mention)| shares::is_doubtful(recipe, mention));
    if doubtful
        || shares::are_repeated(recipe, last)
        || may_be_used_otherwise(recipe, balance)
        || is_named_again(recipe, balance, last)
    {
        return None;
    }
    let name = words::target(recipe, balance.target);
    let shares_alone = claims.iter().all(|(claim, _)| matches!(claim.taken, Taken::Fraction(..)));
    let amount =
        shares::listed(recipe, balance).and_then(|whole| shares::left(recipe, &view.house.measures, whole, &claims));
    let left = match amount {
        Some(amount) => format!(" ({})", words::amount(view, &amount)),
        None if shares_alone => format!(" ({})", words::fraction(1.0 - balance.shared.as_ref()?.most?)),
        None => String::new(),
    };
    let message = format!(
        "{}, and no step uses the rest{left}. A cook has it left over when the dish is done: say where that goes in.",
        shares::taking(recipe, &claims, &name)
    );
    let mark = match balance.target {
        Target::Ingredient(index, _) => recipe.ingredient(index)?.mark,
        _ => last.span,
    };
    let certainty = if claims.iter().all(|(_, mention)| mention.marked) { Certainty::Sure } else { Certainty::Likely };
    let mut found = Finding::new(CHECK.code, CHECK.severity, mark, message).certainty(certainty);
    for (claim, mention) in claims.iter().filter(|(_, mention)| mention.span != mark) {
        found = found
            .related(mention.span, format!("{} is taken here", words::share(recipe, claim.taken).unwrap_or_default()));
    }
    Some(
        fixes(recipe, balance, &claims.iter().map(|(_, mention)| *mention).collect::<Vec<_>>(), &name)
            .into_iter()
            .fold(found, Finding::fix),
    )
}

/// Whether something that is no share may take what is left: a loose word for everything, or a line that is open above.
fn may_be_used_otherwise(recipe: &Recipe, balance: &Balance) -> bool {
    let Some(index) = balance.target.ingredient() else { return false };
    let line = recipe.ingredient(index);
    recipe.flow.loosely_used(index) || line.is_some_and(|line| line.tags.more || line.tags.taste || line.tags.pan)
}

/// Whether a word of prose behind the last share may mean it though it was not read so: "the other half of the sauce", of a
/// tomato sauce.
fn is_named_again(recipe: &Recipe, balance: &Balance, last: &Mention) -> bool {
    let head = match balance.target {
        Target::Ingredient(index, None) => recipe.ingredient(index).and_then(|line| line.names.first()).map(Name::head),
        Target::Result(index) => {
            recipe.flow.results.get(index).and_then(|result| result.words.last()).map(|word| &**word)
        }
        _ => None,
    };
    let own = |mention: &Mention| mention.targets.contains(&balance.target);
    let read = |span: Span| recipe.flow.mentions.iter().any(|mention| own(mention) && mention.span.contains(span));
    let later = recipe.steps.iter().flat_map(|step| &step.tokens).filter(|token| token.span.start > last.span.end);
    later.into_iter().any(|token| head.is_some_and(|head| token.word(head)) && !read(token.span))
}

fn fixes(recipe: &Recipe, balance: &Balance, mentions: &[&Mention], name: &str) -> Vec<Fix> {
    let Some(last) = mentions.last() else { return Vec::new() };
    let mut out = Vec::new();
    // The last of them can only take the rest where another has taken some before it.
    if mentions.len() > 1 {
        let title = format!("Take the rest of the {name} in {}", words::step(recipe, last.step));
        out.push(Fix::new(title, shares::take_rest(recipe, last)));
    }
    let place = bracket::Place::After(last.step);
    let marked = match balance.target {
        Target::Ingredient(index, None) => bracket::ingredient(recipe, index, place),
        Target::Result(_) => Some(format!("[{name}]")),
        _ => None,
    };
    let words = marked.as_deref().and_then(|marked| marked.strip_prefix('[')?.strip_suffix(']'));
    if let Some(words) = words.filter(|words| !words.contains(['[', ']'])) {
        let edits = steps::insert(recipe, place, &format!("Add [the rest of the {words}]."));
        out.push(Fix::new(format!("Add a step that uses the rest of the {name}"), edits));
    }
    out
}
