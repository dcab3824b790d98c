//! What the two faces of the command line ask of a manuscript, and the only place here that asks it.

use std::sync::Arc;

pub use crate::checks::{Finding, Fix, Severity};
use crate::{
    checks::CHECKS,
    recipe::{
        Recipe,
        flow::{self, Taken},
        mentions::Link,
    },
    text::LineIndex,
    workspace::Manuscript,
};

/// All that was found in one manuscript.
#[derive(Debug, Default)]
pub struct Checked {
    /// The titles of its recipes.
    pub recipes: usize,
    /// In the order of their places, each with the title of the recipe that it stands in.
    pub findings: Vec<(String, Finding)>,
}

/// Who uses what in one recipe.
#[derive(Debug, Default)]
pub struct RecipeUses {
    pub title: String,
    pub ingredients: Vec<Ingredient>,
    pub unlisted: Vec<Unlisted>,
}

/// One ingredient of the list and the steps that use it.
#[derive(Debug, Default)]
pub struct Ingredient {
    /// Its line in the file, from 1.
    pub line: usize,
    /// The heading that it stands under.
    pub group: Option<String>,
    /// The whole line as written.
    pub text: String,
    pub name: String,
    /// The larder's name for it.
    pub food: Option<String>,
    /// The amount as written; nothing where there is none.
    pub amount: Option<String>,
    pub uses: Vec<Use>,
}

/// One step's use of an ingredient.
#[derive(Debug, Clone, Default)]
pub struct Use {
    /// The step, from 1.
    pub step: usize,
    /// How much of it the step takes; nothing where nothing is taken.
    pub share: Option<String>,
    /// Whether a collective word means it ("the dry ingredients").
    pub collective: bool,
    /// Whether it stands in brackets.
    pub marked: bool,
}

/// Something that a step uses and the list lacks.
#[derive(Debug, Clone, Default)]
pub struct Unlisted {
    pub step: usize,
    pub line: usize,
    pub food: String,
    pub amount: Option<String>,
}

/// What there is to know about one check.
#[derive(Debug, Clone, Copy)]
pub struct CheckPage {
    pub code: &'static str,
    pub severity: Severity,
    /// The page, in Markdown.
    pub docs: &'static str,
}

/// Checks one manuscript.
pub fn check(text: &str) -> Checked {
    let manuscript = Manuscript::new(text, Arc::default());
    let mut checked = Checked { recipes: manuscript.recipes().count(), findings: Vec::new() };
    for (start, recipe, findings) in manuscript.findings_by_recipe() {
        let title = recipe.name();
        checked.findings.extend(findings.iter().map(|finding| (title.to_owned(), finding.clone().shifted(start))));
    }
    checked
}

/// Who uses what, in every recipe of one manuscript.
pub fn uses(text: &str) -> Vec<RecipeUses> {
    let manuscript = Manuscript::new(text, Arc::default());
    let lines = LineIndex::new(text);
    manuscript.recipes().map(|(start, recipe)| recipe_uses(recipe, start, &lines)).collect()
}

fn recipe_uses(recipe: &Recipe, start: usize, lines: &LineIndex<'_>) -> RecipeUses {
    let line = |offset: usize| lines.line_of(start + offset) + 1;
    let amount = |measure: Option<usize>| {
        measure.and_then(|index| recipe.measures.get(index)).map(|measure| plain(recipe.at(measure.span)))
    };
    let ingredients = recipe.ingredients.iter().enumerate().map(|(index, ingredient)| {
        let name = ingredient.names.iter().find(|name| !name.aside);
        Ingredient {
            line: line(ingredient.span.start),
            group: ingredient
                .group
                .and_then(|group| recipe.groups.get(group))
                .map(|group| plain(recipe.at(group.name))),
            text: plain(recipe.at(ingredient.span)),
            name: plain(recipe.at(ingredient.mark)),
            food: name.and_then(|name| name.food).map(|food| food.name.to_owned()),
            amount: amount(ingredient.amount),
            uses: recipe.flow.uses(index).iter().map(|found| used(recipe, found)).collect(),
        }
    });
    let unlisted = recipe.flow.unlisted.iter().filter(|unlisted| unlisted.ties.is_empty()).map(|unlisted| Unlisted {
        step: unlisted.step + 1,
        line: line(unlisted.span.start),
        food: plain(recipe.at(unlisted.span).trim_matches(['[', ']'])),
        amount: amount(unlisted.measure),
    });
    RecipeUses { title: recipe.name().to_owned(), ingredients: ingredients.collect(), unlisted: unlisted.collect() }
}

fn used(recipe: &Recipe, found: &flow::Use) -> Use {
    let share = match found.taken {
        Taken::Nothing => None,
        Taken::Whole => Some("all".to_owned()),
        Taken::Rest => Some("the rest".to_owned()),
        Taken::Some => Some("some".to_owned()),
        Taken::Fraction(least, most) => Some(fraction(least, most)),
        Taken::Amount(measure, _) => recipe.measures.get(measure).map(|measure| plain(recipe.at(measure.span))),
    };
    Use { step: found.step + 1, share, collective: found.link == Link::Collective, marked: found.marked }
}

/// A fraction as a cook says it.
fn fraction(least: f64, most: f64) -> String {
    const NAMED: &[(f64, &str)] = &[
        (0.5, "half"),
        (1.0 / 3.0, "1/3"),
        (2.0 / 3.0, "2/3"),
        (0.25, "1/4"),
        (0.75, "3/4"),
        (0.2, "1/5"),
        (0.125, "1/8"),
    ];
    if most - least > 0.01 {
        return "most".to_owned();
    }
    let named = NAMED.iter().find(|(value, _)| (value - least).abs() < 0.01);
    named.map_or_else(|| format!("{:.0} %", least * 100.0), |(_, name)| (*name).to_owned())
}

/// Text of several lines on one.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Every check there is.
pub fn checks() -> Vec<CheckPage> {
    CHECKS.iter().map(|check| CheckPage { code: check.code, severity: check.severity, docs: check.docs }).collect()
}
