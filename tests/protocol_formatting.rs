//! Layout and mending as an editor asks for them: the document, some lines, what has just been typed, all safe fixes at once.

use serde_json::{Value, json};
use tamis::{
    text::{Edit, Span},
    workspace::Manuscript,
};
use tamis_tests::{
    drawn::{position, range, span},
    editor::Editor,
};

const PIE: &str = "untitled:Pie";

const MANUSCRIPT: &str = "\
Recipe: 🥧 Pie
Serves: 6
Ingredients:
-  2 cups(250 g) flour
- 1 cup (240 ml) water

Method:

1. 🥄 Stir the flour into the the water.

3. Bake in the oven, 30 minutes.
";

/// The text after edits of the protocol.
fn after(text: &str, edits: &Value) -> String {
    let edits = edits.as_array().expect("a list of edits").iter();
    let edits: Vec<Edit> =
        edits.map(|edit| Edit::replace(span(text, &edit["range"]), edit["newText"].as_str().unwrap())).collect();
    Edit::apply_all(text, &edits)
}

fn options() -> Value {
    json!({ "tabSize": 4, "insertSpaces": true })
}

async fn opened(text: &str, capabilities: Value) -> Editor {
    let mut editor = Editor::introduced(capabilities).await.0;
    editor.open(PIE, text).await;
    editor.published().await;
    editor
}

#[tokio::test]
async fn a_document_is_laid_out_as_on_the_command_line() {
    for text in [MANUSCRIPT.to_owned(), MANUSCRIPT.replace('\n', "\r\n")] {
        let mut editor = opened(&text, json!({})).await;
        let params = json!({ "textDocument": { "uri": PIE }, "options": options() });
        let edits = editor.request("textDocument/formatting", params).await.unwrap();
        let expected = Edit::put_into(&text, &Manuscript::new(&text, Default::default()).formatted());
        assert_eq!(after(&text, &edits), expected);
        assert!(expected.contains("2. Bake") && expected.contains("- 2 cups (250 g) flour"), "{expected}");
        editor.leave().await;
    }
}

#[tokio::test]
async fn a_range_is_its_lines_and_no_others() {
    let mut editor = opened(MANUSCRIPT, json!({})).await;
    let at = MANUSCRIPT.find("cups").unwrap();
    let params =
        json!({ "textDocument": { "uri": PIE }, "range": range(MANUSCRIPT, Span::at(at)), "options": options() });
    let edits = editor.request("textDocument/rangeFormatting", params).await.unwrap();
    let expected = MANUSCRIPT.replace("-  2 cups(250 g)", "- 2 cups (250 g)");
    assert_eq!(after(MANUSCRIPT, &edits), expected);
    editor.leave().await;
}

#[tokio::test]
async fn what_is_typed_is_numbered_and_spaced() {
    let list = "Recipe: Pie\n\nIngredients:\n- 2 cups(250 g)| flour\n\nMethod:\n\n1. Stir.\n";
    let open = "Recipe: Pie\n\nMethod:\n\n1. Stir.\n\n|\n\n2. Bake.\n\n3. Cool.\n";
    let close = "Recipe: Pie\n\nMethod:\n1) Stir.\n2) Bake.\n|\n3) Cool.\n";
    let typed = "Recipe: Pie\n\nMethod:\n\n1. Stir.\n\n2.| Roll.\n\n2. Bake.\n";
    let wrapped = "Recipe: Pie\n\nMethod:\n\n1. Stir.\n|\n\n2. Bake.\n\n3. Cool.\n";
    let spoken = "Recipe: Pie\n\nMethod:\n\n1. Stir.\n\n|\n\n2. Bake as in step 1.\n";
    let number = "Recipe: Pie\n\nMethod:\n\n1. Stir for 2.| hours.\n\n3. Bake.\n";
    for (text, sign, expected) in [
        (list, ")", Some("- 2 cups (250 g) flour\n")),
        (open, "\n", Some("1. Stir.\n\n2. \n\n3. Bake.\n\n4. Cool.\n")),
        (close, "\n", Some("2) Bake.\n3) \n4) Cool.\n")),
        (typed, ".", Some("2. Roll.\n\n3. Bake.\n")),
        (wrapped, "\n", None),
        (spoken, "\n", None),
        (number, ".", None),
    ] {
        let cursor = text.find('|').unwrap();
        let text = text.replace('|', "");
        let mut editor = opened(&text, json!({})).await;
        let params = json!({
            "textDocument": { "uri": PIE }, "position": position(&text, cursor), "ch": sign, "options": options(),
        });
        let edits = editor.request("textDocument/onTypeFormatting", params).await.unwrap();
        match expected {
            Some(expected) => assert!(after(&text, &edits).contains(expected), "{text}: {edits}"),
            None => assert_eq!(edits, json!([]), "{text}"),
        }
        editor.leave().await;
    }
}

fn asked(only: &str) -> Value {
    let context = json!({ "diagnostics": [], "only": [only] });
    json!({ "textDocument": { "uri": PIE }, "range": range(MANUSCRIPT, Span::at(0)), "context": context })
}

#[tokio::test]
async fn everything_that_needs_no_decision_is_mended_at_once() {
    let expected = Edit::put_into(MANUSCRIPT, &Manuscript::new(MANUSCRIPT, Default::default()).mended().edits);
    assert!(expected.contains("into the water") && expected.contains("2. Bake"), "{expected}");

    let mut eager = opened(MANUSCRIPT, json!({})).await;
    let actions = eager.request("textDocument/codeAction", asked("source.fixAll")).await.unwrap();
    assert_eq!(actions[0]["kind"], "source.fixAll.tamis");
    assert_eq!(after(MANUSCRIPT, &actions[0]["edit"]["changes"][PIE]), expected);
    eager.leave().await;

    let resolves = json!({ "textDocument": { "codeAction": { "resolveSupport": { "properties": ["edit"] } } } });
    let mut lazy = opened(MANUSCRIPT, resolves).await;
    let actions = lazy.request("textDocument/codeAction", asked("source.fixAll")).await.unwrap();
    assert!(actions[0]["edit"].is_null(), "the edits come when it is chosen");
    let resolved = lazy.request("codeAction/resolve", actions[0].clone()).await.unwrap();
    assert_eq!(after(MANUSCRIPT, &resolved["edit"]["changes"][PIE]), expected);
    lazy.change(PIE, 2, json!([{ "text": "" }])).await;
    lazy.published().await;
    let late = lazy.request("codeAction/resolve", actions[0].clone()).await;
    assert_eq!(late.unwrap_err().code, -32801, "content modified");
    lazy.leave().await;
}

#[tokio::test]
async fn the_list_is_put_in_the_order_of_use_with_its_comments() {
    let text = "\
Recipe: Soup
Serves: 4

Ingredients:
- 2 cups (475 ml) stock
// from plot 7
- 1 onion, chopped
- 1 tsp salt
- 2 tbsp olive oil

Method:

1. Soften the onion in the olive oil, 8 minutes.
2. Add the stock and simmer for 20 minutes.
";
    let sorted = "\
Ingredients:
// from plot 7
- 1 onion, chopped
- 1 tsp salt
- 2 tbsp olive oil
- 2 cups (475 ml) stock
";
    let unsure = text.replace("- 2 tbsp olive oil", "- 2 tbsp olive oil\n- 1 bunch parsley");
    let parted = text.replace("// from plot 7", "");
    for (text, expected) in [(text, Some(sorted)), (&unsure, None), (&parted, None)] {
        let mut editor = opened(text, json!({})).await;
        let actions = editor.request("textDocument/codeAction", asked("source.organize")).await.unwrap();
        match expected {
            Some(expected) => {
                assert_eq!(actions[0]["kind"], "source.organize.tamis");
                let sorted = after(text, &actions[0]["edit"]["changes"][PIE]);
                assert!(sorted.contains(expected), "{sorted}");
            }
            None => assert_eq!(actions, json!([]), "{text}"),
        }
        editor.leave().await;
    }
}
