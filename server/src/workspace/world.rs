//! What the recipes of a manuscript may know of each other, by a number that comes back where a change is taken back.

use std::collections::VecDeque;
use std::sync::Arc;

use crate::book::titles::Summary;

/// The state of all that lies outside of a recipe. What was found in the recipe holds for as long as it is in the same one.
#[derive(Debug, Clone, Default)]
pub(super) struct World {
    now: u64,
    /// How many there have been.
    count: u64,
    /// The latest changes of titles, the newest last.
    changes: VecDeque<Retitled>,
}

/// Some titles that were replaced by others.
#[derive(Debug, Clone)]
struct Retitled {
    gone: Vec<Arc<Summary>>,
    fresh: Vec<Arc<Summary>>,
    /// The world before that.
    before: u64,
}

/// So many edits can be taken back and find what was before: a word that is typed and taken back letter by letter.
pub(super) const KEPT: usize = 16;

impl World {
    /// Which one it is.
    pub fn now(&self) -> u64 {
        self.now
    }

    /// Says that some titles have been replaced by others. If that takes the latest such change back, the world is what it was before it.
    pub fn retitle(&mut self, gone: Vec<Arc<Summary>>, fresh: Vec<Arc<Summary>>) {
        if let Some(last) = self.changes.back().filter(|last| last.gone == fresh && last.fresh == gone) {
            self.now = last.before;
            self.changes.pop_back();
            return;
        }
        if self.changes.len() == KEPT {
            self.changes.pop_front();
        }
        self.changes.push_back(Retitled { gone, fresh, before: self.now });
        self.go_on();
    }

    /// Says that anything else may have changed.
    pub fn replace(&mut self) {
        self.changes.clear();
        self.go_on();
    }

    fn go_on(&mut self) {
        self.count += 1;
        self.now = self.count;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_that_is_taken_back_brings_the_world_back() {
        let titles = |titles: &[&str]| -> Vec<Arc<Summary>> {
            titles.iter().map(|key| Arc::new(Summary { key: (*key).into(), ..Summary::default() })).collect()
        };
        let mut world = World::default();
        let mut seen = vec![world.now()];
        for (gone, fresh) in [(&["a", "b"][..], &["ab"][..]), (&["c"], &["d"]), (&["d"], &["e"])] {
            world.retitle(titles(gone), titles(fresh));
            assert!(!seen.contains(&world.now()));
            seen.push(world.now());
        }
        world.retitle(titles(&["e"]), titles(&["d"]));
        world.retitle(titles(&["d"]), titles(&["c"]));
        assert_eq!(world.now(), seen[1]);
        world.retitle(titles(&["ab"]), titles(&["a", "c"]));
        assert!(!seen.contains(&world.now()), "something else came back");
        world.retitle(titles(&["a", "c"]), titles(&["ab"]));
        assert_eq!(world.now(), seen[1]);
        world.replace();
        world.retitle(titles(&["ab"]), titles(&["a", "b"]));
        assert!(!seen.contains(&world.now()), "the book is another");
    }
}
