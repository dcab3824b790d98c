//! Cuts the tree of a recipe that was read in one go into the parts that it is kept in.
//!
//! To read each part by itself, as is done behind an edit, takes an eighth longer than to read all of them together, and comes to the same.
//! Where that is not sure, because something else than rows of a list or the method stands at a cut, the part is to be read by itself.

use std::sync::Arc;

use super::node::{Kind, Laid};
use super::split::{BEHIND_LIST, BEHIND_METHOD, Cut};
use crate::text::{Span, lines};

/// The nodes of each part of `text`, of which all nodes are given; none for a part that is to be read by itself.
pub(super) fn cut_out(text: &str, whole: &[Laid], cuts: &[Cut]) -> impl Iterator<Item = Option<Arc<[Laid]>>> {
    let (mut first, mut above) = (0, Vec::new());
    cuts.iter().map(move |cut| {
        let rest = whole.get(first..).unwrap_or_default();
        let next = first + rest.partition_point(|node| node.span().start < cut.span.end);
        let part = Cutting { text, whole, cut, first, next };
        let nodes = part.nodes(&above);
        part.go_on(&mut above);
        first = next;
        nodes
    })
}

/// A part of the whole.
struct Cutting<'w> {
    text: &'w str,
    whole: &'w [Laid],
    cut: &'w Cut,
    /// The place of the first node that starts in it.
    first: usize,
    /// Of the first that starts behind it.
    next: usize,
}

impl Cutting<'_> {
    /// The nodes of the part, which begins inside of those at the places `above`.
    fn nodes(&self, above: &[usize]) -> Option<Arc<[Laid]>> {
        let own = self.whole.get(self.first..self.next)?;
        let end = own.first().filter(|starts| self.fits(above, starts)).and_then(|_| self.end(own))?;
        let cut = self.cut.span;
        let shifted = |node: &Laid, kind: Kind, count: usize| {
            let end = node.span().end.min(if kind == Kind::Manuscript { cut.end } else { end });
            let span = Span::new(node.span().start.saturating_sub(cut.start), end.saturating_sub(cut.start));
            Laid::new(kind, span, count)
        };
        let begun = above.iter().enumerate().filter_map(|(depth, place)| {
            let node = self.whole.get(*place)?;
            let below = (place + node.count()).min(self.next) - self.first;
            let kind = if is_list(node.kind) { Kind::More } else { node.kind };
            Some(shifted(node, kind, above.len() - depth + below))
        });
        let own =
            own.iter().enumerate().map(|(place, node)| shifted(node, node.kind, node.count().min(own.len() - place)));
        let begun: Vec<Laid> = begun.collect();
        Some(begun.into_iter().chain(own).collect())
    }

    /// Whether the part begins with what a part that is read by itself can begin with.
    fn fits(&self, above: &[usize], starts: &Laid) -> bool {
        let kinds = [above.first(), above.get(1), above.get(2)].map(|place| Some(self.whole.get(*place?)?.kind));
        let fits = above.len() <= kinds.len()
            && match (kinds, self.cut.behind) {
                ([None, ..], "") => return true,
                ([Some(Kind::Manuscript), None, _], "") => starts.kind == Kind::Recipe,
                ([Some(Kind::Manuscript), Some(Kind::Recipe), None], "") => is_list(starts.kind),
                ([Some(Kind::Manuscript), Some(Kind::Recipe), Some(Kind::MethodSection)], BEHIND_METHOD) => {
                    starts.kind == Kind::Step
                }
                ([Some(Kind::Manuscript), Some(Kind::Recipe), Some(list)], BEHIND_LIST) => {
                    is_list(list) && list != Kind::MethodSection && starts.kind == Kind::Item
                }
                _ => false,
            };
        fits && starts.span().start == self.cut.span.start
    }

    /// Where the nodes end that go on in the next part: with the line of the last row in this one. None if they do not end there.
    fn end(&self, own: &[Laid]) -> Option<usize> {
        if self.next == self.whole.len() {
            return Some(self.cut.span.end);
        }
        let mut cut_off = own.iter().filter(|node| node.span().end > self.cut.span.end);
        if !cut_off.all(|node| holds_rows(node.kind)) {
            return None;
        }
        let last = own.iter().filter(|node| !holds_rows(node.kind)).map(|node| node.span().end).max()?;
        let behind = Span::new(last, self.cut.span.end).of(self.text);
        // A remark there belongs to the recipe as a whole, or to what follows.
        let is_over = behind.trim().is_empty() && !own.last().is_some_and(|node| is_remark(node.kind));
        is_over.then(|| last + lines(behind).next().map_or(0, str::len))
    }

    /// Makes those `above` of them that the next part begins inside of.
    fn go_on(&self, above: &mut Vec<usize>) {
        let ends = |place: usize| self.whole.get(place).map_or(0, |node| place + node.count());
        above.retain(|place| ends(*place) > self.next);
        let mut place = self.first;
        while place < self.next {
            if ends(place) > self.next {
                above.push(place);
                place += 1;
            } else {
                place = ends(place).max(place + 1);
            }
        }
    }
}

/// Whether a part can go on with one of these.
fn is_list(kind: Kind) -> bool {
    matches!(kind, Kind::EquipmentSection | Kind::IngredientsSection | Kind::MethodSection | Kind::TestsSection)
}

/// Whether it holds rows, each with the end of its line.
fn holds_rows(kind: Kind) -> bool {
    is_list(kind) || matches!(kind, Kind::Manuscript | Kind::Preamble | Kind::Recipe | Kind::ProseSection)
}

fn is_remark(kind: Kind) -> bool {
    matches!(kind, Kind::Comment | Kind::Query)
}
