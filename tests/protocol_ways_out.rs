//! Ways out of a finding as an editor is offered them: behind all fixes, never by themselves, and written into the style sheet of the
//! book, wherever that is.

use std::fs;

use serde_json::{Value, json};
use tamis_tests::editor::Editor;
use tamis_tests::folder::{folder, uri};
use tempfile::TempDir;

const SALAD: &str = "Recipe: Plot Salad\nServes: 2\nTime: 5 min total\n\nIngredients:\n- 1 cabbage\n- 1 carrot\n\nMethod:\n\n1. Toss the cabbage with 1 tbsp olive oil.\n";

/// An editor that can do anything with files, in `folder`.
async fn at_desk(folder: &TempDir, creates: bool, resolves: bool) -> Editor {
    let mut editor = Editor::silent();
    let operations = if creates { json!(["create", "rename"]) } else { json!([]) };
    let mut capabilities = json!({
        "workspace": { "workspaceEdit": { "documentChanges": true, "resourceOperations": operations } },
    });
    if resolves {
        capabilities["textDocument"]["codeAction"]["resolveSupport"] = json!({ "properties": ["edit"] });
    }
    let root = format!("file://{}", folder.path().display());
    let params = json!({ "processId": null, "rootUri": root, "capabilities": capabilities });
    editor.request("initialize", params).await.unwrap();
    editor.notify("initialized", json!({})).await;
    editor
}

async fn offered(editor: &mut Editor, uri: &str, line: u64, column: u64, only: &str) -> Vec<Value> {
    let at = json!({ "line": line, "character": column });
    let context = json!({ "diagnostics": [], "only": [only] });
    let params = json!({ "textDocument": { "uri": uri }, "range": { "start": at, "end": at }, "context": context });
    editor.request("textDocument/codeAction", params).await.unwrap().as_array().unwrap().clone()
}

fn titles(actions: &[Value]) -> Vec<&str> {
    actions.iter().map(|action| action["title"].as_str().unwrap()).collect()
}

fn action<'a>(actions: &'a [Value], title: &str) -> &'a Value {
    let found = actions.iter().find(|action| action["title"] == title);
    found.unwrap_or_else(|| panic!("no {title} in {:#?}", titles(actions)))
}

#[tokio::test]
async fn they_stand_behind_the_fixes_and_nobody_takes_them_unasked() {
    let book = folder(&[("tamis.toml", "# ours\nexempt = ['spice'] # both\n"), ("salad.tamis", SALAD)]);
    let mut editor = at_desk(&book, true, false).await;
    let salad = uri(book.path(), "salad.tamis");
    editor.open(&salad, SALAD).await;
    editor.published().await;
    let actions = offered(&mut editor, &salad, 6, 4, "quickfix").await;
    let titles = titles(&actions);
    let first_way = titles.iter().position(|title| title.starts_with("Let it stand")).expect("a way out");
    assert_eq!(
        titles[first_way..],
        ["Let it stand here: stet ingredient-unused", "Turn ingredient-unused off for this book, in tamis.toml",]
    );
    assert!(first_way > 1, "{titles:?}");
    for (at, action) in actions.iter().enumerate() {
        assert_eq!(action["kind"], "quickfix");
        assert_eq!(action["isPreferred"].as_bool(), (at < first_way).then_some(at == 0), "{}", action["title"]);
        assert_eq!(action["diagnostics"][0]["code"], "ingredient-unused");
    }
    assert!(offered(&mut editor, &salad, 6, 4, "source.fixAll").await.is_empty(), "nothing here is safe");
    editor.leave().await;
}

#[tokio::test]
async fn a_decision_is_added_to_the_sheet_as_it_is() {
    let book = folder(&[("tamis.toml", "# ours\nexempt = ['spice'] # both\n"), ("spring/salad.tamis", SALAD)]);
    let mut editor = at_desk(&book, false, true).await;
    let (salad, sheet) = (uri(book.path(), "spring/salad.tamis"), uri(book.path(), "tamis.toml"));
    editor.open(&salad, SALAD).await;
    editor.published().await;
    let actions = offered(&mut editor, &salad, 10, 34, "quickfix").await;
    let exempt = action(&actions, "Let olive oil go unlisted in this book, in tamis.toml").clone();
    assert_eq!(exempt["edit"], Value::Null, "worked out when it is chosen");
    let chosen = editor.request("codeAction/resolve", exempt.clone()).await.unwrap();
    let place = json!({ "line": 1, "character": 17 });
    let edit = |version: Value| {
        json!({ "documentChanges": [{
            "textDocument": { "uri": sheet, "version": version },
            "edits": [{ "range": { "start": place, "end": place }, "newText": ", \"olive oil\"" }],
        }] })
    };
    assert_eq!(chosen["edit"], edit(Value::Null));

    // What is open counts as it is being written.
    editor.open(&sheet, "\n# ours\nexempt = ['spice']\n").await;
    editor.published().await;
    let chosen = editor.request("codeAction/resolve", exempt.clone()).await.unwrap();
    let change = &chosen["edit"]["documentChanges"][0];
    assert_eq!(change["textDocument"]["version"], 1);
    assert_eq!(change["edits"][0]["range"]["start"], json!({ "line": 2, "character": 17 }));

    editor.change(&sheet, 2, json!([{ "text": "exempt = = 1" }])).await;
    editor.published().await;
    let refused = editor.request("codeAction/resolve", exempt.clone()).await.unwrap_err();
    assert_eq!(refused.message, "tamis.toml is left as it is: it is no sound TOML");
    editor.change(&salad, 2, json!([{ "text": SALAD }])).await;
    editor.published().await;
    let refused = editor.request("codeAction/resolve", exempt).await.unwrap_err();
    assert_eq!(refused.code, -32801, "offered for an older text");
    editor.leave().await;
}

#[tokio::test]
async fn a_sheet_is_made_where_the_user_works_if_there_is_none() {
    let book = folder(&[("spring/salad.tamis", SALAD)]);
    let mut editor = at_desk(&book, true, false).await;
    let salad = uri(book.path(), "spring/salad.tamis");
    editor.open(&salad, SALAD).await;
    editor.published().await;
    let actions = offered(&mut editor, &salad, 6, 4, "quickfix").await;
    let off = action(&actions, "Turn ingredient-unused off for this book, in a new tamis.toml");
    let sheet = uri(book.path(), "tamis.toml");
    let start = json!({ "line": 0, "character": 0 });
    let expected = json!([
        { "kind": "create", "uri": sheet, "options": { "overwrite": false, "ignoreIfExists": true } },
        {
            "textDocument": { "uri": sheet, "version": null },
            "edits": [{
                "range": { "start": start, "end": start },
                "newText": "[checks]\ningredient-unused = \"off\"\n",
            }],
        },
    ]);
    assert_eq!(off["edit"]["documentChanges"], expected);

    // As the editor would do it, and tell of it.
    fs::write(book.path().join("tamis.toml"), "[checks]\ningredient-unused = \"off\"\n").unwrap();
    editor.notify("textDocument/didSave", json!({ "textDocument": { "uri": sheet } })).await;
    let published = editor.published().await;
    let codes: Vec<&Value> = published.diagnostics.iter().map(|diagnostic| &diagnostic["code"]).collect();
    assert_eq!(codes, ["ingredient-unlisted"]);
    editor.leave().await;
}

#[tokio::test]
async fn no_sheet_is_offered_where_none_can_be_made() {
    let book = folder(&[("salad.tamis", SALAD)]);
    let mut editor = at_desk(&book, false, false).await;
    for document in [uri(book.path(), "salad.tamis"), "untitled:Salad".to_owned()] {
        editor.open(&document, SALAD).await;
        editor.published().await;
        let actions = offered(&mut editor, &document, 6, 4, "quickfix").await;
        assert_eq!(titles(&actions).last(), Some(&"Let it stand here: stet ingredient-unused"));
    }
    editor.leave().await;
}
