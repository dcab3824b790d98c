//! The command line as its users meet it: transcripts that are also its documentation, and what they cannot show.

use std::fs;
use std::path::Path;

use tamis_tests::program::{run, tamis};
use tempfile::TempDir;

#[test]
fn transcripts() {
    trycmd::TestCases::new().register_bin("tamis", trycmd::schema::Bin::Path(tamis().into())).case("command_line/*.md");
}

fn toast(title: &str) -> String {
    format!(
        "Recipe: {title}\n\nIngredients:\n- 2 slices bread\n\nMethod:\n\n1. Toast the bread until brown, 2 minutes.\n"
    )
}

fn written(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}

/// The paths of an answer of `tamis uses --output json`, in order.
#[track_caller]
fn paths(folder: &Path, arguments: &[&str], input: &str) -> Vec<String> {
    let arguments = [&["uses", "--output", "json"], arguments].concat();
    let answer = run(folder, &arguments, input.as_bytes());
    assert_eq!((answer.code, answer.err.as_str()), (Some(0), ""));
    let recipes: Vec<serde_json::Value> = serde_json::from_str(&answer.out).unwrap();
    recipes.iter().map(|recipe| recipe["path"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn manuscripts_come_in_the_order_asked_and_inside_a_folder_by_path() {
    let book = TempDir::new().unwrap();
    for name in
        ["b.tamis", "a/z.tamis", "a/b.TAMIS", "c.tamis", "notes.txt", ".hidden.tamis", ".old/d.tamis", "odd.name"]
    {
        written(book.path(), name, &toast(name));
    }
    let cases: [(&[&str], &[&str]); 7] = [
        (&[], &["a/b.TAMIS", "a/z.tamis", "b.tamis", "c.tamis"]),
        (&["."], &["a/b.TAMIS", "a/z.tamis", "b.tamis", "c.tamis"]),
        (&["c.tamis", "a"], &["c.tamis", "a/b.TAMIS", "a/z.tamis"]),
        (&["./c.tamis", "."], &["./c.tamis", "a/b.TAMIS", "a/z.tamis", "b.tamis"]),
        (&["b.tamis", "a/../b.tamis", "b.tamis"], &["b.tamis"]),
        (&["odd.name", ".hidden.tamis"], &["odd.name", ".hidden.tamis"]),
        (&["-", "b.tamis", "-"], &["-", "b.tamis"]),
    ];
    for (asked, expected) in cases {
        assert_eq!(paths(book.path(), asked, &toast("Piped Toast")), expected, "{asked:?}");
    }
}

#[test]
fn what_a_repository_ignores_is_left_out_unless_it_is_named() {
    let book = TempDir::new().unwrap();
    fs::create_dir(book.path().join(".git")).unwrap();
    written(book.path(), ".gitignore", "drafts/\n");
    written(book.path(), "drafts/a.tamis", &toast("A"));
    written(book.path(), "b.tamis", &toast("B"));
    assert_eq!(paths(book.path(), &[], ""), ["b.tamis"]);
    assert_eq!(paths(book.path(), &["drafts"], ""), ["drafts/a.tamis"]);
}

#[test]
fn many_files_give_the_same_answer_every_time() {
    let book = TempDir::new().unwrap();
    for number in 0..120 {
        let recipe = toast(&format!("Toast {number}"));
        written(book.path(), &format!("{number:03}.tamis"), &recipe.repeat(1 + number % 5));
    }
    for arguments in [["check", "--output", "text"], ["check", "--output", "json"], ["uses", "--output", "json"]] {
        let first = run(book.path(), &arguments, b"");
        assert_eq!(first.err, "");
        for _ in 0..3 {
            assert_eq!(run(book.path(), &arguments, b""), first);
        }
    }
}

#[test]
fn wrong_use_is_told_with_exit_code_2() {
    let desk = TempDir::new().unwrap();
    for arguments in [&[][..], &["bake"], &["check", "--output", "yaml"], &["check", "--strikt"], &["lsp", "x"]] {
        let answer = run(desk.path(), arguments, b"");
        assert_eq!((answer.code, answer.out.as_str()), (Some(2), ""), "{arguments:?}");
        assert!(answer.err.contains("--help"), "{arguments:?}: {}", answer.err);
    }
}
