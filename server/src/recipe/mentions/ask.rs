//! What others ask about the wording of a mention: what a name in brackets would mean, where a share begins.

use super::{
    Kitchen, Mention, Share, Target, marked,
    resolve::{self, Query},
    shares,
};
use crate::{
    larder::Food,
    measure::Unit,
    recipe::{
        language::token::{Token, TokenKind, tokens},
        model::{Mark, Recipe, Step},
        names,
    },
    text::Span,
};

/// The token that starts where `span` does.
fn starting_at(tokens: &[Token], span: Span) -> Option<usize> {
    tokens.binary_search_by_key(&span.start, |token| token.span.start).ok()
}

impl Step {
    /// The marked mention at `span`.
    fn mark(&self, span: Span) -> Option<&Mark> {
        let at = self.marks.partition_point(|mark| mark.span.start < span.start);
        self.marks.get(at).filter(|mark| mark.span == span)
    }
}

/// A food that prose names.
#[derive(Debug, Clone, Copy)]
pub struct NamedFood {
    /// Where it stands.
    pub span: Span,
    /// The food.
    pub food: &'static Food,
    /// Whether the list has it, or a step uses it.
    pub known: bool,
}

impl Recipe {
    /// What `[words]` would mean in the step of this index: several things where it ties, nothing where it fits nothing.
    /// One behind the last step means a step that is still to be written.
    pub fn marked_meaning(&self, step: usize, words: &str) -> Vec<Target> {
        let whole = Span::new(0, words.len());
        let mark = Mark { span: whole, inner: whole, tokens: tokens(words, whole, &[]) };
        match marked::read(&self.kitchen(), &self.flow.results, step, &mark) {
            marked::Outcome::Mention(mention) => mention.targets,
            marked::Outcome::Unlisted(unlisted) => unlisted.ties,
            marked::Outcome::Collective(_) | marked::Outcome::Equipment(_) => Vec::new(),
        }
    }

    /// The name inside the marked mention at `span`, behind its share; nothing where no marked mention stands there.
    pub fn mark_name(&self, step: usize, span: Span) -> Option<Span> {
        let mark = self.steps.get(step)?.mark(span)?;
        let first = mark.tokens.get(marked::name_start(&mark.tokens))?;
        Some(Span::new(first.span.start, mark.tokens.last()?.span.end))
    }

    /// A plain mention with the share or the amount that stands before its name; a marked one as it is.
    pub fn with_share(&self, mention: &Mention) -> Span {
        let tokens = self.steps.get(mention.step).map(|step| step.tokens.as_slice()).unwrap_or_default();
        let at = starting_at(tokens, mention.span);
        let Some(at) = at.filter(|_| !mention.marked) else { return mention.span };
        let start = tokens.get(shares::before(tokens, at, &self.measures).start);
        start.map_or(mention.span, |start| start.span.joined(mention.span))
    }

    /// The share that a step says of the thing named at `span`: in the brackets there, or before the plain name.
    pub fn share_at(&self, step: usize, span: Span) -> Share {
        let Some(step) = self.steps.get(step) else { return Share::Whole };
        let (tokens, at) = match step.mark(span) {
            Some(mark) => (&mark.tokens, Some(marked::name_start(&mark.tokens))),
            None => (&step.tokens, starting_at(&step.tokens, span)),
        };
        at.map_or(Share::Whole, |at| shares::before(tokens, at, &self.measures).share)
    }

    /// The foods that prose outside the method names, and whether the list or a step has each.
    pub fn foods_named(&self, span: Span) -> Vec<NamedFood> {
        let words = tokens(&self.text, span, &[]);
        let found = names::matches_in(self.larder, &words).into_iter().filter_map(|hit| {
            let own = words.get(hit.start..hit.end)?;
            let span = own.first()?.span.joined(own.last()?.span);
            let listed = !resolve::best(&Query::new(self.larder, own), &self.ingredients).is_empty();
            let used =
                self.flow.unlisted.iter().any(|unlisted| unlisted.food.is_some_and(|food| food.name == hit.food.name));
            Some(NamedFood { span, food: hit.food, known: listed || used })
        });
        found.collect()
    }

    /// What the method is read against, but for the words of the title.
    pub(in crate::recipe) fn kitchen(&self) -> Kitchen<'_> {
        Kitchen {
            larder: self.larder,
            ingredients: &self.ingredients,
            equipment: &self.equipment,
            groups: &self.groups,
            steps: &self.steps,
            measures: &self.measures,
            title: Vec::new(),
        }
    }
}

/// Where the name begins in the words of a mention that is still being written, behind its share: the offset of `su` in
/// `half the su`. The word that the cursor still touches belongs to the name.
pub fn name_begins(words: &str) -> usize {
    let read = tokens(words, Span::new(0, words.len()), &[]);
    let mut number = false;
    for token in &read {
        let unit = number && Unit::find(token.span.of(words)).is_some();
        number = matches!(token.kind, TokenKind::Number);
        let shared = token.kind != TokenKind::Word || marked::says_share(token) || unit;
        if !shared || token.kind == TokenKind::Word && token.span.end == words.len() {
            return token.span.start;
        }
    }
    words.len()
}
