//! Texts of people: routines and pencils, which exist nowhere else.
//!
//! They are synced to the disk, file and folder, before the command says that they are written. A changed text replaces
//! only the text that it was made from.

use super::growing::Growing;
use super::{passing, turn};
use crate::render::reading::{self, Unread};
use std::fs::{self, File};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Why a changed text was not written.
#[derive(Debug)]
pub enum NotReplaced {
    /// The file no longer has the text that the change was made to.
    Changed,
    /// The operating system reported an error.
    System(io::Error),
}

impl From<io::Error> for NotReplaced {
    fn from(error: io::Error) -> Self {
        Self::System(error)
    }
}

/// Writes a new file.
///
/// # Errors
/// `AlreadyExists` if there is a file of this name, which stays as it is.
pub fn create(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = folder_of(path);
    passing::clear(folder);
    if fs::symlink_metadata(path).is_ok() {
        return Err(ErrorKind::AlreadyExists.into());
    }
    let file = synced(path, bytes)?;
    // Unlike renaming, a second name for the file never replaces another file.
    match fs::hard_link(file.path(), path) {
        // The temporary name goes with the temporary file.
        Ok(()) => drop(file),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => return Err(error),
        // Some file systems give a file one name only.
        Err(_) if fs::symlink_metadata(path).is_ok() => {
            return Err(ErrorKind::AlreadyExists.into());
        }
        Err(_) => {
            file.rename(path)?;
        }
    }
    sync_folder(folder)
}

/// Replaces a text by a changed one, or writes it if there was none. `before` is the text that was changed, `None` if there
/// was no file. Permissions, and where this is allowed the owner, stay. Of a link the target is replaced.
///
/// # Errors
/// If the file does not hold `before` any more, or the system reports an error.
pub fn replace(path: &Path, before: Option<&[u8]>, bytes: &[u8]) -> Result<(), NotReplaced> {
    let path = &target(path)?;
    let folder = folder_of(path);
    passing::clear(folder);
    let Some(before) = before else {
        return match create(path, bytes) {
            Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(NotReplaced::Changed),
            created => Ok(created?),
        };
    };
    let file = synced(path, bytes)?;
    match reading::found(path, before.len() as u64) {
        Ok(there) if there == before => {}
        Ok(_) | Err(Unread::TooLarge) => return Err(NotReplaced::Changed),
        Err(Unread::System(error)) if error.kind() == ErrorKind::NotFound => {
            return Err(NotReplaced::Changed);
        }
        Err(Unread::System(error)) => return Err(error.into()),
    }
    file.rename(path)?;
    Ok(sync_folder(folder)?)
}

/// Writes a text, whatever is there.
///
/// # Errors
/// If the system reports an error.
pub fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = &target(path)?;
    let folder = folder_of(path);
    passing::clear(folder);
    synced(path, bytes)?.rename(path)?;
    sync_folder(folder)
}

/// Waits until no other run of leadpipe changes this text, and keeps others waiting until the result is dropped. On a file
/// system without locks nobody waits, and [`replace`] alone notices others.
///
/// # Errors
/// If the system reports an error.
pub fn turn(path: &Path) -> io::Result<turn::Turn> {
    let path = target(path)?;
    let folder = folder_of(&path);
    // Even a change that is refused clears up what killed runs left.
    passing::clear(folder);
    turn::take(folder, path.file_name().unwrap_or_default())
}

/// The path that a link leads to.
fn target(path: &Path) -> io::Result<PathBuf> {
    match fs::canonicalize(path) {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(path.to_owned()),
        target => target,
    }
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// A complete file on the disk under a temporary name.
fn synced(path: &Path, bytes: &[u8]) -> io::Result<Growing> {
    let mut file = Growing::whole(folder_of(path), path, bytes)?;
    file.sync()?;
    Ok(file)
}

/// Writes the names in a folder to the disk.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    match File::open(folder)?.sync_all() {
        // Some file systems sync files only.
        Err(error) if error.kind() == ErrorKind::InvalidInput => Ok(()),
        synced => synced,
    }
}

/// Folders cannot be opened here.
#[cfg(not(unix))]
fn sync_folder(_: &Path) -> io::Result<()> {
    let _ = File::open;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(folder: &Path) -> usize {
        fs::read_dir(folder).unwrap().count()
    }

    #[test]
    fn a_new_text_replaces_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.toml");
        create(&path, b"one").unwrap();
        let error = create(&path, b"two").unwrap_err();
        assert_eq!(error.kind(), ErrorKind::AlreadyExists);
        assert_eq!(fs::read(&path).unwrap(), b"one");
        assert_eq!(count(folder.path()), 1);
    }

    #[test]
    fn a_changed_text_replaces_what_it_was_made_from() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.toml");
        let replace = |before: Option<&str>, text: &str| {
            super::replace(&path, before.map(str::as_bytes), text.as_bytes())
        };
        replace(None, "one").unwrap();
        replace(Some("one"), "two").unwrap();
        for before in [None, Some("one")] {
            let refused = replace(before, "three").unwrap_err();
            assert!(matches!(refused, NotReplaced::Changed));
        }
        assert_eq!(fs::read(&path).unwrap(), b"two");
        write(&path, b"four").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"four");
        assert_eq!(count(folder.path()), 1);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link() {
        let folder = tempfile::tempdir().unwrap();
        let (path, link) = (folder.path().join("a"), folder.path().join("b"));
        fs::write(&path, "one").unwrap();
        std::os::unix::fs::symlink(&path, &link).unwrap();
        replace(&link, Some(b"one"), b"two").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(&path).unwrap(), b"two");
    }
}
