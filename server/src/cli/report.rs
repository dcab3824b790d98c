//! What the commands ask of a manuscript, and the only place here that asks it.

use std::sync::Arc;

use crate::{
    assist,
    book::{Book, House},
    checks::Finding,
    recipe::{
        Recipe, flow,
        mentions::{self, Link},
    },
    text::{LineIndex, Span},
    workspace::{Manuscript, book, posts::Form},
};

/// All that was found in one manuscript.
#[derive(Debug, Default)]
pub struct Checked {
    /// How many recipes it holds.
    pub recipes: usize,
    /// Whether it is no manuscript, but a style sheet.
    pub is_sheet: bool,
    /// In the order of their places, each with the title of the recipe that it stands in.
    pub findings: Vec<(String, Finding)>,
}

/// Who uses what in one recipe.
#[derive(Debug, Default)]
pub struct RecipeUses {
    pub title: String,
    pub ingredients: Vec<Ingredient>,
    pub steps: Vec<Step>,
    pub unlisted: Vec<Unlisted>,
}

/// One line of the list and the steps that use it.
#[derive(Debug, Default)]
pub struct Ingredient {
    /// Its line in the file, from 1.
    pub line: usize,
    /// The heading that it stands under.
    pub group: Option<String>,
    /// The whole line as written.
    pub text: String,
    pub name: String,
    /// Foods of the same line that have an amount of their own.
    pub others: Vec<Other>,
    /// The larder's name for it.
    pub food: Option<String>,
    /// The amount as written; nothing where there is none.
    pub amount: Option<String>,
    pub uses: Vec<Use>,
    /// What is left when the method is done: an amount, or `nothing`; nothing where nobody can say.
    pub left: Option<String>,
    /// Why no step needs to use it; nothing where one should.
    pub excuse: Option<&'static str>,
}

/// A food that stands in the line of another, with an amount of its own.
#[derive(Debug, Clone, Default)]
pub struct Other {
    pub name: String,
    /// The amount as written; nothing where it shares that of the food before it.
    pub amount: Option<String>,
    /// Whether it can be taken instead; else both are meant.
    pub instead: bool,
}

/// One step's use of an ingredient.
#[derive(Debug, Clone, Default)]
pub struct Use {
    /// The step, from 1.
    pub step: usize,
    /// The part of the food that is used, where not the whole of it.
    pub part: Option<&'static str>,
    /// How much of it the step takes; nothing where nothing is taken.
    pub share: Option<String>,
    /// Whether a collective word means it ("the dry ingredients").
    pub collective: bool,
    /// Whether it stands in brackets.
    pub marked: bool,
}

/// What goes in in one step.
#[derive(Debug, Default)]
pub struct Step {
    /// The step, from 1.
    pub step: usize,
    /// Its line in the file, from 1.
    pub line: usize,
    pub takes: Vec<Takes>,
}

/// What a step takes of one thing.
#[derive(Debug, Clone, Default)]
pub struct Takes {
    pub name: String,
    /// Its line in the file, from 1; nothing for what another step has made.
    pub line: Option<usize>,
    /// How much, in both systems where that is known; nothing where nobody can say.
    pub amount: Option<String>,
    /// Whether that is all there is, taken at once.
    pub all: bool,
    /// How much is left for later steps: an amount, or `nothing`; nothing where nobody can say.
    pub left: Option<String>,
}

/// Something that a step uses and the list lacks.
#[derive(Debug, Clone, Default)]
pub struct Unlisted {
    /// The step, from 1.
    pub step: usize,
    /// The line in the file, from 1.
    pub line: usize,
    pub food: String,
    /// The amount as written; nothing where there is none.
    pub amount: Option<String>,
}

/// Checks one manuscript, or those of a post.
pub fn check(text: &str, form: Form, book: Book) -> Checked {
    let manuscript = Manuscript::to_read(text, form, book);
    let mut checked = Checked { recipes: manuscript.recipes().count(), ..Checked::default() };
    for (start, recipe, findings) in manuscript.findings_by_recipe() {
        let title = recipe.name();
        checked.findings.extend(findings.iter().map(|finding| (title.to_owned(), finding.clone().shifted(start))));
    }
    checked
}

/// Checks a style sheet.
pub fn check_sheet(text: &str) -> Checked {
    let findings = book::check_sheet(text).into_iter().map(|finding| (String::new(), finding));
    Checked { is_sheet: true, findings: findings.collect(), ..Checked::default() }
}

/// Who uses what, in every recipe of one manuscript.
pub fn uses(text: &str, form: Form, house: Arc<House>) -> Vec<RecipeUses> {
    let manuscript = Manuscript::unchecked(text, form, Book { house, ..Book::default() });
    let lines = LineIndex::new(text);
    manuscript.recipes().map(|(start, recipe)| recipe_uses(recipe, manuscript.house(), start, &lines)).collect()
}

fn recipe_uses(recipe: &Recipe, house: &House, start: usize, lines: &LineIndex<'_>) -> RecipeUses {
    let line = |offset: usize| lines.line_of(start + offset) + 1;
    let ingredients = recipe.ingredients.iter().enumerate().map(|(index, ingredient)| {
        let group = ingredient.group.and_then(|group| recipe.groups.get(group));
        let food = ingredient.names.iter().find(|name| !name.aside).and_then(|name| name.food);
        Ingredient {
            line: line(ingredient.span.start),
            group: group.map(|group| one_line(recipe.at(group.name))),
            text: one_line(recipe.at(ingredient.span)),
            name: name(recipe, ingredient),
            others: others(recipe, ingredient),
            food: food.map(|food| food.name.to_owned()),
            amount: amount(recipe, ingredient.amount),
            uses: recipe.flow.uses(index).iter().map(|found| used(recipe, found)).collect(),
            left: assist::left_over(recipe, house, index),
            excuse: excuse(recipe, index, ingredient),
        }
    });
    let missing = |unlisted: &&mentions::Unlisted| {
        unlisted.ties.is_empty() && !unlisted.food.is_some_and(|food| house.exempts(food))
    };
    let unlisted = recipe.flow.unlisted.iter().filter(missing).map(|unlisted| Unlisted {
        step: unlisted.step + 1,
        line: line(unlisted.span.start),
        food: one_line(recipe.at(unlisted.span).trim_matches(['[', ']'])),
        amount: amount(recipe, unlisted.measure),
    });
    let steps = recipe.steps.iter().enumerate().map(|(index, step)| {
        let takes = assist::goes_in(recipe, house, index).into_iter().map(|one| Takes {
            line: one.target.ingredient().and_then(|of| recipe.ingredient(of)).map(|of| line(of.span.start)),
            name: one.name,
            amount: one.amount,
            all: one.all,
            left: one.left,
        });
        Step { step: index + 1, line: line(step.span.start), takes: takes.collect() }
    });
    RecipeUses {
        title: recipe.name().to_owned(),
        ingredients: ingredients.collect(),
        steps: steps.collect(),
        unlisted: unlisted.collect(),
    }
}

fn amount(recipe: &Recipe, measure: Option<usize>) -> Option<String> {
    measure.and_then(|index| recipe.measures.get(index)).map(|measure| one_line(recipe.at(measure.span)))
}

/// The name of the food, or the title of the recipe that the line asks for.
fn name(recipe: &Recipe, ingredient: &crate::recipe::Ingredient) -> String {
    let reference = ingredient.reference.and_then(|reference| recipe.references.get(reference));
    one_line(recipe.at(reference.map_or(ingredient.mark, |reference| reference.title)))
}

/// The foods behind the one that the line is called after: `or 1 cup (245 g) yogurt`.
fn others(recipe: &Recipe, ingredient: &crate::recipe::Ingredient) -> Vec<Other> {
    let names = ingredient.names.iter().filter(|name| !name.aside && name.span.start >= ingredient.mark.end);
    let mut from = ingredient.mark.end;
    let told = names.map(|name| {
        let own = |index: &&usize| {
            let between = Span::new(from, name.span.start.max(from));
            recipe.measures.get(**index).is_some_and(|measure| between.contains(measure.span))
        };
        let amount = amount(recipe, ingredient.measures.iter().rev().find(own).copied());
        from = name.span.end.max(from);
        Other { name: one_line(recipe.at(name.span)), amount, instead: ingredient.alternatives }
    });
    told.collect()
}

fn used(recipe: &Recipe, found: &flow::Use) -> Use {
    Use {
        step: found.step + 1,
        part: found.part,
        share: assist::share(recipe, found),
        collective: found.link == Link::Collective,
        marked: found.marked,
    }
}

fn excuse(recipe: &Recipe, index: usize, ingredient: &crate::recipe::Ingredient) -> Option<&'static str> {
    let tags = ingredient.tags;
    let at_table = ingredient.group.and_then(|group| recipe.groups.get(group)).is_some_and(|group| group.at_table);
    match () {
        () if tags.remark => Some("(no food)"),
        () if tags.optional => Some("optional"),
        () if tags.serving || at_table => Some("to serve"),
        () if tags.pan => Some("for the pan"),
        () if recipe.flow.loosely_used(index) => Some("not by name"),
        () => None,
    }
}

/// Text of several lines on one.
fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
