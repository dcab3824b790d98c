//! A recipe is parsed part by part. What comes out is what the grammar makes of the whole.

use std::collections::BTreeSet;

use tamis::syntax::{Kind, Tree, parts};
use tamis::text::Span;
use tamis_tests::folder;

/// The nodes below the manuscript and the recipe, of which each part has its own. A list or a method that goes on in another part reaches to
/// where that part of it ends.
fn by_parts(text: &str) -> BTreeSet<String> {
    let tree = Tree::parse(text).expect("the grammar fits the parser");
    let mut open: Vec<_> = tree.roots().map(|(_, root)| root).collect();
    open.reverse();
    let mut found: Vec<(Kind, Span)> = Vec::new();
    while let Some(node) = open.pop() {
        match node.kind() {
            Kind::Manuscript | Kind::Recipe => {}
            Kind::More => {
                let section = found.iter_mut().rfind(|(kind, _)| SECTIONS.contains(kind));
                section.expect("a section to go on with").1.end = node.span().end;
            }
            kind => found.push((kind, node.span())),
        }
        let behind = open.len();
        open.extend(node.children());
        open[behind..].reverse();
    }
    found.into_iter().map(|(kind, span)| format!("{kind:?} {:?}", span.of(text)) + &place(span)).collect()
}

const SECTIONS: [Kind; 4] = [Kind::EquipmentSection, Kind::IngredientsSection, Kind::MethodSection, Kind::TestsSection];

/// The same of the whole text, by the parser itself.
fn whole(text: &str) -> BTreeSet<String> {
    let mut parser = tree_sitter::Parser::new();
    parser.set_language(&tree_sitter_tamis::LANGUAGE.into()).expect("the grammar fits the parser");
    let tree = parser.parse(text, None).expect("a tree");
    let mut open = vec![tree.root_node()];
    let mut all = BTreeSet::new();
    while let Some(node) = open.pop() {
        let kind: String = node.kind().split('_').map(|word| word[..1].to_uppercase() + &word[1..]).collect();
        let span = Span::new(node.start_byte(), node.end_byte());
        if !matches!(node.kind(), "manuscript" | "recipe") {
            all.insert(format!("{kind} {:?}", span.of(text)) + &place(span));
        }
        open.extend(node.named_children(&mut node.walk()));
    }
    all
}

fn place(span: Span) -> String {
    format!(" at {}", span.start)
}

#[test]
fn the_parts_of_a_recipe_are_parsed_as_in_the_whole() {
    let mut several = 0;
    for (path, text) in folder::samples("").into_iter().chain(folder::samples("mistakes")) {
        for recipe in tamis::syntax::split(&text) {
            let text = recipe.of(&text);
            several += usize::from(parts(text).len() > 2);
            let (by_parts, whole) = (by_parts(text), whole(text));
            let only = |one: &BTreeSet<String>, other: &BTreeSet<String>| one.difference(other).next().cloned();
            assert_eq!((only(&by_parts, &whole), only(&whole, &by_parts)), (None, None), "{}", path.display());
        }
    }
    assert!(several > 20, "{several} recipes in parts prove little");
}

/// `words.json` says which labels the grammar knows.
#[test]
fn every_label_of_a_list_starts_a_part() {
    let words: serde_json::Value = serde_json::from_str(include_str!("../grammar/words.json")).expect("JSON");
    for list in ["label_equipment", "label_ingredients", "label_method", "label_tests"] {
        for label in words[list].as_array().expect("labels") {
            let text = format!("Recipe: Plum Tart\n\n{}:\n\n- 2 plums\n", label.as_str().expect("a word"));
            assert_eq!(parts(&text).len(), 2, "{text}");
        }
    }
}
