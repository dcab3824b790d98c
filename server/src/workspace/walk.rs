//! Which files are meant: the manuscripts named one by one, and those in the folders named.

use std::collections::HashSet;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::{fmt, fs, io};

use ignore::{DirEntry, WalkBuilder};

use super::book::{as_seen_from_here, is_sheet};
use super::posts::{self, Form, holds_manuscript};
use super::read::read;
use super::trouble::{Fault, Trouble};

/// How the name of a manuscript ends. In a folder, files with another ending are left alone.
const EXTENSION: &str = "tamis";

/// How the names of all files end that may be manuscripts, or hold some.
pub fn endings() -> impl Iterator<Item = &'static str> {
    std::iter::once(EXTENSION).chain(posts::ENDINGS.iter().copied())
}

/// Where the text of a manuscript comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Source {
    /// What another program hands over on standard input.
    StandardInput,
    /// A file.
    File(PathBuf),
}

impl Source {
    /// Its path; `-` for standard input.
    pub fn path(&self) -> &Path {
        match self {
            Source::StandardInput => Path::new("-"),
            Source::File(path) => path,
        }
    }
}

impl fmt::Display for Source {
    /// The path as the user would type it; `-` for standard input.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Source::StandardInput => f.write_str("-"),
            Source::File(path) => write!(f, "{}", path.display()),
        }
    }
}

/// What was found where manuscripts were looked for.
#[derive(Debug, Default)]
pub struct Found {
    /// The manuscripts, in the order met.
    pub manuscripts: Vec<Source>,
    /// The style sheets that were named, or that lie in the folders named: from the folder that the program runs in where they
    /// lie below that, else from the root.
    pub sheets: Vec<PathBuf>,
    /// What cannot be had, in the order met.
    pub troubles: Vec<Trouble>,
}

/// Finds the manuscripts that `asked` names: a file is taken whatever its name, a folder gives its `*.tamis` files at any
/// depth and its posts in Markdown that hold manuscripts, in the order of their paths, and `-` is standard input. Hidden files and what a repository's `.gitignore` leaves
/// out are left out; symbolic links are followed; a file reached twice is given once.
pub fn find(asked: &[PathBuf]) -> Found {
    find_again(asked, &holds_some, usize::MAX)
}

/// The same for whoever looks again and again, and remembers which Markdown [holds some](holds_some). Of each folder so many entries are
/// looked at, at the most.
pub fn find_again(asked: &[PathBuf], holds_some: &dyn Fn(&Path) -> bool, most: usize) -> Found {
    let mut search = Search { found: Found::default(), taken: HashSet::new(), holds_some, most };
    for path in asked {
        match fs::metadata(path) {
            _ if path.as_os_str() == "-" => search.standard_input(),
            Ok(kind) if kind.is_dir() => search.folder(path),
            Ok(_) => search.file(path.clone()),
            Err(_) if path.is_symlink() => search.trouble(path, Fault::LinkToNothing),
            Err(error) => search.trouble(path, Fault::from_io(&error)),
        }
    }
    search.found
}

struct Search<'s> {
    found: Found,
    /// Every file taken so far, under its one true path.
    taken: HashSet<PathBuf>,
    holds_some: &'s dyn Fn(&Path) -> bool,
    most: usize,
}

impl Search<'_> {
    fn standard_input(&mut self) {
        if !self.found.manuscripts.contains(&Source::StandardInput) {
            self.found.manuscripts.push(Source::StandardInput);
        }
    }

    fn file(&mut self, path: PathBuf) {
        let true_path = fs::canonicalize(&path).unwrap_or_else(|_| path.clone());
        match self.taken.insert(true_path) {
            true if is_sheet(&path) => self.found.sheets.push(as_seen_from_here(&path)),
            true => self.found.manuscripts.push(Source::File(path)),
            false => {}
        }
    }

    fn trouble(&mut self, place: &Path, fault: Fault) {
        self.found.troubles.push(Trouble::of(place.display(), fault));
    }

    fn folder(&mut self, folder: &Path) {
        let troubles_before = self.found.troubles.len();
        let mut is_bare = true;
        for entry in walker(folder).take(self.most) {
            match entry {
                Ok(entry) if self.is_asked_for(&entry) => {
                    is_bare = false;
                    self.file(without_dot(entry.path()));
                }
                Ok(_) => {}
                Err(error) => self.found.troubles.extend(trouble_on_the_way(&error)),
            }
        }
        if is_bare && self.found.troubles.len() == troubles_before {
            self.trouble(folder, Fault::NoManuscript);
        }
    }

    /// Whether it is a manuscript, a style sheet, or a post that holds manuscripts.
    fn is_asked_for(&self, entry: &DirEntry) -> bool {
        let path = entry.path();
        !entry.file_type().is_some_and(|kind| kind.is_dir())
            && (has_ending(path) || is_sheet(path) || Form::of(path) == Form::Post && (self.holds_some)(path))
    }
}

/// Only what lies in the folder itself decides what is read: neither the user's own git settings nor `.ignore` files of
/// other tools do, so that a book is the same book on every desk.
fn walker(folder: &Path) -> ignore::Walk {
    WalkBuilder::new(folder)
        .follow_links(true)
        .git_global(false)
        .git_exclude(false)
        .sort_by_file_path(Path::cmp)
        .build()
}

/// Whether a file in Markdown holds manuscripts. What cannot be read is left to whoever reads it in earnest.
pub fn holds_some(file: &Path) -> bool {
    read(&Source::File(file.to_path_buf())).map_or(true, |text| holds_manuscript(&text))
}

/// Whether a file is a manuscript, by its name.
pub fn has_ending(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(EXTENSION))
}

/// `./crumble.tamis`, found by walking `.`, is `crumble.tamis`; `.` itself stays.
fn without_dot(path: &Path) -> PathBuf {
    let bare = path.strip_prefix(".").ok().filter(|bare| !bare.as_os_str().is_empty());
    bare.unwrap_or(path).to_path_buf()
}

/// What stopped the walk at one place. Nothing where only a link that no reader of manuscripts cares for leads nowhere:
/// some editors keep one, `.#NAME`, beside a file that has not been saved.
fn trouble_on_the_way(error: &ignore::Error) -> Option<Trouble> {
    match error {
        ignore::Error::WithDepth { err, .. } | ignore::Error::WithLineNumber { err, .. } => trouble_on_the_way(err),
        ignore::Error::Loop { ancestor, child } => {
            Some(Trouble::of(without_dot(child).display(), Fault::Loop { back_to: without_dot(ancestor) }))
        }
        ignore::Error::WithPath { path, err } => {
            let hidden = path.file_name().and_then(OsStr::to_str).is_some_and(|name| name.starts_with('.'));
            match err.io_error() {
                Some(io) if io.kind() == io::ErrorKind::NotFound => {
                    let matters = has_ending(path) && !hidden;
                    matters.then(|| Trouble::of(without_dot(path).display(), Fault::LinkToNothing))
                }
                Some(io) => Some(Trouble::of(without_dot(path).display(), Fault::from_io(io))),
                None => trouble_on_the_way(err),
            }
        }
        other => Some(Trouble::of("the search for manuscripts", Fault::Other(other.to_string()))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_is_looked_at_than_is_wanted_and_no_markdown_that_is_known() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["a.tamis", "b.md", "c.md", "d.tamis"] {
            fs::write(folder.path().join(name), "Recipe: A\n").unwrap();
        }
        let known = |file: &Path| file.ends_with("b.md");
        let found = |most: usize| {
            let found = find_again(&[folder.path().to_path_buf()], &known, most).manuscripts;
            let names = found.iter().filter_map(|source| source.path().file_name()?.to_str().map(str::to_owned));
            names.collect::<Vec<_>>()
        };
        assert_eq!(found(usize::MAX), ["a.tamis", "b.md", "d.tamis"]);
        // The folder itself is the first entry.
        assert_eq!(found(4), ["a.tamis", "b.md"]);
    }
}
