//! `mention-unmarked`: a plain mention that brackets would make exact. Off unless the house asks for it.

use super::{
    Check, Finding, Fix, Severity, View,
    finding::Certainty,
    support::{marking, words},
};
use crate::text::Edit;

/// The check.
pub const CHECK: Check =
    Check { code: "mention-unmarked", severity: Severity::Hint, on: false, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    let markable = marking::markable(recipe);
    let all: Vec<Edit> = markable.iter().flat_map(|(_, span)| marking::bracketed(*span)).collect();
    for (mention, span) in &markable {
        let name = mention.targets.first().map(|target| words::target(recipe, *target)).unwrap_or_default();
        let message = format!(
            "This means the {name}. In brackets it would mean that and nothing else, whatever the list becomes."
        );
        let found = Finding::new(CHECK.code, CHECK.severity, *span, message).certainty(Certainty::Likely);
        let one = Fix::new("Mark it", marking::bracketed(*span));
        out.push(found.fix(one).fix(Fix::new("Mark every mention in the recipe", all.clone())));
    }
}

fn bracketed(span: Span) -> Vec<Edit> {
    vec![Edit::insert(span.start, "["), Edit::insert(span.end, "]")]
}

/// What goes into the brackets: the name, with its share where it has one; nothing where marked it would mean something else.
fn brackets(recipe: &Recipe, mention: &Mention) -> Option<Span> {
    let sure = !mention.marked && mention.sense == Sense::Use && mention.link <= Link::Part;
    let [target] = mention.targets.as_slice() else { return None };
    if !sure || matches!(target, Target::Group(_)) {
        return None;
    }
    let same = recipe.marked_meaning(mention.step, recipe.at(mention.span)).as_slice() == [*target];
    let span = match mention.share {
        Share::Whole => mention.span,
        Share::Fraction(..) | Share::Amount(_) => recipe.with_share(mention),
        Share::Rest => with_article(recipe, recipe.with_share(mention)),
        Share::RestAgain | Share::Some | Share::AllBut(_) => return None,
    };
    same.then_some(span)
}

/// "the rest of the sugar": its article goes into the brackets too.
fn with_article(recipe: &Recipe, span: Span) -> Span {
    let before = recipe.text.get(..span.start).unwrap_or_default();
    let article = before.strip_suffix("the ").filter(|before| !before.ends_with(char::is_alphanumeric));
    Span::new(article.map_or(span.start, str::len), span.end)
}
