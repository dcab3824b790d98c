//! Commands as an editor sends them, the edits that it is told to make, and what is said where they cannot be.

use serde_json::{Value, json};
use tamis_tests::editor::{Editor, Refused};

const URI: &str = "untitled:Post.md";

const TOASTS: &str = "Recipe: Leek Toasts\r\nServes: 2\r\n\r\nIngredients:\r\n- 2 slices bread\r\n- 1 leek, sliced\r\n- 1 tbsp butter\r\n\r\nMethod:\r\n\r\n1. Soften the leek in the butter, 8 minutes. Toast the bread until brown and pile the leek onto it.\r\n";

/// A post in which the recipe starts at line 2.
fn post() -> String {
    format!("# A post\r\n```tamis\r\n{TOASTS}```\r\n")
}

async fn desk(applies: bool) -> Editor {
    let workspace = json!({ "applyEdit": applies, "workspaceEdit": { "documentChanges": true } });
    let (mut editor, answer) = Editor::introduced(json!({ "workspace": workspace })).await;
    let commands = answer["capabilities"]["executeCommandProvider"]["commands"].as_array().unwrap();
    assert!(commands.contains(&json!("tamis.scale")) && commands.contains(&json!("tamis.recordTest")));
    editor.open(URI, &post()).await;
    editor.published().await;
    editor
}

fn at(line: u64, more: Value) -> Value {
    let mut about = json!({ "uri": URI, "position": { "line": line, "character": 0 } });
    about.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    about
}

async fn ask(editor: &mut Editor, command: &str, arguments: Value) -> Result<Value, Refused> {
    editor.request("workspace/executeCommand", json!({ "command": command, "arguments": arguments })).await
}

/// The new texts of the edits that the editor is told to make.
async fn edits(editor: &mut Editor, version: i64) -> Vec<String> {
    let told = editor.asked_and_told("workspace/applyEdit", json!({ "applied": true })).await;
    let change = &told["edit"]["documentChanges"][0];
    assert_eq!(change["textDocument"], json!({ "uri": URI, "version": version }));
    let edits = change["edits"].as_array().unwrap();
    edits.iter().map(|edit| edit["newText"].as_str().unwrap().to_owned()).collect()
}

#[tokio::test]
async fn a_recipe_is_scaled_and_what_is_left_is_told() {
    let mut editor = desk(true).await;
    assert_eq!(ask(&mut editor, "tamis.scale", json!([at(5, json!({ "to": 6 }))])).await, Ok(Value::Null));
    assert_eq!(edits(&mut editor, 1).await, ["6", "6 slices", "3", "leeks", "3 tbsp"]);
    let said = editor.told("window/showMessage").await;
    assert_eq!(said["type"], 3);
    let told = said["message"].as_str().unwrap();
    assert!(told.starts_with("Now for 6 (3 times as much). Times") && told.contains("step 1"), "{told}");
    editor.leave().await;
}

#[tokio::test]
async fn restatements_and_marks_are_put_in_throughout() {
    let mut editor = desk(true).await;
    ask(&mut editor, "tamis.addMetric", json!([at(2, json!({}))])).await.unwrap();
    let metric = edits(&mut editor, 1).await;
    assert!(metric.len() == 1 && metric[0].contains(" g"), "{metric:?}");
    ask(&mut editor, "tamis.markMentions", json!([at(2, json!({}))])).await.unwrap();
    assert!(edits(&mut editor, 1).await.iter().all(|text| text == "[" || text == "]"));
    let refused = ask(&mut editor, "tamis.addUs", json!([at(2, json!({}))])).await.unwrap_err();
    assert_eq!(
        (refused.code, refused.message.as_str()),
        (-32803, "There is nothing to change: the recipe is so already.")
    );
    editor.leave().await;
}

#[tokio::test]
async fn a_test_is_recorded_with_its_day_and_speaks_until_something_changes() {
    let mut editor = desk(true).await;
    ask(&mut editor, "tamis.recordTest", json!([at(2, json!({}))])).await.unwrap();
    let [line] = &edits(&mut editor, 1).await[..] else { panic!("one edit") };
    let (day, sign) = line.strip_prefix("\r\n\r\nTests:\r\n- ").unwrap().split_once(' ').unwrap();
    assert!(day.len() == 10 && day.split('-').count() == 3 && day.starts_with("20"), "{day}");
    assert!(sign.len() == 12 && sign.starts_with('(') && sign.ends_with("): "), "{sign}");

    let tested = |toasts: &str| format!("# A post\r\n```tamis\r\n{}{line}fine\r\n```\r\n", toasts.trim_end());
    editor.change(URI, 2, json!([{ "text": tested(TOASTS) }])).await;
    assert_eq!(editor.published().await.diagnostics, [Value::Null; 0]);
    let lenses = editor.request("textDocument/codeLens", json!({ "textDocument": { "uri": URI } })).await.unwrap();
    assert!(lenses[0]["command"]["title"].as_str().unwrap().ends_with(&format!("tested {day}")), "{lenses}");

    editor.change(URI, 3, json!([{ "text": tested(&TOASTS.replace("8 minutes", "9 minutes")) }])).await;
    let found = editor.published().await.diagnostics;
    assert_eq!((found.len(), &found[0]["code"]), (1, &json!("changed-since-test")));
    let lenses = editor.request("textDocument/codeLens", json!({ "textDocument": { "uri": URI } })).await.unwrap();
    assert!(lenses[0]["command"]["title"].as_str().unwrap().ends_with(", changed since"), "{lenses}");
    editor.leave().await;
}

#[tokio::test]
async fn what_cannot_be_done_is_said() {
    let mut editor = desk(true).await;
    let here = || at(2, json!({}));
    let table = [
        ("tamis.fly", json!([here()]), -32602, "There is no command tamis.fly."),
        ("tamis.scale", json!([here()]), -32602, "\"to\": NUMBER"),
        ("tamis.scale", json!([]), -32602, "tamis.scale wants one argument"),
        ("tamis.scale", json!([at(2, json!({ "to": "six" }))]), -32602, "tamis.scale wants one argument"),
        ("tamis.scale", json!([at(2, json!({ "to": 0 }))]), -32803, "for more than none"),
        ("tamis.scale", json!([at(2, json!({ "to": 2 }))]), -32803, "There is nothing to change"),
        ("tamis.recordTest", json!([at(0, json!({}))]), -32803, "There is no recipe at the cursor."),
        ("tamis.recordTest", json!([here(), 1]), -32602, "wants one argument"),
        (
            "tamis.markMentions",
            json!([{ "uri": "untitled:None", "position": { "line": 0, "character": 0 } }]),
            -32602,
            "is not open",
        ),
    ];
    for (command, arguments, code, part) in table {
        let refused = ask(&mut editor, command, arguments.clone()).await.unwrap_err();
        assert!(refused.code == code && refused.message.contains(part), "{command} {arguments}: {refused:?}");
    }
    editor.leave().await;

    let mut plain = desk(false).await;
    let refused = ask(&mut plain, "tamis.recordTest", json!([at(2, json!({}))])).await.unwrap_err();
    assert_eq!(refused.message, "This editor does not let a server change its text.");
    plain.leave().await;
}

#[tokio::test]
async fn an_editor_that_does_not_edit_hears_of_it() {
    let mut editor = desk(true).await;
    ask(&mut editor, "tamis.recordTest", json!([at(2, json!({}))])).await.unwrap();
    editor.asked_and_told("workspace/applyEdit", json!({ "applied": false, "failureReason": "it is locked" })).await;
    let said = editor.told("window/showMessage").await;
    assert_eq!(said, json!({ "type": 1, "message": "The recipe was not changed: it is locked" }));
    editor.leave().await;
}

/// The same, as actions where the cursor stands on what says so.
#[tokio::test]
async fn what_concerns_the_whole_recipe_is_offered_at_its_head() {
    let mut editor = desk(true).await;
    let offered = |line: u64| {
        let at = json!({ "line": line, "character": 9 });
        let context = json!({ "diagnostics": [], "only": ["refactor"] });
        json!({ "textDocument": { "uri": URI }, "range": { "start": at, "end": at }, "context": context })
    };
    for (line, expected) in [
        (2, vec!["Scale to 4 (twice as much)", "Scale to 1 (half as much)", "Record a test of today"]),
        (3, vec!["Scale to 4 (twice as much)", "Scale to 1 (half as much)"]),
        (7, vec![]),
    ] {
        let actions = editor.request("textDocument/codeAction", offered(line)).await.unwrap();
        let titles: Vec<&str> =
            actions.as_array().unwrap().iter().map(|action| action["title"].as_str().unwrap()).collect();
        let whole: Vec<&str> =
            titles.into_iter().filter(|title| title.starts_with("Scale") || title.starts_with("Record")).collect();
        assert_eq!(whole, expected, "line {line}");
    }
    editor.leave().await;
}
