//! How much of what a recipe can carry, and what tells that it means to carry more. The sources stand on the page.

use super::batch::Batch;

/// What an amount is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Against {
    /// Flours, meals, starches, cocoa and the like, where something makes them rise.
    Flour,
    /// The same, where it is the body of all that goes in, and no coating or dumpling.
    Dough,
    /// Everything that goes in.
    Everything,
}

impl Against {
    /// As a message calls it.
    pub fn words(self) -> &'static str {
        match self {
            Against::Flour | Against::Dough => "the flour",
            Against::Everything => "all that goes in",
        }
    }

    /// What that weighs in grams, where it is known.
    pub fn of(self, batch: &Batch) -> Option<f64> {
        match self {
            Against::Flour => batch.flour,
            Against::Dough => batch.dough,
            Against::Everything => batch.everything,
        }
    }
}

/// How much of a food a recipe can carry.
#[derive(Debug)]
pub(super) struct Rule {
    /// The foods, as the larder names them.
    pub foods: &'static [&'static str],
    /// What it is held against.
    pub against: Against,
    /// The share beyond which nobody means it.
    pub most: f64,
    /// What recipes take, for the message.
    pub takes: &'static str,
    /// What happens with so much.
    pub why: &'static str,
    /// And the share of all that is known to go in, below which it is not too much: a thin batter seasons more than its flour.
    pub least_of_all: f64,
    /// Folded words in the title or a heading that excuse any amount.
    pub unless_titled: &'static str,
    /// Folded words in any step.
    pub unless_told: &'static str,
    /// Folded words in the line, or in a step that uses it.
    pub unless_beside: &'static str,
}

impl Rule {
    /// Whether so many grams are not too much. Where they are not of a part of a batch, they are not of the whole of it.
    pub fn allows(&self, grams: f64, batch: &Batch) -> bool {
        let share_is_small = self.against.of(batch).is_some_and(|whole| grams / whole <= self.most);
        share_is_small || grams < self.least_of_all * batch.known
    }
}

/// Salts that season; `kosher salt` by its lighter crystal, so that the doubt is on the recipe's side.
const SALTS: &[&str] = &["salt", "sea salt", "kosher salt", "coarse salt", "flaky sea salt", "Himalayan salt"];

/// Brines, cures and ferments, and dough that nobody eats.
const NOT_EATEN: &str = "brine brined brining cure cured curing pickle pickled pickling ferment fermented fermenting kimchi sauerkraut \
                         kraut gravlax corned jerky confit encrusted ornament craft";

/// Salt that stays in the water, on the outside, or is drawn and rinsed off.
const STAYS_OUTSIDE: &str = "water boil boiling pasta noodle blanch soak soaked rinse rinsed drain drained purge rub crust sprinkle \
                             marinade marinate stock ice bag preserve bury buried encase encased bed";

/// Baths and what is strewn on top.
const NOT_KNEADED_IN: &str =
    "bath dip dipped dipping boil boiling poach sprinkle sprinkling scatter topping finishing dredge";

pub(super) const RULES: &[Rule] = &[
    Rule {
        foods: &["baking powder"],
        against: Against::Flour,
        most: 0.105,
        takes: "cakes and quick breads take 3 to 6 %, biscuits up to 8",
        why: "So much rises fast, falls, and tastes bitter.",
        least_of_all: 0.0,
        unless_titled: "",
        unless_told: "",
        unless_beside: "",
    },
    Rule {
        foods: &["baking soda"],
        against: Against::Flour,
        most: 0.05,
        takes: "recipes take 0.5 to 1 %, with much acid 2",
        why: "So much tastes of soap and browns at once.",
        least_of_all: 0.0,
        unless_titled: "pretzel bagel honeycomb lye",
        unless_told: "",
        unless_beside: NOT_KNEADED_IN,
    },
    Rule {
        foods: &["active dry yeast", "instant yeast"],
        against: Against::Flour,
        most: 0.05,
        takes: "doughs take 0.2 to 2 %",
        why: "So much rises too fast and tastes of yeast.",
        least_of_all: 0.0,
        unless_titled: "",
        unless_told: "",
        unless_beside: "",
    },
    Rule {
        foods: &["fresh yeast"],
        against: Against::Flour,
        most: 0.15,
        takes: "doughs take 1 to 6 %",
        why: "So much rises too fast and tastes of yeast.",
        least_of_all: 0.0,
        unless_titled: "",
        unless_told: "",
        unless_beside: "",
    },
    Rule {
        foods: SALTS,
        against: Against::Dough,
        most: 0.05,
        takes: "doughs take 1.5 to 2.5 %, batters less",
        why: "So much cannot be eaten, and it stops yeast.",
        least_of_all: 0.025,
        unless_titled: NOT_EATEN,
        unless_told: NOT_EATEN,
        unless_beside: NOT_KNEADED_IN,
    },
    Rule {
        foods: SALTS,
        against: Against::Everything,
        most: 0.03,
        takes: "dishes are salted with 0.6 to 1.2 %",
        why: "So much cannot be eaten.",
        least_of_all: 0.025,
        unless_titled: NOT_EATEN,
        unless_told: NOT_EATEN,
        unless_beside: STAYS_OUTSIDE,
    },
    Rule {
        foods: &["gelatin"],
        against: Against::Everything,
        most: 0.03,
        takes: "jellies that stand by themselves take about 1.5 %",
        why: "So much sets to rubber.",
        least_of_all: 0.0,
        unless_titled: "marshmallow gummy gummi jube pastille nougat glaze fondant aspic leather candy sweet shot",
        unless_told: "",
        unless_beside: "",
    },
    Rule {
        foods: &["ground cloves"],
        against: Against::Everything,
        most: 0.005,
        takes: "food makers put in 0.24 % at the most",
        why: "So much numbs the tongue.",
        least_of_all: 0.0,
        unless_titled: SPICE_BLEND,
        unless_told: "",
        unless_beside: "",
    },
    Rule {
        foods: &["mace", "nutmeg"],
        against: Against::Everything,
        most: 0.006,
        takes: "bakers put in 0.15 % of mace at the most",
        why: "So much is bitter, and spoonfuls of nutmeg make ill.",
        least_of_all: 0.0,
        unless_titled: SPICE_BLEND,
        unless_told: "",
        unless_beside: "",
    },
];

const SPICE_BLEND: &str =
    "spice masala powder mix blend rub seasoning curry paste tea chai mulled potpourri pomander cure brine";

#[cfg(test)]
mod tests {
    use super::RULES;
    use crate::larder::larder;

    #[test]
    fn rules_name_foods_of_the_larder() {
        for rule in RULES {
            assert!(
                rule.foods.iter().all(|food| larder().food(food).is_some_and(|known| known.name == *food)),
                "{rule:?}"
            );
        }
    }
}
