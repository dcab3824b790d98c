//! What can be wrong with a file before anybody has read a word of it.

use std::path::PathBuf;
use std::{fmt, io};

/// A place that could not be read, and why. Prints as one line: the place, what is wrong, what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// The path as the user would type it.
    pub place: String,
    /// Why it could not be read.
    pub fault: Fault,
}

impl Trouble {
    /// `fault` at `place`.
    pub fn of(place: impl fmt::Display, fault: Fault) -> Self {
        Trouble { place: place.to_string(), fault }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.fault)
    }
}

/// Why something could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// Nothing bears that name.
    Missing,
    /// A folder without a single manuscript.
    NoManuscript,
    /// The system does not let us.
    NotAllowed,
    /// A pipe, a socket or a device, which might never end.
    NotAFile,
    /// A symbolic link whose target is gone.
    LinkToNothing,
    /// A folder that holds, by way of a symbolic link, the folder that it lies in.
    Loop {
        /// The folder it leads back to.
        back_to: PathBuf,
    },
    /// More bytes than [`super::read::LARGEST`].
    TooLarge,
    /// Bytes that are no UTF-8.
    NotUtf8 {
        /// The line of the first, from 1.
        line: u32,
        /// Its column in characters, from 1.
        column: u32,
        /// The byte itself.
        byte: u8,
    },
    /// A byte-order mark says UTF-16.
    Utf16,
    /// A NUL: no plain text has one.
    NotText {
        /// The line of the first, from 1.
        line: u32,
    },
    /// It should be a baseline, and cannot be read as one.
    NoBaseline,
    /// It stands in no book that could keep a baseline.
    NoBook,
    /// Somebody else has written it since it was read.
    Changed,
    /// It could not be written, for this reason.
    NotWritten(String),
    /// A recipe of it cannot be had for as much as was asked, for this reason.
    NotScaled(String),
    /// Fixes that undo each other.
    Unsettled,
    /// What comes in on standard input is in no file that could be mended.
    NoFile,
    /// What comes in on standard input is in no file that a baseline could name.
    InNoFile,
    /// A baseline knows so many findings that are no longer there.
    Outlived(usize),
    /// It cannot be watched, for this reason.
    NotWatched(String),
    /// Our own program failed on it.
    Ours,
    /// Whatever else the system says.
    Other(String),
}

impl Fault {
    /// The fault that the system reports as `error`.
    pub fn from_io(error: &io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound => Fault::Missing,
            io::ErrorKind::PermissionDenied => Fault::NotAllowed,
            _ => Fault::Other(error.to_string()),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Missing => {
                write!(f, "there is no such file or folder; check the spelling, and the folder you are in")
            }
            Fault::NoManuscript => write!(f, "no manuscript in this folder; the name of a manuscript ends in .tamis"),
            Fault::NotAllowed => write!(f, "you are not allowed to read it; change its permissions, or leave it out"),
            Fault::NotAFile => {
                write!(f, "not a file but a pipe or a device; to check what another program writes, give - instead")
            }
            Fault::LinkToNothing => write!(f, "a link to a file that is not there; mend the link, or remove it"),
            Fault::Loop { back_to } => {
                write!(f, "a link that leads back to {}, so it was not followed; remove the link", back_to.display())
            }
            Fault::TooLarge => {
                let mebibytes = super::read::LARGEST / (1024 * 1024);
                write!(
                    f,
                    "larger than {mebibytes} MiB, which is more than a manuscript can be; split it into several files"
                )
            }
            Fault::NotUtf8 { line, column, byte } => {
                write!(f, "line {line}, column {column}: not UTF-8 (byte {byte:02X}); save the file as UTF-8")
            }
            Fault::Utf16 => write!(f, "the text is UTF-16; save the file as UTF-8"),
            Fault::NotText { line } => {
                write!(f, "line {line}: holds a NUL, so this is not plain text; save it as text, in UTF-8")
            }
            Fault::NoBaseline => write!(
                f,
                "is no baseline: a table for each file, a count for each check; have it written anew with --write-baseline, or remove it"
            ),
            Fault::NoBook => write!(
                f,
                "stands in no book, as no tamis.toml lies above it; say where its findings are to be kept: --write-baseline=FILE"
            ),
            Fault::Changed => write!(f, "has changed since it was read, so it was left as it is; run this again"),
            Fault::NotWritten(reason) => write!(f, "could not be written and is as it was: {reason}"),
            Fault::NotScaled(reason) => write!(f, "{reason}"),
            Fault::Unsettled => write!(
                f,
                "the fixes get into each other's way, and some are left; that is our mistake and not yours: please report it, with the file"
            ),
            Fault::NoFile => write!(f, "what comes in here cannot be mended in place; add --diff to see what would be"),
            Fault::InNoFile => {
                write!(f, "what comes in here is in no file that a baseline could name; give the file itself")
            }
            Fault::Outlived(count) => {
                let findings =
                    if *count == 1 { "1 finding that is".to_owned() } else { format!("{count} findings that are") };
                write!(f, "knows {findings} no longer there; let it shrink: tamis check --write-baseline")
            }
            Fault::NotWatched(reason) => write!(f, "cannot be watched for changes: {reason}"),
            Fault::Ours => write!(
                f,
                "Tamis itself failed on this file, which is our mistake and not yours; please report it, with the file"
            ),
            Fault::Other(reason) => write!(f, "cannot be read: {reason}"),
        }
    }
}
