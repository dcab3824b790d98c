//! Damage stays where it is: typing in one place leaves the items and steps elsewhere alone, a parse after an edit is that of the
//! whole text, and no input keeps the parser busy.

mod common;

use std::{collections::HashSet, ops::Range, sync::mpsc, thread, time::Duration};

use proptest::{
    prelude::*,
    strategy::ValueTree as _,
    test_runner::{Config, RngAlgorithm, TestRng, TestRunner},
};
use tree_sitter::{InputEdit, Parser, Point, Tree};

/// Up to `removed` characters behind a place, given as a share of the text, and what is typed there instead.
type Edit = (f64, usize, String);

fn edits() -> impl Strategy<Value = Edit> {
    let place = || 0.0..1.0_f64;
    let typed = proptest::collection::vec(
        proptest::sample::select(" \n\r\t[]()/=>?:-,.\\019abeTxZ½°é\u{0}".chars().collect::<Vec<char>>()),
        1..6,
    );
    prop_oneof![
        (place(), 1..6_usize).prop_map(|(place, removed)| (place, removed, String::new())),
        (place(), typed).prop_map(|(place, typed)| (place, 0, typed.into_iter().collect())),
    ]
}

/// The bytes that an edit replaces.
fn replaced(text: &str, (place, removed, _): &Edit) -> Range<usize> {
    let places: Vec<usize> = text.char_indices().map(|(byte, _)| byte).chain([text.len()]).collect();
    let first = ((places.len() - 1) as f64 * place) as usize;
    places[first]..places[(first + removed).min(places.len() - 1)]
}

/// Always the same edits, so that a count over them is no matter of luck.
fn runner() -> TestRunner {
    TestRunner::new_with_rng(Config::default(), TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

/// Items and steps: where each starts and stops, and what is in it.
fn entries(text: &str) -> Vec<(Range<usize>, String)> {
    let tree = common::parse(text);
    let mut out = Vec::new();
    common::walk(tree.root_node(), &mut |node| {
        if ["item", "step"].contains(&node.kind()) {
            let own = text[node.byte_range()].trim_end();
            let range = node.start_byte()..node.start_byte() + own.len();
            out.push((range, format!("{own}\n{}", common::outline(node, None))));
        }
    });
    out
}

/// From the start of the line before `entry` to the start of the line behind it.
fn surroundings(text: &str, entry: &Range<usize>) -> Range<usize> {
    let own_line = text[..entry.start].rfind('\n').map_or(0, |at| at + 1);
    let line_before = text[..own_line.saturating_sub(1)].rfind('\n').map_or(0, |at| at + 1);
    line_before..text[entry.end..].find('\n').map_or(text.len(), |at| entry.end + at + 1)
}

#[test]
fn an_edit_leaves_the_items_and_steps_elsewhere_alone() {
    let samples: Vec<(String, String)> = common::samples()
        .into_iter()
        .filter(|(path, _)| !path.components().any(|part| part.as_os_str() == "mistakes"))
        .map(|(path, text)| (path.display().to_string(), text))
        .collect();
    let mut runner = runner();
    let (mut kept, mut total, mut lost) = (0, 0, String::new());
    for trial in 0..1000 {
        let (path, text) = &samples[trial % samples.len()];
        let edit = edits().new_tree(&mut runner).expect("an edit").current();
        let hole = replaced(text, &edit);
        let edited = [&text[..hole.start], &edit.2, &text[hole.end..]].concat();
        let found: HashSet<(usize, String)> = entries(&edited).into_iter().map(|(at, tree)| (at.start, tree)).collect();
        let mut lost_here = 0;
        for (entry, tree) in entries(text) {
            let near = surroundings(text, &entry);
            if hole.start <= near.end && near.start <= hole.end {
                continue;
            }
            let moved = if entry.start >= hole.end { entry.start - hole.len() + edit.2.len() } else { entry.start };
            total += 1;
            if found.contains(&(moved, tree)) {
                kept += 1;
            } else {
                lost_here += 1;
            }
        }
        if lost_here > 0 {
            let line = text[..hole.start].lines().count();
            lost += &format!("{lost_here} lost: {path}:{line}: {:?} became {:?}\n", &text[hole], edit.2);
        }
    }
    assert!(total > 10_000, "only {total} items and steps compared");
    assert!(kept * 100 >= total * 99, "{kept} of {total} kept\n{lost}");
}

/// Parses again after an edit; lines and columns are left out, as the server leaves them out.
fn parse_again(parser: &mut Parser, mut old: Tree, text: &str, hole: &Range<usize>, typed: usize) -> Tree {
    let point = |column| Point { row: 0, column };
    let end = hole.start + typed;
    old.edit(&InputEdit {
        start_byte: hole.start,
        old_end_byte: hole.end,
        new_end_byte: end,
        start_position: point(hole.start),
        old_end_position: point(hole.end),
        new_end_position: point(end),
    });
    parser.parse(text, Some(&old)).expect("a parser with a language always gives a tree")
}

fn nodes(tree: &Tree) -> Vec<(String, Range<usize>, bool)> {
    let mut out = Vec::new();
    common::walk(tree.root_node(), &mut |node| {
        out.push((node.kind().to_owned(), node.byte_range(), node.is_missing()))
    });
    out
}

#[test]
fn a_parse_after_an_edit_is_that_of_the_whole_text() {
    let samples = common::samples();
    let (mut parser, mut runner) = (common::parser(), runner());
    let (mut count, mut differ) = (0, String::new());
    for (path, sample) in &samples {
        let mut text = sample.clone();
        let mut tree = common::parse(&text);
        for _ in 0..10 {
            let edit = edits().new_tree(&mut runner).expect("an edit").current();
            let hole = replaced(&text, &edit);
            let before = text.clone();
            text.replace_range(hole.clone(), &edit.2);
            tree = parse_again(&mut parser, tree, &text, &hole, edit.2.len());
            count += 1;
            let fresh = common::parse(&text);
            if nodes(&tree) != nodes(&fresh) {
                let line = before[..hole.start].lines().count();
                differ += &format!("{}:{line}: {:?} became {:?}\n", path.display(), &before[hole], edit.2);
                tree = fresh;
            }
        }
    }
    assert!(differ.is_empty(), "of {count} edits these differ\n{differ}");
}

/// What follows a number is lexed behind the number or, where that is taken over from the old tree, behind the whole measure: with the same
/// outcome.
#[test]
fn behind_a_number_a_parse_after_an_edit_is_that_of_the_whole_text() {
    for (from, old, new, beside) in [
        ("Recipe: T\n\nMethod:\n\n1. Stir.\nx \nBake.\n", "x", "½// ", "Stir"),
        ("Recipe: T\n\nIngredients:\n- 3/4 cup (180 ml) milk\n", " (", "½", "cup"),
        ("Recipe: T\n\nMethod:\n\n1. Bake 4 minutes at 350 °F. => rolls\n", "0 °F.", "-a dozen", "minutes"),
    ] {
        let mut parser = common::parser();
        let (at, near) = (from.find(old).expect("it stands there"), from.find(beside).expect("it stands there"));
        let text = from.replacen(old, new, 1);
        let tree = parse_again(&mut parser, common::parse(from), &text, &(at..at + old.len()), new.len());
        // Nothing is typed, but what stands near it is parsed again.
        let again = parse_again(&mut parser, tree, &text, &(near..near), 0);
        assert_eq!(nodes(&again), nodes(&common::parse(&text)), "{text}");
    }
}

#[test]
fn no_input_keeps_the_parser_busy() {
    let method = "Recipe: T\n\nMethod:\n\n1. ";
    let odd = [
        ("words that may open a measure and do not", format!("{method}gas] about. at, up; half! a")),
        ("NUL", format!("{method}{}", "\0 a \0".repeat(5_000))),
        ("lone CR", "Recipe: T\r\rMethod:\r\r1. Stir.\r".repeat(500)),
        ("a line of 100 KB of words", format!("{method}{}", "stir the pot and ".repeat(6_000))),
        ("a line of 100 KB of figures", format!("{method}{}", "1 1/2-".repeat(17_000))),
        ("a line of 100 KB without a space", format!("{method}{}", "a".repeat(100_000))),
        ("brackets that open", format!("{method}{}", "[".repeat(3_000))),
        ("parentheses that open in an item", format!("Recipe: T\n\nIngredients:\n\n- {}", "(".repeat(3_000))),
        ("measures that open parentheses", format!("{method}{}", "1 cup (".repeat(3_000))),
        ("results without a name", format!("{method}{}", "=> ".repeat(3_000))),
    ];
    for (name, text) in odd {
        let (done, finished) = mpsc::channel();
        let length = text.len();
        thread::spawn(move || done.send(common::parse(&text).root_node().end_byte()));
        let end =
            finished.recv_timeout(Duration::from_secs(60)).unwrap_or_else(|_| panic!("{name}: no tree in a minute"));
        assert_eq!(end, length, "{name}: the tree stops early");
    }
}
