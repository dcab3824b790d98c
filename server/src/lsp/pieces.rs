//! Long lists, worked out beside the desk piece by piece. A client that has given a token for them is told each piece as soon as it is
//! there, and gets nothing more in the answer.

use serde_json::{Value, json};
use tokio::sync::mpsc;
use tokio::task::spawn_blocking;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{PartialResultParams, notification::Notification};

/// What is left to be done of a list: gives its pieces, and stops once it is told that nobody waits for them any more.
pub type Pieces<T> = Box<dyn FnOnce(&dyn Fn(Vec<T>) -> bool) + Send>;

/// A list of one piece.
pub fn whole<T: Send + 'static>(list: Vec<T>) -> Pieces<T> {
    Box::new(move |give| {
        give(list);
    })
}

/// `$/progress` with a piece of an answer.
enum Piece {}

impl Notification for Piece {
    type Params = Value;
    const METHOD: &'static str = "$/progress";
}

/// Has the pieces worked out, and returns what the client has not been told of them. What it is told is what `told` makes of a piece.
pub async fn listed<T: Send + 'static>(
    client: &Client,
    pieces: Pieces<T>,
    wanted: PartialResultParams,
    told: impl Fn(Vec<T>) -> Value,
) -> Result<Vec<T>> {
    let (give, mut given) = mpsc::unbounded_channel();
    let work = spawn_blocking(move || pieces(&|piece| give.send(piece).is_ok()));
    let mut all = Vec::new();
    while let Some(piece) = given.recv().await {
        all.extend(piece);
        // What has come meanwhile goes with it.
        while let Ok(piece) = given.try_recv() {
            all.extend(piece);
        }
        if let Some(token) = wanted.partial_result_token.as_ref().filter(|_| !all.is_empty()) {
            let piece = told(std::mem::take(&mut all));
            client.send_notification::<Piece>(json!({ "token": token, "value": piece })).await;
        }
    }
    work.await.map_err(|_| Error::internal_error())?;
    Ok(all)
}
