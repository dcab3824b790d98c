//! Walks the method, sentence by sentence, and notes every place that uses something.

use rustc_hash::FxHashSet;
use smol_str::SmolStr;

use super::{
    Mention, Unlisted,
    collectives::{Collective, collective, says_many},
    marked,
    noted::{Noted, named_in_step},
    resolve::{self, KnownResult, Query},
    runs::{self, Run, Vocabulary},
    shares,
};
use crate::{
    larder::{Larder, Match},
    recipe::{
        language::{
            clause::{Sense, sentences},
            lexicon::Roles,
            token::{Token, TokenKind},
        },
        measures::Measure,
        model::{Equipment, Group, Ingredient, Step},
        names,
    },
};

/// What the method is read against.
pub struct Kitchen<'r> {
    /// The foods that are known.
    pub larder: &'static Larder,
    /// The list.
    pub ingredients: &'r [Ingredient],
    /// The equipment.
    pub equipment: &'r [Equipment],
    /// The headings.
    pub groups: &'r [Group],
    /// The method.
    pub steps: &'r [Step],
    /// Every measure of the recipe.
    pub measures: &'r [Measure],
    /// The folded words of the title.
    pub title: Vec<SmolStr>,
}

/// A collective as it stands in the method, before it is known what the others claim.
#[derive(Debug, Clone)]
pub struct Gathering {
    /// Where it stands among the mentions: before the mention of this index.
    pub before: usize,
    /// The step, as an index.
    pub step: usize,
    /// What it says.
    pub what: Collective,
    /// The ingredients it leaves out.
    pub except: Vec<usize>,
    /// Where it stands in the text.
    pub span: crate::text::Span,
    /// Whether it stands in brackets.
    pub marked: bool,
    /// Its sense.
    pub sense: Sense,
}

/// What the method says.
#[derive(Debug, Clone, Default)]
pub struct Reading {
    /// Mentions, in the order of the text.
    pub mentions: Vec<Mention>,
    /// Foods that the list does not have, and marked mentions that fit nothing or tie.
    pub unlisted: Vec<Unlisted>,
    /// Results, in order.
    pub results: Vec<KnownResult>,
    /// Equipment mentioned, as indices, with the step.
    pub equipment: Vec<(usize, usize)>,
}

/// Reads the method, but for the first steps, so many, of which all has been noted.
pub fn read(kitchen: &Kitchen<'_>, noted: Noted, known: usize) -> Noted {
    let results =
        kitchen.steps.iter().enumerate().flat_map(|(step, s)| {
            s.results.iter().map(move |result| KnownResult { words: result.words.clone(), step })
        });
    let mut walk = Walk {
        kitchen,
        vocabulary: Vocabulary::of(kitchen),
        pieces: pieces(kitchen),
        unlisted: noted.reading.unlisted.iter().filter_map(named_in_step).collect(),
        out: Reading { results: results.collect(), ..noted.reading },
        gatherings: noted.gatherings,
        tied: noted.tied,
        kinds: noted.kinds,
        fallbacks: noted.fallbacks,
    };
    for (index, step) in kitchen.steps.iter().enumerate().skip(known) {
        walk.step(index, step);
    }
    Noted {
        reading: walk.out,
        gatherings: walk.gatherings,
        tied: walk.tied,
        kinds: walk.kinds,
        fallbacks: walk.fallbacks,
    }
}

/// What each thing that was noted means in the light of all others.
pub fn settled(kitchen: &Kitchen<'_>, noted: Noted) -> Reading {
    let Noted { reading: mut out, gatherings, tied, kinds, fallbacks } = noted;
    let parts = super::gather::parts_gathered(kitchen, &gatherings);
    super::ties::settle(kitchen, &mut out.mentions, &tied, &parts);
    super::kinds::settle(kitchen, &mut out.mentions, &kinds);
    super::gather::settle(kitchen, gatherings, &mut out);
    super::gather::fall_back(fallbacks, &mut out.mentions);
    out
}

pub(super) struct Walk<'r, 'k> {
    pub(super) kitchen: &'k Kitchen<'r>,
    pub(super) vocabulary: Vocabulary<'k>,
    /// Words for the pieces that the list has foods cut into.
    pub(super) pieces: FxHashSet<&'k str>,
    pub(super) out: Reading,
    gatherings: Vec<Gathering>,
    /// Mentions that fit several things equally, by index.
    tied: FxHashSet<usize>,
    /// Mentions of a kind of food, by index.
    kinds: FxHashSet<usize>,
    /// Mentions that count only where nothing else uses what they mean.
    pub(super) fallbacks: Vec<Mention>,
    /// Foods that the list does not have, by step.
    unlisted: FxHashSet<(usize, &'static str)>,
}

/// A sentence on the way through it. Nothing here looks beyond it, so that a step costs what its sentences cost.
pub(super) struct Place<'t> {
    pub(super) step: usize,
    pub(super) tokens: &'t [Token],
    pub(super) senses: &'t [Sense],
    /// The larder's matches, in order.
    pub(super) matches: Vec<Match<'static>>,
    /// Whether a word for many stands in the sentence.
    says_many: bool,
    /// Whether the sentence opens its step.
    pub(super) opens_step: bool,
    /// How many parentheses are open where the walk has come to.
    open: usize,
    /// First mention of this sentence.
    pub(super) first: usize,
    /// Whether a verb that puts things in has been read.
    adding: bool,
}

impl Place<'_> {
    /// The larder's match that starts at a token.
    pub(super) fn match_at(&self, start: usize) -> Option<&Match<'static>> {
        let at = self.matches.partition_point(|hit| hit.start < start);
        self.matches.get(at).filter(|hit| hit.start == start)
    }

    /// Counts the parentheses that have been gone past. A lone closing one closes nothing.
    fn pass(&mut self, from: usize, to: usize) {
        for token in self.tokens.iter().take(to).skip(from) {
            match token.kind {
                TokenKind::Open => self.open += 1,
                TokenKind::Close => self.open = self.open.saturating_sub(1),
                _ => {}
            }
        }
    }
}

impl<'k> Walk<'_, 'k> {
    fn step(&mut self, index: usize, step: &'k Step) {
        let mut open = 0;
        for sentence in sentences(&step.tokens) {
            let Some(tokens) = step.tokens.get(sentence.start..sentence.end) else { continue };
            let mut place = Place {
                step: index,
                tokens,
                senses: step.senses.get(sentence.start..sentence.end).unwrap_or_default(),
                matches: names::matches_in(self.kitchen.larder, tokens),
                says_many: says_many(tokens),
                opens_step: sentence.start == 0,
                open,
                first: self.out.mentions.len(),
                adding: false,
            };
            let mut at = 0;
            while at < tokens.len() {
                let next = self.token(&mut place, at, step).max(at + 1);
                place.pass(at, next);
                at = next;
            }
            open = place.open;
        }
    }

    /// Reads what starts at `at`; the answer is where to go on.
    fn token(&mut self, place: &mut Place<'_>, at: usize, step: &Step) -> usize {
        let Some(token) = place.tokens.get(at) else { return at + 1 };
        if let TokenKind::Mention(mark) = token.kind {
            if let Some(mark) = step.marks.get(mark) {
                self.marked(place, at, mark);
            }
            return at + 1;
        }
        if token.kind != TokenKind::Word {
            return at + 1;
        }
        if place.says_many
            && let Some(found) = collective(place.tokens, at)
        {
            if mere_place(place.tokens, at) {
                return found.end;
            }
            return self.collective(place, found);
        }
        if let Some(next) = self.act(place, at) {
            return next;
        }
        place.adding |= token.is(Roles::ADDING);
        if token.is(Roles::PRONOUN) {
            self.pronoun(place, at);
        }
        self.the_rest(place, at, token);
        match runs::run(self, place, at) {
            Some(run) => self.take_run(place, run),
            None => at + 1,
        }
    }

    fn marked(&mut self, place: &Place<'_>, at: usize, mark: &crate::recipe::model::Mark) {
        let sense = place.senses.get(at).copied().unwrap_or_default();
        match marked::read(self.kitchen, &self.out.results, place.step, mark) {
            marked::Outcome::Mention(mut mention) => {
                mention.sense = sense;
                self.out.mentions.push(mention);
            }
            marked::Outcome::Collective(what) => {
                let except = self.exceptions(&mark.tokens, what.except);
                self.gather(place.step, what, except, mark.span, true, sense);
            }
            marked::Outcome::Equipment(index) => self.out.equipment.push((index, place.step)),
            marked::Outcome::Unlisted(unlisted) => self.lacks(unlisted),
        }
    }

    pub(super) fn lacks(&mut self, unlisted: Unlisted) {
        self.unlisted.extend(named_in_step(&unlisted));
        self.out.unlisted.push(unlisted);
    }

    fn gather(
        &mut self,
        step: usize,
        what: Collective,
        except: Vec<usize>,
        span: crate::text::Span,
        marked: bool,
        sense: Sense,
    ) {
        let before = self.out.mentions.len();
        self.gatherings.push(Gathering { before, step, what, except, span, marked, sense });
    }

    fn collective(&mut self, place: &mut Place<'_>, found: Collective) -> usize {
        let end = found.except.map_or(found.end, |(_, to)| to);
        let first = place.tokens.get(found.start).map(|token| token.span);
        let last = place.tokens.get(found.end - 1).map(|token| token.span);
        let sense = place.senses.get(found.start).copied().unwrap_or_default();
        let except = self.exceptions(place.tokens, found.except);
        if let (Some(first), Some(last)) = (first, last) {
            self.gather(place.step, found, except, first.joined(last), false, sense);
        }
        end
    }

    /// The ingredients named in the exception of a collective.
    fn exceptions(&self, tokens: &[Token], range: Option<(usize, usize)>) -> Vec<usize> {
        let Some(tokens) = range.and_then(|(from, to)| tokens.get(from..to)) else { return Vec::new() };
        let mut out = Vec::new();
        let named = |token: &&[Token]| !token.is_empty();
        for chunk in
            tokens.split(|token| token.kind != TokenKind::Word || token.one_of(&["and", "or", "the"])).filter(named)
        {
            out.extend(
                resolve::best(&Query::new(self.kitchen.larder, chunk), self.kitchen.ingredients)
                    .into_iter()
                    .map(|fit| fit.ingredient),
            );
        }
        out
    }

    /// "Butter or oil": the second of two foods that are not listed says no more than the first.
    fn alternative(&self, place: &Place<'_>, at: usize) -> bool {
        let or = at
            .checked_sub(1)
            .and_then(|before| place.tokens.get(before))
            .is_some_and(|before| before.word("or") || before.kind == TokenKind::Slash);
        let before = at.checked_sub(2).and_then(|before| place.tokens.get(before));
        or && before
            .zip(self.out.unlisted.last())
            .is_some_and(|(before, last)| last.step == place.step && last.span.end >= before.span.start)
    }

    fn take_run(&mut self, place: &Place<'_>, run: Run) -> usize {
        let sense = place.senses.get(run.start).copied().unwrap_or_default();
        let before = shares::before(place.tokens, run.start, self.kitchen.measures);
        let span = place
            .tokens
            .get(run.start)
            .zip(place.tokens.get(run.end - 1))
            .map(|(first, last)| first.span.joined(last.span));
        let Some(span) = span else { return run.end };
        if !run.targets.is_empty() {
            let mention = Mention {
                span,
                step: place.step,
                marked: false,
                link: run.link,
                targets: run.targets,
                share: before.share,
                sense,
                measure: before.measure,
            };
            if run.fallback {
                self.fallbacks.push(mention);
                return run.end;
            }
            if run.tied {
                self.tied.insert(self.out.mentions.len());
            } else if run.kind {
                self.kinds.insert(self.out.mentions.len());
            }
            self.out.mentions.push(mention);
        } else if let Some(food) = run.unlisted {
            let again = before.measure.is_none() && self.unlisted.contains(&(place.step, food.name));
            if sense == Sense::Use && !again && !self.alternative(place, run.start) && place.open == 0 {
                let measure = before.measure;
                self.lacks(Unlisted {
                    span,
                    step: place.step,
                    food: Some(food),
                    measure,
                    marked: false,
                    added: place.adding || measure.is_some(),
                    ties: Vec::new(),
                });
            }
        }
        run.end
    }
}

/// What the list has its foods cut or taken apart into: wedges, leaves.
fn pieces<'k>(kitchen: &'k Kitchen<'_>) -> FxHashSet<&'k str> {
    let of =
        |line: &'k Ingredient| line.pieces.iter().map(|word| &**word).chain(line.parts.iter().map(|part| part.name));
    kitchen.ingredients.iter().flat_map(of).collect()
}

/// "Fill up slightly past all the ingredients": where something goes, and no use of them.
fn mere_place(tokens: &[Token], at: usize) -> bool {
    at.checked_sub(1)
        .and_then(|before| tokens.get(before))
        .is_some_and(|before| before.one_of(&["past", "above", "over", "cover", "covering", "covers"]))
}
