//! An opened manuscript, or a post that holds some: its text, its recipes, and what was found in each. An edit costs the recipe it
//! touches.

use std::collections::{BTreeSet, HashMap, VecDeque};
use std::ops::Range;
use std::sync::Arc;

use rayon::iter::ParallelIterator;
use rayon::slice::ParallelSlice;

use super::{
    piece::{Parse, Piece},
    posts::{Form, Stretch},
    world::{KEPT, World},
};
use crate::{
    book::{Book, House, OwnTitles, Titles, titles::Summary},
    checks::{self, Finding},
    recipe::Recipe,
    syntax::{Tree, lets_recipe_follow, split, starts_recipe},
    text::{Document, Edit, Span},
};

/// An opened manuscript.
#[derive(Debug, Clone)]
pub struct Manuscript {
    document: Document,
    book: Book,
    form: Form,
    titles: OwnTitles,
    pieces: Vec<Piece>,
    /// What recipes were before the latest edits, the newest last.
    earlier: VecDeque<Earlier>,
    world: World,
}

/// A recipe as it was before an edit. Whoever takes an edit back, by Undo or by the Backspace key, comes back to it.
#[derive(Debug, Clone)]
struct Earlier {
    piece: Piece,
    /// The world that its findings are about.
    world: u64,
}

/// So many recipes are not worth a second processor.
const FEW: usize = 3;

/// So many recipes are looked up one by one.
const FEW_LOOKED_UP: usize = 32;

/// So many recipes at most are gone through step by step together: of more, what is known of them is more than a processor keeps at hand.
const BATCH: usize = 16;

impl Manuscript {
    /// Opens a text that stands in no book, under a house style.
    pub fn new(text: &str, house: Arc<House>) -> Self {
        Manuscript::in_book(text, Book { house, ..Book::default() })
    }

    /// Opens a text that stands in a book.
    pub fn in_book(text: &str, book: Book) -> Self {
        Manuscript::of(text, Form::Manuscript, book)
    }

    /// Opens a text of some form that stands in a book.
    pub fn of(text: &str, form: Form, book: Book) -> Self {
        let mut manuscript = Manuscript::parsed(text, form, book, Tree::in_parts);
        manuscript.check(|_, _, _| true);
        manuscript
    }

    /// The same for whoever does not edit it.
    pub fn to_read(text: &str, form: Form, book: Book) -> Self {
        let mut manuscript = Manuscript::unchecked(text, form, book);
        manuscript.check(|_, _, _| true);
        manuscript
    }

    /// The same for whoever does not ask what is wrong either: nothing is found in it.
    pub fn unchecked(text: &str, form: Form, book: Book) -> Self {
        Manuscript::parsed(text, form, book, Tree::parse)
    }

    fn parsed(text: &str, form: Form, book: Book, parse: Parse) -> Self {
        let pieces = in_batches(&form.stretches(text), |batch| Piece::of_stretches(text, batch, &book, parse));
        let mut titles = OwnTitles::default();
        pieces.iter().for_each(|piece| titles.add(&piece.summary));
        Manuscript {
            document: Document::new(text),
            book,
            form,
            titles,
            pieces,
            earlier: VecDeque::new(),
            world: World::default(),
        }
    }

    /// Its text.
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// The whole text as one string.
    pub fn text(&self) -> String {
        self.document.slice(Span::new(0, self.document.len())).into_owned()
    }

    /// Its recipes, each with the offset at which it starts. Prose above the first recipe is not among them.
    pub fn recipes(&self) -> impl Iterator<Item = (usize, &Arc<Recipe>)> {
        self.placed().map(|(start, piece)| (start, &piece.recipe)).filter(|(_, recipe)| recipe.is_recipe())
    }

    /// Every stretch that is read by itself, prose above the first recipe included, with its tree and the offset at which it starts.
    pub fn pieces(&self) -> impl Iterator<Item = (usize, &Arc<Recipe>, Option<&Tree>)> {
        self.placed().map(|(start, piece)| (start, &piece.recipe, piece.tree.as_ref()))
    }

    /// The recipe that `offset` stands in, with the offset at which it starts.
    pub fn recipe_at(&self, offset: usize) -> Option<(usize, &Arc<Recipe>)> {
        let found = self.placed().take_while(|(start, _)| *start <= offset).last();
        found.map(|(start, piece)| (start, &piece.recipe)).filter(|(_, recipe)| recipe.is_recipe())
    }

    /// The recipes of this title, each with the offset at which it starts.
    pub fn titled(&self, key: &str) -> impl Iterator<Item = (usize, &Arc<Recipe>)> {
        let all = self.titles.has(key).then(|| self.placed()).into_iter().flatten();
        all.filter(move |(_, piece)| piece.summary.key == key).map(|(start, piece)| (start, &piece.recipe))
    }

    /// Recipes and prose that speak of a recipe of this title, each with the offset at which it starts.
    pub fn naming(&self, key: &str) -> impl Iterator<Item = (usize, &Arc<Recipe>)> {
        self.placed()
            .filter(move |(_, piece)| piece.summary.is_naming(key))
            .map(|(start, piece)| (start, &piece.recipe))
    }

    /// What its recipes may refer to.
    pub fn titles(&self) -> Titles<'_> {
        Titles { own: &self.titles, book: &self.book.catalogue, file: self.book.file.as_deref(), above: false }
    }

    /// Everything found, with spans in the whole text, in order.
    pub fn findings(&self) -> Vec<Finding> {
        self.placed()
            .flat_map(|(start, piece)| piece.findings.iter().map(move |finding| finding.clone().shifted(start)))
            .collect()
    }

    /// What was found in each recipe, with the offset at which it starts; spans are in the recipe's own text.
    pub fn findings_by_recipe(&self) -> impl Iterator<Item = (usize, &Arc<Recipe>, &Arc<[Finding]>)> {
        self.placed().map(|(start, piece)| (start, &piece.recipe, &piece.findings))
    }

    /// The line, from 0, that each recipe begins in, with the offset at which it starts and what was found in it.
    pub fn findings_by_line(&self) -> impl Iterator<Item = (usize, usize, &Arc<[Finding]>)> {
        let mut line = 0;
        self.placed().map(move |(start, piece)| {
            let own = line;
            line += piece.lines;
            (own, start, &piece.findings)
        })
    }

    /// The house style that it is checked by.
    pub fn house(&self) -> &House {
        &self.book.house
    }

    /// The book that it stands in.
    pub fn book(&self) -> &Book {
        &self.book
    }

    /// Replaces one stretch of the text and reads again what it touches.
    pub fn apply(&mut self, edit: &Edit) {
        let from = edit.span.start.min(self.document.len());
        let to = edit.span.end.clamp(from, self.document.len());
        if self.form == Form::Post {
            return self.apply_to_post(from, to, edit);
        }
        let (mut first, mut start, mut last) = self.touched(from, to);
        self.document.apply(edit);
        let mut text = self.after_edit(first, start, last, to - from, edit.text.len());
        // A recipe that lost its first line joins the one before; one that lost the blank line at its end, the one behind.
        while first > 0 && !starts_recipe(&text) {
            first -= 1;
            start -= self.pieces.get(first).map_or(0, |piece| piece.len);
            text = self.after_edit(first, start, last, to - from, edit.text.len());
        }
        while last + 1 < self.pieces.len() && !lets_recipe_follow(&text) {
            last += 1;
            text = self.after_edit(first, start, last, to - from, edit.text.len());
        }
        self.replace(first..last + 1, &text, &split(&text));
    }

    /// An edit within a recipe of a post costs that recipe; any other one may open or close a fence, and has all of the prose looked
    /// through again. No recipe is read or checked anew whose text is the same.
    fn apply_to_post(&mut self, from: usize, to: usize, edit: &Edit) {
        let (first, start, last) = self.touched(from, to);
        let fences = |document: &Document, from: usize, to: usize| {
            let (first, last) = (document.line_of(from), document.line_of(to));
            let lines = document.slice(Span::new(document.line(first).start, document.line(last).end));
            lines.contains(['`', '~'])
        };
        let fenced = fences(&self.document, from, to);
        self.document.apply(edit);
        let fenced = fenced || fences(&self.document, from, from + edit.text.len());
        let is_within =
            |piece: &&Piece| first == last && piece.manuscript && start < from && to < start + piece.len && !fenced;
        if self.pieces.get(first).is_some_and(|piece| is_within(&piece)) {
            let text = self.after_edit(first, start, last, to - from, edit.text.len());
            let manuscript = |index: usize| self.pieces.get(index).is_some_and(|piece| piece.manuscript);
            let stays = (!first.checked_sub(1).is_some_and(manuscript) || starts_recipe(&text))
                && (!manuscript(first + 1) || lets_recipe_follow(&text));
            if stays && split(&text).len() == 1 {
                return self.replace(first..first + 1, &text, &[Span::new(0, text.len())]);
            }
        }
        self.read_post_again();
    }

    fn read_post_again(&mut self) {
        let text = self.text();
        let read = self.pieces.iter().filter(|piece| piece.manuscript);
        let known: HashMap<&str, &Piece> = read.map(|piece| (piece.recipe.text.as_ref(), piece)).collect();
        let fresh = self.form.stretches(&text).into_iter().map(|stretch| {
            let known = known.get(stretch.span.of(&text)).filter(|_| stretch.manuscript);
            let read = || Piece::of_stretches(&text, &[stretch], &self.book, Tree::in_parts).pop().unwrap_or_default();
            (known.map_or_else(read, |piece| (*piece).clone()), known.is_some())
        });
        let (fresh, known): (Vec<Piece>, Vec<bool>) = fresh.unzip();
        let gone = std::mem::replace(&mut self.pieces, fresh);
        let changed = self.retitle(gone.iter(), 0..self.pieces.len());
        // What is found in a recipe that stands twice may differ by its place.
        let stays = |(piece, known): (&Piece, bool)| known && !self.titles.repeats(&piece.summary.key);
        let stays: Vec<bool> = self.pieces.iter().zip(known).map(stays).collect();
        self.check(|index, piece, titles| stays.get(index) != Some(&true) || piece.is_about(&changed, titles));
    }

    /// Reads a text in the place of some pieces, and checks what it holds and whatever else that may concern. A recipe that is again what it
    /// was a moment ago is not checked, if all that it may know of others is again what it was.
    fn replace(&mut self, place: Range<usize>, text: &str, spans: &[Span]) {
        let (fresh, about): (Vec<Piece>, Vec<Option<u64>>) = self.read(place.clone(), text, spans).into_iter().unzip();
        let now = place.start..place.start + fresh.len();
        let gone: Vec<Piece> = self.pieces.splice(place, fresh).collect();
        let world = self.world.now();
        let changed = self.retitle(gone.iter(), now.clone());
        self.earlier.extend(gone.into_iter().map(|piece| Earlier { piece, world }));
        self.earlier.drain(..self.earlier.len().saturating_sub(KEPT));
        // What is found in a recipe that stands twice may differ by its place.
        let stands = |(piece, about): (&Piece, Option<u64>)| {
            about == Some(self.world.now()) && !self.titles.repeats(&piece.summary.key)
        };
        let stands: Vec<bool> = self.pieces.iter().skip(now.start).zip(about).map(stands).collect();
        self.check(|index, piece, titles| {
            let own = index.checked_sub(now.start).and_then(|index| stands.get(index));
            own.map_or_else(|| piece.is_about(&changed, titles), |stands| !stands)
        });
    }

    /// The pieces that a text falls into which comes in the place of others. One that had its text a moment ago is what it was, with the world
    /// that its findings are about, and is not read.
    fn read(&mut self, place: Range<usize>, text: &str, spans: &[Span]) -> Vec<(Piece, Option<u64>)> {
        let known: Vec<Option<Earlier>> = spans.iter().map(|span| self.take_earlier(span.of(text))).collect();
        let unknown = spans.iter().zip(&known).filter(|(_, known)| known.is_none());
        let mut unknown: Vec<Stretch> = unknown.map(|(span, _)| Stretch { span: *span, manuscript: true }).collect();
        // The first begins as the one did that it comes from, and ends as the last did if it is all there is.
        let mut read = Vec::with_capacity(unknown.len());
        let gone = self.pieces.get(place).unwrap_or_default();
        if let (Some(first), Some(None)) = (gone.first(), known.first()) {
            let last = gone.last().filter(|_| spans.len() == 1).unwrap_or(first);
            read.push(first.again(last, unknown.remove(0).span.of(text), &self.book));
        }
        read.extend(in_batches(&unknown, |batch| Piece::of_stretches(text, batch, &self.book, Tree::in_parts)));
        let mut read = read.into_iter();
        let piece = |known: Option<Earlier>| match known {
            Some(known) => Some((known.piece, Some(known.world))),
            None => Some((read.next()?, None)),
        };
        known.into_iter().filter_map(piece).collect()
    }

    /// What a recipe of this text was a moment ago.
    fn take_earlier(&mut self, text: &str) -> Option<Earlier> {
        let known = self.earlier.iter().rposition(|earlier| &*earlier.piece.recipe.text == text)?;
        self.earlier.remove(known)
    }

    /// Takes another book for the one that it stands in, and checks again what that may concern; says whether that finds anything
    /// else than before.
    pub fn obey(&mut self, book: Book) -> bool {
        let before = std::mem::replace(&mut self.book, book);
        self.world.replace();
        if before.house != self.book.house {
            let text = self.text();
            *self = Manuscript::of(&text, self.form, self.book.clone());
            return true;
        }
        let all = before.habits != self.book.habits || before.file != self.book.file;
        // Whether all of a book is known matters to whoever refers to anything.
        let same = Arc::ptr_eq(&before.catalogue, &self.book.catalogue);
        let changed = if same { BTreeSet::new() } else { before.catalogue.changed(&self.book.catalogue) };
        let whole = before.catalogue.is_whole() != self.book.catalogue.is_whole();
        self.check(|_, piece, titles| {
            all || whole && !piece.summary.names.is_empty() || piece.is_about(&changed, titles)
        })
    }

    /// Puts the titles of fresh pieces in the place of those that are gone. The keys of which something else is known now.
    fn retitle<'p>(&mut self, gone: impl Iterator<Item = &'p Piece> + Clone, fresh: Range<usize>) -> BTreeSet<String> {
        let fresh = self.pieces.get(fresh).unwrap_or_default().iter().map(|piece| &piece.summary);
        if gone.clone().map(|piece| &piece.summary).eq(fresh.clone()) {
            return BTreeSet::new();
        }
        let fresh: Vec<Arc<Summary>> = fresh.cloned().collect();
        let gone: Vec<Arc<Summary>> = gone.map(|piece| piece.summary.clone()).collect();
        gone.iter().for_each(|summary| self.titles.remove(summary));
        fresh.iter().for_each(|summary| self.titles.add(summary));
        let keys = gone.iter().chain(&fresh).map(|summary| summary.key.clone()).collect();
        self.world.retitle(gone, fresh);
        keys
    }

    /// Checks the pieces that are asked for; says whether anything else was found than before.
    fn check(&mut self, wanted: impl Fn(usize, &Piece, &Titles<'_>) -> bool) -> bool {
        let titles =
            Titles { own: &self.titles, book: &self.book.catalogue, file: self.book.file.as_deref(), above: false };
        let wanted = self.pieces.iter().enumerate().filter(|(index, piece)| wanted(*index, piece, &titles));
        let wanted: Vec<usize> = wanted.filter(|(_, piece)| piece.recipe.is_recipe()).map(|(index, _)| index).collect();
        let above = self.titled_above(&wanted);
        let wanted: Vec<(usize, bool)> = wanted.into_iter().zip(above).collect();
        let found = in_batches(&wanted, |batch| {
            let pieces = batch.iter().filter_map(|(index, above)| Some((*index, self.pieces.get(*index)?, *above)));
            let pieces: Vec<(usize, &Piece, bool)> = pieces.collect();
            let recipes = pieces.iter().map(|(_, piece, above)| (&*piece.recipe, Titles { above: *above, ..titles }));
            let found = checks::run(&recipes.collect::<Vec<_>>(), &self.book);
            let found = pieces.into_iter().zip(found).filter(|((_, piece, _), found)| *piece.findings != **found);
            found.map(|((index, ..), found)| (index, found)).collect()
        });
        let changed = !found.is_empty();
        for (index, found) in found {
            if let Some(piece) = self.pieces.get_mut(index) {
                piece.findings = found.into();
            }
        }
        changed
    }

    /// For each of these pieces whether one above has its title.
    fn titled_above(&self, wanted: &[usize]) -> Vec<bool> {
        let key = |index: usize| self.pieces.get(index).map_or("", |piece| piece.summary.key.as_str());
        let mut first: HashMap<&str, usize> = HashMap::new();
        // To look through all of them for one is dear, and so is to write all of them down for one.
        if wanted.len() > FEW_LOOKED_UP {
            (0..self.pieces.len()).rev().for_each(|index| {
                first.insert(key(index), index);
            });
        }
        let is_above = |index: usize| {
            let own = key(index);
            self.titles.repeats(own)
                && match first.get(own) {
                    Some(first) => *first < index,
                    None => (0..index).any(|other| key(other) == own),
                }
        };
        wanted.iter().map(|index| is_above(*index)).collect()
    }

    /// The new text of the pieces from `first` to `last`, of which `old` bytes became `new` ones.
    fn after_edit(&self, first: usize, start: usize, last: usize, old: usize, new: usize) -> String {
        let before: usize = self.pieces.get(first..=last).unwrap_or_default().iter().map(|piece| piece.len).sum();
        self.document.slice(Span::new(start, start + before - old + new)).into_owned()
    }

    fn placed(&self) -> impl Iterator<Item = (usize, &Piece)> {
        let mut start = 0;
        self.pieces.iter().map(move |piece| {
            let own = start;
            start += piece.len;
            (own, piece)
        })
    }

    /// The pieces that an edit from `from` to `to` lies in, with the offset of the first.
    fn touched(&self, from: usize, to: usize) -> (usize, usize, usize) {
        let (mut first, mut first_start, mut last) = (0, 0, 0);
        for (index, (start, piece)) in self.placed().enumerate() {
            if start <= from {
                (first, first_start) = (index, start);
            }
            if start <= to && piece.len > 0 || index == 0 {
                last = index;
            }
        }
        (first, first_start, last.max(first))
    }
}

/// Does something with many things, some at a time, on all processors at once; with a few, where they are, since to wake another costs more.
fn in_batches<T: Sync, R: Send>(things: &[T], some: impl Fn(&[T]) -> Vec<R> + Send + Sync) -> Vec<R> {
    // Where many files are read at once, every processor has its own.
    let share = match rayon::current_thread_index() {
        Some(_) => BATCH,
        None => things.len().div_ceil(rayon::current_num_threads()).min(BATCH),
    };
    if things.len() <= share.max(FEW) {
        return some(things);
    }
    things.par_chunks(share).flat_map_iter(some).collect()
}
