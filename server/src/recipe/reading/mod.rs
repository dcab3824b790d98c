//! From the tree to the model: each line as what it is.

mod again;
mod items;
mod measures;
mod sections;
mod stets;

pub(super) use again::Stage;

use std::sync::Arc;

use smol_str::SmolStr;

use super::{
    clock::Clock,
    flow::Flow,
    language::token::{Atom, Token, TokenKind, tokens},
    mentions::{Kitchen, Known},
    model::{Mark, Recipe, Reference},
};
use crate::{
    larder::Larder,
    syntax::{Kind, Node, Tree},
    text::Span,
};

/// Reads a recipe again that has been edited. The parts above the first that has changed are not read again, nor is it found out again what
/// their steps use, and what the larder has said of lines that are the same need not be asked again.
pub fn read_again<'t>(text: &'t str, tree: &Tree, larder: &'static Larder, before: &'t Recipe) -> Recipe {
    let mut reader = Reader::new(text, tree, larder);
    let read = reader.resume(tree, before);
    let lines = reader.recipe.ingredients.len();
    let mut recipe = reader.read_on(tree, read);
    let known = recipe.steps_known(before, read);
    let alike = recipe.steps_alike(before, known);
    let linked = if known > 0 || recipe.has_same_kitchen(before) { alike } else { Known::default() };
    recipe.flow = Flow::again(&Kitchen { title: title_words(&recipe), ..recipe.kitchen() }, &before.flow, linked);
    // The clock of a method goes by its own words alone.
    let is_same_method = recipe.steps.len() == alike.steps && before.steps.len() == alike.steps;
    recipe.clock = match is_same_method {
        true => before.clock.moved(alike.moved),
        false => Clock::again(&recipe, &before.clock, known),
    };
    recipe.remember(before, lines);
    recipe
}

/// Reads one recipe from its text and the tree of it; its foods are looked up in `larder`.
pub fn read(text: &str, tree: &Tree, larder: &'static Larder) -> Recipe {
    let mut recipe = skim(text, tree, larder);
    link(std::slice::from_mut(&mut recipe));
    recipe
}

/// Finds out who uses what and when in recipes that have been skimmed: each step for all of them, before the next.
pub fn link(recipes: &mut [Recipe]) {
    for recipe in &mut *recipes {
        recipe.flow = Flow::of(&Kitchen { title: title_words(recipe), ..recipe.kitchen() });
    }
    for recipe in recipes {
        recipe.clock = Clock::of(recipe);
    }
}

/// Reads all that stands in a recipe, and not who uses what and when: as much as the other recipes of its book have to know.
pub fn skim(text: &str, tree: &Tree, larder: &'static Larder) -> Recipe {
    Reader::new(text, tree, larder).read_on(tree, 0)
}

fn title_words(recipe: &Recipe) -> Vec<SmolStr> {
    let Some(title) = recipe.title else { return Vec::new() };
    tokens(&recipe.text, title, &[])
        .into_iter()
        .filter(|token| token.kind == TokenKind::Word)
        .map(|token| token.fold)
        .collect()
}

/// A recipe on the way from tree to model.
struct Reader<'t> {
    text: &'t str,
    recipe: Recipe,
    /// Stets that wait for the line they speak for, as indices.
    pending: Vec<usize>,
    /// The heading that the next line stands under.
    group: Option<usize>,
    /// What the recipe was before it was edited.
    before: Option<&'t Recipe>,
}

/// What stands inside a line, besides words.
#[derive(Default)]
struct Inside {
    atoms: Vec<Atom>,
    marks: Vec<Mark>,
    measures: Vec<usize>,
    references: Vec<usize>,
}

impl<'t> Reader<'t> {
    fn new(text: &'t str, tree: &Tree, larder: &'static Larder) -> Self {
        let recipe = Recipe { text: Arc::from(text), damage: tree.damage(), larder, ..Recipe::default() };
        Reader { text, recipe, pending: Vec::new(), group: None, before: None }
    }

    /// Reads all parts but the first so many, which have been read.
    fn read_on(mut self, tree: &Tree, read: usize) -> Recipe {
        for (part, root) in tree.roots().skip(read) {
            let stage = self.stage(part.start);
            self.recipe.stages.push(stage);
            self.manuscript(root);
        }
        self.finish()
    }
}

impl Reader<'_> {
    /// Collects measures, mentions, references, queries and comments below `node`.
    fn inside(&mut self, node: Node<'_>, place: super::measures::Place) -> Inside {
        let wanted = |kind| {
            matches!(
                kind,
                Kind::Measure
                    | Kind::Mention
                    | Kind::CrossReference
                    | Kind::Query
                    | Kind::Comment
                    | Kind::StepNumber
                    | Kind::Result
                    | Kind::Stet
            )
        };
        let mut inside = Inside::default();
        for found in node.find(wanted) {
            let span = found.span();
            let kind = match found.kind() {
                Kind::Measure => {
                    let index = self.measure(found, place);
                    inside.measures.push(index);
                    Some(TokenKind::Measure(index))
                }
                Kind::Mention => {
                    let mark = self.mark(found, place);
                    inside.marks.push(mark);
                    Some(TokenKind::Mention(inside.marks.len() - 1))
                }
                Kind::CrossReference => {
                    let title = found.child(Kind::ReferenceTitle).map_or(span, Node::span);
                    self.recipe.references.push(Reference { span, title });
                    inside.references.push(self.recipe.references.len() - 1);
                    Some(TokenKind::Reference(self.recipe.references.len() - 1))
                }
                Kind::Query => {
                    self.recipe.queries.push(span);
                    None
                }
                Kind::Stet => {
                    self.stet(found);
                    None
                }
                _ => None,
            };
            inside.atoms.push(Atom { span, kind });
        }
        inside
    }

    fn mark(&mut self, node: Node<'_>, place: super::measures::Place) -> Mark {
        let span = node.span();
        let inner = Span::new(span.start + 1, span.end.saturating_sub(1));
        let atoms: Vec<Atom> = node
            .find(|kind| kind == Kind::Measure)
            .map(|found| Atom { span: found.span(), kind: Some(TokenKind::Measure(self.measure(found, place))) })
            .collect();
        Mark { span, inner, tokens: tokens(self.text, inner, &atoms) }
    }

    fn tokens(&self, span: Span, atoms: &[Atom]) -> Vec<Token> {
        tokens(self.text, span, atoms)
    }
}
