//! `tamis uses`: which step uses which ingredient.

mod json;
mod text;

use std::io;

use super::arguments::{Output, What};
use super::console::Console;
use super::frame::Frame;
use super::{Outcome, each_file, report};
use crate::workspace::book::StyleSheets;
use crate::workspace::posts::Form;
use crate::workspace::walk::{Source, find};

/// Shows every recipe of the manuscripts that `what` names.
pub fn uses(what: &What, console: &mut Console) -> io::Result<Outcome> {
    let width = console.page_width();
    let sheets = StyleSheets::default();
    let show = |source: &Source, text: &str| {
        let path = &source.to_string();
        let recipes = report::uses(text, Form::of(source.path()), sheets.house(source.path()));
        let shown = match what.output {
            Output::Text => recipes.iter().map(|recipe| text::show(recipe, path, width)).collect(),
            Output::Json => json::show(&recipes, path),
        };
        (shown, ())
    };
    let found = find(&what.paths);
    let frame = if what.output == Output::Json { Frame::array() } else { Frame::default() };
    each_file(&found.manuscripts, &found.troubles, frame, console, show, |()| {})
}
