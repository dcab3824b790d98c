//! Finds the food in a free ingredient name: "cold unsalted butter, cubed" is butter.
//!
//! The head of an English name stands last, before `of`, `in` or a comma. So each stretch between commas is read from its end: words of
//! state are passed over, and the first thing that is neither a state nor a portion has to be a food, or the name is one that we do not know.

use std::ops::Range;

use super::Larder;
use super::claims;
use super::food::Food;
use super::found::{Found, Slip};
use super::names::Hit;
use super::vocabulary::{self, Stop};
use super::words::{self, Word};

/// The most words between commas in which an unknown head may still leave a guess. Longer ones are sentences.
const WORDS_OF_A_GUESS: usize = 6;

/// A name being read. Ranges count its words.
struct Reader<'r> {
    larder: &'r Larder,
    words: Vec<&'r str>,
    /// The words that were corrected, by their place.
    corrected: Vec<usize>,
}

/// A food in a name, and the words around it that belong to it.
#[derive(Debug, Clone)]
struct Reading {
    hit: Hit,
    parts: Vec<usize>,
    certain: bool,
    corrected: Option<(usize, String)>,
}

impl Larder {
    /// The food that a free name means: its longest known name that stands at the head, whatever is said of its state.
    ///
    /// ```
    /// let found = tamis::larder::larder().find("cold unsalted butter, cubed").unwrap();
    /// assert!(found.certain && found.food.is("fat"));
    /// ```
    pub fn find<'l>(&'l self, name: &str) -> Option<Found<'l>> {
        let mut words = words::split(name);
        let claims = claims::take(&mut words, &self.names);
        let reader = Reader {
            larder: self,
            words: words.iter().map(|word| word.folded.as_ref()).collect(),
            corrected: Vec::new(),
        };
        let stretches = stretches(&words);
        let (place, reading) = stretches
            .iter()
            .enumerate()
            .find_map(|(place, stretch)| Some((place, reader.stretch(stretch.clone())?)))?;
        let own = stretches.get(place)?.clone();
        let reading = reader.narrowed(reading, own, stretches.get(place + 1).cloned());

        let food = self.foods.get(reading.hit.food)?;
        let first = words.get(reading.hit.words.start)?;
        let last = words.get(reading.hit.words.end.checked_sub(1)?)?;
        Some(Found {
            food,
            span: first.span.joined(last.span),
            parts: reading.parts.iter().filter_map(|at| part_of(food, reader.words.get(*at)?)).collect(),
            form: form_of(food, &words, &reading.hit.words),
            claims,
            misspelt: reading.corrected.and_then(|(at, meant)| Some(Slip { span: words.get(at)?.span, meant })),
            certain: reading.certain,
        })
    }
}

/// The stretches of words between commas, parentheses, slashes and the like.
fn stretches(words: &[Word<'_>]) -> Vec<Range<usize>> {
    let mut stretches = Vec::new();
    let mut start = 0;
    for (at, word) in words.iter().enumerate() {
        if at > start && word.before.is_some_and(|c| !matches!(c, '"' | '“' | '”' | '*' | '%' | '~' | '°' | '®' | '™'))
        {
            stretches.push(start..at);
            start = at;
        }
    }
    stretches.push(start..words.len());
    stretches
}

impl<'r> Reader<'r> {
    fn word(&self, at: usize) -> &'r str {
        self.words.get(at).copied().unwrap_or_default()
    }

    fn food(&self, hit: &Hit) -> Option<&'r Food> {
        self.larder.foods.get(hit.food)
    }

    /// Reads a stretch piece by piece, from one little word (`of`, `or`, `in`) to the next.
    fn stretch(&self, range: Range<usize>) -> Option<Reading> {
        let hits = self.hits(range.clone());
        let mut from = range.start;
        let mut parts = Vec::new();
        loop {
            let inside = |at: usize| hits.iter().any(|hit| hit.words.contains(&at));
            let stop = (from..range.end).find(|at| vocabulary::stop(self.word(*at)).is_some() && !inside(*at));
            let piece = from..stop.unwrap_or(range.end);
            let kind = stop.and_then(|at| vocabulary::stop(self.word(at)));
            let head = piece.clone().rev().find(|at| !vocabulary::is_state(self.word(*at)));
            if let (Some(Stop::Of), Some(head), Some(of)) = (kind, head, stop)
                && let Some(reading) = self.behind_of(head, of + 1..range.end, &hits)
            {
                return Some(with_parts(reading, parts));
            }
            if let Some(reading) = self.piece(piece.clone(), &hits) {
                return Some(with_parts(reading, parts));
            }
            parts.extend(head.filter(|head| self.larder.is_part_word(self.word(*head))));
            match stop {
                Some(at) if kind != Some(Stop::End) => from = at + 1,
                _ => return None,
            }
        }
    }

    /// "cloves of garlic", "zest of 1 lemon", "breast of chicken": the food behind `of`, when the word before it only counts it, is a
    /// part of it, or is nothing that we know.
    fn behind_of(&self, head: usize, rest: Range<usize>, hits: &[Hit]) -> Option<Reading> {
        let mut reading = self.stretch(rest)?;
        let food = self.food(&reading.hit)?;
        let word = self.word(head);
        let name: Vec<&str> = self.words.get(reading.hit.words.clone())?.iter().copied().chain([word]).collect();
        if let Some(food) = self.larder.names.exact(&name) {
            let words = head..reading.hit.words.end;
            return Some(Reading { hit: Hit { words, food }, parts: Vec::new(), ..reading });
        }
        if part_of(food, word).is_some() {
            reading.parts.push(head);
            return Some(reading);
        }
        let is_food = hits.iter().any(|hit| hit.words.end == head + 1);
        (vocabulary::is_portion(word) || !is_food).then_some(reading)
    }

    /// Reads a piece from its end.
    fn piece(&self, piece: Range<usize>, hits: &[Hit]) -> Option<Reading> {
        let mut behind = None;
        for at in piece.clone().rev() {
            let word = self.word(at);
            if let Some(hit) = hits.iter().find(|hit| hit.words.end == at + 1 && hit.words.start >= piece.start) {
                let reading = self.at_head(hit, behind, hits, piece.start);
                return Some(
                    self.corrected(piece).filter(|other| other.hit.words.len() > hit.words.len()).unwrap_or(reading),
                );
            }
            if vocabulary::is_state(word) {
                continue;
            }
            if vocabulary::is_portion(word) || self.larder.is_part_word(word) {
                behind = behind.or(Some(at));
                continue;
            }
            return self.corrected(piece.clone()).or_else(|| self.guess(piece, at, hits));
        }
        self.corrected(piece)
    }

    /// The food at the head of a piece, unless the food before it has the better claim.
    fn at_head(&self, hit: &Hit, behind: Option<usize>, hits: &[Hit], from: usize) -> Reading {
        let mut reading = Reading { hit: hit.clone(), parts: Vec::new(), certain: true, corrected: None };
        let head = hit.words.start;
        let before = hits.iter().rev().find(|other| {
            let between = other.words.end..head;
            other.words.start >= from
                && other.words.end <= head
                && between.into_iter().all(|at| vocabulary::is_state(self.word(at)))
        });
        if let Some((before, food)) = before.and_then(|before| Some((before, self.food(before)?))) {
            let word = self.word(head);
            let whole = before.words.start..hit.words.end;
            let single = hit.words.len() == 1;
            if single && part_of(food, word).is_some() {
                // "lemon peel": a part that is also a food of its own.
                reading = Reading { hit: before.clone(), parts: vec![head], ..reading };
            } else if single && (food.each(word).is_some() || self.larder.kind(word).is_some_and(|kind| food.is(kind)))
            {
                // "garlic cloves", "cheddar cheese".
                reading.hit = Hit { words: whole, food: before.food };
            } else if before.words.end == head && before.food != hit.food {
                // "hazelnut milk": two foods that the larder does not know as one.
                reading.certain = false;
            }
        }
        let food = self.food(&reading.hit);
        reading.parts.extend(behind.filter(|at| food.is_some_and(|food| part_of(food, self.word(*at)).is_some())));
        reading
    }

    /// "chicken dinner": the head is unknown, and the food right before it may be all there is.
    fn guess(&self, piece: Range<usize>, unknown: usize, hits: &[Hit]) -> Option<Reading> {
        let hit = hits.iter().rev().find(|hit| hit.words.start >= piece.start && hit.words.end <= unknown)?;
        let close = (hit.words.end..unknown)
            .all(|at| vocabulary::is_state(self.word(at)) || vocabulary::is_portion(self.word(at)));
        let known = self.larder.names.knows(self.word(unknown));
        (close && !known && piece.len() <= WORDS_OF_A_GUESS).then(|| Reading {
            hit: hit.clone(),
            parts: Vec::new(),
            certain: false,
            corrected: None,
        })
    }

    /// Reads a piece once more with its unknown words corrected; nothing when that finds no food that needed a correction.
    fn corrected(&self, piece: Range<usize>) -> Option<Reading> {
        if !self.corrected.is_empty() {
            return None;
        }
        let mut words = self.words.clone();
        let mut corrected = Vec::new();
        for at in piece.clone() {
            let word = self.word(at);
            let sure = word.len() < 5
                || vocabulary::stop(word).is_some()
                || vocabulary::is_state(word)
                || vocabulary::is_portion(word)
                || self.larder.names.knows(word);
            if let Some(nearest) = (!sure).then(|| self.larder.names.nearest(word)).flatten()
                && let Some(slot) = words.get_mut(at)
            {
                *slot = nearest;
                corrected.push(at);
            }
        }
        if corrected.is_empty() {
            return None;
        }
        let again = Reader { larder: self.larder, words, corrected };
        let reading = again.piece(piece.clone(), &again.hits(piece))?;
        let slip = again.corrected.iter().copied().find(|at| reading.hit.words.contains(at))?;
        Some(Reading { corrected: Some((slip, again.word(slip).to_owned())), ..reading })
    }

    fn hits(&self, range: Range<usize>) -> Vec<Hit> {
        let words = self.words.get(..range.end).unwrap_or_default();
        let mut at = range.start;
        std::iter::from_fn(|| {
            let hit = self.larder.names.next(words, at)?;
            at = hit.words.end;
            Some(hit)
        })
        .collect()
    }

    /// A narrower food, when words that stand apart from the name make one with it: "ginger, ground", "sugar (brown)", "dried Greek oregano".
    fn narrowed(&self, reading: Reading, own: Range<usize>, next: Option<Range<usize>>) -> Reading {
        if reading.corrected.is_some() {
            return reading;
        }
        let name = self.words.get(reading.hit.words.clone()).unwrap_or_default();
        let with = |words: &[&'r str]| {
            let narrower: Vec<&str> = words.iter().chain(name).copied().collect();
            self.larder.names.exact(&narrower).filter(|food| *food != reading.hit.food)
        };
        let one = |at: usize| with(&[self.word(at)]).map(|food| (at, food));
        let before = (own.start..reading.hit.words.start).rev();
        let behind = (reading.hit.words.end..own.end).take_while(|at| vocabulary::stop(self.word(*at)).is_none());
        let mut narrower = before.chain(behind).find_map(one);
        if let (None, Some(next)) = (&narrower, next) {
            let words: Vec<&str> = next.clone().map(|at| self.word(at)).collect();
            let qualifiers = next.clone().filter(|at| vocabulary::is_qualifier(self.word(*at)));
            narrower = with(&words).map(|food| (next.end - 1, food)).or_else(|| qualifiers.into_iter().find_map(one));
        }
        match narrower {
            Some((_, food)) => Reading { hit: Hit { food, ..reading.hit }, ..reading },
            None => reading,
        }
    }
}

fn with_parts(mut reading: Reading, parts: Vec<usize>) -> Reading {
    reading.parts.splice(0..0, parts);
    reading
}

/// The food's part that a folded word names.
/// The part of a food that a folded word names: `whites`, `white` and `rind` as the food has them.
pub fn part_of<'l>(food: &'l Food, word: &str) -> Option<&'l str> {
    let word = vocabulary::part_word(word);
    food.parts.iter().map(|part| part.name).find(|name| words::fold(name) == word)
}

/// The longest form of the food that is stated outside the words of its name.
fn form_of<'l>(
    food: &'l Food,
    words: &[Word<'_>],
    name: &Range<usize>,
) -> Option<(&'l super::Form, crate::text::Span)> {
    let mut best = None;
    let mut longest = 0;
    for form in &food.forms {
        let stated = words::split(form.name);
        let length = stated.len();
        let place = words.windows(length.max(1)).enumerate().find(|(at, window)| {
            (at + length <= name.start || *at >= name.end)
                && window.iter().zip(&stated).all(|(word, stated)| word.folded == stated.folded)
        });
        if let Some((_, window)) = place
            && let (Some(first), Some(last)) = (window.first(), window.last())
            && length > longest
        {
            longest = length;
            best = Some((form, first.span.joined(last.span)));
        }
    }
    best
}
