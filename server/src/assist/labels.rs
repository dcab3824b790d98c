//! The labels of a manuscript, and what stands behind each.

use crate::recipe::SectionKind;

/// A label, under every name it goes by, and what it is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Label {
    /// Its canonical name, then the others that are read as it.
    pub names: &'static [&'static str],
    /// What it opens.
    pub kind: LabelKind,
    /// What stands behind it, in a few words.
    pub brief: &'static str,
    /// The same in a sentence or two, in Markdown.
    pub what: &'static str,
}

/// What a label opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LabelKind {
    /// A recipe.
    Recipe,
    /// A line above the sections.
    Header,
    /// A section that is a list or the method.
    Section(SectionKind),
    /// A section of prose, which may start on the same line.
    Prose,
}

/// Every label, in the order in which a recipe has them.
pub static LABELS: &[Label] = &[
    label(
        &["Recipe"],
        LabelKind::Recipe,
        "starts a recipe",
        "Starts a recipe; the title stands behind it. Titles are unique in a book.",
    ),
    header(
        &["Yield"],
        "what it makes",
        "What the recipe makes, with its size: *one 9-inch (23 cm) pie*, *24 cookies*. Two yields are split by a semicolon.",
    ),
    header(&["Serves"], "how many it feeds", "For how many people: a number, or a range."),
    header(&["Time"], "active and total", "How long it takes, at work and in all: *20 min active, 1 h 20 min total*."),
    header(&["Course"], "what part of a meal", "Where in a meal it belongs: *main*, *dessert*, *bread*."),
    header(&["Cuisine"], "whose kitchen", "Whose kitchen it comes from."),
    header(&["Diet"], "whom it suits", "Diets that the whole recipe fits: *vegan*, *gluten-free*."),
    header(
        &["Allergens"],
        "what it holds",
        "What has to be declared for those who must not eat it. Whoever sells food declares by local law.",
    ),
    header(&["Author"], "whose it is", "Whose recipe it is."),
    header(&["Photo"], "a picture of it", "The picture that goes with it."),
    header(&["Keywords"], "for the index", "Words under which a reader may look for it."),
    header(&["Status"], "how far it is", "How far the manuscript has come: *draft*, *tested*, *edited*."),
    label(
        &["Equipment"],
        LabelKind::Section(SectionKind::Equipment),
        "what to cook it with",
        "What a cook needs at hand, a line each: pans with their size, thermometers, jars.",
    ),
    label(
        &["Ingredients"],
        LabelKind::Section(SectionKind::Ingredients),
        "the list",
        "The list, a line each, in the order of use: amount, name, then how it is prepared, behind a comma.",
    ),
    label(
        &["Method", "Directions", "Instructions", "Preparation", "Steps"],
        LabelKind::Section(SectionKind::Method),
        "the steps",
        "The steps, a paragraph each. Square brackets make a mention exact (*[half the sugar]*), and => names what a step makes.",
    ),
    prose(&["Notes"], "prose", "Remarks to the reader. They use nothing up."),
    prose(&["Storage"], "how it keeps", "How to keep it, and how long."),
    prose(&["Make ahead"], "what can be done before", "What can be done before the day."),
    prose(&["Variations"], "what can be done otherwise", "Other ways to make it. They use nothing up."),
    prose(&["Sidebar"], "prose beside the recipe", "A text that stands beside the recipe."),
    label(
        &["Tests"],
        LabelKind::Section(SectionKind::Tests),
        "what was tried in the kitchen",
        "What was tried in the kitchen, and when: a line for each time.",
    ),
];

const fn label(names: &'static [&'static str], kind: LabelKind, brief: &'static str, what: &'static str) -> Label {
    Label { names, kind, brief, what }
}

const fn header(names: &'static [&'static str], brief: &'static str, what: &'static str) -> Label {
    label(names, LabelKind::Header, brief, what)
}

const fn prose(names: &'static [&'static str], brief: &'static str, what: &'static str) -> Label {
    label(names, LabelKind::Prose, brief, what)
}

impl Label {
    /// Its canonical name.
    pub fn name(&self) -> &'static str {
        self.names.first().copied().unwrap_or_default()
    }
}

/// The label that `text` is, in whatever case.
pub fn label_of(text: &str) -> Option<&'static Label> {
    let text = text.trim().trim_end_matches(':').trim_end();
    LABELS.iter().find(|label| label.names.iter().any(|name| name.eq_ignore_ascii_case(text)))
}
