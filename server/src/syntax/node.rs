//! Nodes of the tree, by kind. Every getter may come back empty: broken text is the normal case.

use std::sync::LazyLock;

use crate::text::Span;

macro_rules! kinds {
    ($($name:ident = $word:literal,)*) => {
        /// What a node is: the named nodes of the grammar.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[allow(missing_docs)]
        pub enum Kind { $($name,)* Other }

        fn kind(word: &str) -> Kind {
            match word { $($word => Kind::$name,)* _ => Kind::Other }
        }
    };
}

kinds! {
    Manuscript = "manuscript",
    Preamble = "preamble",
    Recipe = "recipe",
    TitleLine = "title_line",
    Title = "title",
    Header = "header",
    Label = "label",
    Value = "value",
    Headnote = "headnote",
    Paragraph = "paragraph",
    EquipmentSection = "equipment_section",
    IngredientsSection = "ingredients_section",
    MethodSection = "method_section",
    TestsSection = "tests_section",
    ProseSection = "prose_section",
    GroupHeading = "group_heading",
    GroupName = "group_name",
    Item = "item",
    ItemName = "item_name",
    Preparation = "preparation",
    Note = "note",
    Step = "step",
    StepNumber = "step_number",
    Result = "result",
    ResultName = "result_name",
    Comment = "comment",
    Query = "query",
    Stet = "stet",
    CheckCode = "check_code",
    Reason = "reason",
    Measure = "measure",
    Restated = "restated",
    Amount = "amount",
    Pack = "pack",
    Number = "number",
    Range = "range",
    Unit = "unit",
    Hedge = "hedge",
    Mention = "mention",
    Share = "share",
    MentionName = "mention_name",
    CrossReference = "cross_reference",
    ReferenceTitle = "reference_title",
    Escape = "escape",
    Error = "ERROR",
}

/// The kinds by the grammar's own numbers.
static BY_NUMBER: LazyLock<Vec<Kind>> = LazyLock::new(|| {
    let language: tree_sitter::Language = tree_sitter_tamis::LANGUAGE.into();
    let numbers = 0..language.node_kind_count();
    numbers.map(|number| language.node_kind_for_id(number as u16).map_or(Kind::Other, kind)).collect()
});

/// A node of a recipe's tree.
#[derive(Debug, Clone, Copy)]
pub struct Node<'t> {
    own: tree_sitter::Node<'t>,
    /// Where the text of its tree starts in the recipe's.
    from: usize,
}

impl<'t> Node<'t> {
    pub(super) fn new(own: tree_sitter::Node<'t>, from: usize) -> Self {
        Node { own, from }
    }

    /// What it is.
    pub fn kind(self) -> Kind {
        if self.own.is_error() {
            return Kind::Error;
        }
        BY_NUMBER.get(usize::from(self.own.kind_id())).copied().unwrap_or(Kind::Other)
    }

    /// Where it stands, in bytes.
    pub fn span(self) -> Span {
        Span::new(self.own.start_byte(), self.own.end_byte()).shifted(self.from)
    }

    /// Its named children, in order.
    pub fn children(self) -> Vec<Node<'t>> {
        let mut cursor = self.own.walk();
        self.own.named_children(&mut cursor).map(|child| Node::new(child, self.from)).collect()
    }

    /// Its first child of this kind.
    pub fn child(self, kind: Kind) -> Option<Node<'t>> {
        let mut cursor = self.own.walk();
        self.own.named_children(&mut cursor).map(|child| Node::new(child, self.from)).find(|child| child.kind() == kind)
    }

    /// Every node of the kinds that `wanted` accepts, below it, in order; those inside such a node are left out.
    pub fn find(self, wanted: &impl Fn(Kind) -> bool, out: &mut Vec<Node<'t>>) {
        for child in self.children() {
            if wanted(child.kind()) {
                out.push(child);
            } else {
                child.find(wanted, out);
            }
        }
    }

    pub(super) fn damage(self, out: &mut Vec<Span>) {
        if self.own.is_error() || self.own.is_missing() {
            out.push(self.span());
            return;
        }
        let mut cursor = self.own.walk();
        for child in self.own.children(&mut cursor).filter(|child| child.has_error() || child.is_missing()) {
            Node::new(child, self.from).damage(out);
        }
    }
}
