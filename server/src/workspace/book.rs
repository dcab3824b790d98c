//! Which house style a manuscript is under: that of the nearest `tamis.toml` in its folder or in a folder above.

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::{env, path};

use super::read::read;
use super::walk::Source;
use crate::book::{House, sheet};
use crate::checks::{CHECKS, Finding, Severity};

/// The name of a style sheet.
pub const SHEET: &str = "tamis.toml";

/// What findings in a style sheet go by.
pub const CODE: &str = "house-style";

/// A style sheet as it stands in its folder.
#[derive(Debug, Clone)]
pub struct StyleSheet {
    /// Where it is: from the folder that the program runs in where it lies below that, else from the root.
    pub path: PathBuf,
    /// What it says, as far as it can be taken.
    pub house: Arc<House>,
}

/// The style sheets of all folders asked for so far, each read once.
#[derive(Debug, Default)]
pub struct StyleSheets {
    by_folder: Mutex<HashMap<PathBuf, Option<StyleSheet>>>,
}

impl StyleSheets {
    /// The style sheet that a file is under, whether the file is there or not; `-` is a file of the folder that the program runs
    /// in.
    pub fn over(&self, file: &Path) -> Option<StyleSheet> {
        let file = path::absolute(file).ok()?;
        let mut known = self.by_folder.lock().unwrap_or_else(PoisonError::into_inner);
        let mut passed = Vec::new();
        let mut found = None;
        for folder in file.ancestors().skip(1) {
            if let Some(sheet) = known.get(folder) {
                found.clone_from(sheet);
                break;
            }
            passed.push(folder.to_path_buf());
            let path = folder.join(SHEET);
            if path.is_file() {
                found = Some(StyleSheet { house: Arc::new(house_at(&path)), path: as_seen_from_here(&path) });
                break;
            }
        }
        known.extend(passed.into_iter().map(|folder| (folder, found.clone())));
        found
    }

    /// The house style that a file is under: the usual one where no style sheet says otherwise.
    pub fn house(&self, file: &Path) -> Arc<House> {
        self.over(file).map(|sheet| sheet.house).unwrap_or_default()
    }

    /// Forgets all that was read: some sheet has changed.
    pub fn forget(&mut self) {
        self.by_folder.get_mut().unwrap_or_else(PoisonError::into_inner).clear();
    }
}

/// Whether a file is a style sheet, by its name.
pub fn is_sheet(file: &Path) -> bool {
    file.file_name().is_some_and(|name| name == SHEET)
}

/// What is wrong with a style sheet.
pub fn check_sheet(text: &str) -> Vec<Finding> {
    let faults = sheet::read(text, &codes()).1.into_iter();
    faults.map(|fault| Finding::new(CODE, Severity::Error, fault.span, fault.message)).collect()
}

/// The style at a path. One that cannot be read changes nothing; whoever checks the sheet itself says why.
fn house_at(path: &Path) -> House {
    read(&Source::File(path.to_path_buf())).map(|text| sheet::read(&text, &codes()).0).unwrap_or_default()
}

fn codes() -> Vec<&'static str> {
    CHECKS.iter().map(|check| check.code).collect()
}

/// A path from the folder that the program runs in where it lies below that, else from the root.
pub fn as_seen_from_here(path: &Path) -> PathBuf {
    let whole = path::absolute(path).unwrap_or_else(|_| path.to_path_buf());
    let here = env::current_dir().ok();
    here.and_then(|here| whole.strip_prefix(here).ok().map(Path::to_path_buf)).unwrap_or(whole)
}
