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
    /// The path of the file is a file that this program did not write.
    NotOurs(PathBuf),
    /// The operating system reported an error.
    System {
        /// The file or folder concerned.
        path: PathBuf,
        /// The error.
        error: io::Error,
    },
}

impl RenderFailure {
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
            Self::NotOurs(_) => Some("name a folder of its own with --out"),
            Self::FolderInTheWay(_) => {
                Some("move that folder away, or name another one with --out")
            }
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
            Self::NotOurs(path) => write!(
                f,
                "{} was not made by leadpipe, so it stays as it is",
                path.display()
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
