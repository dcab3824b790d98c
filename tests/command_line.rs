//! The command line as its users meet it: transcripts that are also its documentation, and what they cannot show.

use std::fs;
use std::io::Read;
use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::Value;
use tamis_tests::program::{run, run_command, tamis};
use tempfile::TempDir;

#[test]
fn transcripts() {
    trycmd::TestCases::new().register_bin("tamis", trycmd::schema::Bin::Path(tamis().into())).case("command_line/*.md");
}

fn toast(title: &str) -> String {
    format!(
        "Recipe: {title}\nYield: 2 slices\nServes: 1\nTime: 5 min total\n\nIngredients:\n- 2 slices bread\n\nMethod:\n\n1. Toast the bread until brown, 2 minutes.\n"
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
    let recipes: Vec<Value> = serde_json::from_str(&answer.out).unwrap();
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

/// A recipe in which the sugar is taken again after all of it has gone in, with letters that are one column to the eye and two
/// to an editor, and lines that end as on Windows.
const SYRUP: &str = "Recipe: 🍓🍓 Syrup\r\nYield: 1 cup (240 ml)\r\nServes: 8\r\nTime: 20 min total\r\n\r\nIngredients:\r\n- 1 lb (450 g) strawberries\r\n- 1/2 cup (100 g) sugar\r\n\
- 1/4 cup (60 ml) cider vinegar\r\n\r\nMethod:\r\n\r\n1. 🍓 Crush the strawberries with [the rest of the sugar].\r\n\r\n\
2. Strain, and store in the refrigerator.\r\n";

#[test]
fn json_has_the_shape_and_the_positions_that_it_promises() {
    let desk = TempDir::new().unwrap();
    written(desk.path(), "syrup.tamis", SYRUP);
    let answer = run(desk.path(), &["check", "--output", "json"], b"");
    let findings: Vec<Value> = serde_json::from_str(&answer.out).unwrap();
    // In no order: whether `serde_json` keeps one depends on what else is built beside it.
    let keys = |value: &Value| {
        let mut keys: Vec<_> = value.as_object().unwrap().keys().cloned().collect();
        keys.sort();
        keys
    };
    for finding in &findings {
        assert_eq!(keys(finding), ["code", "fixes", "message", "path", "range", "recipe", "severity"]);
        assert_eq!(keys(&finding["range"]), ["end", "start"]);
        for fix in finding["fixes"].as_array().unwrap() {
            assert_eq!(keys(fix), ["edits", "title"]);
            for edit in fix["edits"].as_array().unwrap() {
                assert_eq!(keys(edit), ["newText", "range"]);
                assert_eq!(keys(&edit["range"]["end"]), ["character", "line"]);
            }
        }
    }
    let found: Vec<(&str, &str, String)> = findings
        .iter()
        .map(|finding| {
            let code = finding["code"].as_str().unwrap();
            (code, finding["severity"].as_str().unwrap(), under(SYRUP, &finding["range"]))
        })
        .collect();
    let expected =
        [("ingredient-unused", "error", "cider vinegar"), ("rest-of-nothing", "error", "[the rest of the sugar]")];
    assert_eq!(found, expected.map(|(code, severity, text)| (code, severity, text.to_owned())));
}

#[test]
fn the_edits_of_an_answer_mend_the_manuscript() {
    let desk = TempDir::new().unwrap();
    written(desk.path(), "syrup.tamis", SYRUP);
    let answer = run(desk.path(), &["check", "--output", "json"], b"");
    let findings: Vec<Value> = serde_json::from_str(&answer.out).unwrap();
    // From the end, so that no edit moves the place of another.
    let mut edits: Vec<&Value> =
        findings.iter().flat_map(|finding| finding["fixes"][0]["edits"].as_array().unwrap()).collect();
    edits.sort_by_key(|edit| std::cmp::Reverse(offset(SYRUP, &edit["range"]["start"])));
    let mut mended = SYRUP.to_owned();
    for edit in edits {
        let (start, end) = (offset(SYRUP, &edit["range"]["start"]), offset(SYRUP, &edit["range"]["end"]));
        mended.replace_range(start..end, edit["newText"].as_str().unwrap());
    }
    assert!(
        !mended.replace("\r\n", "").contains('\n'),
        "every line still ends as the manuscript's lines do: {mended:?}"
    );
    written(desk.path(), "syrup.tamis", &mended);
    let again = run(desk.path(), &["check", "--output", "json"], b"");
    assert_eq!((again.code, again.out.as_str()), (Some(0), "[]\n"), "{mended}");
}

/// What stands in a range, as an editor that counts in UTF-16 finds it.
fn under(text: &str, range: &Value) -> String {
    text[offset(text, &range["start"])..offset(text, &range["end"])].to_owned()
}

/// The byte at which a place stands. Written once more here, so that a mistake in the program is not made by its test too.
fn offset(text: &str, place: &Value) -> usize {
    let (line, character) = (place["line"].as_u64().unwrap() as usize, place["character"].as_u64().unwrap() as usize);
    let start: usize = text.split_inclusive('\n').take(line).map(str::len).sum();
    let units: Vec<u16> = text[start..].encode_utf16().take(character).collect();
    start + String::from_utf16(&units).expect("no place lies inside a letter").len()
}

#[test]
fn colours_are_for_terminals() {
    let desk = TempDir::new().unwrap();
    written(desk.path(), "syrup.tamis", SYRUP);
    for arguments in [&["check"][..], &["uses"], &["explain"], &["explain", "ingredient-unused"]] {
        let run_with = |variable: &str, value: &str| {
            let mut command = Command::new(tamis());
            command.current_dir(desk.path()).args(arguments).env(variable, value);
            run_command(command, b"").out
        };
        let (forced, plain) = (run_with("CLICOLOR_FORCE", "1"), run_with("NO_COLOR", "1"));
        assert!(forced.contains("\u{1b}["), "{arguments:?}");
        assert!(!plain.contains('\u{1b}'), "{arguments:?}");
    }
}

#[test]
fn a_reader_that_has_seen_enough_ends_it_quietly() {
    let book = TempDir::new().unwrap();
    for number in 0..400 {
        written(book.path(), &format!("{number}.tamis"), SYRUP);
    }
    for arguments in [["check", "--output", "text"], ["check", "--output", "json"], ["uses", "--output", "text"]] {
        let mut command = Command::new(tamis());
        command.current_dir(book.path()).args(arguments).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        let mut seen = [0; 10];
        child.stdout.take().unwrap().read_exact(&mut seen).unwrap();
        let output = child.wait_with_output().unwrap();
        assert_eq!((output.status.code(), String::from_utf8(output.stderr).unwrap().as_str()), (Some(0), ""));
    }
}

const SALAD: &str = "Recipe: Plot Salad\nServes: 2\nTime: 5 min total\n\nIngredients:\n- 2 cups (500 ml) society greens\n\nMethod:\n\n1. Toss the greens with 1 tbsp olive oil.\n";

/// The findings of a run as `path severity check`.
fn findings(folder: &Path, arguments: &[&str], input: &str) -> Vec<String> {
    let answer = run(folder, &[&["check", "--output", "json"], arguments].concat(), input.as_bytes());
    assert_eq!(answer.err, "");
    let findings: Vec<Value> = serde_json::from_str(&answer.out).unwrap();
    let word = |finding: &Value, key: &str| finding[key].as_str().unwrap().to_owned();
    let one = |finding: &Value| ["path", "severity", "code"].map(|key| word(finding, key)).join(" ");
    findings.iter().map(one).collect()
}

#[test]
fn a_manuscript_is_under_the_nearest_style_sheet_above_it() {
    let desk = TempDir::new().unwrap();
    for name in ["book/a.tamis", "book/winter/b.tamis", "book/winter/cold/c.tamis", "d.tamis"] {
        written(desk.path(), name, &SALAD.replace("Plot Salad", &format!("Salad {name}")));
    }
    written(desk.path(), "book/tamis.toml", "exempt = ['oil']\nmeasures.cup = 'metric'\n");
    written(desk.path(), "book/winter/tamis.toml", "[checks]\ningredient-unlisted = 'hint'\n");
    let b = ["restated-other-cup", "ingredient-unlisted"];
    let expected = [
        format!("book/winter/b.tamis warning {}", b[0]),
        format!("book/winter/b.tamis hint {}", b[1]),
        format!("book/winter/cold/c.tamis warning {}", b[0]),
        format!("book/winter/cold/c.tamis hint {}", b[1]),
        "d.tamis warning restated-other-cup".to_owned(),
        "d.tamis warning ingredient-unlisted".to_owned(),
    ];
    assert_eq!(findings(desk.path(), &[], ""), expected);
    // From a folder inside the book, and from standard input in it.
    assert_eq!(findings(&desk.path().join("book/winter/cold"), &["c.tamis"], "").len(), 2);
    assert_eq!(findings(&desk.path().join("book"), &["-"], SALAD), [""; 0]);
}

#[test]
fn what_is_wrong_in_a_style_sheet_is_found_once_and_before_the_manuscripts() {
    let desk = TempDir::new().unwrap();
    written(desk.path(), "a.tamis", SALAD);
    written(desk.path(), "b.tamis", &SALAD.replace("Plot", "Shed"));
    written(desk.path(), "tamis.toml", "exempt = ['oil']\n[measures]\ncup = 'metric'\npints = 'us'\n");
    let sheet = "tamis.toml error house-style";
    for arguments in [&[][..], &["tamis.toml"], &["a.tamis", "tamis.toml"], &["b.tamis", "."]] {
        assert_eq!(findings(desk.path(), arguments, ""), [sheet], "{arguments:?}");
    }
    let answer = run(desk.path(), &["check"], b"");
    let expected = "\
error[house-style]: `[measures]` has nothing called `pints`. Did you mean `pint`?
 --> tamis.toml:4:1
  |
4 | pints = 'us'
  | ^^^^^

Checked 2 recipes in 2 files and 1 style sheet: 1 error.
";
    assert_eq!((answer.code, answer.out.as_str()), (Some(1), expected));
    fs::write(desk.path().join("tamis.toml"), b"exempt = ['\xff']").unwrap();
    let answer = run(desk.path(), &["check"], b"");
    assert_eq!(answer.code, Some(2));
    assert!(answer.err.starts_with("tamis: tamis.toml: line 1, column 12: not UTF-8"), "{}", answer.err);
}
