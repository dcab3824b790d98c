//! Lists and methods in many hands: who uses what, where nothing may be said, and what has to be found.
//!
//! The situations are common practice of recipe writing and editing, no source; the wording and the kitchen are ours.

use std::{collections::BTreeSet, sync::Arc};

use tamis::{
    book::House,
    checks::Severity,
    larder::larder,
    measure::{Cup, Measures},
    recipe::{Recipe, read},
    syntax::Tree,
    workspace::Manuscript,
};
use tamis_tests::cases::{Case, cases};

fn recipe(text: &str) -> Recipe {
    read(text, &Tree::parse(text).expect("the grammar fits the parser"), larder())
}

/// The steps of a list like `1, 3`; none for `none`.
fn steps(list: &str) -> Vec<usize> {
    list.split(", ").filter_map(|step| step.parse().ok()).collect()
}

/// What differs from the steps that a case gives for its lines.
fn differences(case: &Case) -> Vec<String> {
    let recipe = recipe(&case.manuscript);
    let lines: Vec<_> = case.list.iter().filter_map(|(words, steps)| Some((words, steps.as_ref()?))).collect();
    assert_eq!(recipe.ingredients.len(), lines.len(), "lines of {}", case.title);
    let mut out = Vec::new();
    for (index, (words, expected)) in lines.into_iter().enumerate() {
        let mut found: Vec<usize> = recipe.flow.uses(index).iter().map(|found| found.step + 1).collect();
        found.dedup();
        if found != steps(expected) {
            out.push(format!("{}: {words} -> {found:?} and not {expected}", case.title));
        }
    }
    let foods =
        recipe.flow.unlisted.iter().map(|found| (recipe.at(found.span).to_owned(), (found.step + 1).to_string()));
    let foods: Vec<_> = foods.collect();
    if foods != case.unlisted {
        out.push(format!("{}: the list lacks {foods:?} and not {:?}", case.title, case.unlisted));
    }
    out
}

/// Recipes in the ways that people write them. Each line names the steps that a reader would say use it: handling counts, a
/// cue that names it does not, nor does a mixture that is called after it.
#[test]
fn in_many_hands() {
    let all = cases(include_str!("linking/hands.txt"));
    assert!(all.len() >= 60, "{} recipes", all.len());
    let wrong: Vec<String> = all.iter().flat_map(differences).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The checks that a list and its method are held to.
const OF_LIST_AND_METHOD: &[&str] = &[
    "ingredient-unused",
    "ingredient-unlisted",
    "mention-ambiguous",
    "share-exceeds",
    "share-left-over",
    "rest-of-nothing",
    "result-unused",
    "result-used-early",
    "result-used-up",
    "part-unused",
    "order-of-use",
    "divided-missing",
    "divided-needless",
    "listed-twice",
    "part-used-up",
    "used-again",
    "count-disagrees",
    "form-disagrees",
    "group-disagrees",
    "reserved-unused",
    "reserved-missing",
    "discarded-used",
    "optional-needed",
    "pronoun-unclear",
    "promised-unlisted",
    "pan-not-prepared",
    "equipment-unlisted",
    "equipment-unused",
];

/// Wordings that a naive reading stumbles over, numbered as in our table of them: nothing may be said of any. Where the line
/// says `hint`, a hint may.
#[test]
fn stays_silent() {
    let mut wrong = Vec::new();
    for case in cases(include_str!("linking/false_alarms.txt")) {
        let number = case.title.split(':').next().unwrap_or_default();
        let quietest = if number.ends_with("hint") { Severity::Info } else { Severity::Hint };
        let found = Manuscript::new(&case.manuscript, Arc::default()).findings();
        let own =
            found.into_iter().filter(|found| OF_LIST_AND_METHOD.contains(&found.code) && found.severity <= quietest);
        wrong.extend(own.map(|found| format!("{}: {} {}", case.title, found.code, found.message)));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The checks that read heat, times, vessels and yield.
const OF_HEAT_TIME_AND_YIELD: &[&str] = &[
    "oven-not-heated",
    "oven-heated-unused",
    "oven-heated-early",
    "step-without-end",
    "time-total",
    "time-implausible",
    "temperature-implausible",
    "step-numbering",
    "vessel-overfilled",
    "vessel-nearly-empty",
    "portions-short",
    "portions-over",
    "serves-implausible",
    "yield-missing",
    "unit-unknown",
    "number-malformed",
    "measure-loose",
];

/// The same of heat, times, vessels and yield; and of list and method in the same recipes.
#[test]
fn stays_silent_at_the_stove() {
    let mut wrong = Vec::new();
    for case in cases(include_str!("linking/false_alarms_of_heat.txt")) {
        let found = Manuscript::new(&case.manuscript, Arc::default()).findings();
        let own = |code: &str| OF_LIST_AND_METHOD.contains(&code) || OF_HEAT_TIME_AND_YIELD.contains(&code);
        let own = found.into_iter().filter(|found| own(found.code));
        wrong.extend(own.map(|found| format!("{}: {} {}", case.title, found.code, found.message)));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Wordings of measures and proportions: nothing may be said of any, by whatever check. Where the line says `hint`, a hint may,
/// and what nobody can measure may be asked about.
#[test]
fn stays_silent_at_the_scales() {
    let mut wrong = Vec::new();
    for case in cases(include_str!("linking/false_alarms_of_measures.txt")) {
        let heritage = case.title.split(':').next().is_some_and(|rows| rows.ends_with("hint"));
        let found = Manuscript::new(&case.manuscript, Arc::default()).findings();
        let own = found.into_iter().filter(|found| found.severity <= Severity::Info);
        let own = own.filter(|found| !(heritage && found.code == "measure-loose"));
        wrong.extend(own.map(|found| format!("{}: {} {}", case.title, found.code, found.message)));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// In a house that measures with the metric cup, a cup is 250 ml.
#[test]
fn the_cup_is_that_of_the_house() {
    let text = "Recipe: Trial\nServes: 4\n\nIngredients:\n- 2 cups (500 ml) milk\n- 1 cup (250 ml) cream\n\n\
                Method:\n\n1. Warm the milk with the cream until it steams.\n";
    let house = House { measures: Measures { cup: Cup::Metric, ..Measures::default() }, ..House::default() };
    let found = Manuscript::new(text, Arc::new(house)).findings();
    assert!(found.is_empty(), "{found:#?}");
    let found = Manuscript::new(text, Arc::default()).findings();
    assert!(found.iter().any(|found| found.code == "restated-other-cup"), "{found:#?}");
}

/// The faults that editors find between list and method, numbered as in our table of them: the check that the line names has to
/// find each, where the case says, and none of them has a word to say of the same recipe as it should be.
#[test]
fn has_to_be_found() {
    let all = cases(include_str!("linking/faults.txt"));
    let mut wrong = Vec::new();
    for case in &all {
        let code = case.title.split([' ', ':']).nth(1).unwrap_or_default();
        let found = Manuscript::new(&case.manuscript, Arc::default()).findings();
        let marks: Vec<_> = found.iter().map(|found| (found.code, found.span.of(&case.manuscript))).collect();
        if !marks.contains(&(code, case.marked.as_deref().unwrap_or_default())) {
            wrong.push(format!("{}: only {marks:?}", case.title));
        }
        let sound = case.sound();
        let still = Manuscript::new(&sound, Arc::default()).findings();
        let still = still.iter().filter(|found| OF_LIST_AND_METHOD.contains(&found.code));
        wrong.extend(still.map(|found| format!("{}, mended: {} {}", case.title, found.code, found.message)));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    let rows: BTreeSet<_> = all.iter().filter_map(|case| case.title.split(' ').next()).collect();
    assert_eq!(rows, (1..=34).map(|row| format!("L{row:02}")).collect::<Vec<_>>().iter().map(String::as_str).collect());
}
