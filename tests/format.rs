//! Layout: the same however often it is asked for, of the same meaning as before, and as the format's own page has it.

use std::path::PathBuf;

use proptest::prelude::*;
use tamis::text::{Edit, Span};
use tamis_tests::{
    folder,
    laws::boundary,
    layout::{formatted, holds, manuscript},
};

fn mended(text: &str) -> String {
    Edit::put_into(text, &manuscript(text).mended().edits)
}

/// What is found in a text, the numbers of steps apart.
fn found(text: &str) -> Vec<String> {
    let found = manuscript(text).findings().into_iter().filter(|finding| finding.code != "step-numbering");
    let bare = |text: &str| text.split_whitespace().collect::<String>();
    found.map(|finding| format!("{} {}", finding.code, bare(finding.span.of(text)))).collect()
}

fn samples() -> Vec<(PathBuf, String)> {
    let mut all = [folder::samples(""), folder::samples("mistakes")].concat();
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

/// A blank before two slashes or two question marks would take what follows out of print.
#[test]
fn what_is_printed_does_not_become_a_comment() {
    for text in ["Recipe: Hut Soup\n\nStorage://  Keep it cold.\n", "Recipe: Hut Soup\n\nNotes:?? Or so they say.\n"] {
        assert_eq!(formatted(text), text);
        holds(text);
    }
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
        [text.clone(), text.replace('\n', "\r\n"), text.replace('\n', "\r")].iter().for_each(|text| holds(text));
        assert_eq!(found(&formatted(&text)), found(&text), "{}", path.display());
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
        holds(&text);
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
