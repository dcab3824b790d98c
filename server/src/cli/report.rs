//! What the two faces of the command line ask of a manuscript, and the only place here that asks it.

use crate::text::{Edit, Span};

/// How badly a finding hurts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The recipe cannot be followed as written.
    Error,
    /// It will mislead or fail some readers.
    Warning,
    /// An editor would query it.
    Info,
    /// A matter of style.
    Hint,
}

impl Severity {
    /// Its name in messages, in machine output and in the house style sheet.
    pub fn name(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
            Severity::Info => "info",
            Severity::Hint => "hint",
        }
    }
}

/// One thing found in a manuscript.
#[derive(Debug, Clone)]
pub struct Finding {
    pub code: &'static str,
    pub severity: Severity,
    pub span: Span,
    pub message: String,
    pub related: Vec<(Span, String)>,
    pub fixes: Vec<Fix>,
}

/// One way to mend it.
#[derive(Debug, Clone)]
pub struct Fix {
    pub title: String,
    pub edits: Vec<Edit>,
}

/// All that was found in one manuscript.
#[derive(Debug, Default)]
pub struct Checked {
    /// The titles of its recipes.
    pub recipes: usize,
    /// In the order of their places, each with the title of the recipe that it stands in.
    pub findings: Vec<(String, Finding)>,
}

/// Who uses what in one recipe.
#[derive(Debug, Default)]
pub struct RecipeUses {
    pub title: String,
    pub ingredients: Vec<Ingredient>,
    pub unlisted: Vec<Unlisted>,
}

/// One ingredient of the list and the steps that use it.
#[derive(Debug, Default)]
pub struct Ingredient {
    /// Its line in the file, from 1.
    pub line: usize,
    /// The heading that it stands under.
    pub group: Option<String>,
    /// The whole line as written.
    pub text: String,
    pub name: String,
    /// The larder's name for it.
    pub food: Option<String>,
    /// The amount as written; nothing where there is none.
    pub amount: Option<String>,
    pub uses: Vec<Use>,
}

/// One step's use of an ingredient.
#[derive(Debug, Clone, Default)]
pub struct Use {
    /// The step, from 1.
    pub step: usize,
    /// How much of it the step takes; nothing where nothing is taken.
    pub share: Option<String>,
    /// Whether a collective word means it ("the dry ingredients").
    pub collective: bool,
    /// Whether it stands in brackets.
    pub marked: bool,
}

/// Something that a step uses and the list lacks.
#[derive(Debug, Clone, Default)]
pub struct Unlisted {
    pub step: usize,
    pub line: usize,
    pub food: String,
    pub amount: Option<String>,
}

/// What there is to know about one check.
#[derive(Debug, Clone, Copy)]
pub struct CheckPage {
    pub code: &'static str,
    pub severity: Severity,
    /// The page, in Markdown.
    pub docs: &'static str,
}

/// Checks one manuscript.
pub fn check(_text: &str) -> Checked {
    Checked::default()
}

/// Who uses what, in every recipe of one manuscript.
pub fn uses(_text: &str) -> Vec<RecipeUses> {
    Vec::new()
}

/// Every check there is.
pub fn checks() -> Vec<CheckPage> {
    Vec::new()
}
