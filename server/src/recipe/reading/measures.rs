//! Measures from the tree: numbers and units read, terms told from sides, restatements kept apart.

use super::Reader;
use crate::{
    measure::{Amount, Unit, UnitKind, read_number},
    recipe::measures::{Measure, Place, Stated, Term},
    syntax::{Kind, Node},
    text::Span,
};

impl Reader<'_> {
    /// Keeps the measure of `node`; the answer is its index.
    pub(super) fn measure(&mut self, node: Node<'_>, place: Place) -> usize {
        let mut measure = Measure {
            span: node.span(),
            hedge: None,
            stated: Stated::default(),
            restated: Vec::new(),
            each: Vec::new(),
            open: false,
            place,
        };
        for child in node.children() {
            match child.kind() {
                Kind::Hedge => measure.hedge = Some(child.span()),
                Kind::Amount if measure.stated.terms.is_empty() => {
                    measure.stated = self.stated(child);
                    measure.each.extend(child.child(Kind::Pack).map(|pack| self.pack(pack)).unwrap_or_default());
                }
                Kind::Amount => measure.restated.push(self.stated(child)),
                Kind::Pack => measure.each.extend(self.pack(child)),
                Kind::Restated => {
                    let each = self.says_each(child.span());
                    let amounts = child.children().filter(|inner| inner.kind() == Kind::Amount);
                    let amounts: Vec<Stated> = amounts.map(|amount| Stated { each, ..self.stated(amount) }).collect();
                    if each { measure.each.extend(amounts) } else { measure.restated.extend(amounts) }
                }
                _ => {}
            }
        }
        packed(&mut measure);
        measure.open =
            measure.hedge.is_some_and(|hedge| has_words(hedge.of(self.text), "least")) || self.open_ended(node.span());
        self.recipe.measures.push(measure);
        self.recipe.measures.len() - 1
    }

    /// Keeps a number that stands by itself as a measure; the answer is its index.
    pub(super) fn bare_number(&mut self, span: Span, place: Place) -> usize {
        let stated = Stated { span, terms: vec![self.term(span)], ..Stated::default() };
        let (restated, each) = (Vec::new(), Vec::new());
        self.recipe.measures.push(Measure { span, hedge: None, stated, restated, each, open: false, place });
        self.recipe.measures.len() - 1
    }

    fn says_each(&self, span: Span) -> bool {
        has_words(span.of(self.text), "each")
    }

    fn open_ended(&self, span: Span) -> bool {
        ["plus more", "or more", "plus extra"].into_iter().any(|words| has_words(span.of(self.text), words))
    }

    fn pack(&self, node: Node<'_>) -> Vec<Stated> {
        let amounts: Vec<Stated> =
            node.children().filter(|child| child.kind() == Kind::Amount).map(|amount| self.stated(amount)).collect();
        if amounts.is_empty() { vec![self.stated(node)] } else { amounts }
    }

    /// An amount: its numbers and units in order. A number that no unit follows takes the next one where sides share it.
    fn stated(&self, node: Node<'_>) -> Stated {
        let span = node.span();
        let parts = node.find(|kind| matches!(kind, Kind::Number | Kind::Range | Kind::Unit | Kind::Pack));
        let mut terms: Vec<Term> = Vec::with_capacity(1);
        let mut before: Option<Span> = None;
        for part in parts {
            match part.kind() {
                Kind::Number | Kind::Range => {
                    let mut term = self.term(part.span());
                    if let Some(unit) = before.take() {
                        self.take_unit(&mut term, unit);
                    }
                    terms.push(term);
                }
                Kind::Unit => match terms.last_mut() {
                    Some(term) if term.unit.is_none() => self.take_unit(term, part.span()),
                    _ => before = Some(part.span()),
                },
                _ => {}
            }
        }
        let between = terms.windows(2).any(|pair| match pair {
            [one, two] => {
                Span::new(one.span.end, two.span.start).of(self.text).contains(['x', 'X', '×'])
                    || by_word(Span::new(one.span.end, two.span.start).of(self.text))
            }
            _ => false,
        });
        if between {
            self.share_unit(&mut terms);
        }
        Stated { span, terms, sides: between, each: false }
    }

    /// A unit without the full stop of its abbreviation, and the blanks behind that: `t. `.
    fn without_stop(&self, unit: Span) -> Span {
        let short = unit.of(self.text).trim_end().trim_end_matches('.');
        Span::new(unit.start, unit.start + short.len())
    }

    /// `9 x 13 in`: the unit behind the last side is that of all.
    fn share_unit(&self, terms: &mut [Term]) {
        let Some(unit) = terms.iter().rev().find_map(|term| term.unit) else { return };
        let found = Unit::find(unit.of(self.text));
        for term in terms.iter_mut().filter(|term| term.unit.is_none()) {
            if let Ok(amount) = &mut term.amount {
                amount.unit = found;
            }
        }
    }

    /// A term of a number alone.
    fn term(&self, number: Span) -> Term {
        let amount = read_number(number.of(self.text)).map(|read| Amount::new(read, None));
        Term { span: number, number, unit: None, amount }
    }

    /// Gives a number the unit that stands beside it.
    fn take_unit(&self, term: &mut Term, unit: Span) {
        let unit = self.without_stop(unit);
        let written = unit.of(self.text).trim_start_matches(['-', '‐', '‑']);
        if let Ok(amount) = &mut term.amount {
            amount.unit = Unit::find_beside(written, &amount.number);
        }
        term.span = term.number.joined(unit);
        term.unit = Some(unit);
    }
}

/// `2 x 400 g` has no sides: it counts two of 400 g each, and what restates it restates the size of one.
fn packed(measure: &mut Measure) {
    let [count, size] = measure.stated.terms.as_slice() else { return };
    let kind = size.amount().and_then(|amount| amount.unit).map(Unit::kind);
    if !measure.stated.sides || matches!(kind, None | Some(UnitKind::Length)) {
        return;
    }
    let bare = |amount: Amount| Amount { unit: None, ..amount };
    let count = Term { amount: count.amount.map(bare), ..count.clone() };
    measure.each.push(Stated { span: size.span, terms: vec![size.clone()], ..Stated::default() });
    measure.each.append(&mut measure.restated);
    measure.stated = Stated { span: count.span, terms: vec![count], ..Stated::default() };
}

/// Whether these words stand in a text, in either case.
fn has_words(text: &str, words: &str) -> bool {
    text.as_bytes().windows(words.len()).any(|own| own.eq_ignore_ascii_case(words.as_bytes()))
}

fn by_word(text: &str) -> bool {
    text.split_whitespace().any(|word| word.eq_ignore_ascii_case("by"))
}
