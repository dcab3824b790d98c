//! Where in the method a thing of the list most likely goes, when no step says so.
//!
//! Each step collects points, for and against, from what a copy editor would look at: where the lines around it in the list are
//! used, what is used there that is of its kind, what is done there. The points are common practice of recipe writing, no
//! source; what they are worth is measured by taking uses out of sound recipes (`tests/examples/missing_step.rs`).

use super::{bracket::Place, words::written_number};
use crate::recipe::{
    Ingredient, Recipe, Step,
    flow::Use,
    language::clause::Sense,
    mentions::{Link, Mention},
};

/// How likely it is of each step of a method that the thing goes in there.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Likely {
    /// All steps in order. Together they make 1; empty where there is no such thing.
    each: Vec<f64>,
    /// Whether the step names nothing and goes on with what is made before it: what is named in it, or in a new step right
    /// before it, would take the place of that.
    goes_on: Vec<bool>,
}

/// As many places as an author would read through.
const MOST_PLACES: usize = 7;
/// A place this much less likely than the first is not worth reading.
const HARDLY: f64 = 0.03;
/// So many points make a step some three times as likely.
const POINTS: f64 = 4.0;

impl Likely {
    /// Where the ingredient of this index most likely goes.
    pub fn of(recipe: &Recipe, index: usize) -> Self {
        let Some(evidence) = Evidence::of(recipe, index) else { return Likely::default() };
        let points: Vec<f64> =
            recipe.steps.iter().enumerate().map(|(at, step)| evidence.points(recipe, at, step)).collect();
        let most = points.iter().copied().fold(f64::MIN, f64::max);
        let weights: Vec<f64> = points.iter().map(|points| ((points - most) / POINTS).exp()).collect();
        let sum: f64 = weights.iter().sum();
        let goes_on = (0..recipe.steps.len()).map(|step| goes_on(recipe, step)).collect();
        Likely { each: weights.iter().map(|weight| weight / sum).collect(), goes_on }
    }

    /// The steps by their index, the likeliest first; those that are hardly likely are left out.
    pub fn steps(&self) -> Vec<usize> {
        let own = self.each.iter().copied().enumerate().filter(|(step, _)| !self.goes_on(*step));
        let mut all: Vec<(usize, f64)> = own.collect();
        all.sort_by(|(_, one), (_, other)| other.total_cmp(one));
        let first = all.first().map_or(0.0, |(_, first)| *first);
        let worth_reading = all.into_iter().filter(|(_, likely)| *likely >= first * HARDLY);
        worth_reading.map(|(step, _)| step).take(MOST_PLACES).collect()
    }

    /// Where a new step for it goes in, of the places that `fits` lets pass: where a number is missing, else between the two
    /// neighbours that are the likeliest together.
    pub fn new_step(&self, recipe: &Recipe, fits: impl Fn(Place) -> bool) -> Option<Place> {
        if let Some(place) = missing_number(recipe).filter(|place| fits(*place)) {
            return Some(place);
        }
        let pairs = self.each.windows(2).map(|pair| pair.iter().sum::<f64>()).enumerate();
        let open = pairs.rev().filter(|(before, _)| !self.goes_on(before + 1) && fits(Place::After(*before)));
        let likeliest = open.max_by(|(_, one), (_, other)| one.total_cmp(other)).map(|(before, _)| before);
        likeliest.or(self.each.len().checked_sub(1)).map(Place::After).filter(|place| fits(*place))
    }

    fn goes_on(&self, step: usize) -> bool {
        self.goes_on.get(step) == Some(&true)
    }
}

/// Steps 3 and 5 with no 4 between them: behind the first. A method that starts with 2: before it.
fn missing_number(recipe: &Recipe) -> Option<Place> {
    let number = |step: &Step| written_number(recipe, step);
    if recipe.steps.first().and_then(number) == Some(2) {
        return Some(Place::Before(0));
    }
    let behind = recipe.steps.windows(2).position(|pair| match pair {
        [one, two] => number(one).zip(number(two)).is_some_and(|(one, two)| two == one + 2),
        _ => false,
    });
    behind.map(Place::After)
}

fn goes_on(recipe: &Recipe, step: usize) -> bool {
    let made = recipe.steps.iter().take(step).any(|earlier| !earlier.results.is_empty());
    let names = |mention: &Mention| mention.step == step && mention.sense == Sense::Use;
    made && !recipe.flow.mentions.iter().any(names)
}

/// What the list and the method tell about one line.
struct Evidence<'r> {
    index: usize,
    line: &'r Ingredient,
    kinds: Vec<&'static str>,
    /// Words of which a step that uses such a food has one.
    acts: Vec<&'static str>,
    /// For every line of the list the steps that use it by a name.
    used: Vec<Vec<usize>>,
    /// How much the list's order tells, between 0 and 1.
    order: f64,
    /// First uses of the nearest used lines above, and of those below, the nearest first.
    above: Vec<usize>,
    below: Vec<usize>,
    /// The first step that speaks of it without using it: *until the onions are soft*.
    spoken_of: Option<usize>,
}

impl<'r> Evidence<'r> {
    fn of(recipe: &'r Recipe, index: usize) -> Option<Self> {
        let line = recipe.ingredient(index)?;
        let named = |found: &Use| (found.link < Link::Collective).then_some(found.step);
        let every = 0..recipe.ingredients.len();
        let used: Vec<Vec<usize>> =
            every.map(|other| recipe.flow.uses(other).iter().filter_map(named).collect()).collect();
        let (mut above, mut below) = near(recipe, &used, index, line, true);
        if above.is_empty() && below.is_empty() {
            (above, below) = near(recipe, &used, index, line, false);
        }
        let kinds = kinds(line);
        let acts = ACTS.iter().filter(|(kind, _)| kinds.contains(kind)).flat_map(|(_, words)| words.split(' '));
        let spoken_of = recipe.flow.mentions.iter().find(|mention| {
            let own = mention.targets.iter().any(|target| target.ingredient() == Some(index));
            own && mention.targets.len() == 1 && !matches!(mention.sense, Sense::Use | Sense::Negated)
        });
        let spoken_of = spoken_of.map(|mention| mention.step);
        let order = order(recipe, &used, index);
        Some(Evidence { index, line, acts: acts.collect(), kinds, used, order, above, below, spoken_of })
    }

    fn points(&self, recipe: &Recipe, at: usize, step: &Step) -> f64 {
        self.of_the_list(at) + self.of_its_kind(recipe, at) + self.of_the_words(recipe, at, step)
    }

    /// The list stands in the order of use, more or less.
    fn of_the_list(&self, at: usize) -> f64 {
        let is = |steps: &[usize], place: usize| steps.get(place) == Some(&at);
        let (above, below) = (self.above.first().copied(), self.below.first().copied());
        let mut points = 0.0;
        for (holds, worth) in [
            (is(&self.above, 0), 3.0),
            (is(&self.below, 0), 3.0),
            (is(&self.above, 0) && is(&self.below, 0), 2.0),
            (is(&self.above, 1), 2.0),
            (is(&self.below, 1), 2.0),
            (above.zip(below).is_some_and(|(one, two)| (one.min(two)..=one.max(two)).contains(&at)), 1.0),
            (above.is_some_and(|above| at < above), -4.0),
            // Part of what stands early in the list comes in late: the salt, the herbs.
            (below.is_some_and(|below| at > below), -2.0),
        ] {
            points += if holds { worth } else { 0.0 };
        }
        let beside = self.used_in(at).filter(|other| other.abs_diff(self.index) <= 2).count();
        self.order * (points + beside as f64)
    }

    /// What is alike goes in together: the spices, the dry things, the vegetables.
    fn of_its_kind(&self, recipe: &Recipe, at: usize) -> f64 {
        let alike = self
            .used_in(at)
            .filter_map(|other| recipe.ingredient(other))
            .map(|other| alike(&self.kinds, &kinds(other)));
        6.0 * alike.fold(0.0, f64::max)
    }

    fn of_the_words(&self, recipe: &Recipe, at: usize, step: &Step) -> f64 {
        let has = |word: &str| step.tokens.iter().any(|token| token.word(word));
        let mut acts: Vec<&str> = self.acts.iter().copied().filter(|word| has(word)).collect();
        acts.sort_unstable();
        acts.dedup();
        let mut points = 3.0 * acts.len().min(2) as f64;
        if self.used_in(at).next().is_none() {
            // A step that uses nothing may have lost something, unless it only sees to the oven.
            points += if has("oven") || has("preheat") { -3.0 } else { 1.0 };
        }
        points += match self.spoken_of {
            Some(spoken) if at > spoken => -2.0,
            Some(spoken) if at == spoken || at + 1 == spoken => 4.0,
            _ => 0.0,
        };
        if self.line.tags.serving && at + 1 == recipe.steps.len() {
            points += 4.0;
        }
        if self.same_part(recipe, step) { points + 4.0 } else { points }
    }

    /// Whether step and line stand under the same heading: the sauce, the topping.
    fn same_part(&self, recipe: &Recipe, step: &Step) -> bool {
        let words = |group: Option<usize>| group.and_then(|group| recipe.groups.get(group)).map(|group| &group.words);
        words(self.line.group).zip(words(step.group)).is_some_and(|(own, other)| !own.is_empty() && own == other)
    }

    fn used_in(&self, at: usize) -> impl Iterator<Item = usize> + '_ {
        let uses =
            self.used.iter().enumerate().filter(move |(other, steps)| *other != self.index && steps.contains(&at));
        uses.map(|(other, _)| other)
    }
}

/// First uses of the two nearest lines above and of the two nearest below that a step uses; under the same heading, or anywhere.
fn near(
    recipe: &Recipe,
    used: &[Vec<usize>],
    index: usize,
    line: &Ingredient,
    within: bool,
) -> (Vec<usize>, Vec<usize>) {
    let first = |other: usize| {
        let own = recipe.ingredient(other).filter(|own| !own.tags.pan && (!within || own.group == line.group))?;
        // A remark between the lines is a heading of the author's own.
        (!own.tags.remark).then(|| used.get(other)?.first().copied()).flatten()
    };
    let above = (0..index).rev().filter_map(first).take(2).collect();
    (above, (index + 1..used.len()).filter_map(first).take(2).collect())
}

/// How much the order of a list tells about the method: how many of the lines that stand one below the other are first used in
/// that order. By chance some six of ten are; where nine are, the order tells all that it can.
fn order(recipe: &Recipe, used: &[Vec<usize>], index: usize) -> f64 {
    let others = used.iter().enumerate().filter(|(other, _)| *other != index);
    let first = |(other, steps): (usize, &Vec<usize>)| Some((recipe.ingredient(other)?.group, *steps.first()?));
    let placed: Vec<(Option<usize>, usize)> = others.filter_map(first).collect();
    let within = placed.windows(2).filter_map(|pair| match pair {
        [(group, one), (same, other)] if group == same => Some(one <= other),
        _ => None,
    });
    let (kept, all) = within.fold((0.0, 0.0), |(kept, all), keeps| (kept + f64::from(u8::from(keeps)), all + 1.0));
    // Of a short list nobody can tell: it counts as one of the usual kind.
    let share = (kept + 2.0) / (all + 2.5);
    ((share - 0.6) * 3.0).clamp(0.2, 1.0)
}

/// The food's name and its kinds.
fn kinds(line: &Ingredient) -> Vec<&'static str> {
    let food = line.names.iter().find(|name| !name.aside).and_then(|name| name.food);
    food.map(|food| food.kinds.iter().copied().chain([food.name]).collect()).unwrap_or_default()
}

/// How much of what two foods are they are both: 1 for the same food, 0 for what has nothing in common.
fn alike(one: &[&str], other: &[&str]) -> f64 {
    let both = one.iter().filter(|kind| other.contains(kind)).count();
    let either = one.len() + other.len() - both;
    if either == 0 { 0.0 } else { both as f64 / either as f64 }
}

/// What is done with a food of this kind, and what is said of it then (common practice, no source). The words stand folded.
const ACTS: &[(&str, &str)] = &[
    ("oil", "fry frying saute sauteed brown sear grease skillet wok drizzle dressing roast toss"),
    ("fat", "fry frying saute sauteed brown sear grease greased skillet melt roux cream"),
    ("salt", "season seasoning taste boil salted"),
    ("seasoning", "season seasoning taste"),
    ("spice", "toast fragrant season seasoning rub marinade marinate"),
    ("herb", "garnish sprinkle scatter finish fragrant"),
    ("cheese", "top sprinkle scatter garnish melt melted layer grate"),
    ("nut", "top sprinkle scatter garnish toast"),
    ("leavening", "sift whisk dough batter"),
    ("yeast", "proof foamy frothy activate dissolve lukewarm"),
    ("pasta", "boil drain dente"),
    ("grain", "simmer boil fluff drain"),
    ("flour", "dough batter knead sift roux thicken dredge whisk crumble crumb"),
    ("starch", "thicken thickened slurry"),
    ("egg", "beat whisk crack scramble batter dough fold"),
    ("sugar", "cream whisk beat dissolve caramel sweeten syrup"),
    ("water", "boil simmer soak dissolve cover knead dough"),
    ("stock", "simmer boil deglaze scrape pour braise broth"),
    ("wine", "deglaze reduce simmer evaporate alcohol"),
    ("dairy", "pour whisk creamy sauce"),
    ("meat", "brown sear marinate grill slice cube"),
    ("poultry", "brown sear marinate grill slice cube"),
    ("vegetable", "chop dice slice peel cut saute sauteed soften soft translucent tender"),
    ("bread", "toast toasted soak serve assemble slice"),
    ("extract", "whisk beat cream batter"),
    ("citrus", "squeeze zest drizzle"),
    ("chocolate", "melt fold"),
    ("fruit", "peel core slice chop"),
];
