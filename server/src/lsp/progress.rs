//! How far the reading of a book is, for an editor that shows such things.

use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

use tokio::sync::watch;
use tower_lsp::Client;
use tower_lsp::lsp_types::notification::Progress;
use tower_lsp::lsp_types::request::WorkDoneProgressCreate;
use tower_lsp::lsp_types::{
    ProgressParams, ProgressParamsValue, ProgressToken, WorkDoneProgress, WorkDoneProgressBegin,
    WorkDoneProgressCreateParams, WorkDoneProgressEnd, WorkDoneProgressReport,
};

use super::books::Errand;
use super::capabilities::Editor;

/// The least time between two reports: nobody reads faster.
const PAUSE: Duration = Duration::from_millis(100);

/// Tells the client how far an errand is. It ends when the teller is let go of.
pub struct Teller {
    heard: watch::Sender<(usize, usize)>,
}

impl Teller {
    /// A teller for a long errand, if the editor wants to be told.
    pub fn of(errand: &Errand, editor: &Editor, client: &Client) -> Option<Teller> {
        if !editor.shows_progress || !errand.is_long() {
            return None;
        }
        let (heard, listened) = watch::channel((0, 0));
        tokio::spawn(tell(client.clone(), listened));
        Some(Teller { heard })
    }

    /// Says that so many manuscripts of so many have been read. Whoever reads several at a time may say so out of order.
    pub fn tell(&self, read: usize, all: usize) {
        self.heard.send_if_modified(|now| {
            let more = read > now.0;
            if more {
                *now = (read, all);
            }
            more
        });
    }
}

/// Asks the client for a place to show it, and tells it. The errand does not wait for any of that.
async fn tell(client: Client, mut listened: watch::Receiver<(usize, usize)>) {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let token = ProgressToken::String(format!("tamis-book-{}", COUNT.fetch_add(1, Ordering::Relaxed)));
    let create = WorkDoneProgressCreateParams { token: token.clone() };
    if client.send_request::<WorkDoneProgressCreate>(create).await.is_err() {
        return;
    }
    let say = |what: WorkDoneProgress| {
        let params = ProgressParams { token: token.clone(), value: ProgressParamsValue::WorkDone(what) };
        client.send_notification::<Progress>(params)
    };
    say(WorkDoneProgress::Begin(WorkDoneProgressBegin {
        title: "Reading the book".to_owned(),
        cancellable: Some(false),
        message: None,
        percentage: Some(0),
    }))
    .await;
    let mut last = Instant::now();
    while listened.changed().await.is_ok() {
        let (read, all) = *listened.borrow_and_update();
        if last.elapsed() >= PAUSE {
            last = Instant::now();
            let percentage = u32::try_from(read.saturating_mul(100) / all.max(1)).ok();
            let message = Some(format!("{read} of {all} manuscripts"));
            let report = WorkDoneProgressReport { cancellable: Some(false), message, percentage };
            say(WorkDoneProgress::Report(report)).await;
        }
    }
    let (read, _) = *listened.borrow();
    let message = Some(if read == 1 { "1 manuscript".to_owned() } else { format!("{read} manuscripts") });
    say(WorkDoneProgress::End(WorkDoneProgressEnd { message })).await;
}
