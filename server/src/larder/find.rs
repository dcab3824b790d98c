//! Finds the food in a free ingredient name: "cold unsalted butter, cubed" is butter.

use std::ops::Range;

use super::claims;
use super::food::{Food, Form};
use super::found::{Found, Slip};
use super::reader::{Reader, Reading, part_of};
use super::words::{self, Word};
use super::{Larder, senses};
use crate::text::Span;

impl Larder {
    /// The food that a free name means: its longest known name that stands at the head, whatever is said of its state.
    ///
    /// The more of an ingredient's line it is given the better it tells: "2 peppers" are vegetables, "a bunch of coriander" is no spice.
    ///
    /// ```
    /// let found = tamis::larder::larder().find("cold unsalted butter, cubed").unwrap();
    /// assert!(found.food.name == "butter" && found.certain);
    /// ```
    pub fn find<'l>(&'l self, name: &str) -> Option<Found<'l>> {
        let mut words = words::split(name);
        let claims = claims::take(&mut words, &self.names);
        let reader = Reader::new(self, words.iter().map(|word| word.folded.as_ref()).collect());
        let stretches = stretches(&words);
        let (place, reading) = stretches
            .iter()
            .enumerate()
            .find_map(|(place, stretch)| Some((place, reader.stretch(stretch.clone())?)))?;
        let (own, next) = (stretches.get(place)?.clone(), stretches.get(place + 1).cloned());
        let reading = after_slash(&reader, &words, reading, next.clone());
        let reading = reader.narrowed(reading, own, next);

        let food = self.at(reading.hit.food)?;
        let food = senses::of(self, food, name, &words, &reading.hit.words).unwrap_or(food);
        let first = words.get(reading.hit.words.start)?;
        let last = words.get(reading.hit.words.end.checked_sub(1)?)?;
        Some(Found {
            food,
            span: first.span.joined(last.span),
            parts: reading.parts.iter().filter_map(|at| part_of(food, &words.get(*at)?.folded)).collect(),
            form: form_of(food, &words),
            claims,
            misspelt: reading.corrected.and_then(|(at, meant)| Some(Slip { span: words.get(at)?.span, meant })),
            certain: reading.certain,
        })
    }
}

/// The stretches of words between commas, parentheses, slashes and the like. A stop behind an abbreviation (`oz.`, `St.`) is none.
fn stretches(words: &[Word<'_>]) -> Vec<Range<usize>> {
    let mut stretches = Vec::new();
    let mut start = 0;
    for (at, word) in words.iter().enumerate().skip(1) {
        let pause = match word.before {
            None | Some('"' | '“' | '”' | '*' | '%' | '~' | '°' | '®' | '™') => false,
            Some('.') => words.get(at - 1).is_some_and(|before| before.span.len() > 3),
            Some(_) => true,
        };
        if pause {
            stretches.push(start..at);
            start = at;
        }
    }
    stretches.push(start..words.len());
    stretches
}

/// "apple/pear syrup": a slash between two words means or.
fn after_slash(reader: &Reader<'_>, words: &[Word<'_>], reading: Reading, next: Option<Range<usize>>) -> Reading {
    let slash = next.filter(|next| words.get(next.start).is_some_and(|word| word.before == Some('/')));
    slash.and_then(|next| reader.shared_head(&reading, next)).unwrap_or(reading)
}

/// The longest form of the food that the name states, unless it is the food's very name.
fn form_of<'l>(food: &'l Food, words: &[Word<'_>]) -> Option<(&'l Form, Span)> {
    let stated = food.forms.iter().filter_map(|form| {
        // Folding never changes the first letter of a form.
        let first = form.name.as_bytes().first();
        let mut begins = words.iter().enumerate().filter(|(_, word)| word.folded.as_bytes().first() == first);
        let span = begins.find_map(|(at, _)| said(words.get(at..)?, form.name))?;
        (!food.name.contains(form.name)).then_some((form, span))
    });
    stated.max_by_key(|(form, _)| form.name.len())
}

/// Where a name stands that a text begins with.
fn said(words: &[Word<'_>], name: &str) -> Option<Span> {
    let mut rest = words.iter();
    let mut own = words::iter(name).map(|wanted| rest.next().filter(|word| word.folded == wanted.folded));
    let first = own.next()??.span;
    own.try_fold(first, |span, word| Some(span.joined(word?.span)))
}
