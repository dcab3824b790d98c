//! Books and their folders: how far the reading of one is, several at once, files that come and go, manuscripts outside any.

use std::fs;

use serde_json::{Value, json};
use tamis_tests::drawn;
use tamis_tests::editor::Editor;
use tamis_tests::folder::{folder, uri, write};
use tempfile::TempDir;

fn jam(fruit: &str) -> String {
    format!(
        "Recipe: {fruit} Jam\nYield: 2 cups\n\nIngredients:\n\n- 2 lb (900 g) plums\n\nMethod:\n\n1. Boil the plums.\n"
    )
}

fn tart(jam: &str) -> String {
    format!(
        "Recipe: {jam} Tart\nServes: 8\n\nIngredients:\n\n- 1 cup (300 g) [[{jam} Jam]]\n\nMethod:\n\n1. Spread the jam.\n"
    )
}

fn shows_progress() -> Value {
    json!({ "window": { "workDoneProgress": true } })
}

/// What is found by name, as `name in file`.
async fn found(editor: &mut Editor, query: &str) -> Vec<String> {
    let answer = editor.request("workspace/symbol", json!({ "query": query })).await.unwrap();
    let one = |symbol: &Value| {
        let file = symbol["location"]["uri"].as_str().unwrap().rsplit('/').next().unwrap();
        format!("{} in {file}", symbol["name"].as_str().unwrap())
    };
    answer.as_array().unwrap().iter().map(one).collect()
}

async fn definition(editor: &mut Editor, address: &str, text: &str) -> Value {
    let position = drawn::position(text, text.find("[[").unwrap() + 3);
    let params = json!({ "textDocument": { "uri": address }, "position": position });
    editor.request("textDocument/definition", params).await.unwrap()[0]["uri"].clone()
}

/// An editor whose user works in these folders.
async fn working_in(folders: &[&TempDir]) -> (Editor, Value) {
    let mut editor = Editor::silent();
    let named = |folder: &&TempDir| json!({ "uri": format!("file://{}", folder.path().display()), "name": "book" });
    let folders: Vec<Value> = folders.iter().map(named).collect();
    let params = json!({ "processId": null, "capabilities": shows_progress(), "workspaceFolders": folders });
    let answer = editor.request("initialize", params).await.unwrap();
    editor.notify("initialized", json!({})).await;
    (editor, answer)
}

#[tokio::test]
async fn how_far_the_reading_is_is_told_to_whoever_shows_it() {
    let files: Vec<(String, String)> =
        (0..40).map(|number| (format!("{number}.tamis"), jam(&format!("Plot {number}")))).collect();
    let book = folder(&files);
    write(book.path(), "tamis.toml", "");
    let (mut editor, _) = working_in(&[&book]).await;
    let told = editor.read_a_book().await;
    let kinds: Vec<&str> = told.iter().map(|told| told["kind"].as_str().unwrap()).collect();
    assert_eq!((kinds[0], *kinds.last().unwrap()), ("begin", "end"));
    assert!(kinds[1..kinds.len() - 1].iter().all(|kind| *kind == "report"), "{kinds:?}");
    let percentages = told.iter().filter_map(|told| told["percentage"].as_u64());
    assert!(percentages.clone().is_sorted() && percentages.max() <= Some(100), "{told:?}");
    assert_eq!(told.last().unwrap()["message"], "40 manuscripts");
    assert_eq!(found(&mut editor, "Plot 17").await, ["Plot 17 Jam in 17.tamis"]);
    // A cancellation is no fault, whenever it comes.
    editor.notify("window/workDoneProgress/cancel", json!({ "token": "tamis-book-0" })).await;
    assert_eq!(found(&mut editor, "Plot 18").await, ["Plot 18 Jam in 18.tamis"]);
    editor.leave().await;
}

#[tokio::test]
async fn a_client_that_never_answers_has_its_book_read_all_the_same() {
    let book = folder(&[("tamis.toml", ""), ("jam.tamis", &jam("Plum")), ("tart.tamis", &tart("Quince"))]);
    let (mut editor, _) = Editor::introduced(shows_progress()).await;
    let address = uri(book.path(), "tart.tamis");
    editor.open(&address, &tart("Quince")).await;
    editor.published().await;
    let broken = editor.published().await;
    assert!(broken.diagnostics.iter().any(|one| one["code"] == "cross-reference-broken"), "{broken:?}");
    // The question is answered once it is no longer of any use.
    editor.read_a_book().await;
    editor.leave().await;
}

#[tokio::test]
async fn two_books_are_two_books() {
    let one = folder(&[("tamis.toml", ""), ("jam.tamis", &jam("Plum")), ("tart.tamis", &tart("Plum"))]);
    let other = folder(&[("tamis.toml", ""), ("plums.tamis", &jam("Plum")), ("pie.tamis", &tart("Plum"))]);
    let (mut editor, answer) = working_in(&[&one, &other]).await;
    let workspace = &answer["capabilities"]["workspace"];
    assert_eq!(workspace["workspaceFolders"], json!({ "supported": true, "changeNotifications": true }));
    editor.read_a_book().await;
    editor.read_a_book().await;
    let mut all = found(&mut editor, "").await;
    all.sort();
    assert_eq!(
        all,
        ["Plum Jam in jam.tamis", "Plum Jam in plums.tamis", "Plum Tart in pie.tamis", "Plum Tart in tart.tamis"]
    );
    for (book, name, jam) in [(&one, "tart.tamis", "jam.tamis"), (&other, "pie.tamis", "plums.tamis")] {
        let address = uri(book.path(), name);
        editor.open(&address, &tart("Plum")).await;
        editor.published().await;
        assert_eq!(definition(&mut editor, &address, &tart("Plum")).await, uri(book.path(), jam));
    }
    // A folder that goes takes its book along, unless something of it is open.
    let folder_of = |book: &TempDir| json!([{ "uri": format!("file://{}", book.path().display()), "name": "book" }]);
    let event = |added: Value, removed: Value| json!({ "event": { "added": added, "removed": removed } });
    editor.notify("workspace/didChangeWorkspaceFolders", event(json!([]), folder_of(&one))).await;
    assert_eq!(found(&mut editor, "Jam").await.len(), 4);
    editor.notify("workspace/didChangeWorkspaceFolders", event(folder_of(&one), json!([]))).await;
    assert_eq!(found(&mut editor, "Jam").await.len(), 4);
    editor.leave().await;
}

#[tokio::test]
async fn outside_any_book_a_title_is_looked_for_in_the_same_folder() {
    let loose =
        folder(&[("a/jam.tamis", &jam("Plum")), ("a/tart.tamis", &tart("Plum")), ("b/tart.tamis", &tart("Plum"))]);
    let (mut editor, _) = Editor::introduced(shows_progress()).await;
    for (name, text) in [("a/tart.tamis", tart("Plum")), ("b/tart.tamis", tart("Plum"))] {
        editor.open(&uri(loose.path(), name), &text).await;
        editor.published().await;
    }
    let tarts = ["a/tart.tamis", "b/tart.tamis"].map(|name| uri(loose.path(), name));
    // What is not open is not known: nobody said that the folder is a book.
    assert_eq!(definition(&mut editor, &tarts[0], &tart("Plum")).await, Value::Null);
    let opened = uri(loose.path(), "a/jam.tamis");
    editor.open(&opened, &jam("Plum")).await;
    editor.published().await;
    assert_eq!(definition(&mut editor, &tarts[0], &tart("Plum")).await, opened);
    assert_eq!(definition(&mut editor, &tarts[1], &tart("Plum")).await, Value::Null);
    editor.leave().await;
}

#[tokio::test]
async fn files_and_folders_that_come_and_go_are_followed() {
    let book = folder(&[("tamis.toml", ""), ("tart.tamis", &tart("Plum")), ("old/jam.tamis", &jam("Plum"))]);
    let (mut editor, answer) = working_in(&[&book]).await;
    let operations = &answer["capabilities"]["workspace"]["fileOperations"];
    let offered: Vec<&String> = operations.as_object().unwrap().keys().collect();
    assert_eq!(
        offered,
        ["didCreate", "didRename", "didDelete"],
        "nothing has to be edited when a file gets another name"
    );
    editor.read_a_book().await;
    let address = |name: &str| uri(book.path(), name);
    let place = |name: &str| book.path().join(name);

    // A file, which alone is read again.
    fs::rename(place("old/jam.tamis"), place("old/plums.tamis")).unwrap();
    let files = json!([{ "oldUri": address("old/jam.tamis"), "newUri": address("old/plums.tamis") }]);
    editor.notify("workspace/didRenameFiles", json!({ "files": files })).await;
    until(&mut editor, "Jam", &["Plum Jam in plums.tamis"]).await;
    write(book.path(), "quince.tamis", &jam("Quince"));
    editor.notify("workspace/didCreateFiles", json!({ "files": [{ "uri": address("quince.tamis") }] })).await;
    until(&mut editor, "Jam", &["Plum Jam in plums.tamis", "Quince Jam in quince.tamis"]).await;
    fs::remove_file(place("quince.tamis")).unwrap();
    editor.notify("workspace/didDeleteFiles", json!({ "files": [{ "uri": address("quince.tamis") }] })).await;
    until(&mut editor, "Jam", &["Plum Jam in plums.tamis"]).await;

    // A post, by what its fences hold.
    write(book.path(), "plums.md", &format!("Of plums.\n\n```tamis\n{}```\n", jam("Damson")));
    let changed = json!([{ "uri": address("plums.md"), "type": 1 }]);
    editor.notify("workspace/didChangeWatchedFiles", json!({ "changes": changed })).await;
    until(&mut editor, "Jam", &["Plum Jam in plums.tamis", "Damson Jam in plums.md"]).await;
    write(book.path(), "plums.md", "Of plums.\n");
    editor.notify("workspace/didChangeWatchedFiles", json!({ "changes": changed })).await;
    until(&mut editor, "Jam", &["Plum Jam in plums.tamis"]).await;

    // A folder, with all that is in it.
    fs::rename(place("old"), place("new")).unwrap();
    let files = json!([{ "oldUri": address("old"), "newUri": address("new") }]);
    editor.notify("workspace/didRenameFiles", json!({ "files": files })).await;
    editor.read_a_book().await;
    editor.open(&address("tart.tamis"), &tart("Plum")).await;
    editor.published().await;
    assert_eq!(definition(&mut editor, &address("tart.tamis"), &tart("Plum")).await, address("new/plums.tamis"));
    editor.leave().await;
}

#[tokio::test]
async fn a_style_sheet_leads_nowhere_and_is_no_fault_to_ask_about() {
    let book = folder(&[("tamis.toml", ""), ("jam.tamis", &jam("Plum"))]);
    let (mut editor, _) = Editor::introduced(json!({})).await;
    let sheet = uri(book.path(), "tamis.toml");
    editor.open(&sheet, "").await;
    let params = json!({ "textDocument": { "uri": sheet }, "position": { "line": 0, "character": 0 }, "newName": "x" });
    for method in ["definition", "references", "documentLink", "prepareRename", "rename", "prepareCallHierarchy"] {
        let mut params = params.clone();
        params["context"] = json!({ "includeDeclaration": true });
        assert_eq!(editor.request(&format!("textDocument/{method}"), params).await, Ok(Value::Null), "{method}");
    }
    editor.published().await;
    editor.leave().await;
}

/// Asks until the files that changed have been read beside the desk.
async fn until(editor: &mut Editor, query: &str, expected: &[&str]) {
    while found(editor, query).await != expected {
        tokio::task::yield_now().await;
    }
}
