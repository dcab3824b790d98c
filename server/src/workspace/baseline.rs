//! What was there when a book began to be checked: how many findings of each check in each file. They are passed over until there
//! are more of them, so that what is new stands out.

use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::book::StyleSheets;
use super::read::read;
use super::recipes::{folder, seen_from};
use super::trouble::{Fault, Trouble};
use super::walk::Source;
use super::write::write;

/// The name of a baseline, in the folder of its book.
pub const BASELINE: &str = "tamis-baseline.toml";

const HEAD: &str = "# Findings that were there when this was written, by file and check. `tamis check` passes over as many, and shows\n\
                    # all of a check in a file where there are more. Written by `tamis check --write-baseline`.\n\n";

/// How many findings of each check there are in a file.
pub type Counts = BTreeMap<String, usize>;

/// A baseline. It names files from its own folder, with `/` on every system.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Baseline {
    path: PathBuf,
    files: BTreeMap<String, Counts>,
}

#[derive(Serialize, Deserialize)]
#[serde(transparent)]
struct Written(BTreeMap<String, Counts>);

impl Baseline {
    /// An empty one, to be kept at `path`.
    pub fn new(path: PathBuf) -> Baseline {
        Baseline { path, files: BTreeMap::new() }
    }

    /// Reads the one at `path`.
    ///
    /// # Errors
    /// Where it cannot be read, or is no baseline.
    pub fn read(path: PathBuf) -> Result<Baseline, Trouble> {
        let text = read(&Source::File(path.clone()))?;
        let written: Written = toml::from_str(&text).map_err(|_| Trouble::of(path.display(), Fault::NoBaseline))?;
        Ok(Baseline { files: written.0, path })
    }

    /// Writes it where it is kept.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn write(&self) -> Result<(), Trouble> {
        // Nothing in it can fail: its keys are strings and its values whole numbers.
        let text = toml::to_string(&Written(self.files.clone())).unwrap_or_default();
        write(&self.path, &format!("{HEAD}{text}"))
    }

    /// Where it is kept.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The known checks of a file, with their counts.
    pub fn counts(&self, file: &Path) -> Option<&Counts> {
        self.files.get(&*seen_from(file, &self.path))
    }

    /// Says what is there now in a file, in the place of what was.
    pub fn set(&mut self, file: &Path, counts: Counts) {
        let name = seen_from(file, &self.path).to_string();
        match counts.is_empty() {
            true => self.files.remove(&name),
            false => self.files.insert(name, counts),
        };
    }

    /// Forgets files that are gone.
    pub fn forget_gone(&mut self) {
        let folder = self.path.parent().unwrap_or(Path::new("")).to_path_buf();
        self.files.retain(|name, _| folder.join(name).is_file());
    }

    /// How many findings it knows.
    pub fn len(&self) -> usize {
        self.files.values().flat_map(BTreeMap::values).sum()
    }

    /// Whether it knows none.
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }
}

/// The baselines of several books, or one for all that is checked.
#[derive(Debug, Default)]
pub struct Baselines {
    all: Option<Baseline>,
    by_sheet: HashMap<PathBuf, Baseline>,
}

impl Baselines {
    /// One for all, read from `path`.
    ///
    /// # Errors
    /// Where it cannot be read, or is no baseline.
    pub fn at(path: &Path) -> Result<Baselines, Trouble> {
        Ok(Baselines { all: Some(Baseline::read(path.to_path_buf())?), ..Baselines::default() })
    }

    /// Those that lie beside the style sheets of the books that these manuscripts stand in.
    ///
    /// # Errors
    /// Where one is there and cannot be read, or is none.
    pub fn beside(sheets: &StyleSheets, manuscripts: &[Source]) -> Result<Baselines, Trouble> {
        let mut by_sheet = HashMap::new();
        for sheet in manuscripts.iter().filter_map(|source| sheets.over(source.path())) {
            let path = folder(&sheet).join(BASELINE);
            if !by_sheet.contains_key(&sheet.path) && path.is_file() {
                by_sheet.insert(sheet.path, Baseline::read(without_dot(path))?);
            }
        }
        Ok(Baselines { all: None, by_sheet })
    }

    /// The one that a file is under.
    pub fn over(&self, sheets: &StyleSheets, file: &Path) -> Option<&Baseline> {
        match &self.all {
            Some(all) => Some(all),
            // Most books have none, and then no folder is looked through.
            None if self.by_sheet.is_empty() => None,
            None => self.by_sheet.get(&sheets.over(file)?.path),
        }
    }

    /// All of them, in the order of their paths.
    pub fn iter(&self) -> impl Iterator<Item = &Baseline> {
        let mut all: Vec<&Baseline> = self.all.iter().chain(self.by_sheet.values()).collect();
        all.sort_by_key(|baseline| &baseline.path);
        all.into_iter()
    }
}

/// The path at which a new baseline for a manuscript would be kept; nothing where it stands in no book.
pub fn place(sheets: &StyleSheets, file: &Path) -> Option<PathBuf> {
    Some(without_dot(folder(&sheets.over(file)?).join(BASELINE)))
}

fn without_dot(path: PathBuf) -> PathBuf {
    path.strip_prefix(".").map(Path::to_path_buf).unwrap_or(path)
}
