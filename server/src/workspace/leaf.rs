//! A manuscript that is read for where its recipes stand in it, and not checked.

use std::path::Path;
use std::sync::Arc;

use super::{posts::Form, read::read, trouble::Trouble, walk::Source};
use crate::book::House;
use crate::recipe::{self, Recipe};
use crate::syntax::Tree;
use crate::text::LineIndex;

/// The recipes of a manuscript on disk, prose above the first included, each with the line that it begins in, from 0.
pub type Leaf = Vec<(usize, Arc<Recipe>)>;

/// Reads it. None where it is gone; an error where it is there and cannot be read.
pub fn leaf(file: &Path, house: &House) -> Result<Option<Leaf>, Trouble> {
    if !file.exists() {
        return Ok(None);
    }
    let text = read(&Source::File(file.to_path_buf()))?;
    let lines = LineIndex::new(&text);
    let stretches = Form::of(file).stretches(&text).into_iter().filter(|stretch| stretch.manuscript);
    let pieces = stretches.map(|stretch| stretch.span).filter_map(|span| {
        let own = span.of(&text);
        let recipe = recipe::read(own, &Tree::parse(own)?, house.larder());
        Some((lines.line_of(span.start), Arc::new(recipe)))
    });
    Ok(Some(pieces.collect()))
}
