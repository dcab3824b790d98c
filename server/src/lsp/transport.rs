//! Carries messages between two streams of bytes and the service.
//!
//! The protocol crate brings a transport of its own, which ends with the first malformed message, waits for more input
//! after `exit`, and lets handlers wait once a few are at work. This one answers a malformed message and goes on, ends
//! with `exit` and with the end of the input, and starts every handler at once, in the order of arrival.

use std::io;

use futures_util::{FutureExt, SinkExt, Stream, StreamExt};
use serde::Serialize;
use tokio::io::{AsyncBufRead, AsyncWrite, AsyncWriteExt};
use tokio::sync::mpsc::{self, UnboundedReceiver, UnboundedSender};
use tokio::task::{JoinHandle, JoinSet};
use tower_lsp::jsonrpc::{Error, Id, Request, Response};
use tower_lsp::{ClientSocket, LanguageServer, LspService};
use tower_service::Service;

use super::diagnostics::{self, Body};
use super::frames::{self, Frame};
use super::message::{self, Message};
use super::parent;

/// Why serving came to an end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// The client said `shutdown`, then `exit`.
    Asked,
    /// The client said `exit` without `shutdown`.
    Unannounced,
    /// One of the streams was closed, or the client's process is gone.
    HungUp,
    /// The task behind the service stopped: a fault of ours.
    Broken,
}

/// Serves until the client says `exit` or a stream ends, and then until all that was received has been answered.
/// `desk` is the task behind the service, which ends by itself once the service is gone, and the diagnostics that it sends the client.
pub async fn serve<S, R, W>(
    mut reader: R,
    writer: W,
    service: LspService<S>,
    socket: ClientSocket,
    (mut desk, written): (JoinHandle<()>, UnboundedReceiver<Body>),
) -> Ending
where
    S: LanguageServer,
    R: AsyncBufRead + Unpin,
    W: AsyncWrite + Unpin + Send + 'static,
{
    let (requests, mut replies) = socket.split();
    let (outgoing, responses) = mpsc::unbounded_channel();
    let mut writing = tokio::spawn(write(writer, responses, written, requests));
    let mut incoming = Incoming { service, outgoing, answering: JoinSet::new() };
    let mut shut_down = false;
    let client_gone = parent::gone(None);
    tokio::pin!(client_gone);
    let ending = loop {
        let frame = tokio::select! {
            frame = frames::read(&mut reader) => frame,
            () = &mut client_gone => return Ending::HungUp,
            _ = &mut writing => return Ending::HungUp,
            _ = &mut desk => return Ending::Broken,
        };
        let message = match frame {
            Ok(Some(Frame::Body(body))) => message::read(&body),
            Ok(Some(Frame::Stray)) => Err(Box::new((Id::Null, Error::parse_error()))),
            Ok(None) | Err(_) => break Ending::HungUp,
        };
        match message {
            Ok(Message::Request(request)) if request.method() == "exit" => {
                break if shut_down { Ending::Asked } else { Ending::Unannounced };
            }
            Ok(Message::Request(request)) => {
                shut_down |= request.method() == "shutdown";
                if request.method() == "initialize" {
                    client_gone.set(parent::gone(process_of_client(&request)));
                }
                incoming.start(request);
            }
            // Fails for an answer to nothing only.
            Ok(Message::Reply(reply)) => drop(replies.send(reply).await),
            Err(refusal) => {
                let (id, error) = *refusal;
                incoming.answer(Response::from_error(id, error))
            }
        }
    };
    let outgoing = incoming.finish().await;
    let _ = desk.await;
    drop(outgoing);
    let _ = writing.await;
    ending
}

fn process_of_client(introduction: &Request) -> Option<u32> {
    introduction.params()?.get("processId")?.as_u64()?.try_into().ok()
}

/// The way of a request to its handler and of the answer back.
struct Incoming<S> {
    service: LspService<S>,
    outgoing: UnboundedSender<Response>,
    answering: JoinSet<()>,
}

impl<S: LanguageServer> Incoming<S> {
    /// Starts the handler, so far as to where it waits, before the next message is read: what handlers do before their
    /// first `.await` happens in the order of arrival.
    fn start(&mut self, request: Request) {
        while self.answering.try_join_next().is_some() {}
        let mut answer = self.service.call(request);
        match (&mut answer).now_or_never() {
            Some(Ok(Some(response))) => self.answer(response),
            Some(Ok(None) | Err(_)) => {}
            None => {
                let outgoing = self.outgoing.clone();
                self.answering.spawn(async move {
                    if let Ok(Some(response)) = answer.await {
                        let _ = outgoing.send(response);
                    }
                });
            }
        }
    }

    fn answer(&self, response: Response) {
        // The writer is gone when the client is: then nobody waits for an answer.
        let _ = self.outgoing.send(response);
    }

    /// Takes no more requests and waits until those taken are answered. The writer stops when what it returns is dropped.
    async fn finish(self) -> UnboundedSender<Response> {
        let Incoming { service, mut answering, outgoing } = self;
        drop(service);
        while answering.join_next().await.is_some() {}
        outgoing
    }
}

/// Writes what goes out until the last answer has been given.
async fn write<W: AsyncWrite + Unpin>(
    mut writer: W,
    mut responses: UnboundedReceiver<Response>,
    mut written: UnboundedReceiver<Body>,
    mut requests: impl Stream<Item = Request> + Unpin,
) -> io::Result<()> {
    loop {
        tokio::select! {
            // A piece of an answer goes out before what is left of it, and what is told of a document before an answer about it.
            biased;
            Some(request) = requests.next() => put(&mut writer, &request).await?,
            Some(body) = written.recv() => frames::write(&mut writer, body.bytes()).await?,
            response = responses.recv() => match response {
                Some(response) => match diagnostics::unpacked(&response) {
                    Some(body) => frames::write(&mut writer, &*body).await?,
                    None => put(&mut writer, &response).await?,
                },
                None => break,
            },
        }
        writer.flush().await?;
    }
    while let Some(Some(request)) = requests.next().now_or_never() {
        put(&mut writer, &request).await?;
    }
    while let Ok(body) = written.try_recv() {
        frames::write(&mut writer, body.bytes()).await?;
    }
    writer.shutdown().await
}

async fn put<W: AsyncWrite + Unpin>(writer: &mut W, message: &impl Serialize) -> io::Result<()> {
    frames::write(writer, &*serde_json::to_vec(message)?).await
}
