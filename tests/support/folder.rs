//! Folders with manuscripts in them, on disk.

use std::fs;
use std::path::Path;

use tempfile::TempDir;

/// A folder with these files, each under its path from there.
pub fn folder<S: AsRef<str>>(files: &[(S, S)]) -> TempDir {
    let folder = TempDir::new().expect("a folder for a while");
    files.iter().for_each(|(name, text)| write(folder.path(), name.as_ref(), text.as_ref()));
    folder
}

/// Writes a file, and the folders on the way to it.
pub fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().expect("a folder")).expect("a folder can be made");
    fs::write(path, text).expect("a file can be written");
}

/// The address of a file in a folder.
pub fn uri(folder: &Path, name: &str) -> String {
    format!("file://{}/{name}", folder.display())
}
