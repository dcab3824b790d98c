//! An editor in memory: speaks the Language Server Protocol with the server over two pipes, counts what it says, and
//! lets nothing that it is told go unread.

use std::collections::VecDeque;
use std::time::Duration;

use serde_json::{Value, json};
use tamis::lsp::{self, Ending};
use tokio::io::{AsyncBufReadExt, AsyncReadExt, AsyncWriteExt, BufReader, DuplexStream};
use tokio::task::JoinHandle;
use tokio::time::timeout;

/// How long anything may take before the test is given up. Nothing ever waits for it otherwise.
const PATIENCE: Duration = Duration::from_secs(60);
const PIPE: usize = 64 * 1024;

/// An editor with a server of its own.
pub struct Editor {
    to_server: DuplexStream,
    from_server: BufReader<DuplexStream>,
    unread: VecDeque<Value>,
    requests: i64,
    serving: JoinHandle<Ending>,
}

/// What the server said against a request.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// The code of JSON-RPC or of the protocol.
    pub code: i64,
    /// In words.
    pub message: String,
}

/// Diagnostics as they were published.
#[derive(Debug, Clone, PartialEq)]
pub struct Published {
    /// Of which document.
    pub uri: String,
    /// Of which version of it, if that was said.
    pub version: Option<i64>,
    /// All of them.
    pub diagnostics: Vec<Value>,
}

impl Editor {
    /// An editor that has not said a word yet.
    pub fn silent() -> Self {
        let (to_server, input) = tokio::io::duplex(PIPE);
        let (output, from_server) = tokio::io::duplex(PIPE);
        let serving = tokio::spawn(lsp::serve(input, output));
        Editor { to_server, from_server: BufReader::new(from_server), unread: VecDeque::new(), requests: 0, serving }
    }

    /// An editor that has introduced itself with `capabilities`, and what it was answered.
    pub async fn introduced(capabilities: Value) -> (Self, Value) {
        let mut editor = Editor::silent();
        let params = json!({ "processId": null, "rootUri": null, "capabilities": capabilities });
        let answer = editor.request("initialize", params).await.expect("a server that can be initialized");
        editor.notify("initialized", json!({})).await;
        (editor, answer)
    }

    /// An editor that can take everything and counts columns in UTF-16.
    pub async fn usual() -> Self {
        let capabilities = json!({
            "general": { "positionEncodings": ["utf-16"] },
            "workspace": { "applyEdit": true, "workspaceEdit": { "documentChanges": true } },
            "textDocument": {
                "publishDiagnostics": { "relatedInformation": true, "tagSupport": { "valueSet": [1, 2] } },
                "hover": { "contentFormat": ["markdown", "plaintext"] },
                "documentSymbol": { "hierarchicalDocumentSymbolSupport": true },
                "definition": { "linkSupport": true },
            },
        });
        Editor::introduced(capabilities).await.0
    }

    /// Writes bytes as they are.
    pub async fn write(&mut self, bytes: &[u8]) {
        // Fails once the server has gone; whoever cares about that reads.
        let _ = timeout(PATIENCE, self.to_server.write_all(bytes)).await.expect("a server that reads");
    }

    /// Sends a notification.
    pub async fn notify(&mut self, method: &str, params: Value) {
        self.write(&framed(&json!({ "jsonrpc": "2.0", "method": method, "params": params }))).await;
    }

    /// Sends a request and returns its number; [`Editor::answer`] waits for what comes back.
    pub async fn send(&mut self, method: &str, params: Value) -> i64 {
        self.requests += 1;
        let mut request = json!({ "jsonrpc": "2.0", "id": self.requests, "method": method });
        if !params.is_null() {
            request["params"] = params;
        }
        self.write(&framed(&request)).await;
        self.requests
    }

    /// The answer to the request of this number.
    pub async fn answer(&mut self, number: i64) -> Result<Value, Refused> {
        let answer = self.take(|message| message["id"] == number && message["method"].is_null()).await;
        match answer.get("error") {
            Some(error) => Err(refused(error)),
            None => Ok(answer["result"].clone()),
        }
    }

    /// Asks, and waits for the answer.
    pub async fn request(&mut self, method: &str, params: Value) -> Result<Value, Refused> {
        let number = self.send(method, params).await;
        self.answer(number).await
    }

    /// What the server says under no number: that it could not read a message.
    pub async fn complaint(&mut self) -> Refused {
        let complaint = self.take(|message| message.get("id").is_some_and(Value::is_null)).await;
        refused(&complaint["error"])
    }

    /// The next diagnostics published for any document.
    pub async fn published(&mut self) -> Published {
        let message = self.take(|message| message["method"] == "textDocument/publishDiagnostics").await;
        let params = &message["params"];
        Published {
            uri: params["uri"].as_str().expect("diagnostics of a document").to_string(),
            version: params["version"].as_i64(),
            diagnostics: params["diagnostics"].as_array().expect("a list of diagnostics").clone(),
        }
    }

    /// What the server tells by this method.
    pub async fn told(&mut self, method: &str) -> Value {
        self.take(|message| message["method"] == method && message["id"].is_null()).await["params"].clone()
    }

    /// What the server has told by this method so far.
    pub fn told_so_far(&mut self, method: &str) -> Vec<Value> {
        let (told, others): (Vec<Value>, Vec<Value>) =
            self.unread.drain(..).partition(|message| message["method"] == method && message["id"].is_null());
        self.unread = others.into();
        told.into_iter().map(|message| message["params"].clone()).collect()
    }

    /// Waits until the server has read a book, and returns what it told of that meanwhile. For an editor that shows progress.
    pub async fn read_a_book(&mut self) -> Vec<Value> {
        let token = self.asked("window/workDoneProgress/create").await["token"].clone();
        let mut all: Vec<Value> = Vec::new();
        while all.last().is_none_or(|last| last["kind"] != "end") {
            let told = self.told("$/progress").await;
            assert_eq!(told["token"], token);
            all.push(told["value"].clone());
        }
        all
    }

    /// What the server asks by this method: answered with nothing, which is 'yes' to all that it asks.
    pub async fn asked(&mut self, method: &str) -> Value {
        self.asked_and_told(method, Value::Null).await
    }

    /// What the server asks by this method, and is told.
    pub async fn asked_and_told(&mut self, method: &str, answer: Value) -> Value {
        let request = self.take(|message| message["method"] == method && !message["id"].is_null()).await;
        self.write(&framed(&json!({ "jsonrpc": "2.0", "id": request["id"], "result": answer }))).await;
        request["params"].clone()
    }

    /// Opens a document as version 1.
    pub async fn open(&mut self, uri: &str, text: &str) {
        let document = json!({ "uri": uri, "languageId": "tamis", "version": 1, "text": text });
        self.notify("textDocument/didOpen", json!({ "textDocument": document })).await;
    }

    /// Changes a document, by changes as the protocol writes them.
    pub async fn change(&mut self, uri: &str, version: i64, changes: Value) {
        let document = json!({ "uri": uri, "version": version });
        self.notify("textDocument/didChange", json!({ "textDocument": document, "contentChanges": changes })).await;
    }

    /// Closes a document.
    pub async fn close(&mut self, uri: &str) {
        self.notify("textDocument/didClose", json!({ "textDocument": { "uri": uri } })).await;
    }

    /// Version and text that the server holds for a document.
    pub async fn held_text(&mut self, uri: &str) -> (i64, String) {
        let held =
            self.request("tamis/text", json!({ "textDocument": { "uri": uri } })).await.expect("an open document");
        (held["version"].as_i64().unwrap(), held["text"].as_str().unwrap().to_string())
    }

    /// Takes leave as the protocol wants it; fails if anything was left unread, or comes afterwards.
    pub async fn leave(mut self) {
        assert_eq!(self.request("shutdown", Value::Null).await, Ok(Value::Null));
        self.notify("exit", Value::Null).await;
        self.left_with(Ending::Asked).await;
    }

    /// Waits for the server to end, with the pipe still open, and fails if it ends otherwise or left something unread.
    pub async fn left_with(mut self, ending: Ending) {
        while let Some(message) = self.read().await {
            self.unread.push_back(message);
        }
        assert!(self.unread.is_empty(), "never read: {:#?}", self.unread);
        let ended = timeout(PATIENCE, &mut self.serving).await.expect("a server that ends");
        assert_eq!(ended.expect("no panic"), ending);
    }

    /// Closes the pipe to the server.
    pub async fn stop_writing(&mut self) {
        self.to_server.shutdown().await.expect("a pipe to close");
    }

    /// Closes the pipe from the server, whatever is still in it.
    pub fn stop_reading(&mut self) {
        self.from_server = BufReader::new(tokio::io::duplex(1).0);
    }

    /// Closes the pipe to the server and waits for it to end.
    pub async fn hang_up(mut self) {
        self.stop_writing().await;
        self.left_with(Ending::HungUp).await;
    }

    /// Closes the pipe to the server and waits for it to end, whatever it says meanwhile.
    pub async fn hang_up_unheard(mut self) {
        self.stop_writing().await;
        while self.read().await.is_some() {}
        let ended = timeout(PATIENCE, &mut self.serving).await.expect("a server that ends");
        assert_eq!(ended.expect("no panic"), Ending::HungUp);
    }

    /// The first message, of those not taken yet, that fits.
    async fn take(&mut self, fits: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.unread.iter().position(&fits) {
            return self.unread.remove(at).unwrap();
        }
        loop {
            let message = self.read().await.expect("a message before the server ends");
            if fits(&message) {
                return message;
            }
            self.unread.push_back(message);
        }
    }

    /// The next message; none once the server has closed its end.
    async fn read(&mut self) -> Option<Value> {
        timeout(PATIENCE, read_message(&mut self.from_server)).await.expect("a server that answers")
    }
}

async fn read_message(reader: &mut BufReader<DuplexStream>) -> Option<Value> {
    let mut length = None;
    loop {
        let mut line = String::new();
        if reader.read_line(&mut line).await.expect("a header") == 0 {
            return None;
        }
        match line.trim_end().split_once(": ") {
            Some(("Content-Length", value)) => length = Some(value.parse().expect("a length")),
            Some(_) => {}
            None => break,
        }
    }
    let mut body = vec![0; length.expect("a header that says the length")];
    reader.read_exact(&mut body).await.expect("a whole body");
    Some(serde_json::from_slice(&body).expect("a body in JSON"))
}

fn refused(error: &Value) -> Refused {
    Refused { code: error["code"].as_i64().unwrap(), message: error["message"].as_str().unwrap().to_string() }
}

/// A message with its header.
pub fn framed(message: &Value) -> Vec<u8> {
    let body = message.to_string();
    format!("Content-Length: {}\r\n\r\n{body}", body.len()).into_bytes()
}
