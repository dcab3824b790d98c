//! Layout: the same however often it is asked for, of the same meaning as before, and as the format's own page has it.

use std::{
    fs,
    path::{Path, PathBuf},
    sync::Arc,
};

use proptest::prelude::*;
use tamis::{
    book::House,
    text::{Edit, Span},
    workspace::Manuscript,
};

fn manuscript(text: &str) -> Manuscript {
    Manuscript::new(text, Arc::new(House::default()))
}

fn formatted(text: &str) -> String {
    Edit::put_into(text, &manuscript(text).formatted())
}

fn mended(text: &str) -> String {
    Edit::put_into(text, &manuscript(text).mended().edits)
}

/// What a recipe says, told in the words of this test and not of the formatter: who uses how much of what in which step, what
/// each line and step says. How wide a gap is, and the number of a step, say nothing.
fn meaning(text: &str) -> Vec<String> {
    let bare = |text: &str| text.split_whitespace().collect::<String>();
    let mut facts = Vec::new();
    let held = manuscript(text);
    for (_, recipe) in held.recipes() {
        facts.push(bare(recipe.name()));
        facts.extend(recipe.headers.iter().map(|header| bare(recipe.at(header.value))));
        for (index, line) in recipe.ingredients.iter().enumerate() {
            facts.push(format!("{} {:?}", bare(recipe.at(line.span)), line.group));
            let uses = recipe.flow.uses(index);
            facts.extend(uses.iter().map(|found| format!("{} {:?} {:?}", found.step, found.part, found.taken)));
        }
        facts.extend(recipe.equipment.iter().map(|line| bare(recipe.at(line.span))));
        facts.extend(recipe.steps.iter().map(|step| bare(recipe.at(Span::new(step.body.start, step.span.end)))));
        let numbers = recipe.measures.iter().flat_map(|measure| measure.statements());
        facts.extend(numbers.map(|stated| format!("{:?}", stated.amounts())));
        for spans in [&recipe.tests, &recipe.queries, &recipe.headnotes] {
            facts.extend(spans.iter().map(|span| bare(recipe.at(*span))));
        }
        facts.extend(recipe.stets.iter().map(|stet| bare(recipe.at(stet.span))));
    }
    facts
}

/// What is found in a text, the numbers of steps apart.
fn found(text: &str) -> Vec<String> {
    let found = manuscript(text).findings().into_iter().filter(|finding| finding.code != "step-numbering");
    let bare = |text: &str| text.split_whitespace().collect::<String>();
    found.map(|finding| format!("{} {}", finding.code, bare(finding.span.of(text)))).collect()
}

/// Comments as they are written, and everything else that is written for no reader.
fn kept(text: &str) -> Vec<String> {
    let begins = |line: &str, at: &usize| *at == 0 || line[..*at].ends_with([' ', '\t']);
    let comment = |line: &str| line.match_indices("//").map(|(at, _)| at).find(|at| begins(line, at));
    text.lines().filter_map(|line| comment(line).map(|at| line[at..].trim_end().to_owned())).collect()
}

#[track_caller]
fn holds(text: &str) -> Result<(), TestCaseError> {
    let once = formatted(text);
    prop_assert_eq!(formatted(&once), once.clone(), "laid out twice:\n{}", text);
    prop_assert_eq!(meaning(&once), meaning(text), "{}\nbecame\n{}", text, once);
    prop_assert_eq!(kept(&once), kept(text));
    let foreign = |text: &str| (text.matches("\r\n").count(), text.matches('\r').count(), text.matches('\n').count());
    let (pairs, returns, feeds) = foreign(&once);
    let (had_pairs, had_returns, had_feeds) = foreign(text);
    prop_assert!(had_returns > 0 || returns == 0);
    prop_assert!(had_pairs < had_feeds || pairs == feeds);
    prop_assert!(had_pairs < had_returns || pairs == returns);
    Ok(())
}

fn samples() -> Vec<(PathBuf, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples");
    let mut all = Vec::new();
    for folder in [folder.clone(), folder.join("mistakes")] {
        let entries =
            fs::read_dir(folder).expect("the samples can be read").map(|entry| entry.expect("an entry").path());
        let texts = entries.filter(|path| path.extension().is_some_and(|ending| ending == "tamis"));
        all.extend(texts.map(|path| (path.clone(), fs::read_to_string(path).expect("a sample is text"))));
    }
    all.sort();
    all
}

/// Manuscripts before and after, as authors type and paste them.
const LAID_OUT: &[(&str, &str, &str)] = &[
    (
        "labels, markers, numbers, restatements, results, the end",
        "\n\nrecipe:Bean Supper  \nSERVES:  4\nIngredients:\n-  2 cups(475 ml)  water\n•\t1 lb  ( 450 g ) beans\n\n\n\nMETHOD:\n\n1.Soak the beans in the water.=>soaked beans\n\n\n3.  Simmer the soaked beans, 40 minutes.\n\n\n",
        "Recipe: Bean Supper\nServes: 4\n\nIngredients:\n- 2 cups (475 ml) water\n• 1 lb (450 g) beans\n\nMethod:\n\n1. Soak the beans in the water. => soaked beans\n\n2. Simmer the soaked beans, 40 minutes.\n",
    ),
    (
        "numbers start again where the author has them start again, and steps without a number have none",
        "Recipe: Pie\n\nMethod:\n\nFor the crust:\n\n1. Rub.\n\n1. Roll.\n\nFor the filling:\n\n1) Stir.\n\n4) Pour.\n\nRest.\n",
        "Recipe: Pie\n\nMethod:\n\nFor the crust:\n\n1. Rub.\n\n2. Roll.\n\nFor the filling:\n\n1) Stir.\n\n2) Pour.\n\nRest.\n",
    ),
    (
        "where the text speaks of steps by number, they keep theirs",
        "Recipe: Pie\n\nMethod:\n\n1. Rub.\n\n3. Roll.\n\nNotes: Do step 3 in the cold.\n",
        "Recipe: Pie\n\nMethod:\n\n1. Rub.\n\n3. Roll.\n\nNotes: Do step 3 in the cold.\n",
    ),
    (
        "remarks stay with the section that they stand above; a stet too",
        "Recipe: Pie\nServes: 4\n// by Thursday\nIngredients:\n- 1 cup flour\n\nstet section-order: the way we set it\nMethod:\n\nRub.\n",
        "Recipe: Pie\nServes: 4\n\n// by Thursday\nIngredients:\n- 1 cup flour\n\nstet section-order: the way we set it\nMethod:\n\nRub.\n",
    ),
    (
        "comments stay lined up, marks as they are written, prose as it is broken",
        "Recipe: Pie\n\nIngredients:\n- 1 cup  flour   // ours\n- 2 eggs         // hers\n\nMethod:\n\n1. Rub  the flour\n    with [half  the flour].\n",
        "Recipe: Pie\n\nIngredients:\n- 1 cup flour   // ours\n- 2 eggs         // hers\n\nMethod:\n\n1. Rub  the flour\n    with [half  the flour].\n",
    ),
];

#[test]
fn manuscripts_are_laid_out_as_the_format_has_it() {
    for (what, before, after) in LAID_OUT {
        assert_eq!(&formatted(before), after, "{what}");
        for ending in ["\r\n", "\r"] {
            let own = |text: &str| format!("\u{feff}{}", text.replace('\n', ending));
            // Behind a byte-order mark no line is blank.
            let (before, after) = (before.trim_start(), after.trim_start());
            assert_eq!(formatted(&own(before)), own(after), "{what}, lines that end in {ending:?}");
        }
    }
}

#[test]
fn what_is_no_recipe_loses_only_the_blanks_that_nobody_sees() {
    assert_eq!(formatted("  A note\t\n\n\n\nabout  beans"), "  A note\n\n\n\nabout  beans\n");
    assert_eq!(formatted(""), "");
    assert_eq!(formatted("\n \n"), "\n\n");
}

#[test]
fn the_samples_are_laid_out_already() {
    for (path, text) in samples().into_iter().filter(|(path, _)| !path.to_string_lossy().contains("mistakes")) {
        assert_eq!(formatted(&text), text, "{}", path.display());
    }
}

#[test]
fn every_sample_keeps_its_meaning() {
    for (path, text) in samples() {
        let held = [text.clone(), text.replace('\n', "\r\n"), text.replace('\n', "\r")]
            .iter()
            .try_for_each(|text| holds(text));
        assert_eq!(found(&formatted(&text)), found(&text), "{}", path.display());
        held.unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
    }
}

#[test]
fn mending_comes_to_an_end_in_every_sample_and_laying_out_does_not_undo_it() {
    for (path, text) in samples() {
        let all = manuscript(&text).mended();
        assert!(!all.unsettled, "{}", path.display());
        let mended = mended(&text);
        assert_eq!(manuscript(&mended).mended().edits, [], "{}", path.display());
        let laid_out = formatted(&mended);
        assert_eq!(manuscript(&laid_out).mended().count, 0, "{}", path.display());
    }
}

/// The last place at or before `at` where a character starts, or the text ends.
fn boundary(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or_default()
}

/// A sample that somebody was careless with: bytes taken out, put in and doubled, blanks and line breaks mostly.
fn damaged() -> impl Strategy<Value = String> {
    let all: Vec<String> = samples().into_iter().map(|(_, text)| text).collect();
    let sign = prop_oneof![
        4 => prop::sample::select(vec!["\n", "\n\n", " ", "  ", "\t", "  \n", "\n  "]),
        2 => prop::sample::select(vec!["(", ")", "[", "]", "=>", "- ", "3. ", ":", "// ", "?? ", "stet a: b\n", "\\", "1/2", "🥚"]),
        1 => Just(""),
    ];
    let slips = prop::collection::vec((any::<prop::sample::Index>(), sign, 0usize..3), 1..12);
    (prop::sample::select(all), slips).prop_map(|(mut text, slips)| {
        for (place, sign, gone) in slips {
            let at = boundary(&text, place.index(text.len().max(1)));
            let end = boundary(&text, at + gone);
            text.replace_range(at..end.max(at), sign);
        }
        text
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_samples_keep_their_meaning(text in damaged()) {
        holds(&text)?;
    }

    #[test]
    fn a_range_is_laid_out_as_the_whole_is_but_for_numbers(text in damaged(), place: prop::sample::Index) {
        let at = boundary(&text, place.index(text.len().max(1)));
        let held = manuscript(&text);
        let within = held.formatted_within(Span::at(at));
        let start = text[..at].rfind('\n').map_or(0, |at| at + 1);
        let end = text[at..].find('\n').map_or(text.len(), |found| at + found);
        prop_assert!(within.iter().all(|edit| start <= edit.span.start && edit.span.end <= end));
    }
}
