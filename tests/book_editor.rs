//! The features of an editor over a whole book: answers from manuscripts that nobody has open, and edits to them.

use std::collections::BTreeMap;
use std::fs;

use serde_json::{Value, json};
use tamis::text::Edit;
use tamis_tests::drawn;
use tamis_tests::editor::{Editor, Refused};
use tamis_tests::folder::{folder, uri};
use tempfile::TempDir;

const SALAD: &str = "Recipe: Kohlrabi Salad
Serves: 4

Ingredients:

- 3 kohlrabi, peeled and grated
- 1/4 cup (60 ml) [[Shed Door Dressing]]

Method:

1. Toss the kohlrabi with the dressing. Serve it cold.
";

/// 🥚 counts otherwise in each encoding.
const BASICS: &str = "Basics of the society, such as 🥚 [[shed-door dressing]].

Recipe: Pea Shoot Oil
Yield: 1 cup

Ingredients:

- 1 cup (240 ml) sunflower oil

Method:

1. Warm the oil.

Recipe:  Shed Door Dressing
Yield: 1 cup

Ingredients:

- 3/4 cup (180 ml) [[Pea Shoot Oil]]
- 1/4 cup (60 ml) cider vinegar

Method:

1. Shake the oil with the vinegar.
";

const MENU: &str = "Recipe: Digging Day Supper\r
Serves: 8\r
\r
Ingredients:\r
\r
- 1 batch [[Kohlrabi Salad]]\r
- 1 cup (240 ml) [[Shed Door Dressing]]\r
\r
Method:\r
\r
1. Serve the salad with more [[Shed Door Dressing]]; [[Nobody's Bread]] goes with it.\r
";

const FILES: [(&str, &str); 4] =
    [("tamis.toml", ""), ("salads/salad.tamis", SALAD), ("basics.tamis", BASICS), ("menu.tamis", MENU)];

fn capabilities() -> Value {
    json!({
        "general": { "positionEncodings": ["utf-16"] },
        "window": { "workDoneProgress": true },
        "workspace": { "workspaceEdit": { "documentChanges": true } },
        "textDocument": { "definition": { "linkSupport": true } },
    })
}

/// An editor with one manuscript open, whose book has been read.
async fn opened(book: &TempDir, name: &str, text: &str, capabilities: Value) -> Editor {
    let (mut editor, _) = Editor::introduced(capabilities).await;
    editor.open(&uri(book.path(), name), text).await;
    editor.published().await;
    editor.read_a_book().await;
    editor
}

/// Closes what is open, of which something has been found, and leaves, whatever has been published last.
async fn leave(mut editor: Editor, book: &TempDir, open: &[&str]) {
    for name in open {
        editor.close(&uri(book.path(), name)).await;
    }
    let mut taken_back = 0;
    while taken_back < open.len() {
        taken_back += usize::from(editor.published().await.diagnostics.is_empty());
    }
    editor.leave().await;
}

fn at(book: &TempDir, name: &str, text: &str, place: &str) -> Value {
    let (before, behind) = place.split_once('‸').unwrap();
    let offset = text.find(&format!("{before}{behind}")).unwrap_or_else(|| panic!("{place}")) + before.len();
    json!({ "textDocument": { "uri": uri(book.path(), name) }, "position": drawn::position(text, offset) })
}

/// `file:words` of a place in a file of the book.
fn words(book: &TempDir, place: &Value, range: &str) -> String {
    let address = place["uri"].as_str().or(place["targetUri"].as_str()).unwrap();
    let name = address.strip_prefix(&uri(book.path(), "")).unwrap();
    let text = fs::read_to_string(book.path().join(name)).unwrap();
    format!("{name}:{}", drawn::span(&text, &place[range]).of(&text))
}

#[tokio::test]
async fn a_title_is_found_in_another_file_that_nobody_has_open() {
    let book = folder(&FILES);
    let mut editor = opened(&book, "salads/salad.tamis", SALAD, capabilities()).await;
    let dressing = "basics.tamis:Shed Door Dressing";
    for (method, place, found) in [
        ("definition", "[[Shed Do‸or", Some(dressing)),
        ("typeDefinition", "[[Shed Do‸or", Some(dressing)),
        // By what the method says, to the line that asks for it, and through that to its recipe.
        ("definition", "with the dress‸ing", Some("salads/salad.tamis:Shed Door Dressing")),
        ("typeDefinition", "with the dress‸ing", Some(dressing)),
        ("definition", "Recipe: Kohl‸rabi", Some("salads/salad.tamis:Kohlrabi Salad")),
    ] {
        let params = at(&book, "salads/salad.tamis", SALAD, place);
        let answer = editor.request(&format!("textDocument/{method}"), params).await.unwrap();
        let places: Vec<String> =
            answer.as_array().into_iter().flatten().map(|link| words(&book, link, "targetSelectionRange")).collect();
        assert_eq!(places, Vec::from_iter(found.map(str::to_owned)), "{method} {place}");
    }
    let document = json!({ "textDocument": { "uri": uri(book.path(), "salads/salad.tamis") } });
    let links = editor.request("textDocument/documentLink", document).await.unwrap();
    assert_eq!(links[0]["target"], format!("{}#L14", uri(book.path(), "basics.tamis")));
    editor.leave().await;
}

#[tokio::test]
async fn a_manuscript_that_is_open_counts_as_it_is_in_the_editor() {
    let book = folder(&FILES);
    let mut editor = opened(&book, "salads/salad.tamis", SALAD, capabilities()).await;
    let basics = uri(book.path(), "basics.tamis");
    let moved = BASICS.replace("Recipe:  Shed Door", "// again\n\nRecipe: Shed Door");
    editor.open(&basics, &moved).await;
    editor.published().await;
    let params = at(&book, "salads/salad.tamis", SALAD, "[[Shed Do‸or");
    let answer = editor.request("textDocument/definition", params).await.unwrap();
    assert_eq!(answer.as_array().unwrap().len(), 1);
    assert_eq!(drawn::span(&moved, &answer[0]["targetSelectionRange"]).of(&moved), "Shed Door Dressing");
    editor.close(&basics).await;
    editor.leave().await;
}

#[tokio::test]
async fn titles_of_the_book_are_proposed_between_brackets() {
    let book = folder(&FILES);
    let text = SALAD.replace("Serve it cold", "Serve it with [[]");
    let mut editor = opened(&book, "salads/salad.tamis", &text, capabilities()).await;
    let params = at(&book, "salads/salad.tamis", &text, "Serve it with [[‸]");
    let answer = editor.request("textDocument/completion", params).await.unwrap();
    let items = answer["items"].as_array().unwrap().iter();
    let proposed: Vec<&str> = items.map(|item| item["textEdit"]["newText"].as_str().unwrap()).collect();
    assert_eq!(proposed, ["Digging Day Supper]", "Pea Shoot Oil]", "Shed Door Dressing]"]);
    editor.leave().await;
}

#[tokio::test]
async fn recipes_of_the_whole_book_are_found_by_name() {
    let book = folder(&FILES);
    let mut editor = opened(&book, "salads/salad.tamis", SALAD, capabilities()).await;
    for (query, found) in [
        (
            "",
            &[
                "salads/salad.tamis:Kohlrabi Salad",
                "basics.tamis:Pea Shoot Oil",
                "basics.tamis:Shed Door Dressing",
                "menu.tamis:Digging Day Supper",
            ][..],
        ),
        ("supper", &["menu.tamis:Digging Day Supper"]),
        ("shed door", &["basics.tamis:Shed Door Dressing", "salads/salad.tamis:Shed Door Dressing"]),
        // What is in a recipe is looked for only where that is open.
        ("vinegar", &[]),
    ] {
        let answer = editor.request("workspace/symbol", json!({ "query": query })).await.unwrap();
        let places: Vec<String> =
            answer.as_array().unwrap().iter().map(|symbol| words(&book, &symbol["location"], "range")).collect();
        assert_eq!(places, found, "{query}");
    }
    editor.leave().await;
}

#[tokio::test]
async fn a_title_is_followed_to_all_that_refer_to_it() {
    let book = folder(&FILES);
    let mut editor = opened(&book, "salads/salad.tamis", SALAD, capabilities()).await;
    let spoken = [
        "basics.tamis:shed-door dressing",
        "basics.tamis:Shed Door Dressing",
        "menu.tamis:Shed Door Dressing",
        "menu.tamis:Shed Door Dressing",
        "salads/salad.tamis:Shed Door Dressing",
    ];
    for (stated, expected) in [(true, spoken.to_vec()), (false, [&spoken[..1], &spoken[2..]].concat())] {
        let mut params = at(&book, "salads/salad.tamis", SALAD, "[[Shed Do‸or");
        params["context"] = json!({ "includeDeclaration": stated });
        let answer = editor.request("textDocument/references", params).await.unwrap();
        let places: Vec<String> = answer.as_array().unwrap().iter().map(|place| words(&book, place, "range")).collect();
        assert_eq!(places, expected);
    }

    let params = at(&book, "salads/salad.tamis", SALAD, "[[Shed Do‸or");
    let item = editor.request("textDocument/prepareCallHierarchy", params).await.unwrap()[0].clone();
    assert_eq!(words(&book, &item, "selectionRange"), "basics.tamis:Shed Door Dressing");
    let calls = editor.request("callHierarchy/incomingCalls", json!({ "item": item })).await.unwrap();
    let from: Vec<String> =
        calls.as_array().unwrap().iter().map(|call| words(&book, &call["from"], "selectionRange")).collect();
    assert_eq!(from, ["menu.tamis:Digging Day Supper", "salads/salad.tamis:Kohlrabi Salad"]);
    assert_eq!(calls[0]["fromRanges"].as_array().unwrap().len(), 2);
    // And on from there, to what a recipe uses that nobody has open.
    let supper = json!({ "item": calls[0]["from"] });
    let calls = editor.request("callHierarchy/outgoingCalls", supper).await.unwrap();
    let to: Vec<String> =
        calls.as_array().unwrap().iter().map(|call| words(&book, &call["to"], "selectionRange")).collect();
    assert_eq!(to, ["salads/salad.tamis:Kohlrabi Salad", "basics.tamis:Shed Door Dressing"]);
    editor.leave().await;
}

/// The texts that edits of the book lead to, by name; of what is open in the editor, with the version they are meant for.
fn edited(book: &TempDir, answer: &Value, open: &[(&str, &str)]) -> BTreeMap<String, (Value, String)> {
    let apply = |address: &str, edits: &Value| {
        let name = address.strip_prefix(&uri(book.path(), "")).unwrap();
        let held = open.iter().find(|(open, _)| *open == name).map(|(_, text)| text.to_string());
        let text = held.unwrap_or_else(|| fs::read_to_string(book.path().join(name)).unwrap());
        let edits = edits.as_array().unwrap().iter();
        let edits: Vec<Edit> = edits
            .map(|edit| Edit::replace(drawn::span(&text, &edit["range"]), edit["newText"].as_str().unwrap()))
            .collect();
        (name.to_owned(), Edit::apply_all(&text, &edits))
    };
    let of_changes = answer["changes"].as_object().into_iter().flatten();
    let mut out: BTreeMap<_, _> = of_changes
        .map(|(address, edits)| apply(address, edits))
        .map(|(name, text)| (name, (Value::Null, text)))
        .collect();
    for change in answer["documentChanges"].as_array().into_iter().flatten() {
        let (name, text) = apply(change["textDocument"]["uri"].as_str().unwrap(), &change["edits"]);
        out.insert(name, (change["textDocument"]["version"].clone(), text));
    }
    out
}

async fn renamed(editor: &mut Editor, mut place: Value, new: &str) -> Result<Value, Refused> {
    place["newName"] = new.into();
    editor.request("textDocument/rename", place).await
}

#[tokio::test]
async fn a_new_title_is_written_wherever_the_book_says_the_old_one() {
    let book = folder(&FILES);
    // What the editor holds is not what is on disk.
    let salad = SALAD.replace("Serves: 4", "Serves: 4 to 5");
    let later = |text: &str| {
        text.replace("Shed Door Dressing", "Potting Bench Relish").replace("shed-door dressing", "Potting Bench Relish")
    };
    for (capabilities, version) in
        [(capabilities(), json!(1)), (json!({ "window": { "workDoneProgress": true } }), Value::Null)]
    {
        let mut editor = opened(&book, "salads/salad.tamis", &salad, capabilities).await;
        let place = at(&book, "salads/salad.tamis", &salad, "[[Shed Do‸or");
        let prepared = editor.request("textDocument/prepareRename", place.clone()).await.unwrap();
        assert_eq!(prepared["placeholder"], "Shed Door Dressing");
        let answer = renamed(&mut editor, place, " Potting Bench Relish ").await.unwrap();
        let edited = edited(&book, &answer, &[("salads/salad.tamis", &salad)]);
        let new_salad = later(&salad).replace("with the dressing", "with the potting bench relish");
        let expected = [
            ("basics.tamis".to_owned(), (Value::Null, later(BASICS))),
            ("menu.tamis".to_owned(), (Value::Null, later(MENU))),
            ("salads/salad.tamis".to_owned(), (version, new_salad)),
        ];
        assert_eq!(edited, BTreeMap::from(expected));
        editor.leave().await;
    }
}

#[tokio::test]
async fn a_title_of_another_recipe_or_of_none_is_refused_in_words() {
    let book = folder(&FILES);
    let mut editor = opened(&book, "menu.tamis", MENU, capabilities()).await;
    for (place, new, reason) in [
        ("[[Kohlrabi Sa‸lad", "Pea-Shoot Oils", "A recipe in basics.tamis, line 3 is called “Pea Shoot Oil” already"),
        ("[[Kohlrabi Sa‸lad", "Digging Day Supper", "A recipe in menu.tamis, line 1 is called"),
        ("[[Kohlrabi Sa‸lad", "  ", "at least one letter"),
        ("[[Kohlrabi Sa‸lad", "Salad [warm]", "'[' cannot stand in a title"),
        ("[[Kohlrabi Sa‸lad", "Salad // warm", "would not be read as one title"),
        ("[[Nobody‸'s", "Somebody's Bread", "No recipe of this book has that title"),
    ] {
        let refused = renamed(&mut editor, at(&book, "menu.tamis", MENU, place), new).await.expect_err(new);
        assert!(refused.code == -32803 && refused.message.contains(reason), "{new}: {}", refused.message);
    }
    // Only other letters of the same title are no other title.
    let answer =
        renamed(&mut editor, at(&book, "menu.tamis", MENU, "[[Kohlrabi Sa‸lad"), "Kohlrabi Salads").await.unwrap();
    assert_eq!(edited(&book, &answer, &[]).keys().collect::<Vec<_>>(), ["menu.tamis", "salads/salad.tamis"]);
    leave(editor, &book, &["menu.tamis"]).await;
}

#[tokio::test]
async fn of_two_recipes_with_one_title_the_one_at_the_cursor_gets_another() {
    let second = SALAD.replace("Serve it cold", "Serve it warm");
    let book = folder(&[("tamis.toml", ""), ("salad.tamis", SALAD), ("draft.tamis", &second), ("menu.tamis", MENU)]);
    let mut editor = opened(&book, "draft.tamis", &second, capabilities()).await;
    let answer =
        renamed(&mut editor, at(&book, "draft.tamis", &second, "Recipe: Kohl‸rabi"), "Winter Kohlrabi").await.unwrap();
    let expected = second.replace("Recipe: Kohlrabi Salad", "Recipe: Winter Kohlrabi");
    assert_eq!(edited(&book, &answer, &[]), BTreeMap::from([("draft.tamis".to_owned(), (json!(1), expected))]));
    let menu = uri(book.path(), "menu.tamis");
    editor.open(&menu, MENU).await;
    let place = at(&book, "menu.tamis", MENU, "[[Kohlrabi Sa‸lad");
    let refused = renamed(&mut editor, place, "Winter Kohlrabi").await.unwrap_err();
    assert!(refused.message.contains("Several recipes have this title"), "{}", refused.message);
    leave(editor, &book, &["draft.tamis", "menu.tamis"]).await;
}
