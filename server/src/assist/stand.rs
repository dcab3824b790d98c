//! Lets a finding stand: writes the `stet` that silences it where it is, with the reason left to whoever knows it.

use crate::{
    checks::{self, support::lines},
    recipe::{self, Recipe},
    syntax::Tree,
    text::{Edit, Span},
};

/// Nobody lets stand what is said of a stet.
const ABOUT_STETS: &[&str] = &["stet-unused", "stet-without-reason"];

/// The line that lets a finding stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stand {
    /// Writes it, up to where the reason goes.
    pub edit: Edit,
    /// Whether it speaks for the whole recipe, because nothing narrower can.
    pub whole: bool,
}

/// The stet that lets stand what the check `code` finds at `offset`: above the item, step or heading that the finding stands in, else
/// above its section, else below the title. Nothing where no stet would be read as one.
pub fn let_stand(recipe: &Recipe, code: &str, offset: usize) -> Option<Stand> {
    if ABOUT_STETS.contains(&code) || checks::check(code).is_none() {
        return None;
    }
    let above = |place: Span| {
        let edit = Edit::insert(lines::start(&recipe.text, place.start), format!("stet {code}: \n"));
        Stand { edit, whole: false }
    };
    let narrow = [line_of(recipe, offset), section_of(recipe, offset)].into_iter().flatten().map(above);
    // Behind the end of the title's line, so that a title at the very end gets a line break of its own.
    let below = recipe.title.map(|title| {
        let edit = Edit::insert(lines::end(&recipe.text, title.end), format!("\nstet {code}: "));
        Stand { edit, whole: true }
    });
    narrow.chain(below).find(|stand| holds(recipe, &stand.edit, code, offset))
}

/// The item, the step or the heading that an offset lies in.
fn line_of(recipe: &Recipe, offset: usize) -> Option<Span> {
    let listed = recipe.ingredients.iter().map(|line| line.span);
    let tools = recipe.equipment.iter().map(|line| line.span);
    let steps = recipe.steps.iter().map(|step| step.span);
    let headings = recipe.groups.iter().map(|group| group.name);
    let mut all = listed.chain(tools).chain(steps).chain(recipe.tests.iter().copied()).chain(headings);
    all.find(|span| span.start <= offset && offset < span.end.max(span.start + 1))
}

fn section_of(recipe: &Recipe, offset: usize) -> Option<Span> {
    let section = recipe.sections.iter().find(|section| section.span.start <= offset && offset < section.span.end)?;
    Some(section.heading)
}

/// Whether the recipe reads as before with the stet in it, and the stet speaks for the place of the finding.
fn holds(recipe: &Recipe, edit: &Edit, code: &str, offset: usize) -> bool {
    let text = Edit::put_into(&recipe.text, std::slice::from_ref(edit));
    let Some(tree) = Tree::parse(&text) else { return false };
    let now = recipe::read(&text, &tree, recipe.larder);
    let grown = if edit.span.start <= offset { text.len() - recipe.text.len() } else { 0 };
    let place = Span::at(offset + grown);
    let speaks = now.stets.iter().any(|stet| now.at(stet.check) == code && stet.scope.contains(place));
    speaks && shape(&now) == shape(recipe)
}

/// What a stet in the wrong place would break: a heading that is read as an item, a step that falls in two.
fn shape(recipe: &Recipe) -> (&str, [usize; 9]) {
    let counts = [
        recipe.headers.len(),
        recipe.headnotes.len(),
        recipe.sections.len(),
        recipe.groups.len(),
        recipe.ingredients.len(),
        recipe.equipment.len(),
        recipe.steps.len(),
        recipe.tests.len(),
        recipe.damage.len(),
    ];
    (recipe.name(), counts)
}
