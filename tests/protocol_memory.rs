//! A day at the desk: what the server holds does not grow with what has been typed.

#![cfg(target_os = "linux")]

use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use serde_json::{Value, json};
use tamis_tests::dice::Dice;
use tamis_tests::editor::framed;
use tamis_tests::{folder, program};

const PAGE: &str = "untitled:Page";

/// Keystrokes of two hours at five a second.
const TWO_HOURS: usize = 36_000;

/// The program with somebody who types into it.
struct Desk {
    program: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
    version: i64,
}

impl Desk {
    fn new(text: &str) -> Desk {
        let mut command = Command::new(program::tamis());
        let mut program = command.arg("lsp").stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        let (input, output) = (program.stdin.take().unwrap(), BufReader::new(program.stdout.take().unwrap()));
        let mut desk = Desk { program, input, output, version: 1 };
        desk.say(json!({ "id": 1, "method": "initialize", "params": { "capabilities": {} } }));
        desk.say(json!({ "method": "initialized", "params": {} }));
        let document = json!({ "uri": PAGE, "languageId": "tamis", "version": 1, "text": text });
        desk.say(json!({ "method": "textDocument/didOpen", "params": { "textDocument": document } }));
        desk.wait_for_findings();
        desk
    }

    fn say(&mut self, mut message: Value) {
        message["jsonrpc"] = json!("2.0");
        self.input.write_all(&framed(&message)).unwrap();
    }

    fn hear(&mut self) -> Value {
        let (mut length, mut line) = (0, String::new());
        while line != "\r\n" {
            line.clear();
            assert_ne!(self.output.read_line(&mut line).unwrap(), 0, "the program goes on");
            length = line.strip_prefix("Content-Length: ").map_or(length, |length| length.trim().parse().unwrap());
        }
        let mut body = vec![0; length];
        self.output.read_exact(&mut body).unwrap();
        serde_json::from_slice(&body).unwrap()
    }

    fn wait_for_findings(&mut self) {
        while self.hear()["params"]["version"] != json!(self.version) {}
    }

    /// One keystroke, and what an editor asks behind many of them.
    fn key(&mut self, from: (usize, usize), to: (usize, usize), text: &str) {
        let place = |(line, character)| json!({ "line": line, "character": character });
        self.version += 1;
        let document = json!({ "uri": PAGE, "version": self.version });
        let change = json!({ "range": { "start": place(from), "end": place(to) }, "text": text });
        self.say(json!({
            "method": "textDocument/didChange",
            "params": { "textDocument": document, "contentChanges": [change] },
        }));
        self.wait_for_findings();
        if self.version % 5 == 0 {
            for method in ["completion", "hover", "semanticTokens/full", "codeLens"] {
                let params = json!({ "textDocument": { "uri": PAGE }, "position": place(from) });
                let id = self.version;
                self.say(json!({ "id": id, "method": format!("textDocument/{method}"), "params": params }));
                while self.hear()["id"] != json!(id) {}
            }
        }
    }

    /// Memory that the program has at the moment, in KiB.
    fn memory(&self) -> usize {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.program.id())).unwrap();
        let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:")).unwrap();
        line.trim().trim_end_matches(" kB").parse().unwrap()
    }
}

/// Words are typed letter by letter, and taken back letter by letter. `TAMIS_KEYSTROKES=36000` makes two hours of it.
#[test]
fn memory_stays_as_it_is_however_long_somebody_types() {
    let text = folder::samples("").into_iter().take(8).map(|(_, text)| text + "\n").collect::<String>();
    let keystrokes = std::env::var("TAMIS_KEYSTROKES").map_or(2_000, |count| count.parse().unwrap());
    let lines: Vec<usize> = text.lines().map(|line| line.chars().count()).collect();
    let (mut desk, mut dice, mut memory) = (Desk::new(&text), Dice(20_261_126), Vec::new());
    let mut typed = 0;
    while typed < keystrokes {
        let line = dice.below(lines.len());
        let mut at = (line, dice.below(lines[line] + 1));
        let mut letters = Vec::new();
        for _ in 0..1 + dice.below(12) {
            let letter = ["a", "e", "s", "t", " ", "1", "½", "[", "]", ",", "\n", "é"][dice.below(12)];
            let behind = if letter == "\n" { (at.0 + 1, 0) } else { (at.0, at.1 + 1) };
            desk.key(at, at, letter);
            letters.push((at, behind));
            at = behind;
        }
        typed += 2 * letters.len();
        while let Some((from, to)) = letters.pop() {
            desk.key(from, to, "");
        }
        memory.push(desk.memory());
    }
    // The first quarter fills what is filled once: words looked up, states kept.
    let (filled, last) = (memory[memory.len() / 4], memory[memory.len() - 1]);
    println!("{typed} keystrokes of {TWO_HOURS}: {} KiB, {filled} after a quarter, {last} at the end", memory[0]);
    assert!(last < filled + filled / 10, "{filled} KiB after a quarter of {typed} keystrokes, {last} at the end");
    desk.say(json!({ "id": 1, "method": "shutdown" }));
    desk.say(json!({ "method": "exit" }));
    assert!(desk.program.wait().unwrap().success());
}
