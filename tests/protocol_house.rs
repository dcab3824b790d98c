//! The house style sheet in an editor: it holds as it stands on disk, it is checked as it is typed.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use tamis_tests::editor::{Editor, Published};
use tempfile::TempDir;

const SALAD: &str = "Recipe: Plot Salad\nServes: 2\nTime: 5 min total\n\nIngredients:\n- 1 cabbage\n\nMethod:\n\n1. Toss the cabbage with 1 tbsp olive oil.\n";

fn uri(folder: &Path, name: &str) -> String {
    format!("file://{}/{name}", folder.display())
}

fn codes(published: &Published) -> Vec<&str> {
    published.diagnostics.iter().map(|diagnostic| diagnostic["code"].as_str().unwrap()).collect()
}

/// An editor that watches files, and a book with a sheet.
async fn desk(sheet: &str, capabilities: Value) -> (Editor, TempDir) {
    let book = TempDir::new().unwrap();
    fs::write(book.path().join("tamis.toml"), sheet).unwrap();
    let (editor, _) = Editor::introduced(capabilities).await;
    (editor, book)
}

fn watching() -> Value {
    json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true } } })
}

async fn changed_on_disk(editor: &mut Editor, book: &TempDir, sheet: Option<&str>) {
    let path = book.path().join("tamis.toml");
    match sheet {
        Some(sheet) => fs::write(path, sheet).unwrap(),
        None => fs::remove_file(path).unwrap(),
    }
    let changes = json!([{ "uri": uri(book.path(), "tamis.toml"), "type": 2 }]);
    editor.notify("workspace/didChangeWatchedFiles", json!({ "changes": changes })).await;
}

#[tokio::test]
async fn a_manuscript_follows_its_sheet_on_disk() {
    let (mut editor, book) = desk("exempt = ['oil']\n", watching()).await;
    let asked = editor.asked("client/registerCapability").await;
    let watched = &asked["registrations"][0];
    assert_eq!(watched["method"], "workspace/didChangeWatchedFiles");
    assert_eq!(
        watched["registerOptions"]["watchers"],
        json!(
            ["tamis.toml", "*.tamis", "*.md", "*.markdown"].map(|name| json!({ "globPattern": format!("**/{name}") }))
        )
    );

    let salad = uri(book.path(), "winter/salad.tamis");
    editor.open(&salad, SALAD).await;
    let first = editor.published().await;
    assert_eq!((first.uri.as_str(), codes(&first)), (salad.as_str(), vec![]));

    changed_on_disk(&mut editor, &book, Some("exempt = []\n")).await;
    let then = editor.published().await;
    assert_eq!((then.uri.as_str(), then.version, codes(&then)), (salad.as_str(), Some(1), vec!["ingredient-unlisted"]));

    // A change that changes nothing is not told.
    changed_on_disk(&mut editor, &book, Some("exempt = []  # no oil\n")).await;
    changed_on_disk(&mut editor, &book, Some("[checks]\ningredient-unlisted = 'hint'\n")).await;
    let then = editor.published().await;
    assert_eq!((codes(&then), &then.diagnostics[0]["severity"]), (vec!["ingredient-unlisted"], &json!(4)));

    changed_on_disk(&mut editor, &book, None).await;
    let then = editor.published().await;
    assert_eq!((codes(&then), &then.diagnostics[0]["severity"]), (vec!["ingredient-unlisted"], &json!(2)));
    editor.leave().await;
}

#[tokio::test]
async fn what_is_wrong_in_a_sheet_is_shown_while_a_manuscript_under_it_is_open() {
    let (mut editor, book) = desk("exempt = ['oil']\ncup = 'us'\n", watching()).await;
    editor.asked("client/registerCapability").await;
    let (salad, soup) = (uri(book.path(), "salad.tamis"), uri(book.path(), "soup.tamis"));
    let sheet = uri(book.path(), "tamis.toml");
    editor.open(&salad, SALAD).await;
    let mut both = [editor.published().await, editor.published().await];
    both.sort_by_key(|published| published.uri.clone());
    assert_eq!((both[1].uri.as_str(), both[1].version, codes(&both[1])), (sheet.as_str(), None, vec!["house-style"]));
    let range = json!({ "start": { "line": 1, "character": 0 }, "end": { "line": 1, "character": 3 } });
    assert_eq!(both[1].diagnostics[0]["range"], range);

    // Another manuscript of the book tells nothing new of the sheet.
    editor.open(&soup, SALAD).await;
    assert_eq!(editor.published().await.uri, soup);
    editor.close(&soup).await;
    // That of the sheet goes with the last manuscript under it.
    editor.close(&salad).await;
    let last = editor.published().await;
    assert_eq!((last.uri.as_str(), codes(&last)), (sheet.as_str(), vec![]));
    editor.leave().await;
}

#[tokio::test]
async fn an_open_sheet_is_checked_as_it_is_typed_and_holds_when_it_is_saved() {
    let (mut editor, book) = desk("exempt = ['oil']\n", json!({})).await;
    let (salad, sheet) = (uri(book.path(), "salad.tamis"), uri(book.path(), "tamis.toml"));
    editor.open(&salad, SALAD).await;
    assert_eq!(editor.published().await.uri, salad);
    editor.open(&sheet, "exempt = ['oil']\n").await;
    let shown = editor.published().await;
    assert_eq!((shown.uri.as_str(), shown.version, codes(&shown)), (sheet.as_str(), Some(1), vec![]));
    editor.change(&sheet, 2, json!([{ "text": "exempts = ['oil']\n" }])).await;
    let shown = editor.published().await;
    assert_eq!((shown.uri.as_str(), shown.version, codes(&shown)), (sheet.as_str(), Some(2), vec!["house-style"]));
    let message = "The style sheet has nothing called `exempts`. Did you mean `exempt`?";
    assert_eq!(shown.diagnostics[0]["message"], message);
    let at = json!({ "textDocument": { "uri": sheet }, "position": { "line": 0, "character": 2 } });
    assert_eq!(editor.request("textDocument/hover", at).await, Ok(Value::Null));

    fs::write(book.path().join("tamis.toml"), "exempts = ['oil']\n").unwrap();
    editor.notify("textDocument/didSave", json!({ "textDocument": { "uri": sheet } })).await;
    let shown = editor.published().await;
    assert_eq!((shown.uri.as_str(), codes(&shown)), (salad.as_str(), vec!["ingredient-unlisted"]));
    editor.leave().await;
}

/// A client that asks for diagnostics by itself is asked to do so again.
#[tokio::test]
async fn diagnostics_that_were_pulled_are_refreshed() {
    let capabilities = json!({
        "workspace": { "diagnostics": { "refreshSupport": true } },
        "textDocument": { "diagnostic": {} },
    });
    let (mut editor, book) = desk("", capabilities).await;
    let salad = uri(book.path(), "salad.tamis");
    editor.open(&salad, SALAD).await;
    assert_eq!(codes(&editor.published().await), ["ingredient-unlisted"]);
    let pull = json!({ "textDocument": { "uri": salad } });
    let report = editor.request("textDocument/diagnostic", pull.clone()).await.unwrap();
    assert_eq!(report["items"].as_array().unwrap().len(), 1);
    assert!(editor.published().await.diagnostics.is_empty());

    changed_on_disk(&mut editor, &book, Some("exempt = ['oil']\n")).await;
    editor.asked("workspace/diagnostic/refresh").await;
    let report = editor.request("textDocument/diagnostic", pull).await.unwrap();
    assert_eq!(report["items"], json!([]));
    editor.leave().await;
}
