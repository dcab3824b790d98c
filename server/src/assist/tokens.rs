//! What each word of a recipe is, for colours: the grammar says where labels, numbers and remarks stand, the model which words are
//! an ingredient, a result or a tool.

use std::collections::HashSet;

use super::{
    things::{Role, Thing, place, stated},
    tools,
};
use crate::{
    recipe::{
        Recipe,
        flow::Taken,
        mentions::{Link, Target},
    },
    syntax::{Kind, Node, Tree},
    text::Span,
};

/// What a word is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TokenKind {
    /// `Recipe`, and the headings of sections.
    Heading,
    /// A label above the sections.
    Label,
    /// A title, where it stands or where it is referred to.
    Title,
    /// A heading inside a section.
    Group,
    /// A number or a range.
    Number,
    /// A unit.
    Unit,
    /// A word that hedges an amount.
    Hedge,
    /// An ingredient or a part of one.
    Ingredient,
    /// What a step makes.
    Result,
    /// A piece of equipment.
    Equipment,
    /// The arrow before a result.
    Arrow,
    /// A comment.
    Comment,
    /// An open question.
    Query,
    /// The word `stet`.
    Stet,
    /// The code of a check.
    Check,
    /// Why something is let stand.
    Reason,
}

/// A word, or several in a row on one line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token {
    /// Where; never over the end of a line.
    pub span: Span,
    /// What.
    pub kind: TokenKind,
    /// What happens to the thing there, where it stands for one.
    pub role: Option<Role>,
}

/// The words that are something, in order; none overlaps another.
pub fn tokens(recipe: &Recipe, tree: Option<&Tree>) -> Vec<Token> {
    let mut layers = Vec::new();
    names(recipe, &mut layers);
    if let Some(tree) = tree {
        tree.roots().for_each(|(_, root)| walk(&recipe.text, root, &mut layers));
    }
    flattened(&recipe.text, &layers)
}

/// What the model knows by name.
fn names(recipe: &Recipe, out: &mut Vec<Token>) {
    let mut push = |span: Span, kind: TokenKind, role: Role| out.push(Token { span, kind, role: Some(role) });
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| !line.tags.remark) {
        let names = stated(recipe, &Thing::Kitchen(Target::Ingredient(index, None)));
        let parts = line.parts.iter().map(|part| part.span);
        names.into_iter().chain(parts).for_each(|span| push(span, TokenKind::Ingredient, Role::Stated));
    }
    for result in recipe.steps.iter().flat_map(|step| &step.results) {
        push(result.span, TokenKind::Result, Role::Stated);
    }
    for index in 0..recipe.equipment.len() {
        tools::name(recipe, index).into_iter().for_each(|span| push(span, TokenKind::Equipment, Role::Stated));
    }
    for (span, _) in tools::mentions(recipe) {
        push(span, TokenKind::Equipment, Role::Taken);
    }
    let claims = recipe.flow.balances.iter().flat_map(|balance| &balance.claims);
    let taking: HashSet<usize> =
        claims.filter(|claim| claim.taken != Taken::Nothing).map(|claim| claim.mention).collect();
    for (index, mention) in recipe.flow.mentions.iter().enumerate().filter(|(_, mention)| mention.link < Link::Act) {
        let kind = match mention.targets.first() {
            Some(Target::Ingredient(..)) => TokenKind::Ingredient,
            Some(Target::Result(_)) => TokenKind::Result,
            Some(Target::Group(_)) => TokenKind::Group,
            None => continue,
        };
        push(place(recipe, mention), kind, if taking.contains(&index) { Role::Taken } else { Role::Named });
    }
}

/// What the grammar knows by its place.
fn walk(text: &str, node: Node<'_>, out: &mut Vec<Token>) {
    for child in node.children() {
        let span = child.span();
        let (kind, role) = match child.kind() {
            Kind::Label if node.kind() == Kind::Header => (TokenKind::Label, None),
            Kind::Label => (TokenKind::Heading, None),
            Kind::Title => (TokenKind::Title, Some(Role::Stated)),
            Kind::ReferenceTitle => (TokenKind::Title, None),
            Kind::GroupName => (TokenKind::Group, Some(Role::Stated)),
            Kind::Number | Kind::Range => (TokenKind::Number, None),
            Kind::Unit => (TokenKind::Unit, None),
            Kind::Hedge => (TokenKind::Hedge, None),
            Kind::Comment => (TokenKind::Comment, None),
            Kind::Query => (TokenKind::Query, None),
            Kind::CheckCode => (TokenKind::Check, None),
            Kind::Reason => (TokenKind::Reason, None),
            other => {
                let sign = match other {
                    Kind::Result => Some(("=>", TokenKind::Arrow)),
                    Kind::Stet => Some(("stet", TokenKind::Stet)),
                    _ => None,
                };
                let sign = sign.filter(|(sign, _)| {
                    span.of(text).get(..sign.len()).is_some_and(|start| start.eq_ignore_ascii_case(sign))
                });
                out.extend(sign.map(|(sign, kind)| Token {
                    span: Span::new(span.start, span.start + sign.len()),
                    kind,
                    role: None,
                }));
                walk(text, child, out);
                continue;
            }
        };
        out.push(Token { span, kind, role });
        // A number in a title is a word of it.
        if child.kind() != Kind::Title {
            walk(text, child, out);
        }
    }
}

/// The layers seen from above, cut at the ends of lines, without the space around words.
fn flattened(text: &str, layers: &[Token]) -> Vec<Token> {
    let mut top: Vec<u32> = vec![0; text.len()];
    for (number, token) in (1..).zip(layers) {
        top.get_mut(token.span.start..token.span.end.min(text.len())).unwrap_or_default().fill(number);
    }
    let mut out = Vec::new();
    let mut start = 0;
    for run in top.chunk_by(|one, other| one == other) {
        let span = Span::new(start, start + run.len());
        start = span.end;
        let token = run.first().and_then(|number| layers.get((*number as usize).checked_sub(1)?));
        let Some(token) = token else { continue };
        let mut line_start = span.start;
        for line in span.of(text).split_inclusive(['\n', '\r']) {
            let words = super::wording::trimmed(text, Span::new(line_start, line_start + line.len()));
            line_start += line.len();
            if !words.is_empty() {
                out.push(Token { span: words, ..*token });
            }
        }
    }
    out
}
