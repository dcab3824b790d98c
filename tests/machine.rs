//! What `tamis check` says to other programs: SARIF by the schema that OASIS publishes, GitHub's annotations, lines for error lists,
//! counts, completions of shells, hooks of pre-commit; and that it goes on looking.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use serde_json::{Value, json};
use tamis_tests::folder::{folder, write};
use tamis_tests::program::{run, run_command, tamis};
use tempfile::TempDir;

/// A word written twice, behind an emoji; sugar that no step uses.
const TOAST: &str = "Recipe: Toast\r\nYield: 2 slices\r\nServes: 1\r\n\r\nIngredients:\r\n- 2 slices bread\r\n- 1 tbsp sugar\r\n\r\nMethod:\r\n\r\n1. 🍞 Toast the the bread until brown, 2 minutes. Eat it hot.\r\n";

fn desk() -> TempDir {
    folder(&[("spring/crème toast.tamis", TOAST), ("tamis.toml", "exempts = []\n")])
}

fn sarif(folder: &Path, arguments: &[&str]) -> Value {
    let answer = run(folder, &[&["check", "--output", "sarif"], arguments].concat(), b"");
    let log: Value = serde_json::from_str(&answer.out).unwrap_or_else(|error| panic!("{error}: {}", answer.out));
    let schema = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("machine/sarif-schema-2.1.0.json"));
    // As errata 01 has it: in this text a bracket is closed that nobody opened, twice.
    let mended = schema.unwrap().replace("^[a-zA-Z]{2}|^[a-zA-Z]{2}-[a-zA-Z]{2}]?$", "^[a-zA-Z]{2}(-[a-zA-Z]{2})?$");
    let schema: Value = serde_json::from_str(&mended).unwrap();
    let validator = jsonschema::validator_for(&schema).expect("the schema is one");
    let faults: Vec<String> = validator.iter_errors(&log).map(|fault| fault.to_string()).collect();
    assert_eq!(faults, [""; 0]);
    log
}

#[test]
fn sarif_is_as_its_schema_wants_it_and_says_where_and_how() {
    let desk = desk();
    let log = sarif(desk.path(), &[]);
    let run = &log["runs"][0];
    assert_eq!((&log["version"], &run["columnKind"]), (&json!("2.1.0"), &json!("unicodeCodePoints")));
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    let results = run["results"].as_array().unwrap();
    let codes: Vec<&str> = results.iter().map(|result| result["ruleId"].as_str().unwrap()).collect();
    assert_eq!(codes, ["house-style", "ingredient-unused", "word-repeated"]);
    for result in results {
        let rule = &rules[usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap()];
        assert_eq!(rule["id"], result["ruleId"]);
        assert!(rule["help"]["text"].as_str().unwrap().len() > 100, "{rule}");
    }
    let place = &results[2]["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "spring/cr%C3%A8me%20toast.tamis");
    // `1. 🍞 Toast the the`, in letters from 1.
    let marked = TOAST.lines().nth(10).unwrap();
    let region = &place["region"];
    let column = |name: &str| usize::try_from(region[name].as_u64().unwrap()).unwrap() - 1;
    let words: String =
        marked.chars().skip(column("startColumn")).take(column("endColumn") - column("startColumn")).collect();
    assert_eq!((&region["startLine"], &region["endLine"], words.trim()), (&json!(11), &json!(11), "the"));
    assert_eq!(results[2]["level"], "warning");
    assert_eq!(results[2]["locations"][0]["logicalLocations"][0]["name"], "Toast");
    let replaced = &results[2]["fixes"][0]["artifactChanges"][0]["replacements"];
    assert_eq!(replaced[0]["insertedContent"]["text"], "");
    assert!(!results[1]["relatedLocations"].as_array().unwrap().is_empty());
}

#[test]
fn sarif_of_nothing_is_a_log_too() {
    let desk = TempDir::new().unwrap();
    write(desk.path(), "note.tamis", "");
    assert_eq!(sarif(desk.path(), &[])["runs"][0]["results"], json!([]));
    // Every sample, wherever its findings point.
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples");
    let results = sarif(&samples, &[])["runs"][0]["results"].as_array().unwrap().len();
    assert!(results > 40, "{results}");
}

#[test]
fn findings_take_a_line_each_for_error_lists_and_annotations() {
    let desk = desk();
    let lines = run(desk.path(), &["check", "--output", "line"], b"");
    let starts: Vec<&str> =
        lines.out.lines().map(|line| line.rsplit_once(" [").unwrap().0.split(": ").next().unwrap()).collect();
    let file = "spring/crème toast.tamis";
    assert_eq!(starts, ["tamis.toml:1:1".to_owned(), format!("{file}:7:10"), format!("{file}:11:16")]);
    assert!(lines.out.lines().nth(1).unwrap().starts_with(&format!("{file}:7:10: error: No step uses the sugar")));
    assert!(lines.out.lines().nth(1).unwrap().ends_with(" [ingredient-unused]"));

    let annotations = run(desk.path(), &["check", "--output", "github"], b"");
    let commands: Vec<&str> = annotations.out.lines().map(|line| line.split("::").nth(1).unwrap()).collect();
    assert_eq!(commands[1], format!("error file={file},line=7,endLine=7,col=10,endColumn=15,title=ingredient-unused"));
    assert!(commands[2].starts_with(&format!("warning file={file},line=11,endLine=11,col=16,")), "{commands:?}");
    assert_eq!((lines.code, annotations.code), (Some(1), Some(1)));
}

#[test]
fn statistics_count_by_check_and_say_what_can_be_mended() {
    let desk = desk();
    let table = run(desk.path(), &["check", "--statistics"], b"");
    let expected = "     1  error    house-style\n     1  error    ingredient-unused\n     1  warning  word-repeated  1 mended by --fix\n";
    assert!(table.out.starts_with(expected), "{}", table.out);
    assert!(
        table.out.ends_with("Checked 1 recipe in 1 file and 1 style sheet: 2 errors, 1 warning.\n"),
        "{}",
        table.out
    );
    let array = run(desk.path(), &["check", "--statistics", "--output", "json"], b"");
    let array: Value = serde_json::from_str(&array.out).unwrap();
    assert_eq!(array[2], json!({ "code": "word-repeated", "severity": "warning", "count": 1, "fixable": 1 }));
    let odd = run(desk.path(), &["check", "--statistics", "--output", "sarif"], b"");
    assert_eq!((odd.code, odd.out.as_str()), (Some(2), ""));
    assert_eq!(odd.err, "tamis: --statistics are for the eye or in JSON: leave --output out, or make it json\n");
}

/// The next lines of a program, up to one that `ends` with something.
fn lines_up_to(lines: &mpsc::Receiver<String>, part: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    while !out.last().is_some_and(|line| line.contains(part)) {
        out.push(lines.recv_timeout(Duration::from_secs(60)).unwrap_or_else(|_| panic!("no {part} behind {out:#?}")));
    }
    out
}

#[test]
fn it_goes_on_looking() {
    let desk = folder(&[
        ("tamis.toml", ""),
        (
            "spring/toast.tamis",
            "Recipe: Toast\nServes: 1\n\nIngredients:\n- 2 slices bread\n\nMethod:\n\n1. Toast the bread until brown, 2 minutes.\n",
        ),
    ]);
    let mut command = Command::new(tamis());
    command.current_dir(desk.path()).args(["check", "--watch", "spring"]);
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
    let output = BufReader::new(child.stdout.take().unwrap());
    let (told, lines) = mpsc::channel();
    let reading = thread::spawn(move || output.lines().map_while(Result::ok).try_for_each(|line| told.send(line)));
    let waits = "looking again whenever a file changes";
    let first = lines_up_to(&lines, waits);
    assert!(first[0].ends_with("nothing to mend."), "{first:#?}");
    let time = first[1].split_once(": ").unwrap().0;
    assert!(time.len() == 8 && time.chars().all(|sign| sign.is_ascii_digit() || sign == ':'), "{time}");

    write(desk.path(), "spring/toast.tamis", &TOAST.replace("- 1 tbsp sugar\r\n", ""));
    assert!(lines_up_to(&lines, waits).iter().any(|line| line.contains("word-repeated")));
    // The style sheet above what is watched counts too.
    write(desk.path(), "tamis.toml", "[checks]\nword-repeated = 'off'\n");
    assert!(lines_up_to(&lines, waits)[0].ends_with("nothing to mend."));
    // What is no manuscript does not, and neither does the looking itself.
    write(desk.path(), "spring/shopping.txt", "bread");
    assert_eq!(lines.recv_timeout(Duration::from_millis(600)), Err(mpsc::RecvTimeoutError::Timeout));
    child.kill().unwrap();
    child.wait().unwrap();
    let _ = reading.join().unwrap();
}

#[test]
fn what_cannot_be_watched_is_told() {
    let desk = TempDir::new().unwrap();
    let answer = run(desk.path(), &["check", "--watch", "nowhere/at/all.tamis"], b"");
    assert_eq!(answer.code, Some(2));
    assert!(answer.err.contains("cannot be watched for changes"), "{}", answer.err);
}

/// Tried in bash itself: the words that it would propose.
#[test]
fn bash_completes_commands_and_options() {
    let desk = TempDir::new().unwrap();
    let script = run(desk.path(), &["completions", "bash"], b"");
    assert_eq!((script.code, script.err.as_str()), (Some(0), ""));
    write(desk.path(), "completions.bash", &script.out);
    let proposed = |words: &str, last: usize| {
        let ask = format!(
            "source completions.bash; COMP_WORDS=({words}); COMP_CWORD={last}; _tamis tamis \"${{COMP_WORDS[{last}]}}\" \"${{COMP_WORDS[{last}-1]}}\"; echo \"${{COMPREPLY[@]}}\""
        );
        let mut bash = Command::new("bash");
        bash.current_dir(desk.path()).args(["-c", &ask]);
        let answer = run_command(bash, b"");
        assert_eq!(answer.err, "", "{words}");
        answer.out.split_whitespace().map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(proposed("tamis ch", 1), ["check"]);
    assert_eq!(proposed("tamis check --output s", 3), ["sarif"]);
    assert!(proposed("tamis check --w", 2).contains(&"--write-baseline".to_owned()));
    for shell in ["zsh", "fish", "powershell", "elvish"] {
        let script = run(desk.path(), &["completions", shell], b"");
        assert!(script.code == Some(0) && script.out.contains("write-baseline"), "{shell}");
    }
}

/// The hooks that a repository of recipes may name: each entry is a command of this program that takes file names.
#[test]
fn hooks_of_pre_commit_run() {
    let hooks = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../.pre-commit-hooks.yaml")).unwrap();
    let values = |key: &str| -> Vec<&str> {
        let lines = hooks.lines().map(|line| line.trim_start_matches(['-', ' ']));
        lines.filter_map(|line| line.strip_prefix(key)?.strip_prefix(": ")).collect()
    };
    assert_eq!(values("id"), ["tamis-check", "tamis-format"]);
    assert_eq!(values("language"), ["system"; 2]);
    let desk = folder(&[("toast.tamis", TOAST), ("post.md", &*format!("```tamis\n{TOAST}```\n"))]);
    let mut codes = Vec::new();
    for entry in values("entry") {
        let words: Vec<&str> = entry.split_whitespace().collect();
        assert_eq!(words[0], "tamis");
        let answer = run(desk.path(), &[&words[1..], &["toast.tamis", "post.md"]].concat(), b"");
        assert_eq!(answer.err, "", "{entry}");
        codes.push(answer.code);
    }
    assert_eq!(codes, [Some(1), Some(0)]);
}
