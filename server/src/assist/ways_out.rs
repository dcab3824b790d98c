//! Ways to be rid of a finding without mending it: it may stand here, or the house decides otherwise for the whole book.

use super::stand::{Stand, let_stand};
use super::wording::one_line;
use crate::{
    book::sheet::Decision,
    checks,
    recipe::Recipe,
    text::{Edit, Span},
};

/// A way out of a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WayOut {
    /// As a menu shows it: an order.
    pub title: String,
    /// Where it leads.
    pub leads: Leads,
}

/// What a way out changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Leads {
    /// The recipe, in bytes of its text.
    Here(Edit),
    /// The style sheet of the book.
    ToTheSheet(Decision),
}

/// The ways out of what the check `code` finds at `offset`, the narrowest first.
pub fn ways_out(recipe: &Recipe, code: &str, offset: usize) -> Vec<WayOut> {
    let here = let_stand(recipe, code, offset).map(|Stand { edit, whole }| {
        let place = if whole { "in this recipe" } else { "here" };
        WayOut { title: format!("Let it stand {place}: stet {code}"), leads: Leads::Here(edit) }
    });
    let food = decision_about_food(recipe, code, offset);
    let off = checks::check(code).map(|_| Decision::TurnOff(code.to_owned()));
    let decided = food.into_iter().chain(off).map(|decision| {
        let title = match &decision {
            Decision::Know(food) => format!("Make {food} known to this book"),
            Decision::Exempt(food) => format!("Let {food} go unlisted in this book"),
            Decision::TurnOff(code) => format!("Turn {code} off for this book"),
        };
        WayOut { title, leads: Leads::ToTheSheet(decision) }
    });
    here.into_iter().chain(decided).collect()
}

/// What the house could decide about the food that a finding speaks of: that there is such a food, where the larder does not know it;
/// that no list needs it, where a step uses it and the list has none.
fn decision_about_food(recipe: &Recipe, code: &str, offset: usize) -> Option<Decision> {
    if code == "ingredient-unlisted" {
        let unlisted = recipe.flow.unlisted.iter().find(|unlisted| unlisted.span.start == offset)?;
        return unlisted.food.map(|food| Decision::Exempt(food.name.to_owned()));
    }
    let inside = |span: Span| span.start <= offset && offset < span.end;
    let line = recipe.ingredients.iter().find(|line| inside(line.span) && line.reference.is_none())?;
    let mut names = line.names.iter().filter(|name| !name.aside);
    let unknown = names.find(|name| name.food.is_none() && inside(name.span))?;
    Some(Decision::Know(one_line(recipe.at(unknown.span))))
}
