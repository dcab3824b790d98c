//! Questions over several manuscripts that are open: what is called what, and which recipe uses which.

use serde_json::{Value, json};
use tamis_tests::drawn;
use tamis_tests::editor::Editor;

const PIES: &str = "file:///book/pies.tamis";
const BASICS: &str = "file:///book/basics.tamis";

const OF_PIES: &str = "\
Recipe: Plum Pie
Serves: 8

Ingredients:
- 1 batch [[Rye Crust]]
- 2 lb (900 g) plums
- 1 cup (300 g) [[Plum Jam]]

Method:

1. Line a dish with the [rye crust]. => shell
2. Fill the shell with the plums and the jam and bake. Serve with more [[plum jam]].

Recipe: Windfall Pie

Ingredients:
- 1 batch [[Rye Crust]]
- 2 apples

Notes: [[Nobody's Custard]] goes with it.
";

const OF_BASICS: &str = "\
Recipe: Rye Crust

Ingredients:
- 2 cups (200 g) rye flour

Recipe: Plum Jam

Ingredients:
- 2 lb (900 g) plums
";

async fn opened() -> Editor {
    let mut editor = Editor::usual().await;
    for (uri, text) in [(PIES, OF_PIES), (BASICS, OF_BASICS)] {
        editor.open(uri, text).await;
        editor.published().await;
    }
    editor
}

fn text_of(uri: &str) -> &'static str {
    if uri == PIES { OF_PIES } else { OF_BASICS }
}

/// The line of a range in the document of that address.
fn line(uri: &Value, range: &Value) -> &'static str {
    let text = text_of(uri.as_str().unwrap());
    drawn::span(text, range);
    text.lines().nth(range["start"]["line"].as_u64().unwrap() as usize).unwrap()
}

#[tokio::test]
async fn things_are_found_by_name_in_all_that_is_open() {
    let mut editor = opened().await;
    for (query, found) in [
        ("", &["Plum Jam", "Plum Pie", "Rye Crust", "Windfall Pie"][..]),
        ("pie", &["Plum Pie", "Windfall Pie"]),
        ("PLUM", &["Plum Jam", "Plum Pie", "Plum Jam in Plum Pie", "plums in Plum Jam", "plums in Plum Pie"]),
        ("shell", &["shell in Plum Pie"]),
        ("rye cr", &["Rye Crust", "Rye Crust in Plum Pie", "Rye Crust in Windfall Pie"]),
        ("quince", &[]),
    ] {
        let answer = editor.request("workspace/symbol", json!({ "query": query })).await.unwrap();
        let symbols = answer.as_array().unwrap();
        // Recipes stand before what is in them.
        assert!(symbols.is_sorted_by_key(|symbol| symbol["containerName"].is_string()));
        let shown = symbols.iter().map(|symbol| {
            let name = symbol["name"].as_str().unwrap();
            let (uri, range) = (&symbol["location"]["uri"], &symbol["location"]["range"]);
            assert_eq!(drawn::span(text_of(uri.as_str().unwrap()), range).of(text_of(uri.as_str().unwrap())), name);
            symbol["containerName"].as_str().map_or_else(|| name.to_owned(), |within| format!("{name} in {within}"))
        });
        let mut shown: Vec<String> = shown.collect();
        shown.sort();
        let mut expected = found.to_vec();
        expected.sort_unstable();
        assert_eq!(shown, expected, "{query}");
    }
    editor.leave().await;
}

async fn prepared(editor: &mut Editor, uri: &str, words: &str) -> Value {
    let text = text_of(uri);
    let position = drawn::position(text, text.find(words).unwrap() + 1);
    let params = json!({ "textDocument": { "uri": uri }, "position": position });
    editor.request("textDocument/prepareCallHierarchy", params).await.unwrap()
}

#[tokio::test]
async fn which_recipe_uses_which_is_told_both_ways() {
    let mut editor = opened().await;
    // By its title, by what refers to it, by any place in it; by a title that nothing has, nothing.
    for (uri, words, name) in [
        (BASICS, "Rye Crust", Some("Rye Crust")),
        (PIES, "[[Rye Crust]]", Some("Rye Crust")),
        (PIES, "Line a dish", Some("Plum Pie")),
        (PIES, "[[Nobody", None),
    ] {
        let items = prepared(&mut editor, uri, words).await;
        assert_eq!(items[0]["name"].as_str(), name, "{words}");
    }
    let crust = prepared(&mut editor, BASICS, "Rye Crust").await[0].clone();
    assert_eq!(line(&crust["uri"], &crust["selectionRange"]), "Recipe: Rye Crust");
    let calls = editor.request("callHierarchy/incomingCalls", json!({ "item": crust })).await.unwrap();
    let shown: Vec<String> =
        calls.as_array().unwrap().iter().map(|call| called(&call["from"], &call["from"], call)).collect();
    assert_eq!(shown, ["Plum Pie: - 1 batch [[Rye Crust]]", "Windfall Pie: - 1 batch [[Rye Crust]]"]);

    let pie = prepared(&mut editor, PIES, "Plum Pie").await[0].clone();
    assert_eq!(pie["detail"], "serves 8");
    let calls = editor.request("callHierarchy/outgoingCalls", json!({ "item": pie })).await.unwrap();
    let shown: Vec<String> = calls.as_array().unwrap().iter().map(|call| called(&call["to"], &pie, call)).collect();
    assert_eq!(
        shown,
        [
            "Rye Crust: - 1 batch [[Rye Crust]]",
            "Plum Jam: - 1 cup (300 g) [[Plum Jam]] + \
             2. Fill the shell with the plums and the jam and bake. Serve with more [[plum jam]].",
        ]
    );
    // What is closed is no longer there to use anything.
    editor.close(PIES).await;
    let calls = editor.request("callHierarchy/incomingCalls", json!({ "item": crust })).await.unwrap();
    assert_eq!(calls, json!([]));
    editor
        .request(
            "textDocument/prepareCallHierarchy",
            json!({ "textDocument": { "uri": PIES }, "position": { "line": 0, "character": 0 } }),
        )
        .await
        .expect_err("it is not open");
    // What was shown of it is taken back.
    assert_eq!(editor.published().await.diagnostics, [Value::Null; 0]);
    editor.leave().await;
}

#[tokio::test]
async fn a_long_list_is_told_piece_by_piece_where_that_is_wanted() {
    let mut editor = opened().await;
    let crust = prepared(&mut editor, BASICS, "Rye Crust").await[0].clone();
    let title = drawn::position(text_of(BASICS), text_of(BASICS).find("Rye Crust").unwrap());
    let context = json!({ "includeDeclaration": true });
    for (method, params) in [
        ("callHierarchy/incomingCalls", json!({ "item": crust })),
        (
            "textDocument/references",
            json!({ "textDocument": { "uri": BASICS }, "position": title, "context": context }),
        ),
    ] {
        let whole = editor.request(method, params.clone()).await.unwrap().as_array().unwrap().clone();
        assert!(whole.len() > 1, "{method}: {whole:?}");
        let mut wanted = params;
        wanted["partialResultToken"] = json!(method);
        assert_eq!(editor.request(method, wanted).await, Ok(json!([])));
        let told = editor.told_so_far("$/progress");
        assert!(told.iter().all(|piece| piece["token"] == method), "{told:?}");
        let pieces = told.iter().flat_map(|piece| piece["value"].as_array().unwrap().clone());
        let pieces: Vec<Value> = pieces.collect();
        assert_eq!(pieces.len(), whole.len());
        assert!(pieces.iter().all(|item| whole.contains(item)), "{pieces:?}");
    }
    editor.leave().await;
}

/// A recipe and the lines on which it is used or uses.
fn called(recipe: &Value, where_from: &Value, call: &Value) -> String {
    let ranges = call["fromRanges"].as_array().unwrap().iter();
    let lines: Vec<&str> = ranges.map(|range| line(&where_from["uri"], range)).collect();
    format!("{}: {}", recipe["name"].as_str().unwrap(), lines.join(" + "))
}
