//! Where a recipe states one amount twice: `2 cups (475 ml)`, `(14-oz / 400 g)`, `1 cup sugar (200 g)`.

use super::{
    Recipe,
    measures::{Measure, Place, Stated, Term},
};
use crate::{
    measure::{Amount, Hedge, Interval, UnitKind},
    text::Span,
};

/// As many words may stand between an amount and the parenthesis that restates it: `1 cup light brown sugar (220 g)`.
const WORDS_BETWEEN: usize = 6;

/// An amount, and the same amount again.
#[derive(Debug, Clone, Copy)]
pub struct Pair<'r> {
    /// The measure that the first stands in, as an index into the recipe's measures.
    pub measure: usize,
    /// As it is stated first.
    pub written: &'r Stated,
    /// As it is stated again.
    pub restated: &'r Stated,
    /// How many of the first the second is meant to be: 2 for `2 (14-oz) cans (800 g)`.
    pub times: Option<Interval>,
    /// Whether other words stand between the two.
    pub apart: bool,
    /// Whether further restatements stand beside these two.
    pub others: bool,
}

impl Recipe {
    /// Every amount that is stated twice, in the order of the text. An amount that only counts (`1 stick`, `1 onion`) is passed
    /// over for the first one behind it that measures.
    pub fn pairs(&self) -> Vec<Pair<'_>> {
        let mut out = Vec::new();
        for (index, measure) in self.measures.iter().enumerate() {
            let sized = !measure.each.is_empty();
            own_pairs(index, measure.each.iter(), &mut out);
            if sized {
                let of_all = measure.each.first().zip(measure.count_of_packs());
                let totals = of_all
                    .into_iter()
                    .flat_map(|(one, count)| measure.restated.iter().map(move |total| (one, count, total)));
                out.extend(totals.map(|(written, count, restated)| Pair {
                    measure: index,
                    written,
                    restated,
                    times: Some(count),
                    apart: false,
                    others: false,
                }));
            } else {
                own_pairs(index, measure.statements(), &mut out);
            }
            out.extend(self.pair_behind_name(index, measure));
        }
        out
    }

    /// `1 cup sugar (200 g)`: a parenthesis that holds nothing but an amount, behind the name of what is measured.
    fn pair_behind_name<'r>(&'r self, index: usize, measure: &'r Measure) -> Option<Pair<'r>> {
        let next = self.measures.get(index + 1).filter(|next| next.place == measure.place)?;
        if !matches!(measure.place, Place::Ingredient(_) | Place::Step(_) | Place::Equipment(_) | Place::Header(_)) {
            return None;
        }
        let between = Span::new(measure.span.end, next.span.start).of(&self.text).trim_end();
        let words = between.strip_suffix(['(', '['])?.trim();
        let closed = self.text.get(next.span.end..)?.trim_start().starts_with([')', ']']);
        let plain = words.chars().all(|c| c.is_alphabetic() || c.is_whitespace() || matches!(c, '-' | '\'' | '’'));
        let joins =
            |word: &str| matches!(word, "plus" | "or" | "and" | "to" | "until" | "in" | "at" | "with" | "for" | "from");
        let count = words.split_whitespace().count();
        if !closed || !plain || !(1..=WORDS_BETWEEN).contains(&count) || words.split_whitespace().any(joins) {
            return None;
        }
        let whole = measure.each.first().zip(measure.count_of_packs());
        let written = whole.map_or(&measure.stated, |(one, _)| one);
        let (mine, theirs) = (written.kind()?, next.stated.kind()?);
        let pack = whole.is_some();
        let weighed = |kind| matches!(kind, UnitKind::Volume | UnitKind::Weight);
        let other_system =
            written.unit().and_then(|unit| unit.system()) != next.stated.unit().and_then(|unit| unit.system());
        let may = match () {
            // What is drained or filled into packs is another matter: only weight against weight there.
            () if mine == theirs => mine != UnitKind::Count && mine != UnitKind::Time && (other_system || pack),
            () => weighed(mine) && weighed(theirs) && !pack,
        };
        may.then_some(Pair {
            measure: index,
            written,
            restated: &next.stated,
            times: whole.map(|(_, count)| count),
            apart: true,
            others: !measure.restated.is_empty(),
        })
    }

    /// The amounts of both sides, packs multiplied and hedges heeded. Nothing where a number cannot be read, or where one of
    /// them gives the sides of something.
    pub fn amounts(&self, pair: &Pair<'_>) -> Option<(Vec<Amount>, Vec<Amount>)> {
        let (mut written, mut restated) = (pair.written.amounts()?, pair.restated.amounts()?);
        let hot = pair.written.kind() == Some(UnitKind::Temperature);
        let exact = written.iter().chain(&restated).all(|amount| amount.number.is_exact());
        // A hedge loosens one value beside another; a range that is written out says all there is to say.
        if exact && !hot {
            match (self.hedge_of(pair.written), self.hedge_of(pair.restated)) {
                (Some(mine), Some(theirs)) => {
                    loosen(&mut written, mine);
                    loosen(&mut written, theirs);
                }
                (Some(mine), None) => loosen(&mut written, mine),
                (None, Some(theirs)) => loosen(&mut restated, theirs),
                (None, None) => {}
            }
        }
        if let Some(times) = pair.times {
            for amount in &mut written {
                amount.number = amount.number.scaled(&times);
            }
        }
        Some((written, restated))
    }

    /// The word that loosens an amount: before it, or between its number and its unit (`1 scant cup`).
    fn hedge_of(&self, stated: &Stated) -> Option<Hedge> {
        let unit_behind = |term: &Term| term.unit.filter(|unit| unit.start >= term.number.end);
        let within = stated.terms.iter().find_map(|term| Some(Span::new(term.number.end, unit_behind(term)?.start)));
        let inside = within.and_then(|span| Hedge::find(span.of(&self.text).trim()));
        inside.or_else(|| self.hedge_before(stated))
    }

    /// The word right before an amount that loosens it.
    fn hedge_before(&self, stated: &Stated) -> Option<Hedge> {
        let before = self.text.get(..stated.span.start)?.trim_end();
        let clause = before.rsplit(['(', '[', '/', ',', ';', '\n', '\r']).next()?;
        let mut words = clause.split_whitespace().rev();
        let (last, two) = (words.next()?, words.next());
        let both = || Hedge::find(&format!("{} {last}", two?));
        Hedge::may_end_in(last).then(|| both().or_else(|| Hedge::find(last))).flatten()
    }
}

fn own_pairs<'r>(measure: usize, stated: impl Iterator<Item = &'r Stated> + Clone, out: &mut Vec<Pair<'r>>) {
    let measuring = |stated: &&Stated| !matches!(stated.kind(), Some(UnitKind::Count | UnitKind::Loose));
    let mut restated = stated.skip_while(|stated| !measuring(stated));
    let Some(written) = restated.next() else { return };
    let others = restated.clone().count() > 1;
    out.extend(restated.map(|restated| Pair { measure, written, restated, times: None, apart: false, others }));
}

fn loosen(amounts: &mut [Amount], hedge: Hedge) {
    if let [amount] = amounts {
        amount.number = hedge.apply(&amount.number, amount.unit);
    }
}

impl Measure {
    /// How many packs there are, where the amount counts them.
    pub fn count_of_packs(&self) -> Option<Interval> {
        let amount = self.amount()?;
        (amount.kind() == UnitKind::Count && !self.each.is_empty()).then_some(amount.number)
    }
}
