//! What the recipes of a book say of each other, over several files: on the command line, and while somebody types.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use tamis_tests::{
    editor::{Editor, Published},
    folder::{folder, uri},
    program::run,
};

const SALAD: &str = "Recipe: Kohlrabi Salad
Serves: 4
Time: 10 min total

Ingredients:

- 3 kohlrabi, peeled and grated
- 2 cups (475 ml) [[Shed Door Dressing]]

Method:

1. Toss the kohlrabi with the dressing.
";

const DRESSING: &str = "Recipe: Shed Door Dressing
Yield: 1 cup
Time: 10 min total

Ingredients:

- 3/4 cup (180 ml) sunflower oil
- 1/4 cup (60 ml) cider vinegar

Method:

1. Shake the oil with the vinegar.
";

/// `path:line code: message` of each finding.
fn found(folder: &Path, arguments: &[&str]) -> Vec<String> {
    let answer = run(folder, &[&["check", "--output", "json"], arguments].concat(), b"");
    assert_eq!(answer.err, "");
    let findings: Vec<Value> = serde_json::from_str(&answer.out).unwrap();
    let text = |finding: &Value, key: &str| finding[key].as_str().unwrap().to_owned();
    let one = |finding: &Value| {
        let place = (text(finding, "path"), finding["range"]["start"]["line"].as_u64().unwrap() + 1);
        format!("{}:{} {}: {}", place.0, place.1, text(finding, "code"), text(finding, "message"))
    };
    findings.iter().map(one).collect()
}

const SHORT: &str = "subrecipe-short: This takes 2 cups of Shed Door Dressing, and that recipe makes 1 cup: the cook runs \
                     out halfway. Ask for less, or say how many batches to make.";

#[test]
fn a_reference_is_followed_into_another_file_of_the_book_whichever_files_are_asked_for() {
    let book = folder(&[("tamis.toml", ""), ("salads/salad.tamis", SALAD), ("dressing.tamis", DRESSING)]);
    for arguments in [&[][..], &["salads"], &["salads/../salads/salad.tamis"]] {
        let found = found(book.path(), arguments);
        assert!(found.len() == 1 && found[0].ends_with(SHORT), "{arguments:?}: {found:?}");
    }
    // Without a style sheet there is no book, and so nothing to look it up in.
    fs::remove_file(book.path().join("tamis.toml")).unwrap();
    assert_eq!(found(book.path(), &[]), [""; 0]);
}

#[test]
fn titles_that_are_nowhere_and_titles_that_are_twice_are_told_with_their_place() {
    let other = DRESSING.replace("3/4 cup (180 ml) sunflower oil", "3/4 cup (180 ml) olive oil");
    let other = format!("\n{other}");
    let files = [("tamis.toml", ""), ("salad.tamis", SALAD), ("dressing.tamis", DRESSING), ("old/draft.tamis", &other)];
    let book = folder(&files);
    let twice = |place: &str| {
        format!(
            "title-twice: Another recipe in {place} is called “Shed Door Dressing” too. Nobody can tell which of them a \
             reference or the index means: tell them apart by their titles."
        )
    };
    let (first, second) = (twice("old/draft.tamis, line 2"), twice("dressing.tamis, line 1"));
    assert_eq!(found(book.path(), &[]), [format!("dressing.tamis:1 {first}"), format!("old/draft.tamis:2 {second}")]);
    fs::remove_file(book.path().join("dressing.tamis")).unwrap();
    fs::remove_file(book.path().join("old/draft.tamis")).unwrap();
    let broken = found(book.path(), &[]);
    assert!(
        broken.len() == 1 && broken[0].starts_with("salad.tamis:8 cross-reference-broken: No recipe of this book"),
        "{broken:?}"
    );
}

#[test]
fn a_circle_over_three_files_is_told_in_each() {
    let soup = |title: &str, asks: &str| {
        format!(
            "Recipe: {title}\nYield: 4 cups\nTime: 30 min total\n\nIngredients:\n\n- 2 cups (475 ml) [[{asks}]]\n- 3 leeks\n\nMethod:\n\n1. Simmer the leeks in the broth until soft, 20 minutes.\n"
        )
    };
    let (one, two, three) =
        (soup("Leek Broth", "Bean Broth"), soup("Bean Broth", "Chard Broth"), soup("Chard Broth", "Leek Broth"));
    let book = folder(&[("tamis.toml", ""), ("1.tamis", &one), ("2.tamis", &two), ("3.tamis", &three)]);
    let circles: Vec<String> = found(book.path(), &[]).into_iter().filter(|found| found.contains("circular")).collect();
    assert_eq!(circles.len(), 3, "{circles:?}");
    assert!(
        circles[0]
            .contains("This asks for “Bean Broth”, which asks for “Chard Broth”, which asks for this recipe again"),
        "{}",
        circles[0]
    );
}

fn codes(published: &Published) -> Vec<&str> {
    published.diagnostics.iter().map(|diagnostic| diagnostic["code"].as_str().unwrap()).collect()
}

#[tokio::test]
async fn an_editor_follows_titles_as_they_are_typed_here_and_saved_elsewhere() {
    let book = folder(&[("tamis.toml", ""), ("salad.tamis", SALAD)]);
    let (mut editor, _) = Editor::introduced(json!({})).await;
    let salad = uri(book.path(), "salad.tamis");
    editor.open(&salad, SALAD).await;
    assert_eq!(codes(&editor.published().await), [""; 0], "before the book has been read");
    assert_eq!(codes(&editor.published().await), ["cross-reference-broken"]);

    // The recipe that is asked for comes to be in the same manuscript: only its title makes the difference.
    let both = format!("{SALAD}\n{}", DRESSING.replace("Shed Door Dressing", "Shed Door Dressin"));
    editor.change(&salad, 2, json!([{ "text": both }])).await;
    assert_eq!(codes(&editor.published().await), ["cross-reference-broken"]);
    let line = SALAD.lines().count() + 1;
    let end = json!({ "line": line, "character": "Recipe: Shed Door Dressin".len() });
    editor.change(&salad, 3, json!([{ "range": { "start": end, "end": end }, "text": "g" }])).await;
    assert_eq!(codes(&editor.published().await), ["subrecipe-short"]);

    // Or in another file, once that is saved.
    editor.change(&salad, 4, json!([{ "text": SALAD }])).await;
    assert_eq!(codes(&editor.published().await), ["cross-reference-broken"]);
    fs::write(book.path().join("dressing.tamis"), DRESSING).unwrap();
    let changed = |kind: u8| json!({ "changes": [{ "uri": uri(book.path(), "dressing.tamis"), "type": kind }] });
    editor.notify("workspace/didChangeWatchedFiles", changed(1)).await;
    assert_eq!(codes(&editor.published().await), ["subrecipe-short"]);
    fs::remove_file(book.path().join("dressing.tamis")).unwrap();
    editor.notify("workspace/didChangeWatchedFiles", changed(3)).await;
    assert_eq!(codes(&editor.published().await), ["cross-reference-broken"]);
    editor.leave().await;
}

/// As many recipes as a large cookbook has, a thousand of which ask for another.
fn large() -> Vec<(String, String)> {
    let recipe = |number: usize| match number % 2 {
        0 => format!(
            "Recipe: Plot {number} Salad\nServes: 4\nTime: 10 min total\n\nIngredients:\n\n- 3 kohlrabi, peeled and grated\n- 1/4 cup (60 ml) [[Plot {} Dressing]]\n\nMethod:\n\n1. Toss the kohlrabi with the dressing.\n",
            number + 1
        ),
        _ => DRESSING.replace("Shed Door", &format!("Plot {number}")),
    };
    let file = |number: usize| {
        let recipes: Vec<String> = (number * 10..number * 10 + 10).map(recipe).collect();
        (format!("{}/{number}.tamis", number % 7), recipes.join("\n"))
    };
    (0..200).map(file).collect()
}

#[tokio::test]
async fn a_book_of_two_thousand_recipes_is_known_by_title_and_typing_speaks_of_one_document() {
    let files = large();
    let book = folder(&files);
    fs::write(book.path().join("tamis.toml"), "").unwrap();
    let (mut editor, _) = Editor::introduced(json!({ "window": { "workDoneProgress": true } })).await;
    let addresses = ["0/0.tamis", "1/1.tamis"].map(|name| uri(book.path(), name));
    for (address, (_, text)) in addresses.iter().zip(&files) {
        editor.open(address, text).await;
        assert_eq!(codes(&editor.published().await), [""; 0]);
    }
    editor.read_a_book().await;

    let symbols = editor.request("workspace/symbol", json!({ "query": "plot 1999 dressing" })).await.unwrap();
    assert_eq!(symbols.as_array().unwrap().len(), 1);
    assert_eq!(symbols[0]["location"]["uri"], uri(book.path(), "3/199.tamis"));
    assert_eq!(symbols[0]["location"]["range"]["start"]["character"], "Recipe: ".len());

    // Every keystroke is told of its own document and of nothing else, however many others there are.
    let line = files[0].1.lines().position(|line| line.contains("Toss")).unwrap();
    let mut column = files[0].1.lines().nth(line).unwrap().len();
    for (typed, letter) in " See [[Plot 199".chars().enumerate() {
        let at = json!({ "line": line, "character": column });
        let version = i64::try_from(typed).unwrap() + 2;
        editor.change(&addresses[0], version, json!([{ "range": { "start": at, "end": at }, "text": letter }])).await;
        let published = editor.published().await;
        assert_eq!((&published.uri, published.version), (&addresses[0], Some(version)));
        column += 1;
    }
    let params = json!({ "textDocument": { "uri": addresses[0] }, "position": { "line": line, "character": column } });
    let answer = editor.request("textDocument/completion", params).await.unwrap();
    let labels: Vec<&str> =
        answer["items"].as_array().unwrap().iter().map(|item| item["label"].as_str().unwrap()).collect();
    assert_eq!((labels.len(), labels[0], answer["isIncomplete"].as_bool()), (11, "Plot 199 Dressing", Some(false)));
    editor.leave().await;
}
