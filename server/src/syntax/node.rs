//! Nodes of the tree, by kind. Every getter may come back empty: broken text is the normal case.

use std::sync::LazyLock;

use tree_sitter_tamis::Noted;

use crate::text::Span;

macro_rules! kinds {
    ($($name:ident = $word:literal,)*) => {
        /// What a node is: the named nodes of the grammar, and what goes on with the list or the method of the part above.
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
    More = "",
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

/// The number of what the grammar could not read (`ts_builtin_sym_error` of tree-sitter).
const ERROR: u16 = u16::MAX;

/// The kinds by the grammar's own numbers; none for a node without a name, as punctuation is.
static BY_NUMBER: LazyLock<Vec<Option<Kind>>> = LazyLock::new(|| {
    let language: tree_sitter::Language = tree_sitter_tamis::LANGUAGE.into();
    let kind = |number: u16| language.node_kind_for_id(number).map_or(Kind::Other, kind);
    let numbers = (0..language.node_kind_count()).map_while(|number| u16::try_from(number).ok());
    numbers.map(|number| language.node_kind_is_named(number).then(|| kind(number))).collect()
});

/// A node as it is kept: one behind the other as the text has them, each followed by those below it. In half the room that a [`Span`] would
/// take: the grammar counts no further either.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Laid {
    pub kind: Kind,
    start: u32,
    end: u32,
    count: u32,
}

impl Laid {
    /// A node that is so many nodes, together with all below it.
    pub fn new(kind: Kind, span: Span, count: usize) -> Laid {
        let [start, end, count] = [span.start, span.end, count].map(|bytes| u32::try_from(bytes).unwrap_or(u32::MAX));
        Laid { kind, start, end, count }
    }

    /// Where it stands in the text of its tree.
    pub fn span(&self) -> Span {
        Span::new(self.start as usize, self.end as usize)
    }

    /// How many nodes it is together with all below it.
    pub fn count(&self) -> usize {
        self.count as usize
    }
}

/// Lays out the named nodes of a text that has been read without a tree.
pub(super) fn lay_out_noted(noted: &[Noted]) -> Vec<Laid> {
    let kinds = &*BY_NUMBER;
    let mut laid: Vec<Laid> = Vec::with_capacity(noted.len());
    // How many are laid out before each. A node is noted behind all below it, and laid out before.
    let mut before: Vec<u32> = Vec::with_capacity(noted.len());
    let mut count = 0;
    for node in noted {
        before.push(count);
        let Some(kind) = kinds.get(usize::from(node.symbol)).copied().flatten() else { continue };
        count += 1;
        let mut own = Laid { kind, start: node.start, end: node.end, count: 1 };
        if node.count == 1 {
            laid.push(own);
        } else {
            let first = before.len().saturating_sub(node.count as usize);
            let place = before.get(first).copied().unwrap_or_default();
            own.count = count - place;
            laid.insert(place as usize, own);
        }
    }
    laid
}

/// Lays out the named nodes of a tree, and notes the places that the grammar could not read.
///
/// A recipe's tree is asked for its children over and over, and to step through one of the grammar's costs ten times what it costs to step
/// through this.
pub(super) fn lay_out(tree: &tree_sitter::Tree) -> (Vec<Laid>, Vec<Span>) {
    let laid = Vec::with_capacity(tree.root_node().descendant_count());
    let mut walk = Walk { cursor: tree.walk(), laid, damage: Vec::new() };
    let mut open: Vec<Open> = Vec::new();
    loop {
        let within = open.last().is_some_and(|parent| parent.broken);
        let node = walk.take(within);
        if node.children > 0 && walk.cursor.goto_first_child() {
            open.push(node);
            continue;
        }
        // To ask for a sibling where there is none is dear, so those that are left are counted.
        while let Some(parent) = open.last_mut() {
            parent.children -= 1;
            if parent.children > 0 {
                break;
            }
            walk.leave(open.pop());
        }
        if open.is_empty() || !walk.cursor.goto_next_sibling() {
            return (walk.laid, walk.damage);
        }
    }
}

/// The same for a part that goes on with the list or the method above, which was read behind a label of so many bytes. None where that is
/// not what was read.
pub(super) fn behind((mut laid, mut damage): (Vec<Laid>, Vec<Span>), label: usize) -> Option<(Vec<Laid>, Vec<Span>)> {
    let [manuscript, recipe, section, own, ..] = laid.as_mut_slice() else { return None };
    let is_section = matches!(section.kind, Kind::IngredientsSection | Kind::MethodSection);
    if !is_section || [manuscript.kind, recipe.kind, own.kind] != [Kind::Manuscript, Kind::Recipe, Kind::Label] {
        return None;
    }
    section.kind = Kind::More;
    [manuscript, recipe, section].into_iter().for_each(|node| node.count -= 1);
    laid.remove(3);
    let own = |span: Span| Span::new(span.start.saturating_sub(label), span.end.saturating_sub(label));
    laid.iter_mut().for_each(|node| *node = Laid::new(node.kind, own(node.span()), node.count()));
    damage.iter_mut().for_each(|span| *span = own(*span));
    Some((laid, damage))
}

/// A walk over the grammar's nodes.
struct Walk<'t> {
    cursor: tree_sitter::TreeCursor<'t>,
    laid: Vec<Laid>,
    damage: Vec<Span>,
}

/// A node whose children are being visited.
struct Open {
    /// Its place, if it is laid out.
    place: Option<usize>,
    /// How many of its children are left.
    children: u32,
    /// Whether it is broken, or stands in something broken.
    broken: bool,
}

impl Walk<'_> {
    /// Takes down the node that the walk has come to.
    fn take(&mut self, within: bool) -> Open {
        let node = self.cursor.node();
        let span = Span::new(node.start_byte(), node.end_byte());
        let number = node.kind_id();
        // What is missing has no letter.
        let broken = number == ERROR || (span.is_empty() && node.is_missing());
        if broken && !within {
            self.damage.push(span);
        }
        let kind = if number == ERROR { Some(Kind::Error) } else { named(number) };
        let place = kind.map(|_| self.laid.len());
        self.laid.extend(kind.map(|kind| Laid::new(kind, span, 1)));
        Open { place, children: node.child_count(), broken: broken || within }
    }

    /// Leaves the children of a node.
    fn leave(&mut self, node: Option<Open>) {
        self.cursor.goto_parent();
        let count = self.laid.len();
        let node = node.and_then(|node| node.place);
        if let Some((place, laid)) = node.and_then(|place| Some((place, self.laid.get_mut(place)?))) {
            *laid = Laid::new(laid.kind, laid.span(), count - place);
        }
    }
}

/// The kind of a node by its number, if it has a name.
fn named(number: u16) -> Option<Kind> {
    BY_NUMBER.get(usize::from(number)).copied().flatten()
}

/// A node of a recipe's tree.
#[derive(Debug, Clone, Copy)]
pub struct Node<'t> {
    own: &'t Laid,
    /// All below it.
    below: &'t [Laid],
    /// Where the text of its tree starts in the recipe's.
    from: usize,
}

impl<'t> Node<'t> {
    /// The first of some nodes, with all below it, and those that follow.
    pub(super) fn first(laid: &'t [Laid], from: usize) -> Option<(Node<'t>, &'t [Laid])> {
        let (own, behind) = laid.split_first()?;
        let (below, behind) = behind.split_at_checked(own.count().checked_sub(1)?)?;
        Some((Node { own, below, from }, behind))
    }

    /// What it is.
    pub fn kind(self) -> Kind {
        self.own.kind
    }

    /// Where it stands, in bytes.
    pub fn span(self) -> Span {
        self.own.span().shifted(self.from)
    }

    /// Its named children, in order.
    pub fn children(self) -> impl Iterator<Item = Node<'t>> {
        let mut rest = self.below;
        std::iter::from_fn(move || {
            let (child, behind) = Node::first(rest, self.from)?;
            rest = behind;
            Some(child)
        })
    }

    /// Its first child of this kind.
    pub fn child(self, kind: Kind) -> Option<Node<'t>> {
        self.children().find(|child| child.kind() == kind)
    }

    /// Every node of the kinds that `wanted` accepts, below it, in order; those inside such a node are left out.
    pub fn find(self, wanted: impl Fn(Kind) -> bool) -> impl Iterator<Item = Node<'t>> {
        let mut rest = self.below;
        std::iter::from_fn(move || {
            let passed = rest.iter().position(|node| wanted(node.kind))?;
            let (found, behind) = Node::first(rest.get(passed..)?, self.from)?;
            rest = behind;
            Some(found)
        })
    }
}
