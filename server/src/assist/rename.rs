//! Another name for an ingredient, a part of one, a result or a piece of equipment, wherever the recipe says the old one.
//!
//! What comes out is read again before it is offered: a name after which some step would mean something else is refused.

use super::{
    things::{Thing, bare_name, named_at, place, results_named, stated},
    tools,
};
use crate::{
    larder::words::{self, Word},
    recipe::{
        self, Ingredient, Name, Recipe,
        mentions::{Link, Mention, Target},
    },
    syntax::Tree,
    text::{Edit, Span},
};

/// Why something is not renamed, and what to do instead.
pub type Refusal = String;

/// What can be renamed at `offset`: the words there, and the name that they stand for.
pub fn renamable(recipe: &Recipe, offset: usize) -> Result<(Span, String), Refusal> {
    let (span, renaming) = Renaming::at(recipe, offset)?;
    Ok((span, renaming.old))
}

/// The edits that give what stands at `offset` the name `new`.
pub fn rename(recipe: &Recipe, offset: usize, new: &str) -> Result<Vec<Edit>, Refusal> {
    let (_, renaming) = Renaming::at(recipe, offset)?;
    let new = valid(new)?;
    // Where the method shortens the old name, a new one that is shortened the same way leaves it as it reads best.
    let shortened = renaming.edits(new, false);
    if after(recipe, &shortened).is_some_and(|after| renaming.holds(&after, &shortened).is_ok()) {
        return Ok(shortened);
    }
    let full = renaming.edits(new, true);
    let after = after(recipe, &full).ok_or("The recipe could not be read again under that name.")?;
    renaming.holds(&after, &full)?;
    Ok(full)
}

fn valid(new: &str) -> Result<&str, Refusal> {
    let new = new.trim();
    if !new.contains(char::is_alphabetic) {
        return Err("A name needs at least one letter.".into());
    }
    if let Some(sign) = new.chars().find(|sign| sign.is_control() || "[](){},;:/\\=|?".contains(*sign)) {
        return Err(format!("{sign:?} would end the name, or mean something else: leave it out."));
    }
    if new.starts_with(|first: char| first.is_numeric()) {
        return Err("A number in front would be read as an amount: begin the name with a word.".into());
    }
    Ok(new)
}

pub(super) fn after(recipe: &Recipe, edits: &[Edit]) -> Option<Recipe> {
    let text = Edit::apply_all(&recipe.text, edits);
    Some(recipe::read(&text, &Tree::parse(&text)?, recipe.larder))
}

/// One thing, its name, and where that stands.
pub(super) struct Renaming<'r> {
    pub(super) recipe: &'r Recipe,
    /// The name as it is listed or made.
    pub(super) old: String,
    /// Where it is listed or made.
    pub(super) stated: Vec<Span>,
    /// Where the method speaks of it by name, and how sure that is.
    pub(super) mentioned: Vec<(Span, Link)>,
    /// Whether it is a title, which is written everywhere as it is given.
    pub(super) titled: bool,
}

impl<'r> Renaming<'r> {
    fn at(recipe: &'r Recipe, offset: usize) -> Result<(Span, Self), Refusal> {
        let named = named_at(recipe, offset).ok_or(NOTHING)?;
        let [thing] = named.things.as_slice() else {
            let words = recipe.at(named.span);
            return Err(format!("“{words}” means several things here: rename each where it is listed."));
        };
        let words = recipe.at(named.span);
        let renaming = match thing {
            Thing::Kitchen(Target::Ingredient(index, None)) => Renaming::ingredient(recipe, *index, named.span)?,
            Thing::Kitchen(Target::Ingredient(index, Some(part))) => Renaming::part(recipe, *index, part, named.span)?,
            Thing::Kitchen(Target::Result(index)) => Renaming::result(recipe, *index),
            Thing::Kitchen(Target::Group(_)) => return Err(NOTHING.into()),
            Thing::Equipment(index) => Renaming::equipment(recipe, *index),
            // The title has other places than those of this recipe: `retitle`.
            Thing::Recipe(_) => return Err(TITLE.into()),
        };
        let listed = renaming.stated.iter().find(|span| named.span.contains(**span) && span.touches(offset));
        let mentioned = renaming.mentioned.iter().find(|(span, _)| *span == named.span && span.touches(offset));
        let said = mentioned.filter(|(span, link)| *link == Link::Exact || renaming.carried(*span).is_some());
        match listed.copied().or(said.map(|(span, _)| *span)) {
            Some(span) if !renaming.stated.is_empty() => Ok((span, renaming)),
            _ => {
                Err(format!("“{words}” is not the name of what it means here: rename that where it is listed or made."))
            }
        }
    }

    fn ingredient(recipe: &'r Recipe, index: usize, words: Span) -> Result<Self, Refusal> {
        let line = recipe.ingredients.get(index).ok_or(NOTHING)?;
        if line.reference.is_some() {
            return Err(TITLE.into());
        }
        let name = name_meant(recipe, line, words).ok_or_else(|| {
            format!("The line “{}” names several things: rename the one you mean there.", recipe.at(line.span))
        })?;
        let mentions = recipe.flow.mentions.iter().filter(|mention| {
            let [target] = mention.targets.as_slice() else { return false };
            target.ingredient() == Some(index) && (line.names.len() == 1 || shares_word(recipe, name, mention))
        });
        Ok(Renaming::of(recipe, vec![bare_name(recipe, name)], mentions))
    }

    /// The words for a part: only where they name it. What is *separated* has none.
    fn part(recipe: &'r Recipe, index: usize, part: &'static str, words: Span) -> Result<Self, Refusal> {
        let whole = stated(recipe, &Thing::Kitchen(Target::Ingredient(index, Some(part))));
        let named: Vec<Span> = whole.into_iter().filter(|span| recipe.at(*span) != "separated").collect();
        let target = Target::Ingredient(index, Some(part));
        let mentions = recipe.flow.mentions.iter().filter(|mention| mention.targets.as_slice() == [target]);
        let of_part = named.iter().any(|span| recipe.ingredients.get(index).is_some_and(|line| is_part(line, *span)));
        match of_part {
            true => Ok(Renaming::of(recipe, named, mentions)),
            // "Egg yolks", where the list has eggs: the name of the egg is in it.
            false => Renaming::ingredient(recipe, index, words),
        }
    }

    fn result(recipe: &'r Recipe, index: usize) -> Self {
        let words = |index: usize| recipe.flow.results.get(index).map(|result| &*result.words).unwrap_or_default();
        let own = words(index);
        let mentions =
            recipe.flow.mentions.iter().filter(
                |mention| matches!(mention.targets.as_slice(), [Target::Result(other)] if words(*other) == own),
            );
        Renaming::of(recipe, results_named(recipe, own).map(|(_, span)| span).collect(), mentions)
    }

    fn equipment(recipe: &'r Recipe, index: usize) -> Self {
        let mut renaming = Renaming::of(recipe, tools::name(recipe, index).into_iter().collect(), [].into_iter());
        let own = tools::mentions(recipe).into_iter().filter(|(_, piece)| *piece == index);
        renaming.mentioned = own.map(|(span, _)| (span, Link::Partial)).collect();
        renaming
    }

    pub(super) fn of<'m>(recipe: &'r Recipe, stated: Vec<Span>, mentions: impl Iterator<Item = &'m Mention>) -> Self {
        let old = stated.first().map(|span| super::wording::one_line(recipe.at(*span))).unwrap_or_default();
        let by_name = mentions.filter(|mention| mention.link <= Link::Part);
        Renaming {
            recipe,
            old,
            stated,
            mentioned: by_name.map(|mention| (place(recipe, mention), mention.link)).collect(),
            titled: false,
        }
    }

    /// The stretch of `span` that says the old name or a part of it, and whether it is all of it.
    fn carried(&self, span: Span) -> Option<(Span, bool)> {
        let old: Vec<Word<'_>> = words::split(&self.old);
        let here: Vec<Word<'_>> = words::split(self.recipe.at(span));
        let of_name = |word: &Word<'_>| old.iter().any(|own| own.folded == word.folded);
        let mut longest: &[Word<'_>] = &[];
        for run in here.split(|word| !of_name(word)) {
            if run.len() > longest.len() {
                longest = run;
            }
        }
        let run = longest.first()?.span.joined(longest.last()?.span);
        Some((run.shifted(span.start), longest.len() >= old.len()))
    }

    /// The edits; where only a part of the old name stands, they leave it alone if the new name has it too, or write all of the
    /// new name.
    pub(super) fn edits(&self, new: &str, all: bool) -> Vec<Edit> {
        let mut out: Vec<Edit> = Vec::new();
        for (span, link) in &self.mentioned {
            let carried = self.carried(*span).or_else(|| (*link == Link::Exact).then_some((*span, true)));
            let Some((run, whole)) = carried else { continue };
            let shortened = self.recipe.at(run);
            let kept = !whole && !all && words::split(shortened).iter().all(|word| has_word(new, word));
            if !kept {
                let new = if self.titled { in_prose(shortened, new) } else { like(shortened, &self.old, new) };
                out.push(Edit::replace(run, new));
            }
        }
        let stated = |here: &str| if self.titled { new.to_owned() } else { like(here, &self.old, new) };
        out.extend(self.stated.iter().map(|span| Edit::replace(*span, stated(self.recipe.at(*span)))));
        out.sort();
        out.dedup_by_key(|edit| edit.span);
        out
    }

    /// Whether the recipe that the edits lead to says the same as before.
    fn holds(&self, after: &Recipe, edits: &[Edit]) -> Result<(), Refusal> {
        if shape(self.recipe) != shape(after) {
            return Err("That would not be read as one name here: use fewer or other words.".into());
        }
        self.means_the_same(after, edits)
    }

    pub(super) fn means_the_same(&self, after: &Recipe, edits: &[Edit]) -> Result<(), Refusal> {
        let now = meanings(after);
        for (span, meaning) in meanings(self.recipe) {
            let there = moved(span, edits);
            let met = |(other, _): &&(Span, Meaning)| other.overlaps(there);
            if !now.iter().filter(met).any(|(_, other)| *other == meaning) {
                let words = super::wording::one_line(self.recipe.at(span));
                let step = self.recipe.steps.iter().position(|step| step.span.contains(span)).unwrap_or_default() + 1;
                return Err(format!(
                    "Under that name, “{words}” in step {step} would mean something else or nothing: choose a name that nothing else in the recipe goes by."
                ));
            }
        }
        Ok(())
    }
}

const NOTHING: &str = "Nothing that can be renamed is named here: put the cursor on an ingredient, a part of one, a result, a piece of equipment or a title.";
const TITLE: &str =
    "This is made by another recipe: rename that, in its own title or in the brackets that refer to it.";

/// Of several foods in one line, the one whose words these are.
fn name_meant<'r>(recipe: &Recipe, line: &'r Ingredient, words: Span) -> Option<&'r Name> {
    let mut names = line.names.iter().filter(|name| !name.aside);
    if let Some(name) = line.names.iter().find(|name| name.span.contains(words)) {
        return Some(name);
    }
    match (names.next(), names.next()) {
        (Some(name), None) => Some(name),
        _ => {
            let here = words::split(recipe.at(words));
            let fits = |name: &&Name| here.iter().any(|word| name.words.iter().any(|own| **own == word.folded));
            let mut fitting = line.names.iter().filter(fits);
            fitting.next().filter(|_| fitting.next().is_none())
        }
    }
}

fn shares_word(recipe: &Recipe, name: &Name, mention: &Mention) -> bool {
    let here = words::split(recipe.at(mention.span));
    here.iter().any(|word| name.words.iter().any(|own| **own == word.folded))
}

fn is_part(line: &Ingredient, span: Span) -> bool {
    line.parts.iter().any(|part| part.span == span)
}

fn has_word(name: &str, word: &Word<'_>) -> bool {
    words::iter(name).any(|own| own.folded == word.folded)
}

/// The new name as the old one stands there: with a capital at the head of a sentence, in the singular or plural.
fn like(here: &str, old: &str, new: &str) -> String {
    let capital = |name: &str| name.chars().next().is_some_and(char::is_uppercase);
    let (plural_here, plural_old) = (is_plural(here), is_plural(old));
    let new = match (plural_here, plural_old) {
        (false, true) if is_plural(new) => new.strip_suffix('s').unwrap_or(new).to_owned(),
        (true, false) if !is_plural(new) && new.ends_with(char::is_alphabetic) => format!("{new}s"),
        _ => new.to_owned(),
    };
    let mut letters = new.chars();
    match letters.next() {
        Some(first) if capital(here) && !capital(old) => first.to_uppercase().chain(letters).collect(),
        Some(first) if !capital(here) && capital(old) => first.to_lowercase().chain(letters).collect(),
        _ => new,
    }
}

/// A title as the method speaks of it: small where it has been.
fn in_prose(here: &str, new: &str) -> String {
    if here.contains(char::is_uppercase) { new.to_owned() } else { new.to_lowercase() }
}

/// Whether a name ends in a plural that only an s makes: eggs, and neither molasses nor leaves.
fn is_plural(name: &str) -> bool {
    let last = words::iter(name).last();
    let text = last.as_ref().map(|word| word.span.of(name).to_lowercase());
    last.zip(text).is_some_and(|(word, text)| text.strip_suffix('s') == Some(&*word.folded))
}

/// What a recipe is made of, by number.
fn shape(recipe: &Recipe) -> Vec<usize> {
    let mut out = vec![recipe.sections.len(), recipe.groups.len(), recipe.equipment.len(), recipe.measures.len()];
    out.extend(recipe.ingredients.iter().map(|line| line.names.len()));
    out.extend(recipe.steps.iter().map(|step| step.results.len()));
    out
}

/// What a place of the method means; parts aside, which are renamed too.
#[derive(Debug, PartialEq, Eq)]
enum Meaning {
    Ingredients(Vec<usize>),
    Result(usize),
    Equipment(usize),
}

/// What the method says by name, and where.
fn meanings(recipe: &Recipe) -> Vec<(Span, Meaning)> {
    let by_name = recipe.flow.mentions.iter().filter(|mention| mention.link <= Link::Part);
    let mut out: Vec<(Span, Meaning)> = by_name
        .map(|mention| {
            let result = mention.targets.iter().find_map(|target| match target {
                Target::Result(index) => Some(Meaning::Result(*index)),
                _ => None,
            });
            let listed = || mention.targets.iter().filter_map(|target| target.ingredient()).collect();
            (mention.span, result.unwrap_or_else(|| Meaning::Ingredients(listed())))
        })
        .collect();
    out.extend(tools::mentions(recipe).into_iter().map(|(span, piece)| (span, Meaning::Equipment(piece))));
    out
}

/// Where a span of the old text is in the new one.
fn moved(span: Span, edits: &[Edit]) -> Span {
    let shifted = |offset: usize| {
        let before = edits.iter().filter(|edit| edit.span.end <= offset);
        before.fold(offset, |at, edit| (at + edit.text.len()).saturating_sub(edit.span.len()))
    };
    Span::new(shifted(span.start), shifted(span.end))
}
