//! Manuscripts in the fences of Markdown posts: they get all that a manuscript gets, at the places where they stand.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use proptest::prelude::*;
use serde_json::{Value, json};
use tamis::{
    book::Book,
    checks::Finding,
    recipe::Recipe,
    text::{Edit, Span},
    workspace::{Manuscript, posts::Form},
};
use tamis_tests::{
    editor::{Editor, Published},
    program::run,
};
use tempfile::TempDir;

/// Two fences, each with a fault: walnuts that no step uses, and a reversed range.
const POST: &str = "# Glut week 🥒

Somebody left nine marrows at the gate.

```tamis
Recipe: Gate Marrow Salad
Serves: 4
Time: 20 min total

Ingredients:

- 1 lb (450 g) marrow, grated
- 2 tbsp lemon juice
- 1/2 cup (60 g) walnuts

Method:

1. Toss the marrow with the lemon juice.
```

Then it rained, and we fried some.

```rust
let marrow = \"not a manuscript\";
```

~~~tamis
Recipe: Marrow Fritters
Serves: 4
Time: 30 min total

Ingredients:

- 1 lb (450 g) marrow, grated
- 3 to 2 eggs

Method:

1. Stir the marrow into the eggs and fry in a dry pan until brown, 5 minutes.
~~~
";

fn codes(findings: &[Finding]) -> Vec<(&str, &str)> {
    findings.iter().map(|finding| (finding.code, finding.span.of(POST))).collect()
}

#[test]
fn findings_stand_where_the_fences_stand() {
    let post = Manuscript::of(POST, Form::Post, Book::default());
    assert_eq!(codes(&post.findings()), [("ingredient-unused", "walnuts"), ("range-reversed", "3 to 2")]);
    let fixed = Edit::apply_all(POST, &post.findings()[0].fixes[0].edits);
    assert!(fixed.contains("2. Add the [walnuts].\n```\n"), "{fixed}");
    let after = Manuscript::of(&fixed, Form::Post, Book::default()).findings();
    assert_eq!(after.iter().map(|finding| finding.code).collect::<Vec<_>>(), ["range-reversed"]);
}

#[test]
fn the_command_line_checks_posts_by_name_and_in_folders() {
    let blog = TempDir::new().unwrap();
    fs::write(blog.path().join("glut.md"), POST).unwrap();
    fs::write(blog.path().join("about.md"), "# About\n\nWe garden. `tamis` is what we write in.\n").unwrap();
    for arguments in [&["glut.md"][..], &["."]] {
        let answer = run(blog.path(), &[&["check", "--output", "json"], arguments].concat(), b"");
        let findings: Vec<Value> = serde_json::from_str(&answer.out).unwrap();
        let lines: Vec<_> =
            findings.iter().map(|finding| (&finding["path"], &finding["range"]["start"]["line"])).collect();
        assert_eq!(lines, [(&json!("glut.md"), &json!(13)), (&json!("glut.md"), &json!(34))], "{arguments:?}");
    }
    let all = run(blog.path(), &["check", "."], b"");
    assert!(all.out.contains("Checked 2 recipes in 1 file"), "{}", all.out);
    let uses = run(blog.path(), &["uses", "glut.md"], b"");
    assert!(uses.out.contains("Marrow Fritters"), "{}", uses.out);
}

/// Each recipe, and what is found in it.
fn held(post: &Manuscript) -> Vec<(Arc<Recipe>, Vec<Finding>)> {
    post.findings_by_recipe().map(|(_, recipe, found)| (recipe.clone(), found.to_vec())).collect()
}

#[test]
fn what_is_typed_outside_of_fences_has_no_recipe_read_again() {
    let mut post = Manuscript::of(POST, Form::Post, Book::default());
    let before = held(&post);
    for (behind, typed) in
        [("nine marrows", " and a pumpkin"), ("fried some.", " With `salt`.\n"), ("manuscript\";", "\n// a remark")]
    {
        let at = post.text().find(behind).unwrap() + behind.len();
        post.apply(&Edit::insert(at, typed));
    }
    let after = held(&post);
    assert_eq!(before.len(), after.len());
    for ((recipe, found), (same, found_now)) in before.iter().zip(&after) {
        assert!(!recipe.is_recipe() || Arc::ptr_eq(recipe, same), "{}", recipe.text);
        assert_eq!(found, found_now);
    }
}

/// The second of a title is told, whichever of them is read anew.
#[test]
fn a_recipe_that_a_post_gives_twice_is_told_at_its_second_place() {
    let (before, fence) = POST.split_once("```tamis").unwrap();
    let (fence, after) = fence.split_once("\n```\n").unwrap();
    let fence = format!("```tamis{fence}\n```\n");
    let mut typed = Manuscript::of(POST, Form::Post, Book::default());
    typed.apply(&Edit::insert(before.len(), format!("{fence}\nAnd once more:\n\n")));
    let twice =
        Manuscript::of(&format!("{before}{fence}\nAnd once more:\n\n{fence}{after}"), Form::Post, Book::default());
    assert_eq!(typed.text(), twice.text());
    assert_eq!(typed.findings(), twice.findings());
    assert!(typed.findings().len() > 3, "{:?}", typed.findings());
}

fn uri(folder: &Path, name: &str) -> String {
    format!("file://{}/{name}", folder.display())
}

/// `line code` of each diagnostic.
fn shown(published: &Published) -> Vec<(u64, &str)> {
    let one = |diagnostic: &'_ Value| diagnostic["range"]["start"]["line"].as_u64().unwrap();
    published.diagnostics.iter().map(|found| (one(found), found["code"].as_str().unwrap())).collect()
}

#[tokio::test]
async fn an_editor_gets_everything_inside_of_fences_and_nothing_outside() {
    let blog = TempDir::new().unwrap();
    let (mut editor, _) = Editor::introduced(json!({})).await;
    let post = uri(blog.path(), "glut.md");
    editor.open(&post, POST).await;
    assert_eq!(shown(&editor.published().await), [(13, "ingredient-unused"), (34, "range-reversed")]);

    let document = json!({ "uri": post });
    let ask = |line: u32, character: u32| json!({ "textDocument": document, "position": { "line": line, "character": character } });
    let hover = editor.request("textDocument/hover", ask(11, 4)).await.unwrap();
    assert_eq!(hover["range"]["start"]["line"], 11, "{hover}");
    assert_eq!(editor.request("textDocument/hover", ask(2, 4)).await, Ok(Value::Null));
    let completion = editor.request("textDocument/completion", ask(17, 15)).await.unwrap();
    assert!(completion.to_string().contains("marrow"), "{completion}");

    let walnuts = json!({ "start": { "line": 13, "character": 18 }, "end": { "line": 13, "character": 18 } });
    let context = json!({ "diagnostics": [] });
    let actions = editor
        .request("textDocument/codeAction", json!({ "textDocument": document, "range": walnuts, "context": context }))
        .await
        .unwrap();
    let fix = actions.as_array().unwrap().iter().find(|action| action["title"] == "Add a step that uses the walnuts");
    let edits = &fix.expect("the fix")["edit"]["changes"][&post];
    assert_eq!(edits[0]["range"]["start"]["line"], 17, "{edits}");

    // A line of prose more moves what stands below it.
    let above = json!({ "line": 2, "character": 0 });
    editor.change(&post, 2, json!([{ "range": { "start": above, "end": above }, "text": "Well.\n" }])).await;
    assert_eq!(shown(&editor.published().await), [(14, "ingredient-unused"), (35, "range-reversed")]);
    editor.leave().await;
}

/// What may come into a post at any place, or go.
fn pieces() -> impl Strategy<Value = String> {
    let fixed = [
        "```",
        "\n```\n",
        "```tamis\n",
        "~~~",
        "\n",
        "\r\n",
        "> ",
        "- ",
        "    ",
        "<!--",
        "Recipe: Third\n\n",
        "🥒",
        "e\u{301}",
        "sugar",
        "",
    ];
    prop_oneof![proptest::sample::select(fixed.to_vec()).prop_map(str::to_owned), "[ -~]{0,6}"]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// After any edits a post is what it is when opened afresh.
    #[test]
    fn however_it_came_a_post_is_the_same(edits in prop::collection::vec((0.0..1.0f64, 0usize..12, pieces()), 1..12)) {
        let mut text = POST.to_owned();
        let mut typed = Manuscript::of(&text, Form::Post, Book::default());
        for (place, length, new) in edits {
            let at = |offset: usize| (0..=offset.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
            let start = at((place * text.len() as f64) as usize);
            let span = Span::new(start, at(start + length).max(start));
            let edit = Edit::replace(span, new);
            text = Edit::apply_all(&text, std::slice::from_ref(&edit));
            typed.apply(&edit);
            let fresh = Manuscript::of(&text, Form::Post, Book::default());
            prop_assert_eq!(typed.text(), text.clone());
            prop_assert_eq!(typed.findings(), fresh.findings(), "{}", text);
            let names = |post: &Manuscript| post.recipes().map(|(start, recipe)| (start, recipe.text.to_string())).collect::<Vec<_>>();
            prop_assert_eq!(names(&typed), names(&fresh));
        }
    }
}
