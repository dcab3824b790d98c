//! The server as an editor meets it: the order of things in the Language Server Protocol 3.17, and what happens when a
//! client does not keep to it.

use serde_json::{Value, json};
use tamis::lsp::Ending;
use tamis_tests::editor::{Editor, Refused, framed};

const PARSE_ERROR: i64 = -32700;
const INVALID_REQUEST: i64 = -32600;
const METHOD_NOT_FOUND: i64 = -32601;
const INVALID_PARAMS: i64 = -32602;
const NOT_INITIALIZED: i64 = -32002;
const REQUEST_CANCELLED: i64 = -32800;
const CONTENT_MODIFIED: i64 = -32801;

const TART: &str = "file:///book/tart.tamis";

fn at(uri: &str, line: u32, column: u32) -> Value {
    json!({ "textDocument": { "uri": uri }, "position": { "line": line, "character": column } })
}

fn change(from: (u32, u32), to: (u32, u32), text: &str) -> Value {
    let place = |(line, column)| json!({ "line": line, "character": column });
    json!({ "range": { "start": place(from), "end": place(to) }, "text": text })
}

#[tokio::test]
async fn the_encoding_of_positions_is_agreed_on() {
    for (offered, agreed) in [
        (json!({}), "utf-16"),
        (json!({ "general": {} }), "utf-16"),
        (json!({ "general": { "positionEncodings": ["utf-16"] } }), "utf-16"),
        (json!({ "general": { "positionEncodings": ["utf-8", "utf-16"] } }), "utf-8"),
        (json!({ "general": { "positionEncodings": ["utf-16", "utf-8"] } }), "utf-16"),
        (json!({ "general": { "positionEncodings": ["utf-7", "utf-32"] } }), "utf-32"),
    ] {
        let (editor, answer) = Editor::introduced(offered).await;
        assert_eq!(answer["capabilities"]["positionEncoding"], agreed);
        assert_eq!(answer["serverInfo"]["name"], "tamis");
        editor.leave().await;
    }
}

/// The same edit, behind an emoji, as each encoding writes it.
#[tokio::test]
async fn columns_are_read_in_the_agreed_encoding() {
    for (encoding, column) in [("utf-8", 5), ("utf-16", 3), ("utf-32", 2)] {
        let (mut editor, _) = Editor::introduced(json!({ "general": { "positionEncodings": [encoding] } })).await;
        editor.open(TART, "🥚 x").await;
        assert_eq!(editor.published().await.version, Some(1));
        editor.change(TART, 2, json!([change((0, column), (0, column), "2 ")])).await;
        assert_eq!(editor.held_text(TART).await, (2, "🥚 2 x".to_string()), "{encoding}");
        assert_eq!(editor.published().await.version, Some(2));
        editor.leave().await;
    }
}

#[tokio::test]
async fn every_version_gets_its_diagnostics_and_a_burst_gets_them_once() {
    let mut editor = Editor::usual().await;
    editor.open(TART, "Recipe: Plum Tart\n").await;
    assert_eq!(editor.published().await.version, Some(1));
    let mut burst = Vec::new();
    for version in 2..=40 {
        let params = json!({ "textDocument": { "uri": TART, "version": version }, "contentChanges": [change((0, 8), (0, 8), "P")] });
        burst.extend(framed(&json!({ "jsonrpc": "2.0", "method": "textDocument/didChange", "params": params })));
    }
    editor.write(&burst).await;
    assert_eq!(editor.published().await.version, Some(40), "what has arrived is checked once, at its newest");
    editor.change(TART, 41, json!([{ "text": "Recipe: Pear Tart\r\n" }])).await;
    assert_eq!(editor.published().await.version, Some(41));
    assert_eq!(editor.held_text(TART).await, (41, "Recipe: Pear Tart\r\n".to_string()));
    editor.leave().await;
}

/// A client that says it would ask for diagnostics gets them pushed until it does.
#[tokio::test]
async fn diagnostics_are_pushed_until_they_are_pulled() {
    let (mut editor, answer) = Editor::introduced(json!({ "textDocument": { "diagnostic": {} } })).await;
    assert_eq!(answer["capabilities"]["diagnosticProvider"]["identifier"], "tamis");
    editor.open(TART, "Recipe: Plum Tart\n").await;
    let pushed = editor.published().await;
    assert_eq!((pushed.version, pushed.diagnostics.is_empty()), (Some(1), false));
    let pull = |previous: Option<&str>| json!({ "textDocument": { "uri": TART }, "previousResultId": previous });
    let report = editor.request("textDocument/diagnostic", pull(None)).await.unwrap();
    assert_eq!((&report["kind"], &report["resultId"]), (&json!("full"), &json!("1")));
    assert_eq!(report["items"], json!(pushed.diagnostics));
    // What was pushed before is taken back, or it would be shown twice.
    assert!(editor.published().await.diagnostics.is_empty());
    let report = editor.request("textDocument/diagnostic", pull(Some("1"))).await.unwrap();
    assert_eq!((&report["kind"], &report["resultId"]), (&json!("unchanged"), &json!("1")));
    editor.change(TART, 2, json!([change((0, 0), (0, 0), "// a tart\n")])).await;
    let report = editor.request("textDocument/diagnostic", pull(Some("0"))).await.unwrap();
    assert_eq!((&report["kind"], &report["resultId"]), (&json!("full"), &json!("2")));
    editor.close(TART).await;
    assert_eq!(editor.request("textDocument/diagnostic", pull(None)).await.unwrap_err().code, INVALID_PARAMS);
    editor.leave().await;
}

#[tokio::test]
async fn a_document_need_not_be_a_file() {
    let mut editor = Editor::usual().await;
    for uri in ["untitled:Untitled-1", "file:///c%3A/Book/Plum%20tart.tamis", "vscode-notebook-cell:/a.ipynb#W0"] {
        editor.open(uri, "Recipe: Plum Tart\n").await;
        let published = editor.published().await;
        assert_eq!((published.uri.as_str(), published.version), (uri, Some(1)));
    }
    editor.leave().await;
}

#[tokio::test]
async fn a_request_overtaken_by_an_edit_is_told_so() {
    let mut editor = Editor::usual().await;
    editor.open(TART, "Recipe: Plum Tart\n").await;
    editor.published().await;
    let hover =
        |id| framed(&json!({ "jsonrpc": "2.0", "id": id, "method": "textDocument/hover", "params": at(TART, 0, 9) }));
    let params =
        json!({ "textDocument": { "uri": TART, "version": 2 }, "contentChanges": [change((0, 0), (0, 0), " ")] });
    let edit = framed(&json!({ "jsonrpc": "2.0", "method": "textDocument/didChange", "params": params }));
    editor.write(&[hover(100), edit, hover(101)].concat()).await;
    assert_eq!(editor.answer(100).await.unwrap_err().code, CONTENT_MODIFIED);
    assert!(editor.answer(101).await.is_ok(), "sees exactly the edits sent before it");
    assert_eq!(editor.published().await.version, Some(2));
    editor.leave().await;
}

#[tokio::test]
async fn a_document_that_is_not_open_cannot_be_asked_about() {
    let mut editor = Editor::usual().await;
    editor.change(TART, 2, json!([{ "text": "lost" }])).await;
    editor.close(TART).await;
    let refused = editor.request("textDocument/hover", at(TART, 0, 0)).await.unwrap_err();
    assert_eq!(refused, Refused { code: INVALID_PARAMS, message: format!("{TART} is not open") });
    editor.open(TART, "").await;
    editor.close(TART).await;
    assert!(editor.request("tamis/text", json!({ "textDocument": { "uri": TART } })).await.is_err());
    editor.leave().await;
}

#[tokio::test]
async fn nothing_is_answered_before_initialize() {
    let mut editor = Editor::silent();
    let refused = editor.request("textDocument/hover", at(TART, 0, 0)).await.unwrap_err();
    assert_eq!(refused.code, NOT_INITIALIZED);
    editor.open(TART, "Recipe: Plum Tart\n").await;
    let answer = editor.request("initialize", json!({ "capabilities": {} })).await;
    assert!(answer.is_ok());
    let again = editor.request("initialize", json!({ "capabilities": {} })).await;
    assert_eq!(again.unwrap_err().code, INVALID_REQUEST);
    assert!(
        editor.request("tamis/text", json!({ "textDocument": { "uri": TART } })).await.is_err(),
        "not opened in time"
    );
    editor.leave().await;
}

#[tokio::test]
async fn nothing_is_answered_after_shutdown() {
    let mut editor = Editor::usual().await;
    assert_eq!(editor.request("shutdown", Value::Null).await, Ok(Value::Null));
    let refused = editor.request("textDocument/hover", at(TART, 0, 0)).await.unwrap_err();
    assert_eq!(refused.code, INVALID_REQUEST);
    editor.notify("exit", Value::Null).await;
    editor.left_with(Ending::Asked).await;
}

#[tokio::test]
async fn the_server_ends_when_the_client_does() {
    let mut editor = Editor::usual().await;
    editor.notify("exit", Value::Null).await;
    editor.left_with(Ending::Unannounced).await;

    let mut editor = Editor::usual().await;
    editor.open(TART, "Recipe: Plum Tart\n").await;
    editor.published().await;
    editor.hang_up().await;

    let mut editor = Editor::silent();
    editor.write(b"Content-Length: 400\r\n\r\n{\"jsonrpc\"").await;
    editor.hang_up().await;

    let mut editor = Editor::usual().await;
    editor.stop_reading();
    editor.open(TART, "Recipe: Plum Tart\n").await;
    editor.left_with(Ending::HungUp).await;
}

/// A client that writes all it has to say and closes the pipe still gets its answers.
#[tokio::test]
async fn what_was_said_before_hanging_up_is_answered() {
    let mut editor = Editor::usual().await;
    editor.open(TART, "Recipe: Plum Tart\n").await;
    let number = editor.send("tamis/text", json!({ "textDocument": { "uri": TART } })).await;
    editor.stop_writing().await;
    assert_eq!(editor.answer(number).await.unwrap()["version"], 1);
    assert_eq!(editor.published().await.version, Some(1));
    editor.left_with(Ending::HungUp).await;
}

#[tokio::test]
async fn a_malformed_message_costs_no_other() {
    let mut editor = Editor::usual().await;
    editor.open(TART, "Recipe: Plum Tart\n").await;
    assert_eq!(editor.published().await.version, Some(1));
    for (broken, code) in [
        (&b"Content-Length: 9\r\n\r\n{\"jsonrpc"[..], PARSE_ERROR),
        (b"Content-Length: 3\r\n\r\n\xff\xfe\x00", PARSE_ERROR),
        (b"Content-Length: 0\r\n\r\n", PARSE_ERROR),
        (b"Content-Length: eggs\r\n\r\n", PARSE_ERROR),
        (b"Content-Length: 2\r\n\r\n[]", INVALID_REQUEST),
        (b"Content-Length: 17\r\n\r\n{\"method\":\"exit\"}", INVALID_REQUEST),
        (b"Content-Type: text/plain\r\n\r\n", PARSE_ERROR),
    ] {
        editor.write(broken).await;
        assert_eq!(editor.complaint().await.code, code, "{}", String::from_utf8_lossy(broken));
    }
    assert_eq!(editor.held_text(TART).await.0, 1, "still there");

    let refused = editor.request("textDocument/hover", json!({ "position": 3 })).await.unwrap_err();
    assert_eq!(refused.code, INVALID_PARAMS);
    assert_eq!(editor.request("kitchen/sink", json!({})).await.unwrap_err().code, METHOD_NOT_FOUND);
    editor.notify("kitchen/sink", json!({})).await;
    editor.notify("$/setTrace", json!({ "value": "off" })).await;
    editor.notify("textDocument/didChange", json!({ "textDocument": 7 })).await;
    editor.change(TART, 2, json!([change((0, 99), (7, 0), "!")])).await;
    assert_eq!(editor.published().await.version, Some(2));
    assert_eq!(editor.held_text(TART).await, (2, "Recipe: Plum Tart!".to_string()), "outside is moved inside");
    editor.leave().await;
}

#[tokio::test]
async fn a_cancelled_request_is_answered_once() {
    let mut editor = Editor::usual().await;
    editor.open(TART, "Recipe: Plum Tart\n").await;
    editor.published().await;
    let number = editor.send("textDocument/hover", at(TART, 0, 9)).await;
    editor.notify("$/cancelRequest", json!({ "id": number })).await;
    let answer = editor.answer(number).await;
    assert!(answer.as_ref().map_err(|refused| refused.code) == Err(REQUEST_CANCELLED) || answer.is_ok(), "{answer:?}");
    editor.leave().await;
}
