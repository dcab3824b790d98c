//! What is wrong in a whole folder, for a client that asks for all of it: only what it does not know already, and nothing of what is open.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::time::Duration;

use serde_json::{Value, json};
use tamis_tests::editor::Editor;
use tempfile::TempDir;

/// Puts sugar into a cake and forgets it.
fn cake(title: &str) -> String {
    format!(
        "Recipe: {title}\nServes: 6\n\nIngredients:\n- 2 cups (250 g) flour\n- 1/2 cup (100 g) sugar\n\nMethod:\n\n1. Heat the oven to 350°F (175°C) and bake the flour \
         for 30 minutes.\n"
    )
}

const SALAD: &str = "Recipe: Bean Salad\nServes: 4\n\nIngredients:\n- 1 lb (450 g) green beans\n\nMethod:\n\n1. Boil the green beans \
                     for 5 minutes.\n";

fn uri(folder: &Path, name: &str) -> String {
    format!("file://{}/{name}", folder.display())
}

/// A folder with these files, and an editor that pulls and works in it.
async fn desk(files: &[(&str, &str)]) -> (Editor, TempDir) {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    let mut editor = Editor::silent();
    let folders = json!([{ "uri": uri(folder.path(), ""), "name": "book" }]);
    let capabilities =
        json!({ "textDocument": { "diagnostic": {}, "publishDiagnostics": { "relatedInformation": true } } });
    let params =
        json!({ "processId": null, "rootUri": null, "capabilities": capabilities, "workspaceFolders": folders });
    let answer = editor.request("initialize", params).await.unwrap();
    assert_eq!(answer["capabilities"]["diagnosticProvider"]["workspaceDiagnostics"], true);
    editor.notify("initialized", json!({})).await;
    (editor, folder)
}

/// What the client knows of each file, by its name: the name of the answer, and what it said.
type Known = BTreeMap<String, (String, Vec<Value>)>;

/// Asks, and takes in the answer. What each file that it speaks of has got: its codes, or that nothing is new.
async fn review(editor: &mut Editor, known: &mut Known) -> BTreeMap<String, Vec<String>> {
    let previous: Vec<Value> = known.iter().map(|(uri, (name, _))| json!({ "uri": uri, "value": name })).collect();
    let answer = editor.request("workspace/diagnostic", json!({ "previousResultIds": previous })).await.unwrap();
    let mut out = BTreeMap::new();
    for report in answer["items"].as_array().unwrap() {
        let (uri, name) = (report["uri"].as_str().unwrap().to_owned(), report["resultId"].as_str().unwrap().to_owned());
        assert_eq!(report["version"], Value::Null, "of a file that is not open");
        let file = uri.rsplit('/').next().unwrap().to_owned();
        let said = match report["kind"].as_str().unwrap() {
            "unchanged" => {
                assert_eq!(known[&uri].0, name);
                vec!["unchanged".to_owned()]
            }
            _ => {
                let items = report["items"].as_array().unwrap().clone();
                let codes = items.iter().map(|item| item["code"].as_str().unwrap().to_owned()).collect();
                known.insert(uri, (name, items));
                codes
            }
        };
        out.insert(file, said);
    }
    out
}

fn said(files: &[(&str, &[&str])]) -> BTreeMap<String, Vec<String>> {
    let own = |codes: &[&str]| codes.iter().map(|code| (*code).to_owned()).collect();
    files.iter().map(|(file, codes)| ((*file).to_owned(), own(codes))).collect()
}

#[tokio::test]
async fn a_folder_is_reviewed_and_only_news_are_told() {
    let post = format!("# For the blog\n\n```tamis\n{}```\n", cake("Plain Cake"));
    let files = [
        ("cake.tamis", &*cake("Seed Cake")),
        ("salad.tamis", SALAD),
        ("open.tamis", &*cake("Open Cake")),
        ("post.md", &*post),
    ];
    let (mut editor, folder) = desk(&files).await;
    editor.open(&uri(folder.path(), "open.tamis"), &cake("Open Cake")).await;
    editor.published().await;
    let mut known = Known::new();
    // Sound ones are not spoken of, nor is the one that is open.
    let unused: &[&str] = &["ingredient-unused"];
    assert_eq!(review(&mut editor, &mut known).await, said(&[("cake.tamis", unused), ("post.md", unused)]));
    let unchanged: &[&str] = &["unchanged"];
    assert_eq!(review(&mut editor, &mut known).await, said(&[("cake.tamis", unchanged), ("post.md", unchanged)]));

    // Nothing is read again that has not been written since.
    let file = folder.path().join("cake.tamis");
    let written = fs::metadata(&file).unwrap().modified().unwrap();
    fs::write(&file, cake("Seed Cake").replace("sugar", "honey")).unwrap();
    let date = |date| fs::File::options().append(true).open(&file).unwrap().set_modified(date).unwrap();
    date(written);
    let both = said(&[("cake.tamis", unchanged), ("post.md", unchanged)]);
    assert_eq!(review(&mut editor, &mut known).await, both);
    date(written + Duration::from_secs(1));
    // Half a cup of honey weighs more.
    let news = said(&[("cake.tamis", &["restated-disagrees", "ingredient-unused"]), ("post.md", unchanged)]);
    assert_eq!(review(&mut editor, &mut known).await, news);

    // It is what an editor with the file open is shown.
    let cakes = uri(folder.path(), "cake.tamis");
    editor.open(&cakes, &cake("Seed Cake").replace("sugar", "honey")).await;
    assert_eq!(editor.published().await.diagnostics, known[&cakes].1);
    editor.close(&cakes).await;
    assert!(editor.published().await.diagnostics.is_empty());

    // Mended, made wrong, taken away.
    fs::write(folder.path().join("cake.tamis"), SALAD).unwrap();
    fs::write(folder.path().join("salad.tamis"), cake("Sponge")).unwrap();
    fs::remove_file(folder.path().join("post.md")).unwrap();
    let news = said(&[("cake.tamis", &[]), ("salad.tamis", unused), ("post.md", &[])]);
    assert_eq!(review(&mut editor, &mut known).await, news);
    assert_eq!(
        review(&mut editor, &mut known).await,
        said(&[("cake.tamis", unchanged), ("salad.tamis", unchanged)]),
        "what is gone is told once"
    );
    editor.leave().await;
}

/// Two recipes of one title, in two files: each file is told of the other's, also when only the other one changes.
#[tokio::test]
async fn what_the_files_of_a_book_say_of_each_other_is_told_once_the_book_has_been_read() {
    let files = [("tamis.toml", ""), ("one.tamis", SALAD), ("two.tamis", SALAD)];
    let (mut editor, folder) = desk(&files).await;
    let mut known = Known::new();
    let first = review(&mut editor, &mut known).await;
    if first.is_empty() {
        // The book was still being read.
        editor.asked("workspace/diagnostic/refresh").await;
        review(&mut editor, &mut known).await;
    }
    let codes = |known: &Known, file: &str| -> Vec<String> {
        let items = &known[&uri(folder.path(), file)].1;
        items.iter().map(|item| item["code"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(codes(&known, "two.tamis"), ["title-twice"]);
    let file = folder.path().join("two.tamis");
    let written = fs::metadata(&file).unwrap().modified().unwrap();
    fs::write(&file, SALAD.replace("Bean Salad", "Been Salad")).unwrap();
    let date = |date| fs::File::options().append(true).open(&file).unwrap().set_modified(date).unwrap();
    date(written);
    assert_eq!(
        review(&mut editor, &mut known).await["two.tamis"],
        ["unchanged"],
        "a book that is the same is no reason either"
    );
    fs::write(&file, SALAD).unwrap();
    review(&mut editor, &mut known).await;

    fs::write(folder.path().join("one.tamis"), SALAD.replace("Bean Salad", "Green Bean Salad")).unwrap();
    let change = json!({ "uri": uri(folder.path(), "one.tamis"), "type": 2 });
    editor.notify("workspace/didChangeWatchedFiles", json!({ "changes": [change] })).await;
    // The file is read beside the desk.
    for _ in 0..1000 {
        review(&mut editor, &mut known).await;
        if codes(&known, "two.tamis").is_empty() {
            break;
        }
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
    assert_eq!(codes(&known, "two.tamis"), [""; 0]);
    editor.leave().await;
}

#[tokio::test]
async fn a_client_with_a_token_is_told_piece_by_piece() {
    let cakes: Vec<(String, String)> =
        (1..=9).map(|number| (format!("{number}.tamis"), cake(&format!("Cake {number}")))).collect();
    let files: Vec<(&str, &str)> = cakes.iter().map(|(name, text)| (&**name, &**text)).collect();
    let (mut editor, _folder) = desk(&files).await;
    let params = json!({ "previousResultIds": [], "partialResultToken": "review" });
    let answer = editor.request("workspace/diagnostic", params).await.unwrap();
    assert_eq!(answer, json!({ "items": [] }));
    let told = editor.told_so_far("$/progress");
    assert!(told.iter().all(|piece| piece["token"] == "review"), "{told:?}");
    let items: Vec<&Value> = told.iter().flat_map(|piece| piece["value"]["items"].as_array().unwrap()).collect();
    assert_eq!(items.len(), 9);
    assert!(items.iter().all(|report| report["kind"] == "full" && report["items"][0]["code"] == "ingredient-unused"));
    editor.leave().await;
}
