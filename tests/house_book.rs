//! What the recipes of one book say to each other, on the command line and in an editor.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use serde_json::{Value, json};
use tamis::{
    book::{Book, Habits, House, habits::cup_weights},
    checks::Finding,
    text::Edit,
    workspace::Manuscript,
};
use tamis_tests::{
    editor::{Editor, Published},
    program::run,
};
use tempfile::TempDir;

fn dough(title: &str, flour: &str) -> String {
    format!(
        "Recipe: {title}\nServes: 4\nTime: 1 h total\n\nIngredients:\n- {flour} all-purpose flour\n- 3 eggs\n\nMethod:\n\n1. Knead the flour with the eggs until smooth, 10 minutes.\n"
    )
}

/// How the flour stands in six recipes of a book; the first is unlike the others.
const FLOURS: [&str; 6] =
    ["2 cups (280 g)", "2 cups (240 g)", "1 cup (120 g)", "1 1/2 cups (180 g)", "1/3 cup (40 g)", "4 cups (480 g)"];

fn book(sheet: Option<&str>) -> TempDir {
    let book = TempDir::new().unwrap();
    for (number, flour) in FLOURS.iter().enumerate() {
        fs::write(book.path().join(format!("{number}.tamis")), dough(&format!("Dough {number}"), flour)).unwrap();
    }
    if let Some(sheet) = sheet {
        fs::write(book.path().join("tamis.toml"), sheet).unwrap();
    }
    book
}

/// `path: message` of each finding about the book.
fn unlike(folder: &Path, arguments: &[&str]) -> Vec<String> {
    let answer = run(folder, &[&["check", "--output", "json"], arguments].concat(), b"");
    assert_eq!(answer.err, "");
    let findings: Vec<Value> = serde_json::from_str(&answer.out).unwrap();
    let own = findings.iter().filter(|finding| finding["code"] == "weight-unlike-the-book");
    own.map(|finding| format!("{}: {}", finding["path"].as_str().unwrap(), finding["message"].as_str().unwrap()))
        .collect()
}

const MESSAGE: &str = "0.tamis: 5 recipes of this book take a cup of all-purpose flour for 120 g, so 2 cups comes to 240 g, and here it is 280 g. Whoever cooks from the book by the cup and whoever weighs get two different dishes.";

#[test]
fn a_recipe_is_compared_with_the_others_of_its_book_whichever_files_are_asked_for() {
    let book = book(Some(""));
    for arguments in [&[][..], &["0.tamis"], &["."], &["3.tamis", "0.tamis"]] {
        assert_eq!(unlike(book.path(), arguments), [MESSAGE], "{arguments:?}");
    }
    assert_eq!(unlike(book.path(), &["3.tamis"]), [""; 0]);
    // From a folder below, and from the folder above.
    fs::create_dir(book.path().join("winter")).unwrap();
    fs::rename(book.path().join("5.tamis"), book.path().join("winter/5.tamis")).unwrap();
    assert_eq!(unlike(&book.path().join("winter"), &["../0.tamis"]).len(), 1);
    assert_eq!(unlike(book.path().parent().unwrap(), &[book.path().to_str().unwrap()]).len(), 1);
}

#[test]
fn without_a_style_sheet_there_is_no_book_and_below_another_sheet_there_is_another() {
    assert_eq!(unlike(book(None).path(), &[]), [""; 0]);
    assert_eq!(unlike(book(Some("[checks]\nweight-unlike-the-book = 'off'\n")).path(), &[]), [""; 0]);
    let book = book(Some(""));
    fs::create_dir(book.path().join("winter")).unwrap();
    for number in 2..6 {
        fs::rename(book.path().join(format!("{number}.tamis")), book.path().join(format!("winter/{number}.tamis")))
            .unwrap();
    }
    assert_eq!(unlike(book.path(), &[]).len(), 1);
    fs::write(book.path().join("winter/tamis.toml"), "").unwrap();
    assert_eq!(unlike(book.path(), &[]), [""; 0]);
}

#[test]
fn what_the_style_sheet_lays_down_goes_before_what_the_recipes_do() {
    let book = book(Some("[weights]\nflour = 140\n"));
    let found = unlike(book.path(), &[]);
    assert_eq!(found.len(), 5, "{found:#?}");
    assert!(
        found[0]
            .starts_with("1.tamis: A cup of all-purpose flour weighs 140 g in this house, so 2 cups comes to 280 g")
    );
}

fn findings(text: &str, book: &Book) -> Vec<Finding> {
    Manuscript::in_book(text, book.clone()).findings()
}

/// Typed letter by letter a recipe is found to be what it is when opened whole, and the fix takes the finding away.
#[test]
fn a_recipe_in_a_book_is_the_same_however_it_came_and_its_fix_keeps_its_word() {
    let house = Arc::new(House::default());
    let read = |flour: &&str| {
        let manuscript = Manuscript::new(&dough("Dough", flour), house.clone());
        let (_, recipe) = manuscript.recipes().next().unwrap();
        cup_weights(recipe, &house.measures)
    };
    let told: Vec<_> = FLOURS.iter().map(read).collect();
    let habits = Arc::new(Habits::of(told.iter().map(Vec::as_slice)));
    let book = Book { house, habits, ..Book::default() };
    let text = dough("Dough 0", FLOURS[0]);
    let opened = findings(&text, &book);
    assert_eq!(opened.iter().map(|finding| finding.code).collect::<Vec<_>>(), ["weight-unlike-the-book"]);
    let mut typed = Manuscript::in_book("", book.clone());
    for (at, c) in text.char_indices() {
        typed.apply(&Edit::insert(at, c));
    }
    assert_eq!(typed.findings(), opened);
    let fixed = Edit::apply_all(&text, &opened[0].fixes[0].edits);
    assert!(fixed.contains("2 cups (240 g)"), "{fixed}");
    assert_eq!(findings(&fixed, &book), []);
    let stet = text.replace("- 2 cups", "stet weight-unlike-the-book: weighed on the day\n- 2 cups");
    assert_eq!(findings(&stet, &book), []);
}

fn uri(folder: &Path, name: &str) -> String {
    format!("file://{}/{name}", folder.display())
}

fn codes(published: &Published) -> Vec<&str> {
    published.diagnostics.iter().map(|diagnostic| diagnostic["code"].as_str().unwrap()).collect()
}

#[tokio::test]
async fn an_editor_shows_what_the_book_says_and_follows_what_is_saved_in_it() {
    let book = book(Some(""));
    let (mut editor, _) = Editor::introduced(json!({})).await;
    let first = uri(book.path(), "0.tamis");
    editor.open(&first, &dough("Dough 0", FLOURS[0])).await;
    // Before the book has been read, and after.
    assert_eq!(codes(&editor.published().await), [""; 0]);
    let read = editor.published().await;
    assert_eq!((read.uri.as_str(), codes(&read)), (first.as_str(), vec!["weight-unlike-the-book"]));
    assert_eq!(read.diagnostics[0]["severity"], 3);

    // The habit goes when one more comes to weigh as this one does, and comes back when that is gone.
    let changed = json!({ "changes": [{ "uri": uri(book.path(), "1.tamis"), "type": 2 }] });
    fs::write(book.path().join("1.tamis"), dough("Dough 1", "1 cup (140 g)")).unwrap();
    editor.notify("workspace/didChangeWatchedFiles", changed.clone()).await;
    let then = editor.published().await;
    assert_eq!((then.uri.as_str(), codes(&then)), (first.as_str(), vec![]));
    fs::remove_file(book.path().join("1.tamis")).unwrap();
    editor.notify("workspace/didChangeWatchedFiles", changed).await;
    assert_eq!(codes(&editor.published().await), ["weight-unlike-the-book"]);

    // Typing asks nobody.
    let fixed = dough("Dough 0", "2 cups (240 g)");
    editor.change(&first, 2, json!([{ "text": fixed }])).await;
    let typed = editor.published().await;
    assert_eq!((typed.version, codes(&typed)), (Some(2), vec![]));
    editor.leave().await;
}
