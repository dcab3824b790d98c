//! The `tamis` program, run as a user would run it.

use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::LazyLock;
use std::thread;
use std::time::{Duration, Instant};

/// Longer than this no run of a test takes, unless it hangs.
const PATIENCE: Duration = Duration::from_secs(60);

/// The program, built for this very run: `cargo test` builds the tests of a workspace, but not the programs that belong to
/// another of its packages. As one of the whole workspace, so that what the tests have built need not be built again.
pub fn tamis() -> &'static Path {
    static PROGRAM: LazyLock<PathBuf> = LazyLock::new(|| {
        let mut cargo = Command::new(env!("CARGO"));
        cargo.args(["build", "--quiet", "--workspace", "--bin", "tamis", "--message-format", "json"]);
        if !cfg!(debug_assertions) {
            cargo.arg("--release");
        }
        let built = cargo.current_dir(env!("CARGO_MANIFEST_DIR")).output().expect("cargo runs");
        assert!(built.status.success(), "{}", String::from_utf8_lossy(&built.stderr));
        let messages = String::from_utf8(built.stdout).expect("cargo speaks UTF-8");
        let program = messages.lines().find_map(|line| {
            let message: serde_json::Value = serde_json::from_str(line).ok()?;
            message["executable"].as_str().map(PathBuf::from)
        });
        program.expect("cargo names the program that it has built")
    });
    &PROGRAM
}

/// What one run gave.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// The exit code; `None` when a signal ended it.
    pub code: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// Runs `tamis` in `folder` with `arguments`, and with `input` on its standard input.
pub fn run(folder: &Path, arguments: &[&str], input: &[u8]) -> Answer {
    let mut command = Command::new(tamis());
    command.current_dir(folder).args(arguments).env_remove("CLICOLOR_FORCE");
    run_command(command, input)
}

/// Runs any command to its end. One that takes more than a minute is ended, and the test fails.
pub fn run_command(mut command: Command, input: &[u8]) -> Answer {
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("the program starts");
    let mut stdin = child.stdin.take().expect("it has an input");
    let input = input.to_vec();
    // A program that does not care for its input may be gone before it has got it.
    let writer = thread::spawn(move || drop(stdin.write_all(&input)));
    let out = reader(child.stdout.take().expect("it has an output"));
    let err = reader(child.stderr.take().expect("it has an error output"));
    let started = Instant::now();
    let status = loop {
        match child.try_wait().expect("it can be waited for") {
            Some(status) => break status,
            None if started.elapsed() > PATIENCE => {
                child.kill().expect("it can be ended");
                panic!("{command:?} was still running after {PATIENCE:?}");
            }
            None => thread::sleep(Duration::from_millis(2)),
        }
    };
    writer.join().expect("writing does not panic");
    let text = |bytes: thread::JoinHandle<Vec<u8>>| {
        String::from_utf8(bytes.join().expect("reading does not panic")).expect("tamis writes UTF-8")
    };
    Answer { code: status.code(), out: text(out), err: text(err) }
}

fn reader(mut from: impl Read + Send + 'static) -> thread::JoinHandle<Vec<u8>> {
    thread::spawn(move || {
        let mut bytes = Vec::new();
        from.read_to_end(&mut bytes).expect("a pipe can be read");
        bytes
    })
}
