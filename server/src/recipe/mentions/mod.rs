//! Where the method uses something: mentions in prose, marked mentions, collectives and acts that imply a food.

mod acts;
mod ask;
mod collectives;
mod find;
mod fit;
mod gather;
mod implied;
mod kinds;
mod loosely;
mod made;
mod marked;
mod meaning;
mod noted;
mod resolve;
mod runs;
mod shares;
mod ties;
mod unlisted;

pub use ask::{NamedFood, name_begins};
pub use collectives::Scope;
pub use find::{Kitchen, Reading, read, settled};
pub use noted::{Known, Moved, Noted};
pub use resolve::KnownResult;

use super::language::clause::Sense;
use crate::{larder::Food, text::Span};

/// A place where a step uses something.
#[derive(Debug, Clone)]
pub struct Mention {
    /// Where it stands; a marked one with its brackets.
    pub span: Span,
    /// The step, as an index.
    pub step: usize,
    /// Whether it stands in brackets.
    pub marked: bool,
    /// How sure the link is.
    pub link: Link,
    /// What is used: more than one for a collective, a kind, or a tie.
    pub targets: Vec<Target>,
    /// How much of it.
    pub share: Share,
    /// Whether it takes something, or is only handled or named.
    pub sense: Sense,
    /// The amount that stands with it, as an index into the recipe's measures.
    pub measure: Option<usize>,
}

/// What a mention means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Target {
    /// An ingredient, or a part of it (`yolk`), as an index into the recipe's ingredients.
    Ingredient(usize, Option<&'static str>),
    /// A named result, as an index into the flow's results.
    Result(usize),
    /// A whole group of the list, as an index into the recipe's groups.
    Group(usize),
}

/// How a mention was linked, from the surest to the least sure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Link {
    /// By its whole name, or a synonym.
    Exact,
    /// By a part of its name.
    Partial,
    /// By a part of the food: the yolks, the zest.
    Part,
    /// By what kind of food it is: the cheese.
    Kind,
    /// By a word that is nearly its name.
    Spelling,
    /// By an act that implies it: grease the pan.
    Act,
    /// By a word for many: all the ingredients.
    Collective,
    /// By a word that may mean anything at hand: mix everything.
    Loose,
}

/// How much of its target a mention takes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Share {
    /// None is said: what no share claims.
    #[default]
    Whole,
    /// A fraction of the whole, least and most.
    Fraction(f64, f64),
    /// The amount of this measure, as an index into the recipe's measures.
    Amount(usize),
    /// All but the amount of this measure: "all but 2 tbsp of the sugar".
    AllBut(usize),
    /// What is left.
    Rest,
    /// What is left, and that it is the amount of this measure: "the remaining 1/4 cup of the sugar".
    RestAmount(usize),
    /// What is left, over and over: "repeat with the remaining dough". Never wrong.
    RestAgain,
    /// Some of it; nobody can say how much.
    Some,
}

/// A food that a step uses and the list does not have.
#[derive(Debug, Clone)]
pub struct Unlisted {
    /// Where it stands.
    pub span: Span,
    /// The step, as an index.
    pub step: usize,
    /// The food, where the larder knows it.
    pub food: Option<&'static Food>,
    /// The amount that stands with it, as an index into the recipe's measures.
    pub measure: Option<usize>,
    /// Whether it stands in brackets.
    pub marked: bool,
    /// Whether a verb puts it into the dish.
    pub added: bool,
    /// What the mention fits equally well, for a marked one that ties; empty where it fits nothing.
    pub ties: Vec<Target>,
}
