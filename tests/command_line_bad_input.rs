//! Whatever stands where a manuscript should, `tamis` names it, says what to do, and goes on with the others.

#![cfg(unix)]

use std::fs::{self, File};
use std::os::unix::fs::{PermissionsExt, symlink};
use std::os::unix::process::CommandExt;
use std::path::Path;
use std::process::{Command, Stdio};

use tamis_tests::program::{Answer, run, run_command, tamis};
use tempfile::TempDir;

const TOAST: &str = "Recipe: Toast
Yield: 2 slices
Serves: 1
Time: 5 min total

Ingredients:
- 2 slices bread

Method:

1. Toast the bread until brown, 2 minutes.
";

/// A folder with one sound manuscript, `toast.tamis`.
fn desk() -> TempDir {
    let desk = TempDir::new().unwrap();
    fs::write(desk.path().join("toast.tamis"), TOAST).unwrap();
    desk
}

/// `tamis check` over the whole folder: exit code 2, the toast checked, and nothing on standard error but `complaints`.
#[track_caller]
fn complains(desk: &TempDir, complaints: &[&str]) {
    let answer = run(desk.path(), &["check"], b"");
    assert_eq!(answer.err.lines().collect::<Vec<_>>(), complaints);
    assert_eq!((answer.code, answer.out.as_str()), (Some(2), "Checked 1 recipe in 1 file: nothing to mend.\n"));
    let json = run(desk.path(), &["check", "--output", "json"], b"");
    assert_eq!((json.code, json.out.as_str(), json.err), (Some(2), "[]\n", answer.err));
}

#[test]
fn bytes_that_are_no_text() {
    let long = "é".repeat(30);
    let cases: [(&str, Vec<u8>, &str); 6] = [
        (
            "latin-1",
            b"Recipe: Flan\n\nA cr\xE8me with a crust.\n".to_vec(),
            "line 3, column 5: not UTF-8 (byte E8); save the file as UTF-8",
        ),
        (
            "cut in a letter, behind a byte-order mark",
            b"\xEF\xBB\xBFcr\xC3".to_vec(),
            "line 1, column 3: not UTF-8 (byte C3); save the file as UTF-8",
        ),
        (
            "behind many letters",
            [long.as_bytes(), b"\xFF"].concat(),
            "line 1, column 31: not UTF-8 (byte FF); save the file as UTF-8",
        ),
        ("utf-16", b"\xFF\xFER\0e\0".to_vec(), "the text is UTF-16; save the file as UTF-8"),
        ("utf-16, big end first", b"\xFE\xFF\0R\0e".to_vec(), "the text is UTF-16; save the file as UTF-8"),
        (
            "utf-16 without a mark",
            b"R\0e\0c\0".to_vec(),
            "line 1: holds a NUL, so this is not plain text; save it as text, in UTF-8",
        ),
    ];
    for (name, bytes, complaint) in cases {
        let desk = desk();
        fs::write(desk.path().join("bad.tamis"), bytes).unwrap();
        println!("{name}");
        complains(&desk, &[&format!("tamis: bad.tamis: {complaint}")]);
    }
}

#[test]
fn a_file_that_is_too_large() {
    let too_large = "larger than 16 MiB, which is more than a manuscript can be; split it into several files";
    let desk = desk();
    File::create(desk.path().join("huge.tamis")).unwrap().set_len(50 << 20).unwrap();
    complains(&desk, &[&format!("tamis: huge.tamis: {too_large}")]);
    let piped = run(desk.path(), &["check", "-"], &vec![b'a'; (16 << 20) + 1]);
    assert_eq!(piped, Answer { code: Some(2), out: String::new(), err: format!("tamis: -: {too_large}\n") });
}

#[test]
fn links_that_lead_nowhere_or_back() {
    let desk = desk();
    let inner = desk.path().join("spring/late");
    fs::create_dir_all(&inner).unwrap();
    symlink("../..", inner.join("again")).unwrap();
    symlink("gone.tamis", desk.path().join("jam.tamis")).unwrap();
    // What some editors keep beside a file that is being changed; nobody's business.
    symlink("dov@plot31.4711:1745200000", desk.path().join(".#toast.tamis")).unwrap();
    symlink("gone.txt", desk.path().join("notes.txt")).unwrap();
    complains(
        &desk,
        &[
            "tamis: jam.tamis: a link to a file that is not there; mend the link, or remove it",
            "tamis: spring/late/again: a link that leads back to ., so it was not followed; remove the link",
        ],
    );
}

#[test]
fn pipes_and_devices() {
    let desk = desk();
    let pipe = desk.path().join("pipe.tamis");
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let not_a_file = "not a file but a pipe or a device; to check what another program writes, give - instead";
    complains(&desk, &[&format!("tamis: pipe.tamis: {not_a_file}")]);
    let device = run(desk.path(), &["check", "/dev/zero"], b"");
    assert_eq!((device.code, device.err), (Some(2), format!("tamis: /dev/zero: {not_a_file}\n")));
}

#[test]
fn names_that_nothing_bears() {
    let desk = desk();
    fs::create_dir(desk.path().join("empty")).unwrap();
    symlink("nothing", desk.path().join("dangling")).unwrap();
    let answer = run(desk.path(), &["check", "tost.tamis", "empty", "dangling", "toast.tamis"], b"");
    let complaints = "\
tamis: tost.tamis: there is no such file or folder; check the spelling, and the folder you are in
tamis: empty: no manuscript in this folder; the name of a manuscript ends in .tamis
tamis: dangling: a link to a file that is not there; mend the link, or remove it
";
    assert_eq!(answer.err, complaints);
    assert_eq!((answer.code, answer.out.as_str()), (Some(2), "Checked 1 recipe in 1 file: nothing to mend.\n"));
}

#[test]
fn files_and_folders_that_may_not_be_read() {
    let desk = desk();
    let locked = |name: &str| fs::set_permissions(desk.path().join(name), fs::Permissions::from_mode(0o000)).unwrap();
    fs::create_dir(desk.path().join("cellar")).unwrap();
    fs::write(desk.path().join("secret.tamis"), TOAST).unwrap();
    fs::set_permissions(desk.path(), fs::Permissions::from_mode(0o755)).unwrap();
    locked("cellar");
    locked("secret.tamis");
    let answer = run_command(as_nobody(desk.path(), &["check"]), b"");
    fs::set_permissions(desk.path().join("cellar"), fs::Permissions::from_mode(0o755)).unwrap();
    let not_allowed = "you are not allowed to read it; change its permissions, or leave it out";
    assert_eq!(answer.err, format!("tamis: cellar: {not_allowed}\ntamis: secret.tamis: {not_allowed}\n"));
    assert_eq!((answer.code, answer.out.as_str()), (Some(2), "Checked 1 recipe in 1 file: nothing to mend.\n"));
}

/// `tamis` for a user to whom permissions apply. They do not to the one who may do everything, so under that user the
/// program is copied to where everybody may run it, and run as somebody else.
fn as_nobody(folder: &Path, arguments: &[&str]) -> Command {
    const NOBODY: u32 = 65534;
    let may_do_everything = fs::read(folder.join("secret.tamis")).is_ok();
    let mut command = if may_do_everything {
        let program = folder.join("tamis-for-everybody");
        fs::copy(tamis(), &program).unwrap();
        let mut command = Command::new(program);
        command.uid(NOBODY).gid(NOBODY);
        command
    } else {
        Command::new(tamis())
    };
    command.current_dir(folder).args(arguments);
    command
}

#[test]
fn a_full_disk_is_told() {
    let desk = desk();
    let mut command = Command::new(tamis());
    command.current_dir(desk.path()).arg("check").stdout(File::options().write(true).open("/dev/full").unwrap());
    let output = command.stderr(Stdio::piped()).spawn().unwrap().wait_with_output().unwrap();
    let complaint = String::from_utf8(output.stderr).unwrap();
    assert!(complaint.starts_with("tamis: the answer could not be written: "), "{complaint}");
    assert_eq!(output.status.code(), Some(2));
}

#[test]
fn broken_manuscripts_are_read_as_far_as_they_go() {
    let nasty = [
        "",
        "\n\n\n",
        "Recipe:",
        "[[[[",
        "Recipe: A\nIngredients:\n- 1/0 cup\r- [\nMethod:\n\n1. [x => ]] \\",
        "\u{FEFF}",
    ];
    let desk = desk();
    for (number, text) in nasty.iter().enumerate() {
        fs::write(desk.path().join(format!("{number}.tamis")), text).unwrap();
    }
    fs::write(desk.path().join("brackets.tamis"), "[".repeat(2_000)).unwrap();
    fs::write(desk.path().join("words.tamis"), format!("Method:\n\n1. {}", "mix ".repeat(20_000))).unwrap();
    for command in ["check", "uses"] {
        let answer = run(desk.path(), &[command], b"");
        assert_eq!(answer.err, "");
        assert!(answer.code < Some(2), "{answer:?}");
    }
}
