//! Uses that no name says: acts that imply a food, and pronouns that go on with one.

use super::{
    Link, Mention, Share, Target, Unlisted, acts,
    find::{Place, Walk},
    resolve::{self, Query},
};
use crate::{
    recipe::{
        Name, Step,
        language::{
            clause::Sense,
            lexicon::Roles,
            token::{Token, TokenKind},
        },
    },
    text::Words,
};

/// So many names back, nobody knows any longer of what there is a rest.
const AT_HAND: usize = 50;

/// What a sentence takes shares of.
struct Shared<'m> {
    /// What it speaks of first, and so of all along.
    first: &'m Mention,
    /// What it speaks of last.
    last: &'m Mention,
}

/// Words for what shares leave, behind "the" and "the other".
static RESTS: Words = Words::new("rest remainder half");

impl Walk<'_, '_> {
    /// Acts that imply a food: they use it where the list has it, and say nothing where it has not.
    pub(super) fn act(&mut self, place: &Place<'_>, at: usize) -> Option<usize> {
        let token = place.tokens.get(at)?;
        if !acts::may_imply(token) {
            return None;
        }
        match acts::act(place.tokens, at) {
            Some(acts::Act::Works) => return Some(at + 1),
            Some(acts::Act::Names) => {
                let query = Query::new(self.kitchen.larder, place.tokens.get(at..=at)?);
                let fits = resolve::best(&query, self.kitchen.ingredients);
                let listed: Vec<usize> =
                    fits.into_iter().filter(|fit| fit.rank <= resolve::Rank::Inner).map(|fit| fit.ingredient).collect();
                // "Salt it": salt goes in, listed or not.
                if listed.is_empty()
                    && token.one_of(&["salt", "pepper", "sugar"])
                    && place.senses.get(at).copied() == Some(Sense::Use)
                {
                    self.lacks(Unlisted {
                        span: token.span,
                        step: place.step,
                        food: query.food,
                        measure: None,
                        marked: false,
                        added: true,
                        ties: Vec::new(),
                    });
                }
                self.implied(place, at, listed);
                return Some(at + 1);
            }
            None => {}
        }
        let wanted: &[&str] = if acts::greases(place.tokens, at) {
            &["oil", "fat", "butter"]
        } else if acts::flours(place.tokens, at) {
            &["flour"]
        } else if acts::seasons(place.tokens, at) {
            &["salt", "pepper", "seasoning"]
        } else {
            return None;
        };
        if acts::says_with(place.tokens, at) {
            return None;
        }
        let greased = match &*token.fold {
            "buttered" => &["butter"][..],
            "oiled" => &["oil"][..],
            _ => wanted,
        };
        let listed = self.kitchen.ingredients.iter().enumerate().filter(|(_, ingredient)| {
            ingredient.names.iter().any(|name| {
                name.food.is_some_and(|food| greased.iter().any(|kind| food.is(kind) || food.name == *kind))
            })
        });
        let listed: Vec<usize> = listed.map(|(index, _)| index).collect();
        // For the pan comes first; otherwise the first fat of the list would do as well as any.
        let for_pan = listed.iter().copied().find(|index| {
            self.kitchen.ingredients.get(*index).is_some_and(|ingredient| ingredient.tags.pan || ingredient.tags.more)
        });
        let chosen = match for_pan {
            Some(index) => vec![index],
            None if greased.contains(&"fat") => Vec::new(),
            None if wanted.contains(&"fat") => listed.into_iter().take(1).collect(),
            None => listed,
        };
        self.implied(place, at, chosen);
        None
    }

    fn implied(&mut self, place: &Place<'_>, at: usize, ingredients: Vec<usize>) {
        let Some(token) = place.tokens.get(at) else { return };
        let sense = place.senses.get(at).copied().unwrap_or_default();
        if ingredients.is_empty() || sense == Sense::Negated {
            return;
        }
        let targets = ingredients.into_iter().map(|index| Target::Ingredient(index, None)).collect();
        self.out.mentions.push(Mention { share: Share::Some, sense, ..by_word(place, token, Link::Act, targets) });
    }

    /// "Mix them with the ricotta": opens a step on the one thing that the step before worked on.
    fn goes_on(&mut self, place: &Place<'_>, at: usize) {
        let let_be = place.tokens.first().is_some_and(|first| first.word("let"))
            || place.tokens.get(at + 1).is_some_and(|next| next.word("all"));
        if !(at <= 1 && place.opens_step && place.step > 0) || let_be {
            return;
        }
        let mentions = &self.out.mentions;
        let before =
            mentions.get(mentions.partition_point(|mention| mention.step + 1 < place.step)..).unwrap_or_default();
        let before: Vec<&Mention> =
            before.iter().filter(|mention| mention.step + 1 == place.step && mention.sense == Sense::Use).collect();
        let Some(first) = before.first() else { return };
        let one = first.targets.len() == 1 && before.iter().all(|mention| mention.targets == first.targets);
        let Some(token) = place.tokens.get(at).filter(|_| one) else { return };
        let mention = by_word(place, token, first.link, first.targets.clone());
        self.out.mentions.push(mention);
    }

    /// "Lay it in water overnight": a method that begins so speaks of what the title names.
    fn subject(&mut self, place: &Place<'_>, at: usize) {
        let ordered = at == 1 && place.tokens.first().is_some_and(|first| first.is(Roles::VERB) && !first.inflected);
        let all = place.tokens.get(at + 1).is_some_and(|next| next.one_of(&["all", "together"]));
        if !(ordered && place.opens_step && place.step == 0) || all || !self.out.mentions.is_empty() {
            return;
        }
        let titled = |name: &Name| self.kitchen.title.iter().any(|word| **word == *name.head());
        let lines = self.kitchen.ingredients.iter().enumerate();
        let mut titled = lines.filter(|(_, line)| line.names.iter().any(|name| !name.aside && titled(name)));
        let (Some((index, _)), None, Some(token)) = (titled.next(), titled.next(), place.tokens.get(at)) else {
            return;
        };
        self.out.mentions.push(by_word(place, token, Link::Partial, vec![Target::Ingredient(index, None)]));
    }

    /// "Half the cheese …, and scatter over the rest", "… the other half": what is left of what a share was taken of last.
    pub(super) fn the_rest(&mut self, place: &Place<'_>, at: usize, token: &Token) {
        if !token.one_among(&RESTS) {
            return;
        }
        let before = |by: usize| at.checked_sub(by).and_then(|before| place.tokens.get(before));
        let half = token.word("half") && before(1).is_some_and(|before| before.one_of(&["other", "second"]));
        let rest = !token.word("half") && before(1).is_some_and(|before| before.word("the"));
        let used = place.senses.get(at).copied() == Some(Sense::Use);
        // "Let the rest cool", "the rest of": a name or a clause follows.
        let ends = || {
            place.tokens.get(at + 1).is_none_or(|next| {
                next.kind != TokenKind::Word
                    || next.one_of(&["and", "on", "over", "in", "into", "to", "for", "with", "round"])
            })
        };
        if !((rest || half) && used && ends()) {
            return;
        }
        // A mixture's name that may yet turn out to mean a line of the list shares it out as well.
        let by_name = self.shared_before(&self.out.mentions, place);
        let by_mixture = self.shared_before(&self.fallbacks, place);
        let later = |one: &Shared<'_>, other: &Shared<'_>| one.last.span.start > other.last.span.start;
        let by_mixture = by_mixture.filter(|mixture| by_name.as_ref().is_none_or(|name| later(mixture, name)));
        let mixture = by_mixture.is_some();
        let Some(shared) = by_mixture.or(by_name).filter(|shared| !self.is_shared_since(shared, place, token)) else {
            return;
        };
        let first = by_word(place, token, shared.first.link, shared.first.targets.clone());
        let rest = Mention { share: Share::RestAgain, ..first };
        if mixture { self.fallbacks.push(rest) } else { self.out.mentions.push(rest) }
    }

    /// Of what shares were taken last, in this step or the one before.
    fn shared_before<'m>(&self, mentions: &'m [Mention], place: &Place<'_>) -> Option<Shared<'m>> {
        let near = mentions.iter().rev().take(AT_HAND).take_while(|mention| mention.step + 2 > place.step);
        let mut shares = near.filter(|mention| {
            mention.sense == Sense::Use && matches!(mention.share, Share::Fraction(..) | Share::AllBut(_))
        });
        let last = shares.next()?;
        let tokens = self.kitchen.steps.get(last.step).map(|step| step.tokens.as_slice()).unwrap_or_default();
        let before =
            tokens.get(..tokens.partition_point(|token| token.span.start < last.span.start)).unwrap_or_default();
        let from = before.iter().rfind(|token| token.kind == TokenKind::Stop).map_or(0, |stop| stop.span.end);
        let first = shares.take_while(|mention| mention.step == last.step && mention.span.start >= from).last();
        Some(Shared { first: first.unwrap_or(last), last })
    }

    /// Whether a share of what has no name has been spoken of between those and the word: "half of the mixture". In a name that means
    /// something, like "the juice of half the lemon", the share is that one's.
    fn is_shared_since(&self, shared: &Shared<'_>, place: &Place<'_>, word: &Token) -> bool {
        let steps = self.kitchen.steps.get(shared.last.step..=place.step).unwrap_or_default();
        let behind = |step: &Step| step.tokens.partition_point(|token| token.span.start < shared.last.span.end);
        let tokens = steps.iter().flat_map(|step| step.tokens.get(behind(step)..).unwrap_or_default());
        let mut between = tokens.take_while(|token| token.span.start < word.span.start);
        let near = |mentions: &[Mention], token: &Token| {
            mentions.iter().rev().take(AT_HAND).any(|mention| mention.span.contains(token.span))
        };
        let named = |token: &Token| near(&self.out.mentions, token) || near(&self.fallbacks, token);
        between.any(|token| token.one_of(&["half", "third", "quarter", "most", "some"]) && !named(token))
    }

    /// "When the pasta is done, drain it": the pronoun makes the subject of the cue something that is handled.
    pub(super) fn pronoun(&mut self, place: &Place<'_>, at: usize) {
        let pronoun = place.tokens.get(at).is_some_and(|token| token.one_of(&["it", "them"]));
        if !pronoun || place.senses.get(at).copied() != Some(Sense::Use) {
            return;
        }
        self.goes_on(place, at);
        self.subject(place, at);
        let own = self.out.mentions.get_mut(place.first..).unwrap_or_default();
        if own.iter().any(|mention| mention.sense == Sense::Use) {
            return;
        }
        for mention in own.iter_mut().filter(|mention| matches!(mention.sense, Sense::Cue | Sense::Condition)) {
            mention.sense = Sense::Use;
        }
    }
}

/// A word that means something by what stands around it, and takes what no share claims.
fn by_word(place: &Place<'_>, word: &Token, link: Link, targets: Vec<Target>) -> Mention {
    let (share, sense) = (Share::Whole, Sense::Use);
    Mention { span: word.span, step: place.step, marked: false, link, targets, share, sense, measure: None }
}
