//! What to say about the place under the cursor: the answer first, then the alternatives, then where a figure comes from, what it
//! brings and where it goes.

mod amount;
mod figures;
mod heat;
mod item;
mod label;
mod length;
mod mention;
mod naming;
mod result;
mod time;

pub(super) use figures::of_food;
pub(super) use naming::target as target_name;

use self::amount::Measured;
use super::tools;
use crate::{
    book::House,
    checks::support::words,
    measure::UnitKind,
    recipe::{
        Recipe,
        measures::{Measure, Place, Stated},
    },
    text::Span,
};

/// What there is to say about a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hover {
    /// How far the place reaches, in the recipe's text.
    pub span: Span,
    /// What to say, in Markdown.
    pub markdown: String,
}

/// How far a place reaches, and what to say of it, a paragraph each.
type Said = (Span, Vec<String>);

/// What there is to say about the place at `offset` of the recipe's text; nothing where nothing is known.
pub fn hover(recipe: &Recipe, house: &House, offset: usize) -> Option<Hover> {
    let said = |(span, lines): Said| {
        let lines: Vec<String> = lines.into_iter().filter(|line| !line.is_empty()).collect();
        (!lines.is_empty()).then(|| Hover { span, markdown: lines.join("\n\n") })
    };
    let places: [&dyn Fn() -> Option<Said>; 9] = [
        &|| label::stet(recipe, offset),
        &|| marked(recipe, house, offset),
        &|| measured(recipe, house, offset),
        &|| reference(recipe, offset),
        &|| result::at(recipe, offset),
        &|| mentioned(recipe, house, offset),
        &|| tool(recipe, house, offset),
        &|| listed(recipe, house, offset),
        &|| label::at(recipe, offset),
    ];
    places.iter().find_map(|place| said(place()?))
}

/// A mention in brackets is one thing, amount and name together.
fn marked(recipe: &Recipe, house: &House, offset: usize) -> Option<Said> {
    let mut mentions = recipe.flow.mentions.iter().enumerate();
    let (index, mention) = mentions.find(|(_, mention)| mention.marked && mention.span.touches(offset))?;
    Some((mention.span, mention::answer(recipe, house, index)))
}

fn mentioned(recipe: &Recipe, house: &House, offset: usize) -> Option<Said> {
    let index = recipe.flow.mention_at(offset)?;
    Some((recipe.flow.mentions.get(index)?.span, mention::answer(recipe, house, index)))
}

/// The statement of a measure that is pointed at.
fn measured(recipe: &Recipe, house: &House, offset: usize) -> Option<Said> {
    let index = recipe.measures.iter().position(|measure| measure.span.touches(offset))?;
    let measure = recipe.measures.get(index)?;
    let statements = measure.restated.iter().chain(&measure.each).chain([&measure.stated]);
    let stated = statements.into_iter().find(|stated| stated.span.touches(offset)).unwrap_or(&measure.stated);
    Some((stated.span, of_stated(recipe, house, index, measure, stated)))
}

fn of_stated(recipe: &Recipe, house: &House, index: usize, measure: &Measure, stated: &Stated) -> Vec<String> {
    match stated.kind() {
        Some(UnitKind::Length) => length::answer_for(recipe, house, index, stated),
        Some(UnitKind::Temperature) => heat::answer_for(recipe, house, measure, stated),
        Some(UnitKind::Time) => time::answer_for(recipe, house, measure, stated),
        _ => {
            let mut lines = amount_of(recipe, house, index, measure, stated);
            if let Place::Ingredient(line) = measure.place
                && !lines.is_empty()
            {
                lines.extend(item::facts(recipe, house, line));
            }
            lines
        }
    }
}

/// An amount of a food; of packs, what all of them hold, or where one is pointed at, what one does.
fn amount_of(recipe: &Recipe, house: &House, index: usize, measure: &Measure, stated: &Stated) -> Vec<String> {
    let measured = if std::ptr::eq(stated, &measure.stated) {
        Measured::whole(recipe, house, index)
    } else {
        Measured::new(recipe, house, index, stated)
    };
    measured.map(|measured| measured.answer(house)).unwrap_or_default()
}

/// A reference to another recipe of the book.
fn reference(recipe: &Recipe, offset: usize) -> Option<Said> {
    let reference = recipe.references.iter().find(|reference| reference.span.touches(offset))?;
    let title = words::plain(recipe.at(reference.title));
    Some((reference.span, vec![format!("**{title}**"), "Another recipe of this book.".to_owned()]))
}

/// A tool that a step names, with its line of the equipment.
fn tool(recipe: &Recipe, house: &House, offset: usize) -> Option<Said> {
    let marks = || recipe.steps.iter().flat_map(|step| &step.marks);
    // A marked one with its brackets.
    let whole = |span: Span| marks().find(|mark| mark.inner == span).map_or(span, |mark| mark.span);
    let mut named = tools::mentions(recipe).into_iter().map(|(span, index)| (whole(span), index));
    let (span, index) = named.find(|(span, _)| span.touches(offset))?;
    let line = recipe.equipment.get(index)?;
    let mut lines = vec![format!("**{}**", words::plain(recipe.at(line.span)))];
    let own = |measure: &&Measure| measure.place == Place::Equipment(index) && measure.stated.lengths().is_some();
    if let Some((at, size)) = recipe.measures.iter().enumerate().find(|(_, measure)| own(measure)) {
        let known = length::answer_for(recipe, house, at, &size.stated);
        lines.extend(mention::below(known).into_iter().skip(usize::from(!size.restated.is_empty())));
    }
    Some((span, lines))
}

/// The name in a line of the list.
fn listed(recipe: &Recipe, house: &House, offset: usize) -> Option<Said> {
    let lines = recipe.ingredients.iter().enumerate();
    let (index, span) = lines.into_iter().find_map(|(index, line)| {
        let name = line.names.iter().find(|name| name.span.touches(offset))?;
        Some((index, name.span))
    })?;
    Some((span, item::answer(recipe, house, index)))
}
