//! The text of one manuscript, or a plain word about why there is none.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;
use std::time::SystemTime;

use super::trouble::{Fault, Trouble};
use super::walk::Source;
use crate::text::{Encoding, LineIndex};

/// The largest text that is read, in bytes: 16 MiB, some forty cookbooks. Beyond it a file is a mistake.
pub const LARGEST: u64 = 16 * 1024 * 1024;

const BYTE_ORDER_MARK: &str = "\u{FEFF}";

/// Reads the whole text of `source`, without its byte-order mark: editors hide it too, so columns agree.
pub fn read(source: &Source) -> Result<String, Trouble> {
    let text = match source {
        Source::StandardInput => bytes_of(io::stdin().lock()),
        Source::File(path) => bytes_of_file(path),
    };
    text.and_then(decoded).map_err(|fault| Trouble::of(source, fault))
}

/// When a file was written last, where the system knows that, and how long it is.
pub type Written = (Option<SystemTime>, u64);

/// What tells that a file is still what it was when it was read; nothing where it is gone.
pub fn written(file: &Path) -> Option<Written> {
    let found = fs::metadata(file).ok()?;
    Some((found.modified().ok(), found.len()))
}

/// Asks what the file is before opening it: opening a pipe would wait for somebody to write into it.
fn bytes_of_file(path: &Path) -> Result<Vec<u8>, Fault> {
    let found = fs::metadata(path).map_err(|error| Fault::from_io(&error))?;
    if !found.is_file() {
        return Err(Fault::NotAFile);
    }
    if found.len() > LARGEST {
        return Err(Fault::TooLarge);
    }
    bytes_of(File::open(path).map_err(|error| Fault::from_io(&error))?)
}

fn bytes_of(from: impl Read) -> Result<Vec<u8>, Fault> {
    let mut bytes = Vec::new();
    from.take(LARGEST + 1).read_to_end(&mut bytes).map_err(|error| Fault::from_io(&error))?;
    if bytes.len() as u64 > LARGEST { Err(Fault::TooLarge) } else { Ok(bytes) }
}

fn decoded(bytes: Vec<u8>) -> Result<String, Fault> {
    if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) {
        return Err(Fault::Utf16);
    }
    let mut text = String::from_utf8(bytes).map_err(|error| not_utf8(&error))?;
    if text.starts_with(BYTE_ORDER_MARK) {
        text.drain(..BYTE_ORDER_MARK.len());
    }
    match text.find('\0') {
        Some(at) => Err(Fault::NotText { line: LineIndex::new(&text).position(at, Encoding::Utf32).line + 1 }),
        None => Ok(text),
    }
}

fn not_utf8(error: &std::string::FromUtf8Error) -> Fault {
    let good = error.utf8_error().valid_up_to();
    let before = String::from_utf8_lossy(error.as_bytes().get(..good).unwrap_or_default());
    let before = before.strip_prefix(BYTE_ORDER_MARK).unwrap_or(&before);
    let place = LineIndex::new(before).position(before.len(), Encoding::Utf32);
    let byte = error.as_bytes().get(good).copied().unwrap_or_default();
    Fault::NotUtf8 { line: place.line + 1, column: place.column + 1, byte }
}
