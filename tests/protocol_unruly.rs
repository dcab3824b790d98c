//! Clients that do not keep to the Language Server Protocol, or keep to it in ways that nobody expects: the server answers, or ends, and
//! what it holds stays what the client said last.

use std::{
    fs,
    process::{Command, Stdio},
    time::Duration,
};

use serde_json::{Value, json};
use tamis::lsp::Ending;
use tamis_tests::{
    editor::{Editor, framed},
    folder::{folder, uri},
    program,
};

const TART: &str = "untitled:Tart";
const TEXT: &str = "Recipe: Plum Tart\n\nIngredients:\n- 2 cups (250 g) flour\n";

/// The codes of JSON-RPC 2.0 and of the protocol.
const PARSE_ERROR: i64 = -32700;
const REQUEST_CANCELLED: i64 = -32800;
const CONTENT_MODIFIED: i64 = -32801;

fn change(from: (u64, u64), to: (u64, u64), text: &str) -> Value {
    let place = |(line, character): (u64, u64)| json!({ "line": line, "character": character });
    json!({ "range": { "start": place(from), "end": place(to) }, "text": text })
}

#[tokio::test]
async fn edits_outside_of_the_text_are_moved_inside() {
    const FAR: u64 = u32::MAX as u64;
    for (why, edit, after) in [
        ("behind the last line", change((99, 0), (100, 7), "- 1 egg\n"), format!("{TEXT}- 1 egg\n")),
        ("behind the end of a line", change((0, 99), (0, FAR), "!"), TEXT.replacen("Tart\n", "Tart!\n", 1)),
        ("as far as can be said", change((FAR, FAR), (FAR, FAR), "x"), format!("{TEXT}x")),
        ("from the end to the beginning", change((3, 0), (0, 0), ""), "- 2 cups (250 g) flour\n".to_owned()),
        ("everything and more", change((0, 0), (FAR, FAR), "Recipe: Jam\n"), "Recipe: Jam\n".to_owned()),
    ] {
        let mut editor = Editor::usual().await;
        editor.open(TART, TEXT).await;
        editor.published().await;
        editor.change(TART, 2, json!([edit])).await;
        assert_eq!(editor.held_text(TART).await, (2, after.clone()), "{why}");
        let typed = editor.published().await.diagnostics;
        editor.open("untitled:Fresh", &after).await;
        assert_eq!(editor.published().await.diagnostics, typed, "{why}");
        editor.leave().await;
    }
    let mut editor = Editor::usual().await;
    editor.open(TART, TEXT).await;
    editor.published().await;
    // Numbers that are none of the protocol: the change is not made at all.
    for broken in [
        json!({ "line": -1, "character": 0 }),
        json!({ "line": 1e12, "character": 0 }),
        json!({ "line": "0" }),
        json!(3),
    ] {
        editor.change(TART, 2, json!([{ "range": { "start": broken, "end": broken }, "text": "x" }])).await;
    }
    assert_eq!(editor.held_text(TART).await, (1, TEXT.to_owned()));
    editor.leave().await;
}

#[tokio::test]
async fn versions_that_go_backwards_or_stand_still_are_what_the_client_says() {
    let mut editor = Editor::usual().await;
    editor.open(TART, TEXT).await;
    assert_eq!(editor.published().await.version, Some(1));
    for version in [9, 3, 3, -4, 0, i64::from(i32::MAX)] {
        editor.change(TART, version, json!([change((0, 8), (0, 8), "a")])).await;
        assert_eq!(editor.published().await.version, Some(version));
    }
    let (version, text) = editor.held_text(TART).await;
    assert_eq!((version, text.as_str()), (i64::from(i32::MAX), TEXT.replacen("Plum", "aaaaaaPlum", 1).as_str()));
    editor.leave().await;
}

#[tokio::test]
async fn a_document_opened_twice_or_never_is_no_matter() {
    let mut editor = Editor::usual().await;
    editor.change(TART, 5, json!([{ "text": "never opened" }])).await;
    editor.close(TART).await;
    editor.open(TART, TEXT).await;
    editor.published().await;
    editor.open(TART, "Recipe: Jam\n").await;
    editor.published().await;
    assert_eq!(editor.held_text(TART).await.1, "Recipe: Jam\n", "what was said last");
    editor.close(TART).await;
    assert_eq!(
        editor.published().await.diagnostics,
        Vec::<Value>::new(),
        "nothing is left of a document that is closed"
    );
    editor.leave().await;
}

#[tokio::test]
async fn a_thousand_questions_that_are_called_off() {
    let mut editor = Editor::usual().await;
    editor.open(TART, TEXT).await;
    editor.published().await;
    let mut numbers = Vec::new();
    for asked in 0..1000 {
        let place = json!({ "line": 3, "character": asked % 20 });
        let what = ["hover", "completion", "references", "definition"][asked % 4];
        let params = json!({
            "textDocument": { "uri": TART }, "position": place,
            "context": { "includeDeclaration": true, "triggerKind": 1 },
        });
        let number = editor.send(&format!("textDocument/{what}"), params).await;
        editor.notify("$/cancelRequest", json!({ "id": number })).await;
        numbers.push(number);
    }
    for number in numbers {
        if let Err(refused) = editor.answer(number).await {
            assert!([REQUEST_CANCELLED, CONTENT_MODIFIED].contains(&refused.code), "{refused:?}");
        }
    }
    // Neither is a number that never was, nor one that has been answered.
    for id in [json!(12345), json!("hover"), json!(1), Value::Null] {
        editor.notify("$/cancelRequest", json!({ "id": id })).await;
    }
    assert_eq!(editor.held_text(TART).await.1, TEXT);
    editor.leave().await;
}

/// Half a megabyte in one sentence, a quarter in many recipes, three in one word.
#[tokio::test]
async fn large_messages() {
    let many: String =
        (0..4000).map(|n| format!("Recipe: Jam {n}\nServes: 4\n\nIngredients:\n- 1 cup (200 g) sugar\n\n")).collect();
    for text in
        [format!("Recipe: Long\n\nMethod:\n\n1. {}", "stir the pot and ".repeat(30_000)), "x".repeat(3_000_000), many]
    {
        let mut editor = Editor::usual().await;
        editor.open(TART, &text).await;
        editor.published().await;
        editor.change(TART, 2, json!([change((0, 0), (0, 0), "\n")])).await;
        editor.published().await;
        assert_eq!(editor.held_text(TART).await.1.len(), text.len() + 1);
        editor.leave().await;
    }
}

/// A body longer than what its header says ends in the middle; what is left of it costs an error and no more. One shorter takes a piece of
/// the next message, which is lost, and the one behind that is read.
#[tokio::test]
async fn wrong_lengths_cost_no_more_than_what_they_cover() {
    let mut editor = Editor::usual().await;
    editor.open(TART, TEXT).await;
    editor.published().await;
    let body =
        json!({ "jsonrpc": "2.0", "method": "textDocument/didClose", "params": { "textDocument": { "uri": TART } } })
            .to_string();
    editor.write(format!("Content-Length: {}\r\n\r\n{body}\r\n\r\n", body.len() - 5).as_bytes()).await;
    assert_eq!(editor.complaint().await.code, PARSE_ERROR);
    assert_eq!(editor.complaint().await.code, PARSE_ERROR);
    assert_eq!(editor.held_text(TART).await.1, TEXT);
    editor.write(format!("Content-Length: {}\r\n\r\n{body}", body.len() + 12).as_bytes()).await;
    editor.notify("textDocument/didClose", json!({ "textDocument": { "uri": TART } })).await;
    assert_eq!(editor.complaint().await.code, PARSE_ERROR);
    assert_eq!(editor.complaint().await.code, PARSE_ERROR);
    assert_eq!(editor.held_text(TART).await.1, TEXT, "neither of the two was read");
    editor.leave().await;
}

/// Answers to questions that the server never asked, and none to those that it did.
#[tokio::test]
async fn a_client_that_answers_nothing_and_answers_what_nobody_asked() {
    let capabilities = json!({
        "workspace": {
            "configuration": true, "workspaceFolders": true, "didChangeWatchedFiles": { "dynamicRegistration": true },
            "didChangeConfiguration": { "dynamicRegistration": true }, "diagnostics": { "refreshSupport": true },
        },
        "window": { "workDoneProgress": true },
    });
    let (mut editor, _) = Editor::introduced(capabilities).await;
    for id in [json!(7), json!("seven"), Value::Null] {
        editor.write(&framed(&json!({ "jsonrpc": "2.0", "id": id, "result": [] }))).await;
    }
    for turn in 0..200 {
        editor
            .notify("workspace/didChangeConfiguration", json!({ "settings": { "tamis": { "hints": turn % 2 == 0 } } }))
            .await;
    }
    editor.open(TART, TEXT).await;
    editor.published().await;
    assert_eq!(editor.held_text(TART).await.1, TEXT);
    editor.hang_up_unheard().await;
}

/// A book whose files come, go, turn into folders and into links to themselves while it is open.
#[tokio::test]
async fn files_that_vanish_and_loop() {
    let held = folder(&[("jam.tamis", "Recipe: Plum Jam\n"), ("tamis.toml", "")]);
    let desk = held.path();
    let tart = "Recipe: Tart\n\nIngredients:\n- 1 cup [[Plum Jam]]\n";
    fs::write(desk.join("tart.tamis"), tart).unwrap();
    let mut editor = Editor::usual().await;
    let tart_uri = uri(desk, "tart.tamis");
    editor.open(&tart_uri, tart).await;
    let mut kind = 2;
    for turn in 0..8 {
        let jam = desk.join("jam.tamis");
        let gone = fs::remove_file(&jam).or_else(|_| fs::remove_dir(&jam));
        assert!(gone.is_ok() || turn == 0);
        match turn % 4 {
            0 => {}
            1 => fs::create_dir(&jam).unwrap(),
            2 => std::os::unix::fs::symlink(&jam, &jam).unwrap(),
            _ => fs::write(&jam, b"Recipe: Plum Jam\n\xff\xfe").unwrap(),
        }
        if turn % 4 == 0 {
            kind = 3;
        }
        let changes = json!({ "changes": [{ "uri": uri(desk, "jam.tamis"), "type": kind }] });
        editor.notify("workspace/didChangeWatchedFiles", changes).await;
        kind = 1;
        let asked = json!({ "textDocument": { "uri": tart_uri }, "position": { "line": 3, "character": 14 } });
        let found = editor.request("textDocument/definition", asked).await;
        assert!(found.is_ok(), "{found:?}");
        if turn % 4 == 0 {
            fs::write(&jam, "").unwrap();
        }
    }
    assert_eq!(editor.held_text(&tart_uri).await.1, tart);
    editor.hang_up_unheard().await;
}

/// The editor is gone, but another program still holds the pipe that led to the server.
#[test]
fn the_server_follows_a_client_that_was_killed() {
    let mut client = Command::new("sleep").arg("60").spawn().expect("a process to stand for the client");
    let mut server = Command::new(program::tamis())
        .arg("lsp")
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .spawn()
        .expect("the program starts");
    let mut input = server.stdin.take().expect("it has an input");
    let introduction = json!({
        "jsonrpc": "2.0", "id": 1, "method": "initialize", "params": { "processId": client.id(), "capabilities": {} },
    });
    std::io::Write::write_all(&mut input, &framed(&introduction)).expect("a server that reads");
    std::thread::sleep(Duration::from_millis(300));
    assert_eq!(server.try_wait().unwrap(), None, "the client is still there");
    client.kill().unwrap();
    client.wait().unwrap();
    for _ in 0..600 {
        if let Some(status) = server.try_wait().unwrap() {
            assert_eq!(status.code(), Some(0));
            drop(input);
            return;
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    server.kill().unwrap();
    panic!("the server outlived its client");
}

/// A number of a process that is not there, as that of a client on another machine, ends nothing.
#[tokio::test]
async fn a_client_elsewhere_is_not_looked_for() {
    let mut editor = Editor::silent();
    let params = json!({ "processId": i32::MAX - 1, "rootUri": null, "capabilities": {} });
    editor.request("initialize", params).await.expect("a server that can be initialized");
    editor.notify("exit", Value::Null).await;
    editor.left_with(Ending::Unannounced).await;
}
