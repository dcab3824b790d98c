//! What is known of a part, and of a line, stays known while another one is edited.

use smol_str::SmolStr;

use super::Reader;
use crate::{
    recipe::{
        language::{
            clause::Sense,
            token::{Atom, Token, TokenKind},
        },
        mentions::{Known, Moved},
        model::{Group, Ingredient, Mark, Name, Recipe, Step},
    },
    syntax::Tree,
    text::Span,
};

/// How far the reading had come where a part of the tree starts.
#[derive(Debug, Clone, Default)]
pub(in crate::recipe) struct Stage {
    start: usize,
    title: Option<Span>,
    labelled: bool,
    group: Option<usize>,
    pending: Vec<usize>,
    /// Where the section ends that is being read, as far as it has been.
    section: Option<usize>,
    /// How many there were of each kind of thing.
    read: Counts,
}

#[derive(Debug, Clone, Default)]
struct Counts {
    headers: usize,
    headnotes: usize,
    sections: usize,
    groups: usize,
    ingredients: usize,
    equipment: usize,
    steps: usize,
    tests: usize,
    measures: usize,
    references: usize,
    queries: usize,
    stets: usize,
}

impl<'t> Reader<'t> {
    /// The words of a step, and what each is about, by what an earlier state of the recipe knows of a step that reads the same.
    pub(super) fn words_known(&self, span: Span, body: Span, atoms: &[Atom]) -> Option<(Vec<Token>, Vec<Sense>)> {
        let (before, index) = (self.before?, self.recipe.steps.len());
        // It stood at this place, or a step has come or gone above it.
        let places = [Some(index), index.checked_add(1), index.checked_sub(1)];
        let mut steps = places.into_iter().flatten().filter_map(|place| before.steps.get(place));
        let known = steps.find(|step| before.at(step.span) == span.of(self.text))?;
        let here = |own: Span| Span::new(own.start - known.span.start, own.end - known.span.start).shifted(span.start);
        if here(known.body) != body {
            return None;
        }
        let mut atoms = atoms.iter().filter(|atom| body.contains(atom.span));
        let mut tokens = known.tokens.clone();
        for token in &mut tokens {
            token.span = here(token.span);
            let understood =
                |kind| matches!(kind, TokenKind::Measure(_) | TokenKind::Mention(_) | TokenKind::Reference(_));
            if understood(token.kind) {
                let atom = atoms.next().filter(|atom| atom.span == token.span)?;
                token.kind = atom.kind?;
            }
        }
        atoms.next().is_none().then(|| (tokens, known.senses.clone()))
    }

    /// Where the reading stands.
    pub(super) fn stage(&self, start: usize) -> Stage {
        let recipe = &self.recipe;
        let read = Counts {
            headers: recipe.headers.len(),
            headnotes: recipe.headnotes.len(),
            sections: recipe.sections.len(),
            groups: recipe.groups.len(),
            ingredients: recipe.ingredients.len(),
            equipment: recipe.equipment.len(),
            steps: recipe.steps.len(),
            tests: recipe.tests.len(),
            measures: recipe.measures.len(),
            references: recipe.references.len(),
            queries: recipe.queries.len(),
            stets: recipe.stets.len(),
        };
        let (title, labelled, group) = (recipe.title, recipe.labelled, self.group);
        let section = recipe.sections.last().map(|section| section.span.end);
        Stage { start, title, labelled, group, pending: self.pending.clone(), section, read }
    }

    /// Takes over what an earlier state of the recipe has read of the parts above the first that has changed; says how many those are.
    pub(super) fn resume(&mut self, tree: &Tree, before: &'t Recipe) -> usize {
        if !std::ptr::eq(self.recipe.larder, before.larder) {
            return 0;
        }
        self.before = Some(before);
        let same_until = begin_alike(self.text.as_bytes(), before.text.as_bytes());
        let starts = tree.roots().map(|(part, _)| part.start).zip(&before.stages);
        let same = starts.take_while(|(start, stage)| *start == stage.start && *start <= same_until).count();
        let Some((read, stage)) = same.checked_sub(1).and_then(|last| Some((last, before.stages.get(last)?))) else {
            return 0;
        };
        self.pending.clone_from(&stage.pending);
        self.group = stage.group;
        let recipe = &mut self.recipe;
        (recipe.title, recipe.labelled) = (stage.title, stage.labelled);
        recipe.headers = first(&before.headers, stage.read.headers);
        recipe.headnotes = first(&before.headnotes, stage.read.headnotes);
        recipe.sections = first(&before.sections, stage.read.sections);
        recipe.groups = first(&before.groups, stage.read.groups);
        recipe.ingredients = first(&before.ingredients, stage.read.ingredients);
        recipe.equipment = first(&before.equipment, stage.read.equipment);
        recipe.steps = first(&before.steps, stage.read.steps);
        recipe.tests = first(&before.tests, stage.read.tests);
        recipe.measures = first(&before.measures, stage.read.measures);
        recipe.references = first(&before.references, stage.read.references);
        recipe.queries = first(&before.queries, stage.read.queries);
        recipe.stets = first(&before.stets, stage.read.stets);
        if let Some(end) = stage.section {
            recipe.end_section(end);
        }
        recipe.stages = first(&before.stages, read);
        // What speaks for the whole recipe speaks for all of its new text.
        let (whole, now) = (Span::new(0, before.text.len()), Span::new(0, recipe.text.len()));
        recipe.stets.iter_mut().filter(|stet| stet.scope == whole).for_each(|stet| stet.scope = now);
        read
    }
}

/// How many bytes are the same at the start of two texts.
fn begin_alike(one: &[u8], other: &[u8]) -> usize {
    const AT_ONCE: usize = 64;
    let same =
        one.chunks_exact(AT_ONCE).zip(other.chunks_exact(AT_ONCE)).take_while(|(one, other)| one == other).count();
    same * AT_ONCE + one.iter().zip(other).skip(same * AT_ONCE).take_while(|(one, other)| one == other).count()
}

fn first<T: Clone>(all: &[T], count: usize) -> Vec<T> {
    all.get(..count).unwrap_or(all).to_vec()
}

impl Recipe {
    /// How many of the first steps are as they were before, with all that they are read against, where so many parts are.
    pub(super) fn steps_known(&self, before: &Recipe, parts: usize) -> usize {
        let Some(stage) = parts.checked_sub(1).and_then(|_| before.stages.get(parts)) else { return 0 };
        let titled = |title: Option<Span>| title.is_none_or(|title| title.end <= stage.start);
        let is_whole = |read: usize, now: usize, then: usize| read == now && now == then;
        let same = titled(self.title)
            && titled(before.title)
            && is_whole(stage.read.ingredients, self.ingredients.len(), before.ingredients.len())
            && is_whole(stage.read.equipment, self.equipment.len(), before.equipment.len())
            && self.has_same_names(before);
        if same { stage.read.steps } else { 0 }
    }

    /// Whether groups and results have the names that they had.
    fn has_same_names(&self, before: &Recipe) -> bool {
        let same = |(one, other): (&Group, &Group)| {
            one.section == other.section && one.words == other.words && one.at_table == other.at_table
        };
        self.groups.len() == before.groups.len()
            && self.groups.iter().zip(&before.groups).all(same)
            && self.results_named().eq(before.results_named())
    }

    /// How many of the first steps read the same, wherever they stand now: the `above` that stand above all that has changed, or those
    /// below an edit that stands above the whole method.
    pub(super) fn steps_alike(&self, before: &Recipe, above: usize) -> Known {
        let none = Known { steps: above, ..Known::default() };
        let (Some(first), Some(then)) = (self.steps.first(), before.steps.first()) else { return none };
        if above > 0 {
            return none;
        }
        let measures = |recipe: &Recipe, step: &Step| {
            recipe.measures.partition_point(|measure| measure.span.start < step.span.start)
        };
        let moved = Moved {
            bytes: first.span.start.wrapping_sub(then.span.start).cast_signed(),
            measures: measures(self, first).wrapping_sub(measures(before, then)).cast_signed(),
        };
        let same =
            |(own, other): &(&Step, &Step)| self.at(own.span) == before.at(other.span) && own.reads_as(other, moved);
        Known { steps: self.steps.iter().zip(&before.steps).take_while(same).count(), moved }
    }

    /// Whether all that the uses of a step are found by, but for its own words, is as it was.
    pub(super) fn has_same_kitchen(&self, before: &Recipe) -> bool {
        std::ptr::eq(self.larder, before.larder)
            && self.name() == before.name()
            && self.has_same_names(before)
            && self.equipment.iter().map(|line| &line.words).eq(before.equipment.iter().map(|line| &line.words))
            && self.ingredients.len() == before.ingredients.len()
            && self.ingredients.iter().zip(&before.ingredients).all(|(one, other)| one.is_named_as(other))
    }

    /// The words of all results, each with its step.
    fn results_named(&self) -> impl Iterator<Item = (usize, &[SmolStr])> {
        let steps = self.steps.iter().enumerate();
        steps.flat_map(|(step, own)| own.results.iter().map(move |result| (step, result.words.as_slice())))
    }

    /// Keeps what the larder has said of the lines of an earlier state of this recipe that are the same in this one. The first so many have
    /// been taken over with it.
    pub(super) fn remember(&mut self, before: &Recipe, taken_over: usize) {
        if !std::ptr::eq(self.larder, before.larder) {
            return;
        }
        let mut lines = std::mem::take(&mut self.ingredients);
        let count = lines.len();
        for (index, line) in lines.iter_mut().enumerate().skip(taken_over) {
            // It stood at this place from the top or, where lines have come or gone above it, from the end.
            let from_end = (index + before.ingredients.len()).checked_sub(count);
            let places = [Some(index), from_end].into_iter().flatten();
            let mut others = places.filter_map(|place| before.ingredients.get(place));
            let same = others.find(|other| self.has_same(line, before, other));
            line.learned = same.map(|other| other.learned.clone()).unwrap_or_default();
        }
        self.ingredients = lines;
    }

    /// Whether two lines read the same: letters, measures and foods.
    fn has_same(&self, line: &Ingredient, before: &Recipe, other: &Ingredient) -> bool {
        let food = |name: &Name| (name.food.map(std::ptr::from_ref), name.part, name.aside);
        self.at(line.span) == before.at(other.span)
            && line.alternatives == other.alternatives
            && self.measures_in(line).eq(before.measures_in(other))
            && line.names.iter().map(food).eq(other.names.iter().map(food))
    }

    /// Where in a line its measures stand.
    fn measures_in(&self, line: &Ingredient) -> impl Iterator<Item = (usize, usize)> {
        let own = line.measures.iter().filter_map(|index| self.measures.get(*index));
        own.map(|measure| (measure.span.start.saturating_sub(line.span.start), measure.span.len()))
    }
}

impl Step {
    /// Whether it has the tokens that another has, which stood elsewhere.
    fn reads_as(&self, other: &Step, moved: Moved) -> bool {
        let marks = |one: &Mark, other: &Mark| {
            one.span == moved.span(other.span) && are_same(&one.tokens, &other.tokens, moved)
        };
        self.group == other.group
            && are_same(&self.tokens, &other.tokens, moved)
            && self.marks.len() == other.marks.len()
            && self.marks.iter().zip(&other.marks).all(|(one, other)| marks(one, other))
    }
}

/// Whether tokens of the same text are the same, but for where they stand.
fn are_same(own: &[Token], other: &[Token], moved: Moved) -> bool {
    let same = |one: TokenKind, other: TokenKind| match (one, other) {
        (TokenKind::Measure(one), TokenKind::Measure(other)) => one == moved.measure(other),
        (TokenKind::Reference(_), TokenKind::Reference(_)) => true,
        _ => one == other,
    };
    own.len() == other.len()
        && own.iter().zip(other).all(|(one, other)| one.span == moved.span(other.span) && same(one.kind, other.kind))
}

impl Ingredient {
    /// Whether all by which a method can name it is as in another state of this line.
    fn is_named_as(&self, other: &Ingredient) -> bool {
        let same = |one: &Name, other: &Name| {
            let food = |name: &Name| name.food.map(std::ptr::from_ref);
            food(one) == food(other)
                && one.part == other.part
                && one.aside == other.aside
                && one.words == other.words
                && one.all_words == other.all_words
        };
        self.group == other.group
            && self.tags == other.tags
            && self.alternatives == other.alternatives
            && self.pieces == other.pieces
            && self.names.len() == other.names.len()
            && self.names.iter().zip(&other.names).all(|(one, other)| same(one, other))
            && self.parts.iter().map(|part| part.name).eq(other.parts.iter().map(|part| part.name))
    }
}
