//! Why a batch could not be finished.

use crate::problem::Problem;
use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Why a batch could not be finished, in words a teacher can act on.
#[derive(Debug)]
pub enum RenderFailure {
    /// The run was stopped.
    Stopped,
    /// The path of the folder is a file.
    NotAFolder(PathBuf),
    /// The path of the file is a folder.
    FolderInTheWay(PathBuf),
    /// Files that this program did not write, or that somebody changed, have the names of files to be written.
    InTheWay(Vec<InTheWay>),
    /// A file of leadpipe's own that was written before cannot be read back.
    Unread {
        /// The file or folder concerned.
        path: PathBuf,
        /// The error.
        error: io::Error,
    },
    /// The operating system reported an error.
    System {
        /// The file or folder concerned.
        path: PathBuf,
        /// The error.
        error: io::Error,
    },
}

/// A file that is not replaced, because it is somebody's own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InTheWay {
    /// The file.
    pub path: PathBuf,
    /// True if this program wrote it and somebody changed it.
    pub changed: bool,
}

/// The most files in the way that are named; more are counted.
const MOST_NAMED: usize = 5;

impl RenderFailure {
    /// Wraps an error of reading `path`.
    pub fn reading(path: &Path) -> impl FnOnce(io::Error) -> Self {
        move |error| Self::Unread {
            path: path.to_owned(),
            error,
        }
    }

    /// True if it concerns only this file or track, so that others can still be written.
    pub fn is_of_one(&self) -> bool {
        matches!(self, Self::InTheWay(_))
    }

    /// Both failures in one: all files that are in the way, or else the first failure.
    pub fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::InTheWay(mut files), Self::InTheWay(more)) => {
                files.extend(more);
                files.sort_by(|a, b| a.path.cmp(&b.path));
                Self::InTheWay(files)
            }
            // What ended the run says more than what it went around.
            (Self::InTheWay(_), other) => other,
            (first, _) => first,
        }
    }

    /// Wraps an I/O error at `path`.
    pub fn at(path: &Path) -> impl FnOnce(io::Error) -> Self {
        move |error| Self::System {
            path: path.to_owned(),
            error,
        }
    }

    /// What would help, if anything is known.
    pub fn hint(&self) -> Option<&'static str> {
        match self {
            Self::Stopped => None,
            Self::NotAFolder(_) => Some("name another folder with --out"),
            Self::InTheWay(_) => Some(
                "rename it or move it away, name another folder with --out, or replace it with --force",
            ),
            Self::FolderInTheWay(_) => {
                Some("move that folder away, or name another one with --out")
            }
            Self::Unread { .. } => None,
            Self::System { error, .. } => match error.kind() {
                ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Some(
                    "make room, or name a folder on another disk with --out; tracks already finished are kept",
                ),
                ErrorKind::PermissionDenied
                | ErrorKind::ReadOnlyFilesystem
                | ErrorKind::NotFound => Some("name a folder of your own with --out"),
                _ => None,
            },
        }
    }
}

/// The system's message, without the error number.
pub fn system_words(error: &io::Error) -> String {
    let said = error.to_string();
    let words = said.split(" (os error ").next().unwrap_or_default();
    let mut letters = words.chars();
    let first = letters.next().map(|c| c.to_lowercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

impl fmt::Display for RenderFailure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Stopped => f.write_str("stopped"),
            Self::NotAFolder(path) => write!(
                f,
                "{} is a file, so nothing can be put into it",
                path.display()
            ),
            Self::FolderInTheWay(path) => write!(
                f,
                "there is a folder called {}, where a file of that name should go",
                path.display()
            ),
            Self::InTheWay(files) => in_the_way(f, files),
            Self::Unread { path, error } => write!(
                f,
                "{} could not be read: {}",
                path.display(),
                system_words(error)
            ),
            Self::System { path, error } => {
                let path = path.display();
                match error.kind() {
                    ErrorKind::StorageFull => {
                        write!(f, "the disk is full: {path} could not be written")
                    }
                    ErrorKind::QuotaExceeded => {
                        write!(
                            f,
                            "your share of the disk is used up: {path} could not be written"
                        )
                    }
                    ErrorKind::FileTooLarge => write!(
                        f,
                        "{path} could not be written: it is larger than a file may be here"
                    ),
                    ErrorKind::PermissionDenied => {
                        write!(
                            f,
                            "{path} could not be written: this folder may not be written to"
                        )
                    }
                    ErrorKind::ReadOnlyFilesystem => {
                        write!(f, "{path} could not be written: this disk can only be read")
                    }
                    ErrorKind::NotFound => write!(
                        f,
                        "{path} could not be written: there is no such place on this disk"
                    ),
                    _ => write!(f, "{path} could not be written: {}", system_words(error)),
                }
            }
        }
    }
}

fn in_the_way(f: &mut fmt::Formatter<'_>, files: &[InTheWay]) -> fmt::Result {
    let more = files.len().saturating_sub(MOST_NAMED);
    let one = |file: &InTheWay| {
        let path = file.path.display();
        match file.changed {
            true => format!("{path} was changed after leadpipe wrote it"),
            false => format!("{path} was not written by leadpipe"),
        }
    };
    let said: Vec<String> = files[..files.len() - more].iter().map(one).collect();
    f.write_str(&said.join("; "))?;
    match (more, files.len()) {
        (0, 1) => f.write_str(", so it stays as it is"),
        (0, _) => f.write_str("; they stay as they are"),
        (more, _) => write!(f, "; and {more} more like these; they stay as they are"),
    }
}

impl std::error::Error for RenderFailure {}

impl From<RenderFailure> for Problem {
    fn from(failure: RenderFailure) -> Self {
        let problem = Self::error(failure.to_string());
        match failure.hint() {
            Some(hint) => problem.hint(hint),
            None => problem,
        }
    }
}
