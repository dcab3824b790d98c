//! Lines of the ingredient list and of the equipment.

use smol_str::SmolStr;

use super::{Inside, Reader};
use crate::{
    measure::UnitKind,
    recipe::{
        language::{
            lexicon::Roles,
            token::{Atom, Token, TokenKind},
        },
        measures::{Measure, Place},
        model::{Equipment, Ingredient, Name, SectionKind, Tags},
        names,
    },
    syntax::{Kind, Node},
    text::Span,
};

impl Reader<'_> {
    pub(super) fn ingredient(&mut self, node: Node<'_>) {
        let span = self.without_marker(node.span());
        self.settle_stets(span);
        let place = Place::Ingredient(self.recipe.ingredients.len());
        let half = self.half(node, span, place);
        let Inside { mut atoms, mut measures, references, .. } = self.inside(node, place);
        if let Some(half) = half.and_then(|index| Some((index, self.number_of(index)?))) {
            measures.insert(0, half.0);
            atoms.insert(0, half.1);
        }
        let mut tokens = self.tokens(span, &atoms);
        let mut outside = tokens.iter().take_while(|token| token.kind != TokenKind::Open);
        let named = outside.any(|token| token.kind == TokenKind::Word && !token.is(Roles::SMALL));
        if !named && references.is_empty() {
            // "1 clove": the unit is all the name there is.
            let numbers: Vec<Atom> = measures.iter().filter_map(|index| self.number_of(*index)).collect();
            tokens = self.tokens(span, &numbers);
        }
        let line = names::read(self.recipe.larder, &tokens);
        if measures.is_empty() && self.is_heading(span, &line, &tokens) {
            self.heading(span, SectionKind::Ingredients);
            let tags = Tags { remark: true, ..line.tags };
            return self.recipe.ingredients.push(Ingredient {
                span,
                mark: self.first_line(span),
                group: self.group,
                tags,
                ..Ingredient::default()
            });
        }
        let amount = measures.iter().copied().find(|index| self.recipe.measures.get(*index).is_some_and(says_how_much));
        let named = self.named(&line.names, &measures, amount);
        let reference = references.first().copied();
        let title = reference.and_then(|index| self.recipe.references.get(index)).map(|reference| reference.span);
        let mut names = line.names;
        names.extend(references.iter().filter_map(|index| self.title_name(*index)));
        let group = self.group.and_then(|group| self.recipe.groups.get(group));
        let mut tags = line.tags;
        tags.serving |= group.is_some_and(|group| group.at_table);
        tags.remark |= measures.is_empty() && is_talk(&names, &tokens);
        tags.remark &= reference.is_none();
        self.recipe.ingredients.push(Ingredient {
            span,
            mark: named.or(title).unwrap_or_else(|| self.first_line(span)),
            group: self.group,
            measures,
            amount,
            names,
            alternatives: line.alternatives,
            parts: line.parts,
            pieces: line.pieces,
            tags,
            reference,
            ..Ingredient::default()
        });
    }

    pub(super) fn equipment(&mut self, node: Node<'_>) {
        let span = self.without_marker(node.span());
        self.settle_stets(span);
        let inside = self.inside(node, Place::Equipment(self.recipe.equipment.len()));
        // "1 loaf pan": what the grammar takes for a unit is part of a tool's name.
        let numbers: Vec<Atom> = inside.measures.iter().filter_map(|index| self.number_of(*index)).collect();
        let named = self
            .tokens(span, &numbers)
            .into_iter()
            .take_while(|token| !matches!(token.kind, TokenKind::Comma | TokenKind::Open));
        let words = named
            .filter(|token| token.kind == TokenKind::Word && !token.is(Roles::SMALL))
            .map(|token| token.fold)
            .collect();
        self.recipe.equipment.push(Equipment { span, words });
    }

    /// The measure of `half an onion`, which the grammar leaves among the words of a line: it knows no number in words that neither
    /// a unit nor a count follows. The answer is its index.
    fn half(&mut self, node: Node<'_>, line: Span, place: Place) -> Option<usize> {
        let text = line.of(self.text);
        let is_half = |words: &&str| text.get(..words.len()).is_some_and(|start| start.eq_ignore_ascii_case(words));
        let words = ["half an ", "half a "].into_iter().find(is_half)?;
        let span = Span::new(line.start, line.start + words.trim_end().len());
        let mut known = node.find(|kind| matches!(kind, Kind::Measure | Kind::Comment | Kind::Query));
        let is_apart = known.all(|other| other.span().start > line.start + words.len());
        let thing = text.get(words.len()..).is_some_and(|rest| rest.starts_with(char::is_alphabetic));
        (is_apart && thing).then(|| self.bare_number(span, place))
    }

    /// The title of another recipe, as the name by which the method speaks of what that recipe makes.
    fn title_name(&self, reference: usize) -> Option<Name> {
        let title = self.recipe.references.get(reference)?.title;
        let words: Vec<SmolStr> = self
            .tokens(title, &[])
            .into_iter()
            .filter(|token| token.kind == TokenKind::Word && !token.is(Roles::SMALL))
            .map(|token| token.fold)
            .collect();
        Some(Name { span: title, all_words: words.clone(), words, food: None, part: None, aside: false })
    }

    /// Where the foods of a line stand: from the first to the last, or to where another has an amount of its own.
    fn named(&self, names: &[Name], measures: &[usize], amount: Option<usize>) -> Option<Span> {
        let others = measures.iter().filter(|index| Some(**index) != amount);
        let others: Vec<Span> =
            others.filter_map(|index| self.recipe.measures.get(*index)).map(|measure| measure.span).collect();
        let mut names = names.iter().filter(|name| !name.aside).map(|name| name.span);
        let first = names.next()?;
        let together = |so_far: &Span, next: Span| {
            let mut between = others.iter().filter(|measure| so_far.end <= measure.start && measure.end <= next.start);
            // "Or 1 cup yogurt"; not "(1 stick) or lard", which is an amount of the first.
            between.all(|measure| Span::new(measure.end, next.start).of(self.text).contains([')', ']', ',']))
        };
        let whole = names.try_fold(
            first,
            |so_far, next| {
                if together(&so_far, next) { Ok(so_far.joined(next)) } else { Err(so_far) }
            },
        );
        Some(whole.unwrap_or_else(|so_far| so_far))
    }

    /// The number of a measure without its unit, as an atom.
    fn number_of(&self, measure: usize) -> Option<Atom> {
        let term = self.recipe.measures.get(measure)?.stated.terms.first()?;
        Some(Atom { span: term.number, kind: Some(TokenKind::Measure(measure)) })
    }

    /// A line of the list that is a heading in all but its place: `- Dough:`, `- Spice mix`.
    fn is_heading(&self, span: Span, line: &names::LineNames, tokens: &[Token]) -> bool {
        let colon = span.of(self.text).trim_end().ends_with(':');
        let known = line.names.iter().any(|name| name.food.is_some());
        let made = tokens.last().is_some_and(|last| last.is(Roles::PRODUCT));
        let mixed = tokens.last().is_some_and(|last| last.one_of(&["mix", "mixture"]));
        colon || (!known || mixed) && made && tokens.len() <= 3
    }

    fn without_marker(&self, span: Span) -> Span {
        let span = self.trimmed(span);
        let text = span.of(self.text);
        let marked = text.strip_prefix(['-', '•', '*', '·', '–']).filter(|rest| rest.starts_with(char::is_whitespace));
        self.trimmed(Span::new(span.end - marked.unwrap_or(text).len(), span.end))
    }
}

/// Whether a line without a food is a sentence of the author's ("For this one I go by eye …"), or stands for what a cook may add
/// ("other ingredients of your choice").
fn is_talk(names: &[Name], tokens: &[Token]) -> bool {
    const SPEAKS: &[&str] = &["i", "you", "we", "it", "this", "these", "they", "don't", "doesn't"];
    let sentence = tokens.len() >= 8 && tokens.iter().any(|token| token.one_of(SPEAKS));
    let placeholder = names.iter().any(|name| !name.aside && name.head() == "ingredient");
    (sentence || placeholder) && names.iter().all(|name| name.aside || name.food.is_none())
}

/// Whether a measure says how much of a food: not how long, how hot or how thick.
fn says_how_much(measure: &Measure) -> bool {
    let kind = measure.stated.terms.first().and_then(|term| term.amount()).map(|amount| amount.kind());
    !measure.stated.sides && !matches!(kind, Some(UnitKind::Length | UnitKind::Temperature | UnitKind::Time))
}
