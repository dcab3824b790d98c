//! Folders with manuscripts in them, on disk.

use std::fs;
use std::path::{Path, PathBuf};

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

/// The manuscripts of `samples/`, or of a folder in it, each with its path, in the order of those.
pub fn samples(folder: &str) -> Vec<(PathBuf, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples").join(folder);
    let entries = fs::read_dir(folder).expect("the samples can be read").map(|entry| entry.expect("an entry").path());
    let manuscripts = entries.filter(|path| path.extension().is_some_and(|ending| ending == "tamis"));
    let mut all: Vec<_> =
        manuscripts.map(|path| (path.clone(), fs::read_to_string(path).expect("a sample is text"))).collect();
    all.sort();
    all
}
