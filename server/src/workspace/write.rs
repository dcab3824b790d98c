//! Writes a file in one go: beside the old one, then in its place, so that nobody ever finds half of it.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

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

/// Puts `text` into the file at `path`, whether there was one or not.
///
/// # Errors
/// Where the file may not be written, or there is no room for it; then it is as it was.
pub fn write(path: &Path, text: &str) -> Result<(), Trouble> {
    let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    put(&real, text.as_bytes()).map_err(|error| Trouble::of(path.display(), Fault::NotWritten(error.to_string())))
}

fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let permissions = fs::metadata(path).ok().map(|found| found.permissions());
    if permissions.as_ref().is_some_and(fs::Permissions::readonly) {
        return Err(io::Error::new(io::ErrorKind::PermissionDenied, "the file is write-protected"));
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let folder = folder.map_or_else(|| PathBuf::from("."), Path::to_path_buf);
    let mut beside = tempfile::Builder::new().prefix(".tamis-").tempfile_in(folder)?;
    beside.write_all(bytes)?;
    beside.as_file().sync_all()?;
    match permissions {
        Some(permissions) => beside.as_file().set_permissions(permissions)?,
        None => new_file(beside.as_file())?,
    }
    beside.persist(path).map(drop).map_err(|error| error.error)
}

/// A new file may be read by whoever may read others here; a temporary one is its owner's alone.
#[cfg(unix)]
fn new_file(file: &fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn new_file(_: &fs::File) -> io::Result<()> {
    Ok(())
}
