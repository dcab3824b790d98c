//! Many files at a time, one answer after the other.

use std::any::Any;
use std::collections::BTreeMap;
use std::ops::ControlFlow;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc;

use rayon::iter::{ParallelBridge, ParallelIterator};

/// How many answers may wait to be taken before the work pauses.
const WAITING: usize = 64;

/// Does `work` on every one of `items`, as many at a time as there are cores, and hands the answers to `take` in the order
/// of `items`, each as soon as it and all before it are there. What panicked comes as an `Err`. Once `take` breaks, no
/// further work is begun.
pub fn in_order<I: Sync, A: Send>(
    items: &[I],
    work: impl Fn(&I) -> A + Sync,
    mut take: impl FnMut(&I, Result<A, Box<dyn Any + Send>>) -> ControlFlow<()>,
) {
    let (sender, receiver) = mpsc::sync_channel(WAITING);
    rayon::in_place_scope(|scope| {
        let work = &work;
        scope.spawn(move |_| {
            // It ends early only when nobody receives any more, which is meant.
            let _ = items.iter().enumerate().par_bridge().try_for_each_with(sender, |sender, (place, item)| {
                let answer = catch_unwind(AssertUnwindSafe(|| work(item)));
                sender.send((place, answer))
            });
        });
        let mut early = BTreeMap::new();
        let mut next = items.iter().enumerate().peekable();
        for (place, answer) in receiver {
            early.insert(place, answer);
            while let Some((item, answer)) = next.peek().and_then(|(place, item)| Some((*item, early.remove(place)?))) {
                next.next();
                if take(item, answer).is_break() {
                    return;
                }
            }
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn answers_come_in_the_order_of_the_items_however_long_each_takes() {
        let items: Vec<u64> = (0..200).collect();
        let slow_where_early = |item: &u64| {
            std::thread::sleep(Duration::from_micros(if item.is_multiple_of(7) { 900 } else { 10 }));
            item * 2
        };
        let mut taken = Vec::new();
        in_order(&items, slow_where_early, |_, answer| {
            taken.push(answer.unwrap());
            ControlFlow::Continue(())
        });
        assert_eq!(taken, items.iter().map(|item| item * 2).collect::<Vec<_>>());
    }

    #[test]
    fn a_panic_costs_one_answer_and_a_break_ends_it() {
        let items: Vec<usize> = (0..10_000).collect();
        let mut taken = Vec::new();
        in_order(
            &items,
            |item| if *item == 3 { panic!("as this test wants it") } else { *item },
            |_, answer| {
                taken.push(answer.ok());
                if taken.len() == 5 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
            },
        );
        assert_eq!(taken, [Some(0), Some(1), Some(2), None, Some(4)]);
    }
}
