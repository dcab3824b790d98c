//! The face towards editors: the Language Server Protocol over standard input and output.
//!
//! | file | concern |
//! |---|---|
//! | [`streams`], [`frames`], [`message`], [`transport`] | bytes, messages, and their way to the handlers and back |
//! | [`capabilities`] | what the editor can take, and what it is offered |
//! | [`shell`] | one handler a method: puts what came into the mail and does nothing else |
//! | [`desk`], [`documents`] | the one task that owns the open documents: edits in order, answers, publishing |
//! | [`sheets`] | style sheets that are not open, and what changes when one is saved |
//! | [`books`], [`shelf`], [`progress`] | books: read beside the desk, as they are at the moment, how far the reading is |
//! | [`pieces`] | long lists, told piece by piece |
//! | [`parent`] | whether the client still runs |
//! | [`settings`] | what the user of the editor may turn off |
//! | [`marks`], [`diagnostics`] | what is wrong with a document; what the client was shown of it, by push until it pulls |
//! | [`convert`], [`placed`] | spans and findings into the protocol's words, by document and by recipe |
//! | [`commands`] | what is done to a recipe as a whole, with a number or a day to go with it |
//! | [`features`] | with what the features below are offered |
//! | [`actions`], [`calls`], [`completion`], [`folding`], [`formatting`], [`hints`], [`hover`], [`lenses`], [`links`], [`outline`], [`places`], [`rename`],
//! [`search`], [`selection`], [`tokens`], [`ways_out`] | one file a feature: translate, ask the document, translate back |
//!
//! Everything that names the protocol stays in here.

mod actions;
mod books;
mod calls;
mod capabilities;
mod commands;
mod completion;
mod convert;
mod desk;
mod diagnostics;
mod documents;
mod features;
mod folding;
mod formatting;
mod frames;
mod hints;
mod hover;
mod lenses;
mod links;
mod mail;
mod marks;
mod message;
mod outline;
mod parent;
mod pieces;
mod placed;
mod places;
mod progress;
mod rename;
mod review;
mod search;
mod selection;
mod settings;
mod sheets;
mod shelf;
mod shell;
mod streams;
mod tokens;
mod transport;
mod ways_out;

use std::io::{self, Write};
use std::process::ExitCode;

use tokio::io::{AsyncRead, AsyncWrite, BufReader};
use tokio::runtime;
use tokio::sync::mpsc;
use tower_lsp::LspService;

use crate::workspace;
use shell::Shell;
pub use transport::Ending;

/// Serves the editor that started this process, until it says `exit` or closes standard input.
///
/// The exit code is 1 when the editor forgot `shutdown` (so the protocol wants it) and 2 when serving failed.
pub fn run() -> ExitCode {
    // While the editor introduces itself; whoever needs it earlier waits for this thread, and reads nothing twice.
    std::thread::spawn(workspace::prepare);
    // One thread: a keystroke goes through all tasks and back out without waking another. What takes longer runs beside it.
    let ending = runtime::Builder::new_current_thread().enable_all().build().map(|runtime| {
        let ending = runtime.block_on(async { serve(streams::input(), streams::output()).await });
        // A read of standard input may still be under way, and cannot be called off.
        runtime.shutdown_background();
        ending
    });
    match ending {
        Ok(Ending::Asked | Ending::HungUp) => ExitCode::SUCCESS,
        Ok(Ending::Unannounced) => ExitCode::from(1),
        Ok(Ending::Broken) => ExitCode::from(2),
        Err(fault) => {
            let _ = writeln!(io::stderr(), "error: the server cannot start: {fault}");
            ExitCode::from(2)
        }
    }
}

/// Serves one client over two streams of bytes.
pub async fn serve<R, W>(reader: R, writer: W) -> Ending
where
    R: AsyncRead + Unpin,
    W: AsyncWrite + Unpin + Send + 'static,
{
    let (mail, arriving) = mpsc::unbounded_channel();
    let letterbox = mail.downgrade();
    let mut arriving = Some(arriving);
    let mut working = None;
    let (outgoing, written) = mpsc::unbounded_channel();
    let mut outgoing = Some(outgoing);
    let (service, socket) = LspService::build(|client| {
        working = arriving.take().zip(outgoing.take()).map(|(arriving, outgoing)| {
            tokio::spawn(desk::work(client.clone(), arriving, letterbox.clone(), outgoing))
        });
        Shell::new(mail, client)
    })
    .custom_method("tamis/text", Shell::text)
    .custom_method("window/workDoneProgress/cancel", Shell::progress_cancelled)
    .finish();
    let Some(working) = working else { return Ending::Broken };
    transport::serve(BufReader::new(reader), writer, service, socket, (working, written)).await
}
