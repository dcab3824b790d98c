//! A baseline: what it knows is passed over, until there is more of it; and it is told when it knows too much.

use std::fs;
use std::path::Path;

use tamis_tests::folder::{folder, write};
use tamis_tests::program::{Answer, run};

/// So many recipes, each of which repeats a word.
fn toast(name: &str, recipes: usize) -> String {
    let one = |number| {
        format!(
            "Recipe: {name} {number}\nYield: 2 slices\nServes: 1\n\nIngredients:\n- 2 slices bread\n\nMethod:\n\n\
             1. Toast the the bread until brown, 2 minutes.\n\n"
        )
    };
    (1..=recipes).map(one).collect()
}

fn check(folder: &Path, arguments: &[&str]) -> Answer {
    run(folder, &[&["check", "--output", "line", "--strict"], arguments].concat(), b"")
}

#[test]
fn what_it_knows_is_passed_over_and_more_of_it_is_told_whole() {
    let book = folder(&[
        ("tamis.toml", ""),
        ("winter/toast.tamis", &*toast("Toast", 2)),
        ("plain.tamis", &*toast("Plain", 1)),
    ]);
    assert_eq!(check(book.path(), &[]).out.lines().count(), 3);
    let written = run(book.path(), &["check", "--write-baseline"], b"");
    assert_eq!((written.code, written.err.as_str()), (Some(0), ""));
    assert_eq!(written.out, "tamis-baseline.toml knows 3 findings now.\n");
    let baseline = fs::read_to_string(book.path().join("tamis-baseline.toml")).unwrap();
    let tables = "[\"plain.tamis\"]\nword-repeated = 1\n\n[\"winter/toast.tamis\"]\nword-repeated = 2\n";
    assert!(baseline.starts_with("# ") && baseline.ends_with(tables), "{baseline}");
    run(book.path(), &["check", "--write-baseline"], b"");
    assert_eq!(fs::read_to_string(book.path().join("tamis-baseline.toml")).unwrap(), baseline, "stable");

    let quiet = check(book.path(), &[]);
    assert_eq!((quiet.code, quiet.out.as_str(), quiet.err.as_str()), (Some(0), "", ""));
    let told = run(book.path(), &["check", "winter"], b"");
    let expected = "Checked 2 recipes in 1 file and 1 style sheet: nothing to mend.\nPassed over 2 findings that tamis-baseline.toml knows.\n";
    assert_eq!((told.code, told.out.as_str()), (Some(0), expected));
    // From wherever it is asked.
    let inside = check(&book.path().join("winter"), &["toast.tamis"]);
    assert_eq!((inside.code, inside.out.as_str()), (Some(0), ""));

    write(book.path(), "winter/toast.tamis", &toast("Toast", 3));
    let more = check(book.path(), &[]);
    assert_eq!((more.code, more.out.lines().count(), more.err.as_str()), (Some(1), 3, ""), "{}", more.out);
}

#[test]
fn it_is_told_when_it_can_shrink() {
    let book = folder(&[("tamis.toml", ""), ("toast.tamis", &*toast("Toast", 3)), ("gone.tamis", &*toast("Gone", 1))]);
    run(book.path(), &["check", "--write-baseline"], b"");
    write(book.path(), "toast.tamis", &toast("Toast", 1));
    fs::remove_file(book.path().join("gone.tamis")).unwrap();
    let answer = check(book.path(), &[]);
    let advice = "tamis: tamis-baseline.toml: knows 3 findings that are no longer there; let it shrink: tamis check --write-baseline\n";
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (Some(0), "", advice));
    let written = run(book.path(), &["check", "--write-baseline"], b"");
    assert_eq!(written.out, "tamis-baseline.toml knows 1 finding now.\n");
    assert_eq!(check(book.path(), &[]).err, "");
}

#[test]
fn what_is_not_looked_at_stays_known() {
    let book = folder(&[("tamis.toml", ""), ("a.tamis", &*toast("A", 1)), ("b.tamis", &*toast("B", 2))]);
    run(book.path(), &["check", "--write-baseline"], b"");
    write(book.path(), "a.tamis", &toast("A", 4));
    let written = run(book.path(), &["check", "--write-baseline", "a.tamis"], b"");
    assert_eq!(written.out, "tamis-baseline.toml knows 6 findings now.\n");
}

#[test]
fn one_may_lie_elsewhere() {
    let book = folder(&[("book/toast.tamis", &*toast("Toast", 1)), ("other/readme.txt", "")]);
    let homeless = run(book.path(), &["check", "--write-baseline", "book"], b"");
    assert_eq!(homeless.code, Some(2));
    assert_eq!(
        homeless.err,
        "tamis: book/toast.tamis: stands in no book, as no tamis.toml lies above it; say where its findings are to be kept: --write-baseline=FILE\n"
    );
    let written = run(book.path(), &["check", "--write-baseline=other/known.toml", "book"], b"");
    assert_eq!((written.code, written.out.as_str()), (Some(0), "other/known.toml knows 1 finding now.\n"));
    let text = fs::read_to_string(book.path().join("other/known.toml")).unwrap();
    assert!(text.contains("[\"../book/toast.tamis\"]"), "{text}");
    assert_eq!(check(book.path(), &["book"]).code, Some(1), "nobody asked for it");
    let passed = check(book.path(), &["book", "--baseline", "other/known.toml"]);
    assert_eq!((passed.code, passed.out.as_str()), (Some(0), ""));
}

#[test]
fn one_that_is_none_is_told_and_nothing_is_checked_by_half() {
    let book = folder(&[("tamis.toml", ""), ("toast.tamis", &*toast("Toast", 1))]);
    for (text, told) in [("word-repeated", true), ("[\"toast.tamis\"]\nword-repeated = \"many\"\n", true), ("", false)]
    {
        write(book.path(), "tamis-baseline.toml", text);
        let answer = check(book.path(), &[]);
        let expected = "tamis: tamis-baseline.toml: is no baseline: a table for each file, a count for each check; have it written anew with --write-baseline, or remove it\n";
        assert_eq!(answer.err, if told { expected } else { "" }, "{text}");
        assert_eq!(answer.code, Some(if told { 2 } else { 1 }));
    }
    let missing = check(book.path(), &["--baseline", "none.toml"]);
    assert_eq!(missing.code, Some(2));
    assert!(missing.err.starts_with("tamis: none.toml: there is no such file or folder"), "{}", missing.err);
    let piped = run(book.path(), &["check", "--write-baseline", "-"], toast("Piped", 1).as_bytes());
    assert_eq!(piped.code, Some(2));
    assert!(piped.err.contains("no file that a baseline could name"), "{}", piped.err);
}
