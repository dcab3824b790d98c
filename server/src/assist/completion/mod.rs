//! What could be written at a place: names with what is left of each, units, foods, labels, titles, codes. What the recipe still
//! needs comes first.

mod checks;
mod foods;
mod here;
mod labels;
mod mentions;
mod titles;
mod topic;
mod units;

pub use topic::{Topic, explain};

use crate::{
    book::{House, Titles},
    checks::Finding,
    recipe::{Recipe, SectionKind},
    text::Span,
};

use here::Here;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The recipe; what stands above the first one is asked about like one.
    pub recipe: &'a Recipe,
    /// The house style.
    pub house: &'a House,
    /// What is found in the recipe.
    pub findings: &'a [Finding],
    /// The titles of all recipes at hand; looked through only where one is written.
    pub titles: Titles<'a>,
    /// Where, in the recipe's text.
    pub offset: usize,
    /// Whether somebody asks, and it is not only that a blank has been typed.
    pub wanted: bool,
}

/// What a proposal is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ProposalKind {
    /// An ingredient of the list, or a part of one.
    Ingredient,
    /// What a step has made.
    Result,
    /// A group of the list.
    Group,
    /// A piece of equipment.
    Equipment,
    /// A food to put on the list.
    Food,
    /// A unit.
    Unit,
    /// A label above the sections.
    Header,
    /// The heading of a section.
    Section,
    /// The title of a recipe.
    Title,
    /// The code of a check.
    Check,
}

/// One thing that could be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proposal {
    /// What it is.
    pub kind: ProposalKind,
    /// What it is called.
    pub label: String,
    /// A few words beside it; may be empty.
    pub detail: String,
    /// What it stands in the place of.
    pub span: Span,
    /// What is written.
    pub text: String,
    /// The same with places to fill in, as the protocol's snippets have them, where there are any.
    pub snippet: Option<String>,
    /// What has been typed is a beginning of this.
    pub filter: String,
    /// What can be said of it at more length.
    pub topic: Option<Topic>,
}

/// Everything that could be written, the likeliest first.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Proposals {
    /// One each.
    pub items: Vec<Proposal>,
    /// Whether there would be more, so that it is worth asking again behind the next letter.
    pub more: bool,
}

/// What could be written at a place.
pub fn completion(asked: &Asked<'_>) -> Proposals {
    let Some(here) = Here::at(asked.recipe, asked.offset) else { return Proposals::default() };
    let all = |items: Vec<Proposal>| Proposals { items, more: false };
    if let Some(start) = here.open("[[", "]]") {
        return titles::propose(asked, &here, start);
    }
    if let Some(start) = here.open("[", "]") {
        return all(mentions::marked(asked, &here, start));
    }
    if let Some(span) = here.check_code() {
        return all(checks::propose(asked, span));
    }
    // A line that begins with nothing but a word may become a label; what else it may become is less likely.
    let mut out = all(labels::propose(asked, &here));
    match here.section {
        Some(SectionKind::Ingredients) => foods::propose(asked, &here, &mut out),
        Some(SectionKind::Equipment) => out.items.extend(units::propose(asked, &here, units::EQUIPMENT)),
        Some(SectionKind::Method) => {
            out.items.extend(units::propose(asked, &here, units::METHOD));
            out.items.extend(mentions::plain(asked, &here));
        }
        _ => {}
    }
    out
}

impl Proposal {
    fn new(kind: ProposalKind, span: Span, text: impl Into<String>) -> Self {
        let text = text.into();
        let (label, filter) = (text.clone(), text.clone());
        Proposal { kind, label, detail: String::new(), span, text, snippet: None, filter, topic: None }
    }

    fn detail(self, detail: impl Into<String>) -> Self {
        Proposal { detail: detail.into(), ..self }
    }
}

/// The stretch of `name` that `typed` begins, at the start of one of its words; no regard to case.
fn begun<'n>(name: &'n str, typed: &str) -> Option<&'n str> {
    let mut starts = std::iter::once(0).chain(name.match_indices([' ', '-']).map(|(at, _)| at + 1));
    starts.find_map(|at| {
        let rest = name.get(at..)?;
        let mut letters = rest.chars().flat_map(char::to_lowercase);
        typed.chars().flat_map(char::to_lowercase).all(|typed| letters.next() == Some(typed)).then_some(rest)
    })
}
