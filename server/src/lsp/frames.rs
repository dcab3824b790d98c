//! Messages on the wire: a header that says how long it is, an empty line, and so many bytes of JSON
//! (Language Server Protocol 3.17, "Base Protocol").

use std::io;

use bytes::Buf;
use tokio::io::{AsyncBufRead, AsyncBufReadExt, AsyncReadExt, AsyncWrite, AsyncWriteExt};

/// The most that is read of one header line, in bytes; what follows is read as the next line.
const LINE_LIMIT: u64 = 64 * 1024;
/// The longest body that is believed, in bytes: far more than any manuscript.
const BODY_LIMIT: u64 = 256 * 1024 * 1024;
const LENGTH: &str = "content-length:";

/// What came in.
#[derive(Debug, PartialEq, Eq)]
pub enum Frame {
    /// One body.
    Body(Vec<u8>),
    /// A header that says no usable length.
    Stray,
}

/// Reads the next frame; `None` at the end of the input, also at one in the middle of a frame.
///
/// A length is taken wherever it stands in a line, so that what an earlier broken message has left over does not cost
/// the next one too.
pub async fn read<R: AsyncBufRead + Unpin>(reader: &mut R) -> io::Result<Option<Frame>> {
    let (mut length, mut line, mut empty) = (None, Vec::new(), true);
    loop {
        line.clear();
        (&mut *reader).take(LINE_LIMIT).read_until(b'\n', &mut line).await?;
        if line.is_empty() {
            return Ok(None);
        }
        let text = String::from_utf8_lossy(&line);
        match text.trim() {
            "" if empty => {}
            "" => break,
            header => {
                empty = false;
                length = stated_length(header).or(length);
            }
        }
    }
    let Some(length) = length else { return Ok(Some(Frame::Stray)) };
    let mut body = Vec::new();
    (&mut *reader).take(length).read_to_end(&mut body).await?;
    Ok((body.len() as u64 == length).then_some(Frame::Body(body)))
}

fn stated_length(header: &str) -> Option<u64> {
    let header = header.to_ascii_lowercase();
    let (_, value) = header.rsplit_once(LENGTH)?;
    value.trim().parse().ok().filter(|length| *length <= BODY_LIMIT)
}

/// Writes one body with its header, without flushing.
pub async fn write<W: AsyncWrite + Unpin>(writer: &mut W, body: impl Buf) -> io::Result<()> {
    let header = format!("Content-Length: {}\r\n\r\n", body.remaining());
    // At one call, and without joining them: the diagnostics of a long manuscript are long.
    writer.write_all_buf(&mut Buf::chain(header.as_bytes(), body)).await
}

#[cfg(test)]
mod tests {
    use super::*;

    async fn all(mut input: &[u8]) -> Vec<Frame> {
        let mut frames = Vec::new();
        while let Some(frame) = read(&mut input).await.unwrap() {
            frames.push(frame);
        }
        frames
    }

    fn body(text: &str) -> Frame {
        Frame::Body(text.into())
    }

    #[tokio::test]
    async fn frames_are_read_and_broken_ones_passed_over() {
        let table: [(&str, &str, Vec<Frame>); 11] = [
            ("two in a row", "Content-Length: 2\r\n\r\n{}Content-Length: 1\r\n\r\n0", vec![body("{}"), body("0")]),
            ("bytes, not characters", "Content-Length: 4\r\n\r\n🥚", vec![body("🥚")]),
            ("headers in any case and order", "content-type: x\r\nCONTENT-LENGTH:1\r\n\r\n0", vec![body("0")]),
            ("bare line feeds", "Content-Length: 1\n\n0", vec![body("0")]),
            ("empty lines in between", "\r\n\r\nContent-Length: 1\r\n\r\n0", vec![body("0")]),
            ("no length", "Content-Type: x\r\n\r\nContent-Length: 1\r\n\r\n0", vec![Frame::Stray, body("0")]),
            ("no number", "Content-Length: x\r\n\r\n{}Content-Length: 1\r\n\r\n0", vec![Frame::Stray, body("0")]),
            ("too long", "Content-Length: 999999999999\r\n\r\n", vec![Frame::Stray]),
            ("a length too short", "Content-Length: 1\r\n\r\n{}Content-Length: 1\r\n\r\n0", vec![body("{"), body("0")]),
            ("an end within a body", "Content-Length: 9\r\n\r\n{}", vec![]),
            ("an end within a header", "Content-Length: 9\r\n", vec![]),
        ];
        for (why, input, frames) in table {
            assert_eq!(all(input.as_bytes()).await, frames, "{why}");
        }
    }

    #[tokio::test]
    async fn what_is_written_can_be_read() {
        let mut out = Vec::new();
        write(&mut out, "{\"a\":\"é\"}".as_bytes()).await.unwrap();
        write(&mut out, &b""[..]).await.unwrap();
        assert_eq!(all(&out).await, vec![body("{\"a\":\"é\"}"), body("")]);
    }
}
