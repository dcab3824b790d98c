//! What is known of a line stays known while another line is edited.

use crate::recipe::model::{Ingredient, Learned, Recipe};

impl Recipe {
    /// Keeps what the larder has said of the lines of an earlier state of this recipe that are the same in this one.
    pub(super) fn remember(&mut self, before: &Recipe) {
        if !std::ptr::eq(self.larder, before.larder) {
            return;
        }
        let learned: Vec<Learned> = (0..self.ingredients.len()).map(|index| self.known(index, before)).collect();
        for (line, learned) in self.ingredients.iter_mut().zip(learned) {
            line.learned = learned;
        }
    }

    /// What an earlier state knows of the line of this index. It stood at this place from the top or, where lines have come or gone above
    /// it, from the end.
    fn known(&self, index: usize, before: &Recipe) -> Learned {
        let from_end = (index + before.ingredients.len()).checked_sub(self.ingredients.len());
        let line = self.ingredients.get(index);
        let same = |other: &&Ingredient| line.is_some_and(|line| self.has_same(line, before, other));
        let places = [Some(index), from_end].into_iter().flatten();
        let mut lines = places.filter_map(|place| before.ingredients.get(place));
        lines.find(same).map(|line| line.learned.clone()).unwrap_or_default()
    }

    /// Whether two lines read the same: letters, measures and foods.
    fn has_same(&self, line: &Ingredient, before: &Recipe, other: &Ingredient) -> bool {
        let measures = |recipe: &Recipe, line: &Ingredient| -> Vec<_> {
            let own = line.measures.iter().filter_map(|index| recipe.measures.get(*index));
            own.map(|measure| (measure.span.start.saturating_sub(line.span.start), measure.span.len())).collect()
        };
        let names = |line: &Ingredient| -> Vec<_> {
            let own = line.names.iter();
            own.map(|name| (name.food.map(std::ptr::from_ref), name.part, name.aside)).collect()
        };
        self.at(line.span) == before.at(other.span)
            && line.alternatives == other.alternatives
            && measures(self, line) == measures(before, other)
            && names(line) == names(other)
    }
}
