//! Another title for a recipe, in its own text and in the text of whatever refers to it.

use super::{
    rename::{Refusal, Renaming, after},
    things::{Thing, named_at, stated},
};
use crate::{
    book::title_key,
    larder::larder,
    recipe::{self, Recipe, mentions::Mention},
    syntax::Tree,
    text::{Edit, Span},
};

/// A title under the cursor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TitleHere {
    /// The title, without brackets.
    pub span: Span,
    /// Its [key](title_key).
    pub key: String,
    /// Whether the recipe itself is called that here, and not another one spoken of.
    pub own: bool,
}

/// The title at `offset`: of the recipe, or of one that it refers to.
pub fn title_at(recipe: &Recipe, offset: usize) -> Option<TitleHere> {
    let named = named_at(recipe, offset)?;
    let [Thing::Recipe(key)] = named.things.as_slice() else { return None };
    let references = recipe.references.iter().find(|reference| reference.span.touches(offset));
    let span = references.map(|reference| reference.title).or(recipe.title)?;
    Some(TitleHere { span, key: key.clone(), own: references.is_none() })
}

/// A title that can be written above a recipe and in a reference, without blanks around it.
pub fn valid_title(new: &str) -> Result<&str, Refusal> {
    let new = new.trim();
    if !new.contains(char::is_alphabetic) {
        return Err("A title needs at least one letter.".into());
    }
    if let Some(sign) = new.chars().find(|sign| sign.is_control() || "[]\\".contains(*sign)) {
        return Err(format!("{sign:?} cannot stand in a title: a reference to it would end there. Leave it out."));
    }
    let text = format!("Recipe: {new}\n\nIngredients:\n\n- [[{new}]]\n");
    let read = Tree::parse(&text).map(|tree| recipe::read(&text, &tree, larder()));
    let is_read = |read: &Recipe| read.name() == new && titles(read).eq([new]);
    match read.as_ref().is_some_and(is_read) {
        true => Ok(new),
        false => Err(format!("“{new}” would not be read as one title: leave out signs that mean something else.")),
    }
}

/// The edits that write `new` where this recipe says the title with the key `old`: as its own, in references, and where its method
/// speaks of what a line asks for by that title. None where it says it nowhere.
pub fn retitle(recipe: &Recipe, old: &str, new: &str) -> Result<Vec<Edit>, Refusal> {
    let renaming = Renaming::title(recipe, old);
    if renaming.stated.is_empty() {
        return Ok(Vec::new());
    }
    let mut why = None;
    // Where the method shortens the old title and the new one is shortened the same way, it stays as it is.
    for all in [false, true] {
        let edits = renaming.edits(new, all);
        let held = after(recipe, &edits).ok_or("It could not be read again under that title.".into());
        match held.and_then(|after| renaming.holds_titled(&after, &edits, old, new)) {
            Ok(()) => return Ok(edits),
            Err(refusal) => why = Some(refusal),
        }
    }
    why.map_or(Ok(Vec::new()), Err)
}

/// The edits that write `new` above the recipe and nowhere else.
pub fn retitle_itself(recipe: &Recipe, new: &str) -> Result<Vec<Edit>, Refusal> {
    let edits: Vec<Edit> = recipe.title.into_iter().map(|title| Edit::replace(title, new)).collect();
    let read = after(recipe, &edits).is_some_and(|after| after.name() == new && shape(&after) == shape(recipe));
    if read { Ok(edits) } else { Err(NOT_ONE.into()) }
}

const NOT_ONE: &str = "That would not be read as one title here: use fewer or other words.";

impl<'r> Renaming<'r> {
    fn title(recipe: &'r Recipe, old: &str) -> Self {
        let titles = || recipe.references.iter().map(|reference| reference.title);
        // The first line of prose is no title, whatever it says.
        let own = recipe.is_recipe().then(|| stated(recipe, &Thing::Recipe(old.to_owned())));
        let mut places: Vec<Span> = own.unwrap_or_default();
        places.extend(titles().filter(|title| title_key(recipe.at(*title)) == old));
        let asked = |mention: &&Mention| {
            let [target] = mention.targets.as_slice() else { return false };
            let line = target.ingredient().and_then(|index| recipe.ingredients.get(index));
            let title = line.and_then(|line| recipe.references.get(line.reference?));
            title.is_some_and(|reference| places.contains(&reference.title))
                && !places.iter().any(|place| place.start < mention.span.end && mention.span.start < place.end)
        };
        let mentions: Vec<&Mention> = recipe.flow.mentions.iter().filter(asked).collect();
        Renaming { titled: true, ..Renaming::of(recipe, places.clone(), mentions.into_iter()) }
    }

    /// Whether the recipe that the edits lead to has the new title wherever it had the old one, and says the same otherwise.
    fn holds_titled(&self, after: &Recipe, edits: &[Edit], old: &str, new: &str) -> Result<(), Refusal> {
        let now = |title| if title_key(title) == old { new } else { title };
        let is_called = self.recipe.is_recipe() && title_key(self.recipe.name()) == old;
        if is_called && after.name() != new
            || !titles(after).eq(titles(self.recipe).map(now))
            || shape(after) != shape(self.recipe)
        {
            return Err(NOT_ONE.into());
        }
        self.means_the_same(after, edits)
    }
}

/// The titles that a recipe refers to.
fn titles(recipe: &Recipe) -> impl Iterator<Item = &str> {
    recipe.references.iter().map(|reference| recipe.at(reference.title))
}

/// How many there are of what a recipe is made of. Measures are not counted: a title may have one in it.
fn shape(recipe: &Recipe) -> [usize; 6] {
    let results = recipe.steps.iter().map(|step| step.results.len()).sum();
    [
        recipe.headers.len(),
        recipe.sections.len(),
        recipe.groups.len(),
        recipe.ingredients.len(),
        recipe.steps.len(),
        results,
    ]
}
