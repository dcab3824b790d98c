//! `used-again`: all of something has gone in, and then a step drizzles more of it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{list, orders, shares, words},
};
use crate::{
    measure::UnitKind,
    recipe::{
        Ingredient, Recipe,
        flow::Taken,
        language::{clause::Sense, lexicon::Roles},
        mentions::{Link, Mention, Share, Target},
    },
    text::{Edit, Words},
};

/// The check.
pub const CHECK: Check =
    Check { code: "used-again", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// Orders that take more out of the bottle, the bag or the jar, and cannot mean what is in the pan.
const TAKES_MORE: Words = Words::new("drizzle sprinkle dust brush splash finish dress");
/// What runs together once it is in, so that nobody takes some of it out again.
const RUNS_TOGETHER: &[&str] =
    &["oil", "vinegar", "juice", "sugar", "syrup", "honey", "soy sauce", "sauce", "spice", "cheese", "liquid"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for balance in &recipe.flow.balances {
        let Target::Ingredient(index, None) = balance.target else { continue };
        let Some(line) = recipe.ingredient(index).filter(|line| is_measured(recipe, line)) else { continue };
        let claims = balance.claims.iter().filter_map(|claim| Some((claim, recipe.flow.mentions.get(claim.mention)?)));
        let mut claims = claims.filter(|(_, mention)| mention.sense == Sense::Use && mention.link <= Link::Partial);
        let Some((_, first)) = claims.find(|(claim, mention)| claim.taken == Taken::Whole && goes_in(recipe, mention))
        else {
            continue;
        };
        let again = claims.find(|(claim, mention)| claim.taken == Taken::Nothing && takes_more(recipe, first, mention));
        out.extend(again.map(|(_, again)| finding(recipe, line, first, again)));
    }
}

/// An amount that can run out, of something that cannot be taken out again, and nothing said of more.
fn is_measured(recipe: &Recipe, line: &Ingredient) -> bool {
    let kind = line.amount.and_then(|index| recipe.measures.get(index)?.amount()).map(|amount| amount.kind());
    let measured = matches!(kind, Some(UnitKind::Volume | UnitKind::Weight));
    let tags = line.tags;
    let runs =
        line.names.iter().filter_map(|name| name.food).any(|food| RUNS_TOGETHER.iter().any(|kind| food.is(kind)));
    let staple = line
        .names
        .iter()
        .filter_map(|name| name.food)
        .any(|food| food.is("water") || food.name == "water" || food.is("salt"));
    measured
        && runs
        && !staple
        && !(tags.more || tags.divided || tags.taste || tags.pan || tags.serving || tags.optional)
}

fn goes_in(recipe: &Recipe, mention: &Mention) -> bool {
    orders::verb(recipe, mention).is_some_and(|verb| verb.is(Roles::ADDING) && !verb.one_of(&["brush"]))
}

/// "Drizzle with walnut oil": with, and no article. "Drizzle with the oil" may be what was in the pan.
fn takes_more(recipe: &Recipe, first: &Mention, mention: &Mention) -> bool {
    let with = orders::words_before(recipe, mention).next().is_some_and(|word| word.word("with"));
    let sentence = shares::sentence(recipe, mention.step, mention.span);
    let open = sentence.iter().any(|token| token.one_of(&["if", "or", "more", "extra", "some", "little"]));
    mention.step > first.step
        && mention.share == Share::Whole
        && with
        && !open
        && orders::verb(recipe, mention).is_some_and(|verb| verb.one_among(&TAKES_MORE))
}

fn finding(recipe: &Recipe, line: &Ingredient, first: &Mention, again: &Mention) -> Finding {
    let name = words::with_amount(recipe, line);
    let message = format!(
        "{} has put in all of the {name}, and {} wants more of it. A cook has to open another bottle or bag: list “plus more”, \
         or say how much goes where.",
        words::sentence(&words::step(recipe, first.step)),
        words::step(recipe, again.step),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, again.span, message).certainty(Certainty::Likely);
    let more = Edit::insert(list::end_of_words(recipe, line.span), ", plus more");
    let fix = Fix::new("List “plus more”", vec![more]);
    found.related(first.span, "all of it goes in here").related(line.mark, "this is all there is").fix(fix)
}
