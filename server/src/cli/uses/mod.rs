//! `tamis uses`: which step uses which ingredient.

mod json;
mod text;

use std::io;

use super::arguments::{Output, What};
use super::console::Console;
use super::{Outcome, each_file, report};

/// Shows every recipe of the manuscripts that `what` names.
pub fn uses(what: &What, console: &mut Console) -> io::Result<Outcome> {
    let width = console.page_width();
    let show = |path: &str, text: &str| {
        let recipes = report::uses(text);
        let shown = match what.output {
            Output::Text => recipes.iter().map(|recipe| text::show(recipe, path, width)).collect(),
            Output::Json => json::show(&recipes, path),
        };
        (shown, ())
    };
    each_file(what, console, show, |()| {})
}
