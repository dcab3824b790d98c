//! Writes a file in one go: beside the old one, then in its place, so that nobody ever finds half of it.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

use super::trouble::{Fault, Trouble};

const BYTE_ORDER_MARK: &[u8] = "\u{FEFF}".as_bytes();

/// Puts `after` into the file at `path`, which held `before` when it was read. Its byte-order mark and its permissions stay, and
/// a link stays a link.
///
/// # Errors
/// Where the file has changed meanwhile, may not be written, or there is no room for it; then it is as it was.
pub fn rewrite(path: &Path, before: &str, after: &str) -> Result<(), Trouble> {
    let told = |fault| Trouble::of(path.display(), fault);
    let real = fs::canonicalize(path).map_err(|error| told(Fault::from_io(&error)))?;
    let bytes = fs::read(&real).map_err(|error| told(Fault::from_io(&error)))?;
    let mark = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK } else { &[] };
    if bytes.get(mark.len()..) != Some(before.as_bytes()) {
        return Err(told(Fault::Changed));
    }
    put(&real, &[mark, after.as_bytes()].concat()).map_err(|error| told(Fault::NotWritten(error.to_string())))
}

/// Puts `bytes` into the file at `path`, which is absolute.
fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let permissions = fs::metadata(path)?.permissions();
    if permissions.readonly() {
        return Err(io::Error::new(io::ErrorKind::PermissionDenied, "the file is write-protected"));
    }
    let folder = path.parent().unwrap_or(path);
    let mut beside = tempfile::Builder::new().prefix(".tamis-").tempfile_in(folder)?;
    beside.write_all(bytes)?;
    beside.as_file().sync_all()?;
    beside.as_file().set_permissions(permissions)?;
    beside.persist(path).map(drop).map_err(|error| error.error)
}
