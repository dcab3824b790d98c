//! Puts what has been put together into vessels.

use super::{
    Batch, Filling,
    follow::{Bowl, Walk, scaled},
    orders::{self, Object, Pour},
};
use crate::{
    recipe::{
        Recipe,
        language::clause::Sense,
        mentions::Mention,
        vessels::{self, Kind},
    },
    text::Span,
};

impl Walk<'_> {
    /// Fills a vessel; gives back the mentions that stand behind the order.
    pub(super) fn pour<'m>(&mut self, step: usize, pour: &Pour<'_>, mentions: Vec<&'m Mention>) -> Vec<&'m Mention> {
        let (inside, behind): (Vec<&Mention>, Vec<&Mention>) =
            mentions.into_iter().partition(|mention| pour.object.contains(mention.span) && mention.sense == Sense::Use);
        let of_bowl = inside.iter().any(|mention| self.names_the_bowl(mention));
        let object = orders::object(&pour.words, !inside.is_empty() && !of_bowl);
        let batch = match object {
            Object::Named => {
                let contents = inside.iter().flat_map(|mention| self.taken(mention)).collect();
                Batch { contents }
            }
            _ if of_bowl => {
                for mention in &inside {
                    self.add(mention);
                }
                std::mem::take(&mut self.bowl).batch
            }
            Object::AtHand(share) => {
                let Some(bowl) = self.fitting(pour) else { return behind };
                let poured = scaled(&bowl.batch, share);
                if share < 1.0 {
                    self.bowl = Bowl { batch: scaled(&bowl.batch, 1.0 - share), vessel: None, ..bowl };
                }
                poured
            }
            Object::Other => return behind,
        };
        if let Some(vessel) = vessels::meant(self.vessels, pour.vessel).filter(|_| !batch.contents.is_empty()) {
            self.fill(step, vessel, pour, batch);
        }
        behind
    }

    fn fill(&mut self, step: usize, vessel: usize, pour: &Pour<'_>, batch: Batch) {
        let stands = self
            .vessels
            .get(vessel)
            .is_some_and(|vessel| matches!(vessel.kind, Kind::Pot | Kind::Skillet | Kind::Bowl));
        if stands {
            // More may follow into a pot, and it is cooked there.
            let contents = std::mem::take(&mut self.bowl.batch.contents);
            let contents = contents.into_iter().chain(batch.contents).collect();
            self.bowl = Bowl { batch: Batch { contents }, vessel: Some(vessel), ..Bowl::default() };
            return;
        }
        let called =
            pour.words.iter().rev().find(|token| token.one_among(&orders::MADE)).map(|token| token.fold.clone());
        match self.open.iter_mut().find(|filling| filling.vessel == vessel) {
            Some(filling) => filling.batch.contents.extend(batch.contents),
            None => {
                let span = self.vessels.get(pour.vessel).map_or(pour.object, |vessel| vessel.span);
                self.open.push(Filling { vessel, step, span, called: called.unwrap_or_default(), batch });
            }
        }
    }

    /// The bowl that the order means: the one at hand, or one put aside, where it holds what the name asks for.
    fn fitting(&mut self, pour: &Pour<'_>) -> Option<Bowl> {
        let wanted: &[&str] = match () {
            () if pour.words.iter().any(|token| token.one_of(&["batter", "dough"])) => {
                &["flour", "starch", "meal", "nut"]
            }
            () if pour.words.iter().any(|token| token.word("custard")) => &["egg"],
            () => &[],
        };
        let holds = |recipe: &Recipe, bowl: &Bowl| {
            wanted.is_empty() && !bowl.batch.contents.is_empty()
                || bowl.batch.contents.iter().any(|content| {
                    let line = recipe.ingredient(content.ingredient);
                    line.is_some_and(|line| {
                        line.names
                            .iter()
                            .any(|name| name.food.is_some_and(|food| wanted.iter().any(|kind| food.is(kind))))
                    })
                })
        };
        if holds(self.recipe, &self.bowl) {
            return Some(std::mem::take(&mut self.bowl));
        }
        let place = self.aside.iter().rposition(|bowl| holds(self.recipe, bowl)).filter(|_| !wanted.is_empty())?;
        Some(self.aside.remove(place))
    }

    /// "In a 4-quart pot, …": what is put together there stands in it.
    pub(super) fn stand_in(&mut self, span: Span, step: usize) {
        let named = self.vessels.iter().enumerate().filter(|(_, vessel)| span.contains(vessel.span));
        let mut pots = named.filter(|(_, vessel)| matches!(vessel.kind, Kind::Pot | Kind::Skillet | Kind::Bowl));
        if let Some((index, vessel)) = pots.next().filter(|_| pots.next().is_none()) {
            match vessels::meant(self.vessels, index) {
                Some(meant) => self.bowl.vessel = Some(meant),
                None if !vessel.again => self.bowl.vessel = None,
                None => {}
            }
        }
        let Some(vessel) = self.bowl.vessel else { return };
        let fuller = |filling: &Filling| filling.vessel == vessel && filling.batch.volume() >= self.bowl.batch.volume();
        if self.out.fillings.iter().any(fuller) {
            return;
        }
        self.out.fillings.retain(|filling| filling.vessel != vessel);
        let place = self.vessels.get(vessel).map_or(span, |vessel| vessel.span);
        self.out.fillings.push(Filling {
            vessel,
            step,
            span: place,
            called: "".into(),
            batch: self.bowl.batch.clone(),
        });
    }
}
