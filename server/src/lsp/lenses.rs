//! A line above each recipe: for how many, how long, what is found in it, when it was last tried.

use tower_lsp::lsp_types::{CodeLens, Command};

use super::capabilities::Editor;
use super::documents::Opened;
use super::placed::Placed;
use crate::assist;

/// The lenses of `document`, one above each title.
pub fn answer(document: &Opened, editor: &Editor) -> Option<Vec<CodeLens>> {
    if !editor.settings.lenses {
        return Some(Vec::new());
    }
    let recipes = document.manuscript()?.findings_by_recipe();
    let lenses = recipes.filter_map(|(start, recipe, findings)| {
        let title = recipe.title.filter(|_| recipe.is_recipe())?;
        let range = Placed::new(document, start, recipe, editor).range(title);
        // It only says something: there is nothing to run behind it.
        let command = Command::new(assist::summary(recipe, findings), String::new(), None);
        Some(CodeLens { range, command: Some(command), data: None })
    });
    Some(lenses.collect())
}
