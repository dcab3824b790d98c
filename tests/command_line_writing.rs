//! Commands that write files: what they write, what they leave as it was, and what they leave behind, which is nothing.

use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;

use tamis::{text::Edit, workspace::Manuscript};
use tamis_tests::program::run;
use tempfile::TempDir;

const LOOSE: &str = "Recipe: Toast\r\nServes:  1\r\n\r\nIngredients:\r\n- 2 slices bread\r\n\r\nMethod:\r\n\r\n1.  Toast the the bread until brown, 2 minutes.\r\n";

fn laid_out(text: &str) -> String {
    Edit::put_into(text, &Manuscript::new(text, Default::default()).formatted())
}

fn mended(text: &str) -> String {
    Edit::put_into(text, &Manuscript::new(text, Default::default()).mended().edits)
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> = entries.collect();
    names.sort();
    names
}

#[test]
fn a_file_is_laid_out_in_its_place_and_keeps_mark_permissions_and_link() {
    let desk = TempDir::new().unwrap();
    let file = desk.path().join("toast.tamis");
    fs::write(&file, format!("\u{feff}{LOOSE}")).unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
    symlink("toast.tamis", desk.path().join("breakfast.tamis")).unwrap();
    let answer = run(desk.path(), &["format", "breakfast.tamis"], b"");
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (Some(0), "Laid out 1 of 1 file.\n", ""));
    assert_eq!(fs::read_to_string(&file).unwrap(), format!("\u{feff}{}", laid_out(LOOSE)));
    assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o640);
    assert!(desk.path().join("breakfast.tamis").is_symlink());
    assert_eq!(names(desk.path()), ["breakfast.tamis", "toast.tamis"]);
    let again = run(desk.path(), &["format"], b"");
    assert_eq!((again.code, again.out.as_str()), (Some(0), "1 file: nothing to lay out.\n"));
}

#[test]
fn looking_changes_nothing() {
    let desk = TempDir::new().unwrap();
    let file = desk.path().join("toast.tamis");
    fs::write(&file, LOOSE).unwrap();
    for arguments in [&["format", "--check"][..], &["format", "--diff"], &["check", "--fix", "--diff"]] {
        let answer = run(desk.path(), arguments, b"");
        assert_eq!((answer.code, answer.err.as_str()), (Some(1), ""), "{arguments:?}");
        assert!(!answer.out.is_empty());
        assert_eq!(fs::read_to_string(&file).unwrap(), LOOSE, "{arguments:?}");
    }
}

#[test]
fn standard_input_goes_out_laid_out() {
    let desk = TempDir::new().unwrap();
    let answer = run(desk.path(), &["format", "-"], LOOSE.as_bytes());
    assert_eq!((answer.code, answer.out, answer.err.as_str()), (Some(0), laid_out(LOOSE), ""));
    let mend = run(desk.path(), &["check", "--fix", "-"], LOOSE.as_bytes());
    assert_eq!(mend.code, Some(2));
    assert_eq!(mend.err, "tamis: -: what comes in here cannot be mended in place; add --diff to see what would be\n");
}

#[test]
fn a_scaled_manuscript_takes_the_place_of_the_other_only_when_asked_and_only_as_a_whole() {
    let desk = TempDir::new().unwrap();
    let file = desk.path().join("toast.tamis");
    let twice = LOOSE.replace("Serves:  1", "Serves:  2").replace("2 slices", "4 slices");
    fs::write(&file, LOOSE).unwrap();
    let printed = run(desk.path(), &["scale", "--serves", "2", "toast.tamis"], b"");
    assert_eq!((printed.code, printed.out.as_str()), (Some(0), twice.as_str()));
    assert_eq!(fs::read_to_string(&file).unwrap(), LOOSE);
    let written = run(desk.path(), &["scale", "--by", "2", "--write", "toast.tamis"], b"");
    assert_eq!((written.code, written.out.as_str()), (Some(0), ""));
    assert_eq!(fs::read_to_string(&file).unwrap(), twice);
    let piped = run(desk.path(), &["scale", "--by", "2", "-"], LOOSE.as_bytes());
    assert_eq!((piped.code, piped.out.as_str()), (Some(0), twice.as_str()));
    // Of the second recipe nobody knows for how many it is.
    let two = format!("{LOOSE}\r\n{}", LOOSE.replace("Serves:  1\r\n", ""));
    fs::write(&file, &two).unwrap();
    let refused = run(desk.path(), &["scale", "--serves", "4", "--write", "toast.tamis"], b"");
    assert_eq!((refused.code, refused.out.as_str()), (Some(2), ""));
    assert!(refused.err.starts_with("tamis: toast.tamis:11: Nothing says for how many"), "{}", refused.err);
    assert_eq!(fs::read_to_string(&file).unwrap(), two);
    assert_eq!(names(desk.path()), ["toast.tamis"]);
}

#[test]
fn what_may_not_be_written_is_told_and_left() {
    let desk = TempDir::new().unwrap();
    let locked = desk.path().join("toast.tamis");
    fs::write(&locked, LOOSE).unwrap();
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o444)).unwrap();
    for command in [&["format"][..], &["check", "--fix"]] {
        let answer = run(desk.path(), command, b"");
        assert_eq!(answer.code, Some(2), "{command:?}");
        assert_eq!(
            answer.err,
            "tamis: toast.tamis: could not be written and is as it was: the file is write-protected\n"
        );
        assert_eq!(fs::read_to_string(&locked).unwrap(), LOOSE);
        assert_eq!(names(desk.path()), ["toast.tamis"]);
    }
}

#[test]
fn of_a_post_only_what_stands_in_its_fences_is_laid_out_and_mended() {
    let desk = TempDir::new().unwrap();
    let file = desk.path().join("post.md");
    let post = |recipe: &str| format!("Two blanks  \nbreak the the line.\n\n\n```tamis\n{recipe}```\n\n-  so\n\n\n");
    let loose = LOOSE.replace("\r\n", "\n");
    fs::write(&file, post(&loose)).unwrap();
    let answer = run(desk.path(), &["format"], b"");
    assert_eq!((answer.code, answer.out.as_str(), answer.err.as_str()), (Some(0), "Laid out 1 of 1 file.\n", ""));
    assert_eq!(fs::read_to_string(&file).unwrap(), post(&laid_out(&loose)));
    let answer = run(desk.path(), &["check", "--fix"], b"");
    assert_eq!(answer.err, "");
    assert_eq!(fs::read_to_string(&file).unwrap(), post(&mended(&laid_out(&loose))));
}

#[test]
fn files_are_mended_as_an_editor_mends_them() {
    let desk = TempDir::new().unwrap();
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples/mistakes");
    let mut expected = vec![("toast.tamis".to_owned(), LOOSE.to_owned())];
    for name in names(&samples).into_iter().filter(|name| name.ends_with(".tamis")) {
        let text = fs::read_to_string(samples.join(&name)).unwrap();
        expected.push((name, text));
    }
    for (name, text) in &expected {
        fs::write(desk.path().join(name), text).unwrap();
    }
    let answer = run(desk.path(), &["check", "--fix"], b"");
    assert_eq!((answer.code, answer.err.as_str()), (Some(1), ""), "errors are left for a person");
    assert!(answer.out.trim_end().lines().last().unwrap().starts_with("Mended "), "{}", answer.out);
    for (name, text) in &expected {
        assert_eq!(fs::read_to_string(desk.path().join(name)).unwrap(), mended(text), "{name}");
    }
    let again = run(desk.path(), &["check", "--fix"], b"");
    assert!(!again.out.contains("Mended"), "a second time nothing is left to mend");
}
