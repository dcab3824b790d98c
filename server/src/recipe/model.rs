//! One recipe as plain data. Every span is in bytes of the recipe's own text, [`Recipe::text`].

use std::sync::{Arc, OnceLock};

use smol_str::SmolStr;
use uom::si::f64::MassDensity;

use super::{
    clock::Clock,
    flow::Flow,
    language::{clause::Sense, token::Token},
    measures::Measure,
    portions::Asked,
    reading::Stage,
};
use crate::{
    larder::{Food, Larder, words::fold},
    measure::Interval,
    text::Span,
};

/// One recipe, read from its text and what its house knows of foods.
#[derive(Debug, Clone, Default)]
pub struct Recipe {
    /// The text that every span refers to.
    pub text: Arc<str>,
    /// The foods that were known when it was read.
    pub larder: &'static Larder,
    /// The title, where there is one.
    pub title: Option<Span>,
    /// Whether the title stands behind the label `Recipe:`.
    pub labelled: bool,
    /// Yield, Serves, Time and the other labelled lines above the first section.
    pub headers: Vec<Header>,
    /// Paragraphs above the first section.
    pub headnotes: Vec<Span>,
    /// The sections, in order; a section that is repeated stands here twice.
    pub sections: Vec<Section>,
    /// Group headings of the list and of the method.
    pub groups: Vec<Group>,
    /// The lines of the ingredient list.
    pub ingredients: Vec<Ingredient>,
    /// The lines of the equipment list.
    pub equipment: Vec<Equipment>,
    /// The steps of the method.
    pub steps: Vec<Step>,
    /// The lines of the tests.
    pub tests: Vec<Span>,
    /// Every measure, wherever it stands, in order.
    pub measures: Vec<Measure>,
    /// References to other recipes.
    pub references: Vec<Reference>,
    /// Open questions of the author or the editor.
    pub queries: Vec<Span>,
    /// Places where a check has been told to let it stand.
    pub stets: Vec<Stet>,
    /// Places that the grammar could not read.
    pub damage: Vec<Span>,
    /// Who uses how much of what, where.
    pub flow: Flow,
    /// What is done when, for how long, and what the oven does meanwhile.
    pub clock: Clock,
    /// How far the reading had come at the start of each part.
    pub(super) stages: Vec<Stage>,
}

impl Recipe {
    /// The text under `span`.
    pub fn at(&self, span: Span) -> &str {
        span.of(&self.text)
    }

    /// The title as written; empty where there is none.
    pub fn name(&self) -> &str {
        self.title.map_or("", |span| self.at(span))
    }

    /// The headers of this label, which is folded, each with its index.
    pub fn headers_called<'r>(&'r self, label: &'r str) -> impl Iterator<Item = (usize, &'r Header)> {
        let is_called = move |own: &str| {
            // Most are told by their first letter.
            let alike = own.bytes().zip(label.bytes()).next();
            let alike = alike.is_none_or(|(own, wanted)| !own.is_ascii() || own.eq_ignore_ascii_case(&wanted));
            alike && fold(own) == label
        };
        self.headers.iter().enumerate().filter(move |(_, header)| is_called(self.at(header.label)))
    }

    /// The ingredient that `index` stands for.
    pub fn ingredient(&self, index: usize) -> Option<&Ingredient> {
        self.ingredients.get(index)
    }

    /// Whether the recipe has a section of this kind.
    pub fn has(&self, kind: SectionKind) -> bool {
        self.sections.iter().any(|section| section.kind == kind)
    }
}

/// A labelled line above the first section.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Header {
    /// The label without its colon.
    pub label: Span,
    /// What stands behind it.
    pub value: Span,
}

/// What a section holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SectionKind {
    /// Things to cook with.
    Equipment,
    /// The list.
    Ingredients,
    /// The steps.
    Method,
    /// What was tried in the kitchen.
    Tests,
    /// Prose: Notes, Storage, Make ahead, Variations, Sidebar.
    Prose,
}

/// A section with its heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// What it holds.
    pub kind: SectionKind,
    /// Its label as written, without the colon.
    pub heading: Span,
    /// The whole section.
    pub span: Span,
}

/// A heading inside the list or the method (`For the crumble:`).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// The heading as written, without the colon.
    pub name: Span,
    /// Which section it stands in.
    pub section: SectionKind,
    /// The folded words of its name, without `for the`.
    pub words: Vec<SmolStr>,
    /// Whether it names a time at the table (`To serve`, `To finish`, `To garnish`) and no part of the dish.
    pub at_table: bool,
}

/// One line of the ingredient list.
#[derive(Debug, Clone, Default)]
pub struct Ingredient {
    /// The line without its marker, with its continuations.
    pub span: Span,
    /// What a finding about the whole line marks: the name, or the line where no name was found.
    pub mark: Span,
    /// The heading it stands under, as an index into [`Recipe::groups`].
    pub group: Option<usize>,
    /// Which measures stand in the line, as indices into [`Recipe::measures`].
    pub measures: Vec<usize>,
    /// The measure that says how much of it.
    pub amount: Option<usize>,
    /// The foods of the line: one, or several that go together, or alternatives.
    pub names: Vec<Name>,
    /// Whether the foods are alternatives (`butter or oil`); else all of them are meant (`salt and pepper`).
    pub alternatives: bool,
    /// Parts that the line takes the food apart into: yolks and whites, zest and juice.
    pub parts: Vec<Part>,
    /// Pieces that the line has it cut into (`in wedges`, `cut into 1-inch cubes`), folded.
    pub pieces: Vec<SmolStr>,
    /// What the line says about its use.
    pub tags: Tags,
    /// The recipe that the line asks for, as an index into [`Recipe::references`].
    pub reference: Option<usize>,
    /// What the larder says of the whole line, once anybody has asked.
    pub(super) learned: Learned,
}

/// What the larder says of a whole line. Several checks ask, and to ask again would be dear.
#[derive(Debug, Clone, Default)]
pub(super) struct Learned {
    pub density: OnceLock<Option<Interval<MassDensity>>>,
    pub asked: OnceLock<Option<Asked>>,
}

/// What an ingredient line says about how it is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tags {
    /// `(optional)`, `if you like`.
    pub optional: bool,
    /// `to serve`, `for garnish`, or under such a heading.
    pub serving: bool,
    /// `for the pan`, `for greasing`, `for dusting`, `for frying`.
    pub pan: bool,
    /// `, divided`.
    pub divided: bool,
    /// `plus more`, `or more`: no upper end.
    pub more: bool,
    /// `to taste`, `as needed`.
    pub taste: bool,
    /// The line holds no food at all: a heading or a remark that stands in the list.
    pub remark: bool,
}

/// A food that an ingredient line names.
#[derive(Debug, Clone)]
pub struct Name {
    /// Where the name stands.
    pub span: Span,
    /// Its words that tell it from others, folded, in order; words of state and size are left out.
    pub words: Vec<SmolStr>,
    /// Every word of the name, folded, words of state included.
    pub all_words: Vec<SmolStr>,
    /// The food in the larder, where it is known.
    pub food: Option<&'static Food>,
    /// The part of the food that is meant (`zest` of a lemon), where the name says one.
    pub part: Option<&'static str>,
    /// Whether the name is only an example or another word in parentheses.
    pub aside: bool,
}

impl Name {
    /// The head noun: the last of the words that count.
    pub fn head(&self) -> &str {
        self.words.last().map_or("", |word| word)
    }
}

/// A part that an ingredient line takes its food apart into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part {
    /// The part, as the larder names it: `yolk`, `zest`.
    pub name: &'static str,
    /// The words that say so (`separated`).
    pub span: Span,
}

/// One line of the equipment list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Equipment {
    /// The line without its marker.
    pub span: Span,
    /// The folded words of its name.
    pub words: Vec<SmolStr>,
}

/// One step of the method.
#[derive(Debug, Clone, Default)]
pub struct Step {
    /// The whole step, with its number and its results.
    pub span: Span,
    /// The number as written, where there is one.
    pub number: Option<Span>,
    /// What is to be done, without number and results.
    pub body: Span,
    /// The heading it stands under, as an index into [`Recipe::groups`].
    pub group: Option<usize>,
    /// Its words and marks.
    pub tokens: Vec<Token>,
    /// What each of them is about, sentence by sentence.
    pub senses: Vec<Sense>,
    /// The marked mentions, in order, as the grammar found them.
    pub marks: Vec<Mark>,
    /// What it makes.
    pub results: Vec<StepResult>,
}

impl Step {
    /// Its tokens, and then those inside its marked mentions.
    pub fn all_tokens(&self) -> impl Iterator<Item = &Token> {
        self.tokens.iter().chain(self.marks.iter().flat_map(|mark| &mark.tokens))
    }
}

/// A marked mention as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// With its brackets.
    pub span: Span,
    /// Without them.
    pub inner: Span,
    /// The words inside.
    pub tokens: Vec<Token>,
}

/// A result that a step names with `=>`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepResult {
    /// Where the name stands.
    pub span: Span,
    /// Its words, folded.
    pub words: Vec<SmolStr>,
    /// How much of it, as an index into [`Recipe::measures`].
    pub amount: Option<usize>,
}

/// A reference to another recipe of the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reference {
    /// With its brackets.
    pub span: Span,
    /// The title as written.
    pub title: Span,
}

/// A place where a check has been told to let it stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stet {
    /// The whole line.
    pub span: Span,
    /// The code of the check.
    pub check: Span,
    /// Why; `None` where no reason is given.
    pub reason: Option<Span>,
    /// What it speaks for.
    pub scope: Span,
}
