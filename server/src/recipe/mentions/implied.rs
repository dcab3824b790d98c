//! Uses that no name says: acts that imply a food, and pronouns that go on with one.

use super::{
    Link, Mention, Share, Target, Unlisted, acts,
    find::{Place, Walk},
    resolve::{self, Query},
};
use crate::recipe::language::clause::Sense;

impl Walk<'_, '_> {
    /// Acts that imply a food: they use it where the list has it, and say nothing where it has not.
    pub(super) fn act(&mut self, place: &Place<'_>, at: usize) -> Option<usize> {
        let token = place.tokens.get(at)?;
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
        self.out.mentions.push(Mention {
            span: token.span,
            step: place.step,
            marked: false,
            link: Link::Act,
            targets: ingredients.into_iter().map(|index| Target::Ingredient(index, None)).collect(),
            share: Share::Some,
            sense,
            measure: None,
        });
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
        let mention = Mention {
            span: token.span,
            step: place.step,
            marked: false,
            share: Share::Whole,
            measure: None,
            ..(*first).clone()
        };
        self.out.mentions.push(mention);
    }

    /// "When the pasta is done, drain it": the pronoun makes the subject of the cue something that is handled.
    pub(super) fn pronoun(&mut self, place: &Place<'_>, at: usize) {
        let pronoun = place.tokens.get(at).is_some_and(|token| token.one_of(&["it", "them"]));
        if !pronoun || place.senses.get(at).copied() != Some(Sense::Use) {
            return;
        }
        self.goes_on(place, at);
        let own = self.out.mentions.get_mut(place.first..).unwrap_or_default();
        if own.iter().any(|mention| mention.sense == Sense::Use) {
            return;
        }
        for mention in own.iter_mut().filter(|mention| matches!(mention.sense, Sense::Cue | Sense::Condition)) {
            mention.sense = Sense::Use;
        }
    }
}
