//! Follows what is put together, sentence by sentence, as far as the words make it plain.

use uom::si::f64::Mass;

use super::{
    Batch, Content, Filling, airless,
    losses::{Loss, left},
    orders,
    weigh::{self, Stocks},
};
use crate::{
    measure::Interval,
    recipe::{
        Recipe,
        flow::Taken,
        language::{
            clause::{Sense, sentences},
            token::{Token, TokenKind},
        },
        mentions::{Link, Mention, Target},
        vessels::Vessel,
    },
    text::Span,
};

/// What the method puts together.
#[derive(Debug, Clone, Default)]
pub struct Followed {
    /// What each vessel is filled with.
    pub fillings: Vec<Filling>,
    /// What is surely in the bowl with each sentence, by the place of the sentence.
    pub at_hand: Vec<(Span, Batch)>,
}

impl Followed {
    /// What is surely in the bowl when the sentence that holds `offset` begins its work.
    pub fn at(&self, offset: usize) -> Option<&Batch> {
        self.at_hand.iter().find(|(span, _)| span.touches(offset)).map(|(_, batch)| batch)
    }
}

/// Follows the method of a recipe.
pub fn follow(recipe: &Recipe, stocks: &Stocks<'_>, vessels: &[Vessel]) -> Followed {
    let mut walk = Walk {
        recipe,
        stocks,
        vessels,
        bowl: Bowl::default(),
        aside: Vec::new(),
        open: Vec::new(),
        out: Followed::default(),
    };
    for index in 0..recipe.steps.len() {
        walk.step(index);
    }
    walk.finish();
    walk.out
}

/// What is worked on, or has been put aside.
#[derive(Debug, Clone, Default)]
pub(super) struct Bowl {
    pub batch: Batch,
    /// The result that it is, as an index.
    pub result: Option<usize>,
    /// The pot that it stands in, as an index.
    pub vessel: Option<usize>,
    /// Whether it is done with until it is named again.
    pub closed: bool,
}

pub(super) struct Walk<'w> {
    pub recipe: &'w Recipe,
    stocks: &'w Stocks<'w>,
    pub vessels: &'w [Vessel],
    pub bowl: Bowl,
    pub aside: Vec<Bowl>,
    /// Vessels that are being filled.
    pub open: Vec<Filling>,
    pub out: Followed,
}

impl Walk<'_> {
    fn step(&mut self, index: usize) {
        let Some(step) = self.recipe.steps.get(index) else { return };
        let before = index.checked_sub(1).and_then(|before| self.recipe.steps.get(before));
        if before.is_some_and(|before| before.group != step.group) {
            self.put_aside();
        }
        let mentions = self.recipe.flow.mentions.iter().filter(|mention| mention.step == index);
        let mentions: Vec<&Mention> = mentions.collect();
        for (number, sentence) in sentences(&step.tokens).enumerate() {
            let (tokens, done) = (orders::flat(step, &sentence), orders::done(step, &sentence));
            let own = step.tokens.get(sentence.start..sentence.end).unwrap_or_default();
            let Some(span) = own.first().zip(own.last()).map(|(first, last)| first.span.joined(last.span)) else {
                continue;
            };
            let named = mentions.iter().copied().filter(|mention| span.contains(mention.span)).collect();
            self.sentence(index, span, named, (&tokens, &done), number == 0);
        }
        match step.results.as_slice() {
            [] => {}
            [one] => {
                let known =
                    self.recipe.flow.results.iter().position(|known| known.step == index && known.words == one.words);
                self.bowl.result = known;
                self.bowl.closed = true;
            }
            // What a step parts into several results nobody can follow.
            _ => self.bowl = Bowl::default(),
        }
    }

    fn sentence(
        &mut self,
        step: usize,
        span: Span,
        mentions: Vec<&Mention>,
        (tokens, done): (&[&Token], &[&Token]),
        first: bool,
    ) {
        let takes = |mention: &&&Mention| {
            mention.sense == Sense::Use && mention.targets.iter().any(|target| target.ingredient().is_some())
        };
        let first_taken = mentions.iter().find(takes).map(|mention| mention.span.start);
        let begins = first_taken.is_some_and(|first| {
            !orders::goes_on(tokens, first) && !mentions.iter().any(|mention| self.names_the_bowl(mention))
        });
        let fresh = begins && (first || self.bowl.closed || orders::in_a_vessel(tokens));
        if fresh || orders::starts_beside(tokens) {
            self.put_aside();
        }
        self.join_made(tokens);
        let pour = orders::pour(tokens, self.vessels, span);
        let (earlier, later): (Vec<&Mention>, Vec<&Mention>) =
            mentions.into_iter().partition(|mention| pour.as_ref().is_none_or(|pour| mention.span.start < pour.from));
        for mention in earlier {
            self.add(mention);
        }
        let later = match &pour {
            Some(pour) => self.pour(step, pour, later),
            None => later,
        };
        for mention in later {
            self.add(mention);
        }
        let empty = self.bowl.batch.contents.is_empty();
        if !empty && orders::takes_out(done) {
            self.take_out(step, span);
        }
        self.stand_in(span, step);
        self.out.at_hand.push((span, self.bowl.batch.clone()));
        if !empty {
            orders::losses(done).into_iter().for_each(|loss| self.lose(loss));
        }
        if !self.open.is_empty() && orders::finishes(done) {
            self.finish();
        }
        self.bowl.closed |= orders::sets_aside(done);
    }

    /// Puts the bowl aside and takes an empty one.
    fn put_aside(&mut self) {
        let bowl = std::mem::take(&mut self.bowl);
        if !bowl.batch.contents.is_empty() {
            self.aside.push(bowl);
        }
    }

    /// Whether a mention means the result that the bowl is.
    pub(super) fn names_the_bowl(&self, mention: &Mention) -> bool {
        mention
            .targets
            .iter()
            .any(|target| matches!(target, Target::Result(result) if self.bowl.result == Some(*result)))
    }

    /// "The flour mixture", "the two mixtures": bowls that have been put aside come back.
    fn join_made(&mut self, tokens: &[&Token]) {
        if self.aside.is_empty() {
            return;
        }
        for (at, token) in tokens.iter().enumerate() {
            if !token.one_of(&["mixture", "mix", "paste", "slurry", "puree", "syrup", "cream"]) {
                continue;
            }
            let words = tokens.get(at.saturating_sub(2)..at).unwrap_or_default();
            if words.iter().any(|word| word.one_of(&["both", "two"])) || token.inflected {
                if let Some(last) = self.aside.pop() {
                    self.take_in(last);
                }
                continue;
            }
            let named = |bowl: &Bowl| {
                bowl.result.is_none()
                    && words.iter().any(|word| word.kind == TokenKind::Word && self.has_named(bowl, &word.fold))
            };
            if named(&self.bowl) {
                continue;
            }
            if let Some(place) = self.aside.iter().rposition(named) {
                let bowl = self.aside.remove(place);
                self.take_in(bowl);
            }
        }
    }

    fn has_named(&self, bowl: &Bowl, word: &str) -> bool {
        let named = |content: &Content| {
            let line = self.recipe.ingredient(content.ingredient);
            line.is_some_and(|line| line.names.iter().any(|name| name.words.iter().any(|own| &**own == word)))
        };
        bowl.batch.contents.iter().any(named)
    }

    /// Tips another bowl into this one.
    fn take_in(&mut self, other: Bowl) {
        self.bowl.batch.contents.extend(other.batch.contents);
        self.bowl.closed = false;
        self.bowl.result = None;
    }

    /// Puts in what a mention takes.
    pub(super) fn add(&mut self, mention: &Mention) {
        let contents = self.taken(mention);
        self.bowl.batch.contents.extend(contents);
    }

    /// What a mention takes, out of the list or out of another bowl.
    pub(super) fn taken(&mut self, mention: &Mention) -> Vec<Content> {
        if mention.sense != Sense::Use || matches!(mention.link, Link::Loose | Link::Act) {
            return Vec::new();
        }
        let many = mention.targets.len() > 1 && !matches!(mention.link, Link::Kind | Link::Collective);
        let mut out = Vec::new();
        for target in &mention.targets {
            match *target {
                Target::Ingredient(ingredient, part) if !many => {
                    out.extend(self.of_ingredient(mention, ingredient, part))
                }
                Target::Result(result) => out.extend(self.of_result(mention, result)),
                _ => {}
            }
        }
        out
    }

    fn claim(&self, mention: &Mention, target: Target) -> Option<(Taken, Option<Interval>)> {
        let index = self.recipe.flow.mentions.iter().position(|other| std::ptr::eq(other, mention))?;
        let balance = self.recipe.flow.balances.iter().find(|balance| balance.target == target)?;
        let claim = balance.claims.iter().find(|claim| claim.mention == index)?;
        Some((claim.taken, balance.shared))
    }

    fn of_ingredient(&mut self, mention: &Mention, ingredient: usize, part: Option<&'static str>) -> Vec<Content> {
        let Some((taken, shared)) = self.claim(mention, Target::Ingredient(ingredient, part)) else {
            return Vec::new();
        };
        let left = |shared: Option<Interval>| match shared {
            Some(shared) => shared.most.map_or(0.0, |most| (1.0 - most).max(0.0)),
            None => 1.0,
        };
        // What is taken apart is counted by its parts: the eggs that yolks and whites come from do not go in besides.
        if part.is_none() && self.is_taken_apart(ingredient) {
            return Vec::new();
        }
        let share = match taken {
            // Cut up before, and only now put in: it comes from where it lies.
            Taken::Nothing => return self.fetch(ingredient, part),
            Taken::Whole | Taken::Rest => left(shared),
            Taken::Fraction(least, _) | Taken::Amount(_, Some((least, _))) => least.min(1.0),
            Taken::Amount(_, None) | Taken::Some => 0.0,
        };
        self.content(ingredient, part).into_iter().map(|content| content.times(share)).collect()
    }

    /// Whether the method uses parts of an ingredient by themselves.
    fn is_taken_apart(&self, ingredient: usize) -> bool {
        let own = self.recipe.ingredient(ingredient).and_then(weigh::name).and_then(|name| name.part);
        self.recipe.flow.balances.iter().any(|balance| {
            matches!(balance.target, Target::Ingredient(index, Some(part)) if index == ingredient && Some(part) != own)
        })
    }

    /// All that there surely is of an ingredient.
    fn content(&self, ingredient: usize, part: Option<&'static str>) -> Option<Content> {
        let line = self.recipe.ingredient(ingredient)?;
        let weight: Mass = self.stocks.of(ingredient, part).weight.least;
        // Of alternatives the densest, which takes the least room.
        let foods = line.names.iter().filter(|name| !name.aside).map(|name| name.food);
        let volumes = foods.map(|food| airless::volume(food, weight));
        let volume = volumes.reduce(|one, other| if other < one { other } else { one })?;
        Some(Content { ingredient, part, weight, volume })
    }

    /// Takes an ingredient out of the bowls where it lies.
    fn fetch(&mut self, ingredient: usize, part: Option<&'static str>) -> Vec<Content> {
        let mut out = Vec::new();
        for bowl in self.aside.iter_mut().filter(|bowl| bowl.result.is_none()) {
            let (own, rest): (Vec<Content>, Vec<Content>) = bowl
                .batch
                .contents
                .iter()
                .partition(|content| content.ingredient == ingredient && content.part == part);
            out.extend(own);
            bowl.batch.contents = rest;
        }
        out
    }

    /// "Remove the chicken": what a sentence names leaves the bowl and lies beside it.
    fn take_out(&mut self, step: usize, span: Span) {
        let named =
            self.recipe.flow.mentions.iter().filter(|mention| mention.step == step && span.contains(mention.span));
        let out: Vec<usize> =
            named.flat_map(|mention| &mention.targets).filter_map(|target| target.ingredient()).collect();
        let contents = std::mem::take(&mut self.bowl.batch.contents);
        let (taken, left): (Vec<Content>, Vec<Content>) =
            contents.into_iter().partition(|content| out.contains(&content.ingredient));
        self.bowl.batch.contents = left;
        if !taken.is_empty() {
            self.aside.push(Bowl { batch: Batch { contents: taken }, ..Bowl::default() });
        }
    }

    /// What a mention of a result takes of it.
    fn of_result(&mut self, mention: &Mention, result: usize) -> Vec<Content> {
        let taken = self.claim(mention, Target::Result(result)).map(|(taken, _)| taken);
        let own = self.bowl.result == Some(result);
        let share = match taken {
            Some(Taken::Fraction(least, _)) | Some(Taken::Amount(_, Some((least, _)))) => least.min(1.0),
            Some(Taken::Amount(_, None) | Taken::Some) => 0.0,
            _ => 1.0,
        };
        if own {
            self.bowl.closed = false;
            if share < 1.0 {
                // A part of it goes on; the rest waits for its name.
                let rest = self.bowl.clone();
                self.bowl = Bowl::default();
                let part = rest.batch.contents.iter().map(|content| content.times(share)).collect();
                let rest = Bowl { batch: scaled(&rest.batch, 1.0 - share), ..rest };
                self.aside.push(rest);
                return part;
            }
            return Vec::new();
        }
        let Some(place) = self.aside.iter().rposition(|bowl| bowl.result == Some(result)) else { return Vec::new() };
        let bowl = self.aside.remove(place);
        if share < 1.0 {
            self.aside.push(Bowl { batch: scaled(&bowl.batch, 1.0 - share), ..bowl.clone() });
        }
        scaled(&bowl.batch, share).contents
    }

    fn lose(&mut self, loss: Loss) {
        for content in &mut self.bowl.batch.contents {
            *content = left(self.recipe, *content, loss);
        }
    }

    /// The vessels that are being filled are full.
    fn finish(&mut self) {
        self.out.fillings.append(&mut self.open);
    }
}

/// A share of all that is in it.
pub(super) fn scaled(batch: &Batch, share: f64) -> Batch {
    Batch { contents: batch.contents.iter().map(|content| content.times(share)).collect() }
}
