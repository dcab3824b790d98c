//! Reads the words of a name.
//!
//! The head of an English name stands last, before `of`, `in` or a comma. So each stretch between commas is read from its end: words of
//! state are passed over, and the first thing that is neither a state nor a portion has to be a food, or the name is one that we do not know.

use std::ops::Range;

use super::Larder;
use super::food::Food;
use super::names::Hit;
use super::vocabulary::{self, Stop, Uses};
use super::words;

/// The most words between two little words in which an unknown head may still leave a guess. Longer ones are sentences.
const WORDS_OF_A_GUESS: usize = 6;

/// A name being read. Ranges count its words.
pub(super) struct Reader<'r> {
    larder: &'r Larder,
    words: Vec<&'r str>,
    /// What each of them does besides naming a food.
    uses: Vec<Uses>,
    /// The words that were corrected, by their place.
    corrected: Vec<usize>,
}

/// A food in a name, and the words around it that belong to it.
#[derive(Debug, Clone)]
pub(super) struct Reading {
    /// The food and its words.
    pub hit: Hit,
    /// The words that name parts of it.
    pub parts: Vec<usize>,
    /// Whether it can hardly be another food.
    pub certain: bool,
    /// The word that had to be corrected, and what it became.
    pub corrected: Option<(usize, String)>,
}

impl Reading {
    fn of(hit: Hit) -> Self {
        Reading { hit, parts: Vec::new(), certain: true, corrected: None }
    }
}

impl<'r> Reader<'r> {
    /// Reads these folded words.
    pub fn new(larder: &'r Larder, words: Vec<&'r str>) -> Self {
        let uses = words.iter().map(|word| Uses::of(word)).collect();
        Reader { larder, words, uses, corrected: Vec::new() }
    }

    fn word(&self, at: usize) -> &'r str {
        self.words.get(at).copied().unwrap_or_default()
    }

    fn food(&self, hit: &Hit) -> Option<&'r Food> {
        self.larder.at(hit.food)
    }

    fn does(&self, at: usize, asked: impl Fn(Uses) -> bool) -> bool {
        self.uses.get(at).copied().is_some_and(asked)
    }

    fn is_state(&self, at: usize) -> bool {
        self.does(at, |uses| uses.is_state)
    }

    fn is_portion(&self, at: usize) -> bool {
        self.does(at, |uses| uses.is_portion)
    }

    /// What a little word does here; the `to` of "2 to 3 carrots" and the `and` of "2 and 1/4 teaspoons" do nothing.
    fn stop(&self, at: usize) -> Option<Stop> {
        let stop = self.uses.get(at)?.stop?;
        let numeric = |at: usize| vocabulary::is_numeric(self.word(at));
        let inside_number = numeric(at + 1) && at.checked_sub(1).is_some_and(numeric);
        (!inside_number).then_some(stop)
    }

    /// The food whose name is that of the hit with another word behind it.
    fn with_behind(&self, hit: &Hit, word: &'r str) -> Option<usize> {
        let name: Vec<&str> = self.words.get(hit.words.clone())?.iter().copied().chain([word]).collect();
        self.larder.names.exact(&name)
    }

    /// The food whose name is that of the hit with other words before it.
    fn with_before(&self, hit: &Hit, words: &[&'r str]) -> Option<usize> {
        // Most words begin no name.
        if words.first().is_some_and(|first| !self.larder.names.may_begin(first)) {
            return None;
        }
        let name: Vec<&str> = words.iter().chain(self.words.get(hit.words.clone())?).copied().collect();
        self.larder.names.exact(&name).filter(|food| *food != hit.food)
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

    /// Reads a stretch piece by piece, from one little word (`of`, `or`, `in`) to the next.
    pub fn stretch(&self, range: Range<usize>) -> Option<Reading> {
        let hits = self.hits(range.clone());
        let mut from = range.start;
        let mut parts = Vec::new();
        loop {
            let inside = |at: usize| hits.iter().any(|hit| hit.words.contains(&at));
            let stop = (from..range.end).find(|at| self.stop(*at).is_some() && !inside(*at));
            let piece = from..stop.unwrap_or(range.end);
            let kind = stop.and_then(|at| self.stop(at));
            let head = piece.clone().rev().find(|at| !self.is_state(*at));
            if let (Some(Stop::Of), Some(head), Some(of)) = (kind, head, stop)
                && let Some(reading) = self.behind_of(head, of + 1..range.end, &hits)
            {
                return Some(with_parts(reading, parts));
            }
            if let Some(reading) = self.piece(piece, &hits) {
                let or = stop.filter(|at| self.word(*at) == "or");
                let shared = or.and_then(|or| self.shared_head(&reading, or + 1..range.end));
                return Some(with_parts(shared.unwrap_or(reading), parts));
            }
            parts.extend(head.filter(|head| self.larder.is_part_word(self.word(*head))));
            match stop {
                Some(at) if kind != Some(Stop::End) => from = at + 1,
                _ => return None,
            }
        }
    }

    /// "chicken or vegetable stock": the alternatives share the head, which stands once, behind the second.
    pub fn shared_head(&self, reading: &Reading, second: Range<usize>) -> Option<Reading> {
        let end = second.clone().find(|at| self.stop(*at).is_some()).unwrap_or(second.end);
        let head = (second.start + 1..end).rev().find(|at| !self.is_state(*at))?;
        let food = self.with_behind(&reading.hit, self.word(head))?;
        Some(Reading { hit: Hit { food, ..reading.hit.clone() }, ..reading.clone() })
    }

    /// "cloves of garlic", "zest of 1 lemon", "breast of chicken": the food behind `of`, when the word before it only counts it, is a
    /// part of it, or is nothing that we know.
    fn behind_of(&self, head: usize, rest: Range<usize>, hits: &[Hit]) -> Option<Reading> {
        let mut reading = self.stretch(rest)?;
        let food = self.food(&reading.hit)?;
        let word = self.word(head);
        let cut = food.is("meat") || food.is("poultry") || food.is("fish");
        if !cut && part_of(food, word).is_some() {
            reading.parts.insert(0, head);
            return Some(reading);
        }
        if let Some(food) = self.with_behind(&reading.hit, word) {
            let words = head..reading.hit.words.end;
            return Some(Reading { hit: Hit { words, food }, parts: Vec::new(), ..reading });
        }
        let is_food = hits.iter().any(|hit| hit.words.end == head + 1);
        (self.is_portion(head) || !is_food).then_some(reading)
    }

    /// Reads a piece from its end.
    fn piece(&self, piece: Range<usize>, hits: &[Hit]) -> Option<Reading> {
        let mut behind = None;
        for at in piece.clone().rev() {
            if let Some(hit) = hits.iter().find(|hit| hit.words.end == at + 1 && hit.words.start >= piece.start) {
                let longer =
                    self.corrected(piece.clone(), hits).filter(|other| other.hit.words.len() > hit.words.len());
                return longer.or_else(|| Some(self.at_head(hit, behind, hits, piece.start)));
            }
            if self.is_state(at) {
                continue;
            }
            if self.is_portion(at) || self.larder.is_part_word(self.word(at)) {
                behind = behind.or(Some(at));
                continue;
            }
            if self.does(at, |uses| uses.is_tool) {
                return None;
            }
            let named = self.named_with_its_kind(&piece, at, hits);
            return named.or_else(|| self.corrected(piece.clone(), hits)).or_else(|| self.guess(piece, at, hits));
        }
        self.corrected(piece, hits)
    }

    /// The food at the head of a piece, unless the food before it has the better claim.
    fn at_head(&self, hit: &Hit, behind: Option<usize>, hits: &[Hit], from: usize) -> Reading {
        let mut reading = Reading::of(hit.clone());
        let head = hit.words.start;
        let before = hits.iter().rev().find(|other| {
            let counts = other.words.len() == 1 && self.is_portion(other.words.start);
            let near = other.words.end <= head && (other.words.end..head).all(|at| self.is_state(at));
            other.words.start >= from && near && !counts
        });
        if let Some((before, food)) = before.and_then(|before| Some((before, self.food(before)?))) {
            let word = self.word(head);
            let single = hit.words.len() == 1;
            if single && part_of(food, word).is_some() {
                // "lemon peel": a part that is also a food of its own.
                reading = Reading { parts: vec![head], ..Reading::of(before.clone()) };
            } else if single && (food.each(word).is_some() || self.larder.kind(word).is_some_and(|kind| food.is(kind)))
            {
                // "garlic cloves", "cheddar cheese".
                reading.hit = Hit { words: before.words.start..hit.words.end, food: before.food };
            } else if before.words.end == head && before.food != hit.food {
                // "hazelnut cream": two foods that the larder does not know as one.
                reading.certain = false;
            }
        }
        let food = self.food(&reading.hit);
        reading.parts.extend(behind.filter(|at| food.is_some_and(|food| part_of(food, self.word(*at)).is_some())));
        reading
    }

    /// "fusilli pasta": the head is no food, but the kind of the food before it.
    fn named_with_its_kind(&self, piece: &Range<usize>, head: usize, hits: &[Hit]) -> Option<Reading> {
        let kind = self.larder.kind(self.word(head))?;
        let hit = hits.iter().find(|hit| hit.words.end == head && hit.words.start >= piece.start)?;
        let hit = Hit { words: hit.words.start..head + 1, food: hit.food };
        self.food(&hit)?.is(kind).then(|| Reading::of(hit))
    }

    /// "chicken dinner": the head is unknown, and the food right before it may be all there is.
    fn guess(&self, piece: Range<usize>, unknown: usize, hits: &[Hit]) -> Option<Reading> {
        let hit = hits.iter().rev().find(|hit| hit.words.start >= piece.start && hit.words.end <= unknown)?;
        let near = (hit.words.end..unknown).all(|at| self.is_state(at) || self.is_portion(at));
        (near && piece.len() <= WORDS_OF_A_GUESS).then(|| Reading { certain: false, ..Reading::of(hit.clone()) })
    }

    /// Reads a piece once more with its unknown words corrected; nothing when that finds no food that needed a correction.
    fn corrected(&self, piece: Range<usize>, hits: &[Hit]) -> Option<Reading> {
        if !self.corrected.is_empty() {
            return None;
        }
        let next = |at: usize| hits.get(hits.partition_point(|hit| hit.words.end <= at));
        let named = |at: usize| next(at).is_some_and(|hit| hit.words.contains(&at));
        let known = |at: usize| named(at) || self.does(at, Uses::any) || self.larder.names.knows(self.word(at));
        let meant = |at: usize| Some((at, self.larder.names.nearest(self.word(at))?));
        let meant: Vec<(usize, &str)> = piece.clone().filter(|at| !known(*at)).filter_map(meant).collect();
        if meant.is_empty() {
            return None;
        }
        let mut words = self.words.clone();
        for (at, nearest) in &meant {
            if let Some(word) = words.get_mut(*at) {
                *word = nearest;
            }
        }
        let corrected = meant.into_iter().map(|(at, _)| at).collect();
        let again = Reader { corrected, ..Reader::new(self.larder, words) };
        let reading = again.piece(piece.clone(), &again.hits(piece))?;
        let slip = again.corrected.iter().copied().find(|at| reading.hit.words.contains(at))?;
        Some(Reading { corrected: Some((slip, again.word(slip).to_owned())), ..reading })
    }

    /// A narrower food, when words that stand apart from the name make one with it: "ginger, ground", "sugar (brown)", "dried Greek oregano".
    /// A form of the food does not: "parmesan, grated" was weighed whole.
    pub fn narrowed(&self, reading: Reading, own: Range<usize>, next: Option<Range<usize>>) -> Reading {
        let Some(food) = self.food(&reading.hit).filter(|_| reading.corrected.is_none()) else { return reading };
        let is_form = |word: &str| food.forms.iter().any(|form| folds_to(form.name, word));
        let with_one = |at: usize| {
            let word = self.word(at);
            let asks = vocabulary::is_qualifier(word) || !is_form(word);
            if asks { self.with_before(&reading.hit, &[word]) } else { None }
        };
        let before = (own.start..reading.hit.words.start).rev();
        let behind = (reading.hit.words.end..own.end).take_while(|at| !self.does(*at, |uses| uses.stop.is_some()));
        let mut narrower = self.tinned(&reading.hit).or_else(|| before.chain(behind).find_map(with_one));
        if let (None, Some(next)) = (narrower, next) {
            let words: Vec<&str> = next.clone().map(|at| self.word(at)).filter(|word| !is_form(word)).collect();
            // "1 cup rice, cooked" was measured before it was cooked, or there is a figure for both; cooked chicken is another food.
            let tells = |word| vocabulary::is_qualifier(word) || word == "cooked" && !is_form(word);
            let mut qualifiers = next.filter(|at| tells(self.word(*at)));
            narrower = self.with_before(&reading.hit, &words).or_else(|| qualifiers.find_map(with_one));
        }
        match narrower {
            Some(food) => Reading { hit: Hit { food, ..reading.hit }, ..reading },
            None => reading,
        }
    }
}

impl Reader<'_> {
    /// "1 can (400 g) chopped tomatoes": what comes out of a tin is canned, and may have a name of its own.
    fn tinned(&self, hit: &Hit) -> Option<usize> {
        let before = self.words.get(..hit.words.start)?;
        let tin = before.iter().rposition(|word| matches!(*word, "can" | "tin" | "canned" | "tinned"))?;
        let between = before.get(tin + 1..)?;
        (0..=between.len()).find_map(|from| {
            let name: Vec<&str> = std::iter::once("canned").chain(between.get(from..)?.iter().copied()).collect();
            self.with_before(hit, &name)
        })
    }
}

fn with_parts(mut reading: Reading, parts: Vec<usize>) -> Reading {
    reading.parts.splice(0..0, parts);
    reading
}

/// The part of a food that a folded word names: `whites`, `white` and `rind` as the food has them.
pub fn part_of<'l>(food: &'l Food, word: &str) -> Option<&'l str> {
    let word = vocabulary::part_word(word);
    food.parts.iter().map(|part| part.name).find(|name| folds_to(name, word))
}

/// Whether a name of a form or a part, as it stands on a shelf, is this folded word. Folding never changes the first letter of one, and
/// most can be told apart by theirs.
fn folds_to(name: &str, word: &str) -> bool {
    name.as_bytes().first() == word.as_bytes().first() && words::fold(name) == word
}
