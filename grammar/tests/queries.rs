//! The queries for editors fit the grammar, and mark two samples as listed.

mod common;

use std::collections::BTreeMap;

use tree_sitter::{Query, QueryCursor, StreamingIterator};
use tree_sitter_tamis::{
    FOLDS_QUERY, HIGHLIGHTS_QUERY, INDENTS_QUERY, INJECTIONS_QUERY, LOCALS_QUERY, NODE_TYPES, TAGS_QUERY,
};

const SAMPLES: &str = concat!(
    include_str!("../../samples/founders-day-pavlova.tamis"),
    "\n",
    include_str!("../../samples/gate-plum-pie.tamis")
);

/// What each capture of the highlights falls on in the samples: the first four different texts.
const HIGHLIGHTS: &[(&str, &[&str])] = &[
    (
        "comment",
        &[
            "the schedule is a separate booklet and its pages do not change",
            "// Ed., 3 March: must the sugar be superfine? Ines, 9 March: yes, ordinary sugar weeps.",
            "// Ed., 3 March: 1 tsp of vinegar or 1 tbsp? Ines, 9 March: a teaspoon, she has never measured it.",
            "a knob is what holds the paper down, and nobody has ever weighed it",
        ],
    ),
    ("constant", &["meringue", "crust", "filling", "crumbs"]),
    ("keyword", &["Recipe"]),
    ("keyword.directive", &["stet"]),
    ("keyword.modifier", &["about"]),
    ("label", &["page-number-typed", "measure-loose", "part-unused"]),
    ("markup.heading.1", &["Founder's Day Pavlova", "Gate Plum Pie"]),
    ("markup.heading.2", &["Ingredients", "Method", "Equipment"]),
    ("markup.heading.3", &["For the meringue", "For the top", "For the crust", "For the filling"]),
    ("markup.italic", &["for the baking sheet", "separated", "9 1/2 x 2 in (24 x 5 cm)", "pitted and sliced"]),
    ("markup.link", &["Plum Glut Jam", "Two-Crust Pastry"]),
    ("markup.list", &["1.", "2.", "3.", "4."]),
    ("number", &["8", "20", "35", "3"]),
    ("operator", &["=> meringue", "=> crust", "=> filling", "=> crumbs"]),
    ("property", &["Yield", "Serves", "Time", "Course"]),
    ("punctuation.bracket", &["[", "]", "[[", "]]"]),
    ("type", &["-inch", "cm", "min", "h"]),
    ("variable", &["sugar", "cornstarch", "vinegar", "meringue"]),
];

/// Every capture of `query` in `text`, in the order of the text: its name and what it falls on.
fn captures(query: &str, text: &str) -> Vec<(String, String)> {
    let query = Query::new(&common::language(), query).expect("the query fits the grammar");
    let tree = common::parse(text);
    let mut cursor = QueryCursor::new();
    let mut found = cursor.captures(&query, tree.root_node(), text.as_bytes());
    let mut out = Vec::new();
    while let Some((matched, at)) = found.next() {
        let capture = matched.captures()[*at];
        let name = query.capture_names()[capture.index as usize];
        out.push((name.to_owned(), text[capture.node.byte_range()].to_owned()));
    }
    out
}

fn texts(query: &str, name: &str, text: &str) -> Vec<String> {
    captures(query, text).into_iter().filter(|(capture, _)| capture == name).map(|(_, text)| text).collect()
}

#[test]
fn highlights_fall_on_what_the_table_says() {
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (capture, text) in captures(HIGHLIGHTS_QUERY, SAMPLES) {
        let texts = found.entry(capture).or_default();
        if !texts.contains(&text) {
            texts.push(text);
        }
    }
    found.remove("spell"); // whole items and steps
    found.values_mut().for_each(|texts| texts.truncate(4));
    let found: Vec<(&str, Vec<&str>)> =
        found.iter().map(|(capture, texts)| (capture.as_str(), texts.iter().map(String::as_str).collect())).collect();
    let expected: Vec<(&str, Vec<&str>)> =
        HIGHLIGHTS.iter().map(|(capture, texts)| (*capture, texts.to_vec())).collect();
    assert_eq!(found, expected);
}

#[test]
fn what_the_samples_lack_is_coloured_too() {
    let text = "Recipe: Toast\n\nMethod:\n\n1. Toast \\[twice\\].\n?? Once?\n";
    assert_eq!(texts(HIGHLIGHTS_QUERY, "string.escape", text), ["\\[", "\\]"]);
    assert_eq!(texts(HIGHLIGHTS_QUERY, "comment.todo", text), ["?? Once?"]);
    assert_eq!(texts(INJECTIONS_QUERY, "injection.content", text), ["?? Once?"]);
}

#[test]
fn recipes_and_sections_fold() {
    let opening = |fold: String| fold.lines().next().unwrap_or_default().to_owned();
    let folds: Vec<String> = texts(FOLDS_QUERY, "fold", SAMPLES).into_iter().map(opening).collect();
    let pavlova = ["Recipe: Founder's Day Pavlova", "Ingredients:", "Method:"];
    let pie = ["Recipe: Gate Plum Pie", "Equipment:", "Ingredients:", "Method:"];
    assert_eq!(folds[..3], pavlova);
    assert_eq!(folds[3..7], pie);
}

#[test]
fn only_items_and_steps_go_on_indented() {
    let indented = texts(INDENTS_QUERY, "indent.begin", SAMPLES);
    assert_eq!(indented, texts(INDENTS_QUERY, "indent", SAMPLES));
    let items_and_steps =
        indented.iter().all(|text| text.starts_with(|first: char| first == '-' || first.is_ascii_digit()));
    assert!(items_and_steps && indented.len() > 20, "{indented:?}");
    assert_eq!(texts(INDENTS_QUERY, "indent.zero", SAMPLES)[0], "Recipe");
}

#[test]
fn results_are_defined_and_mentioned_inside_one_recipe() {
    assert_eq!(texts(LOCALS_QUERY, "local.definition", SAMPLES), ["meringue", "crust", "filling", "crumbs"]);
    assert_eq!(texts(LOCALS_QUERY, "local.scope", SAMPLES).len(), 2);
    assert_eq!(texts(LOCALS_QUERY, "local.reference", SAMPLES)[..4], ["sugar", "cornstarch", "vinegar", "meringue"]);
}

#[test]
fn recipes_groups_results_and_references_are_tagged() {
    let recipes = texts(TAGS_QUERY, "definition.module", SAMPLES);
    assert_eq!(recipes.len(), 2);
    assert_eq!(texts(TAGS_QUERY, "reference.module", SAMPLES), ["[[Plum Glut Jam]]", "[[Two-Crust Pastry]]"]);
    let groups: Vec<String> = texts(TAGS_QUERY, "definition.section", SAMPLES);
    assert_eq!(groups.iter().map(|group| group.trim_end()).collect::<Vec<_>>(), GROUPS);
}

const GROUPS: [&str; 5] =
    ["For the meringue:", "For the top:", "For the crust:", "For the filling:", "For the crumbs:"];

#[test]
fn the_list_of_node_types_is_that_of_the_language() {
    let language = common::language();
    for kind in (0..language.node_kind_count() as u16).filter(|&id| language.node_kind_is_visible(id)) {
        let name = language.node_kind_for_id(kind).expect("every id has a name");
        if language.node_kind_is_named(kind) && name != "ERROR" {
            assert!(NODE_TYPES.contains(&format!("\"type\": \"{name}\"")), "{name} is in no line of node-types.json");
        }
    }
}
