//! `serves-implausible`: a serving is far smaller, or far larger, than anybody eats of such a dish.

use uom::si::{f64::Mass, mass::gram};

use super::{
    Check, Finding, Severity, View,
    finding::Certainty,
    support::{vessels_filled as filled, words},
};
use crate::{
    larder::words::fold,
    measure::Interval,
    recipe::{Ingredient, Recipe, batch::weigh, yields},
    text::{Span, Words},
};

/// The check.
pub const CHECK: Check =
    Check { code: "serves-implausible", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// A course, the words that name it, and what one is served of it: the smallest and the largest reference amount in grams
/// (21 CFR 101.12(b), table 2; for dishes with meat also 9 CFR 381.412, table 2).
struct Course {
    names: Words,
    least: f64,
    most: f64,
    /// Whether the words name it in a title as well: "Soup" does, "main" does not.
    in_title: bool,
    /// Whether a yield that is a bare number can only be servings of it.
    bare: bool,
}

const COURSES: &[Course] = &[
    // Soups and mixed dishes that are measured with a cup: 1 cup; a soup weighs 245 g.
    Course {
        names: Words::new("soup stew chowder chili curry goulash ragout gumbo"),
        least: 245.0,
        most: 245.0,
        in_title: true,
        bare: true,
    },
    // From a piece of meat without a sauce (85 g cooked) to a mixed dish that is measured with a cup.
    Course { names: Words::new("main entree dinner supper"), least: 85.0, most: 245.0, in_title: false, bare: true },
    // From vegetables (85 g) to a potato or pasta salad (140 g).
    Course { names: Words::new("side salad"), least: 85.0, most: 140.0, in_title: false, bare: true },
    // From light cake (55 g) to pies and cobblers (125 g).
    Course {
        names: Words::new("cake gateau torte cheesecake pie tart cobbler crumble pudding"),
        least: 55.0,
        most: 125.0,
        in_title: true,
        bare: false,
    },
    Course { names: Words::new("dessert"), least: 55.0, most: 125.0, in_title: false, bare: false },
];

/// How far from the reference amounts a serving may be: a third of the smallest, six times the largest. The amounts say what people
/// eat at one sitting; cookbooks serve twice that, and a dish may be one of many or the whole meal (the factors are our own).
const LESS: f64 = 3.0;
const MORE: f64 = 6.0;

/// What is thrown away, or poured off, or is no food, makes the weight of the list no measure of what is eaten. Folded.
const NOT_ALL_EATEN: &[&str] = &["strain", "discard", "drain", "brine", "marinade", "marinate", "soak", "rinse"];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    if recipe.steps.is_empty() || !recipe.damage.is_empty() {
        return;
    }
    let Some(course) = course(recipe) else { return };
    let bare = || yields::bare_number(recipe).filter(|_| course.bare);
    let Some((serves, place)) = yields::servings(recipe).or_else(bare) else { return };
    out.extend(finding(view, course, &serves, place));
}

fn finding(view: &View<'_>, course: &Course, serves: &Interval, place: Span) -> Option<Finding> {
    let least_served = serves.least.max(1.0);
    let most = view.everything().weight.map(|weight| weight / least_served);
    let (low, high) = (Mass::new::<gram>(course.least / LESS), Mass::new::<gram>(course.most * MORE));
    let (serving, way) = match most {
        Some(most) if most < low => (most, "at most"),
        // Nobody eats more than everything.
        Some(most) if most <= high => return None,
        _ => (Some(eaten(view) / serves.most?.max(1.0)).filter(|least| *least > high)?, "at least"),
    };
    let usual = if course.least < course.most {
        format!("{} to {} g", course.least, course.most)
    } else {
        format!("{} g", course.most)
    };
    let (few, do_what) = if way == "at most" { ("hungry", "fewer") } else { ("with far too much", "more") };
    let message = format!(
        "Everything in the list comes to {way} {} a serving, and the usual reference is {usual}. Whoever cooks it for so many leaves them \
         {few}. Look at the amounts, or let it serve {do_what}.",
        filled::weight(serving, &view.house.measures),
    );
    let found = Finding::new(CHECK.code, CHECK.severity, place, message).certainty(Certainty::Likely);
    Some(found)
}

/// The course, where the `Course` line or the title leaves no doubt.
fn course(recipe: &Recipe) -> Option<&'static Course> {
    let header = recipe.headers_called("course").next();
    let named = |text: &str, titles: bool| {
        // The last word of a title says what it is: "carrot cake", and not "cake crumbs".
        let count = if titles { 1 } else { usize::MAX };
        let words: Vec<_> = text.rsplit(|c: char| !c.is_alphabetic()).take(count).map(fold).collect();
        COURSES
            .iter()
            .find(|course| (course.in_title || !titles) && words.iter().any(|word| course.names.contains(word)))
    };
    // A title that says `stew` tells more than a course that says `main`.
    let title = named(words::plain(recipe.name()).trim_end_matches(|c: char| !c.is_alphabetic()), true);
    title.or_else(|| named(recipe.at(header?.1.value), false))
}

/// What is surely eaten of what the list has: without water, fat for frying, what is optional or for the table, and the share that
/// meat may lose.
fn eaten(view: &View<'_>) -> Mass {
    let recipe = view.recipe;
    if filled::method_says(recipe, NOT_ALL_EATEN) {
        return Mass::default();
    }
    let counts = |line: &Ingredient| {
        let tags = line.tags;
        let food = weigh::name(line).and_then(|name| name.food);
        let no_meal =
            food.is_some_and(|food| ["water", "ice", "oil", "stock", "salt"].iter().any(|kind| food.is(kind)));
        !(tags.optional || tags.serving || tags.pan || tags.remark || no_meal)
    };
    let lines =
        recipe.ingredients.iter().enumerate().filter(|(index, line)| counts(line) && recipe.flow.is_used(*index));
    let weighed = lines.map(|(index, line)| {
        let meat = line
            .names
            .iter()
            .any(|name| name.food.is_some_and(|food| food.is("meat") || food.is("poultry") || food.is("fish")));
        // Three fifths, the least that meat keeps, and a bone besides.
        view.stocks().of(index, None).weight.least * if meat { 0.4 } else { 1.0 }
    });
    weighed.fold(Mass::default(), |sum, weight| sum + weight)
}
