//! Title, headers, sections, headings and steps.

use super::{Inside, Reader};
use crate::{
    recipe::{
        language::{
            clause,
            token::{TokenKind, tokens},
        },
        measures::Place,
        model::{Group, Header, Recipe, Section, SectionKind, Step, StepResult},
    },
    syntax::{Kind, Node},
    text::Span,
};

impl Reader<'_> {
    pub(super) fn manuscript(&mut self, root: Node<'_>) {
        for child in root.children() {
            match child.kind() {
                Kind::Preamble => child.children().for_each(|line| self.front(line)),
                Kind::Recipe => child.children().for_each(|line| self.front(line)),
                _ => self.front(child),
            }
        }
    }

    pub(super) fn finish(mut self) -> Recipe {
        let end = Span::new(0, self.text.len());
        if !self.pending.is_empty() {
            self.settle_stets(Span::at(end.end));
        }
        self.recipe.measures.shrink_to_fit();
        self.recipe
    }

    /// A line above the sections, or a section.
    fn front(&mut self, node: Node<'_>) {
        match node.kind() {
            Kind::TitleLine => {
                self.recipe.labelled = true;
                self.recipe.title = node.child(Kind::Title).map(|title| self.trimmed(title.span()));
            }
            Kind::Header => {
                let place = Place::Header(self.recipe.headers.len());
                self.inside(node, place);
                let label = node.child(Kind::Label).map_or(node.span(), Node::span);
                let value = node.child(Kind::Value).map_or(Span::at(node.span().end), Node::span);
                self.recipe.headers.push(Header { label: self.label(label), value: self.trimmed(value) });
            }
            Kind::Headnote | Kind::Paragraph => {
                self.inside(node, Place::Prose);
                let span = self.trimmed(node.span());
                if !self.recipe.labelled && self.recipe.title.is_none() {
                    self.recipe.title = Some(self.first_line(span));
                }
                self.recipe.headnotes.push(span);
            }
            Kind::Stet => self.stet(node),
            Kind::Query => self.recipe.queries.push(node.span()),
            Kind::EquipmentSection => self.section(node, SectionKind::Equipment),
            Kind::IngredientsSection => self.section(node, SectionKind::Ingredients),
            Kind::MethodSection => self.section(node, SectionKind::Method),
            Kind::More => self.more(node),
            Kind::TestsSection => self.section(node, SectionKind::Tests),
            Kind::ProseSection => self.section(node, SectionKind::Prose),
            Kind::Error => node.children().for_each(|child| self.front(child)),
            _ => {}
        }
    }

    fn section(&mut self, node: Node<'_>, kind: SectionKind) {
        let heading = node.child(Kind::Label).map_or(Span::at(node.span().start), |label| self.label(label.span()));
        self.settle_stets(node.span());
        self.recipe.sections.push(Section { kind, heading, span: node.span() });
        self.group = None;
        for child in node.children() {
            self.line(child, kind);
        }
    }

    /// More of the list or the method above, which was parsed by itself.
    fn more(&mut self, node: Node<'_>) {
        let Some(kind) = self.recipe.sections.last().map(|section| section.kind) else { return };
        self.recipe.end_section(node.span().end);
        for child in node.children() {
            self.line(child, kind);
        }
    }

    fn line(&mut self, node: Node<'_>, kind: SectionKind) {
        match node.kind() {
            Kind::GroupHeading => {
                let name = node.child(Kind::GroupName).map_or(node.span(), Node::span);
                self.settle_stets(node.span());
                self.heading(name, kind);
            }
            Kind::GroupName => self.heading(node.span(), kind),
            Kind::Item => match kind {
                SectionKind::Ingredients => self.ingredient(node),
                SectionKind::Equipment => self.equipment(node),
                _ => {
                    self.inside(node, Place::Test(self.recipe.tests.len()));
                    let span = self.trimmed(node.span());
                    self.settle_stets(span);
                    self.recipe.tests.push(span);
                }
            },
            Kind::Step => self.step(node),
            Kind::Stet => self.stet(node),
            Kind::Query => self.recipe.queries.push(node.span()),
            Kind::Paragraph | Kind::Headnote => {
                self.inside(node, Place::Prose);
            }
            Kind::Error => node.children().for_each(|child| self.line(child, kind)),
            _ => {}
        }
    }

    pub(super) fn heading(&mut self, name: Span, section: SectionKind) {
        let name =
            self.trimmed(Span::new(name.start, name.start + name.of(self.text).trim_end().trim_end_matches(':').len()));
        let all = tokens(self.text, name, &[]);
        let all: Vec<_> = all.into_iter().filter(|token| token.kind == TokenKind::Word).collect();
        let at_table = all.first().is_some_and(|first| first.word("to") || first.one_of(&["garnish", "serving"]))
            || all.iter().any(|word| word.one_of(&["serve", "serving", "garnish", "optional"]));
        let words = all
            .into_iter()
            .filter(|word| !word.one_of(&["for", "the", "a", "an", "to", "make", "ingredient"]))
            .map(|word| word.fold)
            .collect();
        self.recipe.groups.push(Group { name, section, words, at_table });
        self.group = Some(self.recipe.groups.len() - 1);
    }

    fn step(&mut self, node: Node<'_>) {
        let index = self.recipe.steps.len();
        let Inside { atoms, marks, .. } = self.inside(node, Place::Step(index));
        let number = node.child(Kind::StepNumber).map(Node::span);
        let span = self.trimmed(node.span());
        self.settle_stets(span);
        let mut results = Vec::new();
        let mut end = span.end;
        for result in node.children().filter(|child| child.kind() == Kind::Result) {
            end = end.min(result.span().start);
            self.results(result, index, &mut results);
        }
        let body = self.trimmed(Span::new(number.map_or(span.start, |number| number.end), end));
        let (tokens, senses) = self.words_known(span, body, &atoms).unwrap_or_else(|| {
            let tokens = self.tokens(body, &atoms);
            let senses = clause::senses(&tokens);
            (tokens, senses)
        });
        let group = self.group;
        self.recipe.steps.push(Step { span, number, body, group, tokens, senses, marks, results });
    }

    fn results(&mut self, node: Node<'_>, step: usize, out: &mut Vec<StepResult>) {
        for name in node.children().filter(|child| child.kind() == Kind::ResultName) {
            let inside = self.inside(name, Place::Result(step));
            let all = tokens(self.text, name.span(), &inside.atoms);
            let words: Vec<_> = all
                .iter()
                .filter(|token| token.kind == TokenKind::Word && !token.one_of(&["the", "a", "an", "of", "about"]))
                .collect();
            let span =
                words.first().zip(words.last()).map_or(name.span(), |(first, last)| first.span.joined(last.span));
            let words = words.into_iter().map(|token| token.fold.clone()).collect();
            out.push(StepResult { span, words, amount: inside.measures.first().copied() });
        }
        // An amount may stand beside the name and not inside it.
        let measures: Vec<Node<'_>> = node.children().filter(|child| child.kind() == Kind::Measure).collect();
        for (measure, result) in measures.into_iter().zip(out.iter_mut()) {
            let index = self.measure(measure, Place::Result(step));
            result.amount = result.amount.or(Some(index));
        }
    }

    /// A label without its colon.
    fn label(&self, span: Span) -> Span {
        let text = span.of(self.text);
        Span::new(span.start, span.start + text.trim_end().trim_end_matches(':').trim_end().len())
    }

    pub(super) fn trimmed(&self, span: Span) -> Span {
        let text = span.of(self.text);
        let begun = text.trim_start();
        let start = span.start + text.len() - begun.len();
        Span::new(start, start + begun.trim_end().len())
    }

    pub(super) fn first_line(&self, span: Span) -> Span {
        let text = span.of(self.text);
        let end = text.find(['\n', '\r']).unwrap_or(text.len());
        self.trimmed(Span::new(span.start, span.start + end))
    }
}
