//! The server as a process of its own, as an editor starts it.

use std::process::{Command, Stdio};

use serde_json::{Value, json};
use tamis_tests::editor::framed;
use tamis_tests::program;

fn request(id: i64, method: &str) -> Value {
    json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": { "capabilities": {} } })
}

fn notification(method: &str) -> Value {
    json!({ "jsonrpc": "2.0", "method": method })
}

fn lsp(arguments: &[&str]) -> Command {
    let mut command = Command::new(program::tamis());
    command.arg("lsp").args(arguments);
    command
}

#[test]
fn the_process_ends_with_its_input_and_says_how_it_was_left() {
    let initialize = request(1, "initialize");
    let shutdown = json!({ "jsonrpc": "2.0", "id": 2, "method": "shutdown" });
    let exit = notification("exit");
    for (why, said, answers, code) in [
        ("nothing said", vec![], 0, 0),
        ("hung up", vec![&initialize], 1, 0),
        ("left properly", vec![&initialize, &shutdown, &exit], 2, 0),
        ("left without shutdown", vec![&initialize, &exit], 1, 1),
    ] {
        let input: Vec<u8> = said.into_iter().flat_map(framed).collect();
        // Some client libraries say `--stdio` by themselves.
        let answer = program::run_command(lsp(&["--stdio"]), &input);
        let answered = answer.out.matches("Content-Length: ").count();
        assert_eq!((answered, answer.code, answer.err.as_str()), (answers, Some(code), ""), "{why}: {}", answer.out);
    }
}

/// An editor may keep the pipe open after `exit`.
#[test]
fn the_process_ends_with_exit_though_its_input_stays_open() {
    let mut child = lsp(&[]).stdin(Stdio::piped()).stdout(Stdio::null()).spawn().unwrap();
    let mut input = child.stdin.take().unwrap();
    for message in [request(1, "initialize"), notification("exit")] {
        std::io::Write::write_all(&mut input, &framed(&message)).unwrap();
    }
    assert_eq!(child.wait().unwrap().code(), Some(1));
    drop(input);
}
