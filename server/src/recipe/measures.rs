//! The measures of a recipe as they are written: an amount, and the same amount again in other units.

use uom::si::f64::Length;

use crate::{
    measure::{Amount, Interval, Measures, NumberFault, Quantity, Unit, UnitKind},
    text::Span,
};

/// A measure with its restatements.
#[derive(Debug, Clone)]
pub struct Measure {
    /// The whole of it.
    pub span: Span,
    /// The word that hedges it: about, scant, heaping.
    pub hedge: Option<Span>,
    /// The amount as stated first.
    pub stated: Stated,
    /// The same amount again, in the order of the text.
    pub restated: Vec<Stated>,
    /// The size of one, where the amount counts packs: `2 (14-oz / 400 g) cans`. Stated and restated.
    pub each: Vec<Stated>,
    /// Whether it is open above: `plus more`.
    pub open: bool,
    /// Where it stands.
    pub place: Place,
}

/// Where a measure stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// In an ingredient line, as an index.
    Ingredient(usize),
    /// In a step, as an index.
    Step(usize),
    /// In a result of a step, as an index of the step.
    Result(usize),
    /// In an equipment line, as an index.
    Equipment(usize),
    /// In a test, as an index.
    Test(usize),
    /// In a header, as an index.
    Header(usize),
    /// In prose.
    Prose,
}

/// An amount as it is stated once.
#[derive(Debug, Clone, Default)]
pub struct Stated {
    /// The whole of it.
    pub span: Span,
    /// Its terms: one, or several that are added (`1 lb 4 oz`, `1 cup plus 2 tbsp`), or the sides of a pan.
    pub terms: Vec<Term>,
    /// Whether the terms are the sides of something (`9 x 13 in`) and not a sum.
    pub sides: bool,
    /// Whether it is the size of each, where several are counted.
    pub each: bool,
}

/// A number with its unit, and where they stand.
#[derive(Debug, Clone)]
pub struct Term {
    /// Both.
    pub span: Span,
    /// The number.
    pub number: Span,
    /// The unit as written, where there is one.
    pub unit: Option<Span>,
    /// What they mean, or what is wrong with the number.
    pub amount: Result<Amount, NumberFault>,
}

impl Term {
    /// The amount, where the number can be read.
    pub fn amount(&self) -> Option<Amount> {
        self.amount.as_ref().ok().copied()
    }
}

impl Stated {
    /// The quantity, where every number can be read and the terms add up.
    pub fn quantity(&self, measures: &Measures) -> Option<Quantity> {
        let (first, others) = self.terms.split_first().filter(|_| !self.sides)?;
        let quantity = |term: &Term| Some(term.amount()?.quantity(measures));
        others.iter().try_fold(quantity(first)?, |sum, term| sum.plus(&quantity(term)?))
    }

    /// The lengths of its sides, one or several, in order. Nothing where it measures something else, or where one is a range.
    pub fn lengths(&self) -> Option<Vec<Length>> {
        let lengths = self.terms.iter().map(|term| match term.amount()?.quantity(&Measures::default()) {
            Quantity::Length(length) if length.is_exact() => Some(length.least),
            _ => None,
        });
        lengths.collect()
    }

    /// The amounts, where every number can be read and they are no sides.
    pub fn amounts(&self) -> Option<Vec<Amount>> {
        if self.sides {
            return None;
        }
        self.terms.iter().map(Term::amount).collect()
    }

    /// What its first term measures, where its number can be read.
    pub fn kind(&self) -> Option<UnitKind> {
        self.terms.first().and_then(Term::amount).map(|amount| amount.kind())
    }

    /// The first unit.
    pub fn unit(&self) -> Option<Unit> {
        self.terms.first().and_then(Term::amount).and_then(|amount| amount.unit)
    }
}

impl Measure {
    /// The quantity as stated first.
    pub fn quantity(&self, measures: &Measures) -> Option<Quantity> {
        let quantity = self.stated.quantity(measures)?;
        Some(if self.open { open(quantity) } else { quantity })
    }

    /// Every statement of the amount: the first, and its restatements.
    pub fn statements(&self) -> impl Iterator<Item = &Stated> + Clone {
        std::iter::once(&self.stated).chain(&self.restated)
    }

    /// The one amount it states, where it is no sum.
    pub fn amount(&self) -> Option<Amount> {
        match self.stated.terms.as_slice() {
            [term] => term.amount(),
            _ => None,
        }
    }

    /// A bare number below one, as a fraction of something: `1/3 of the custard`.
    pub fn fraction(&self) -> Option<(f64, f64)> {
        let amount = self.amount().filter(|amount| amount.unit.is_none())?;
        let most = amount.number.most?;
        (amount.number.least > 0.0 && most < 1.0).then_some((amount.number.least, most))
    }

    /// A bare number: how many of the thing itself.
    pub fn count(&self) -> Option<Interval> {
        self.amount().filter(|amount| amount.unit.is_none()).map(|amount| amount.number)
    }

    /// Whether both state the same number of the same unit somewhere.
    pub fn same_amount(&self, other: &Measure) -> bool {
        let plain = |stated: &Stated| -> Option<Vec<(Interval, Option<Unit>)>> {
            stated.terms.iter().map(|term| term.amount().map(|amount| (amount.number, amount.unit))).collect()
        };
        self.statements().any(|one| {
            plain(one)
                .is_some_and(|one| !one.is_empty() && other.statements().any(|two| plain(two).as_ref() == Some(&one)))
        })
    }
}

/// The same amount or more: `plus more`.
pub fn open(quantity: Quantity) -> Quantity {
    match quantity {
        Quantity::Volume(interval) => Quantity::Volume(Interval { most: None, ..interval }),
        Quantity::Weight(interval) => Quantity::Weight(Interval { most: None, ..interval }),
        Quantity::Count { count, unit } => Quantity::Count { count: Interval { most: None, ..count }, unit },
        other => other,
    }
}
