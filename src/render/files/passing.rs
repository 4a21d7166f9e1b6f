//! Temporary names and locks of files being written, and removing those that killed runs left.
//!
//! A file being written has a temporary name in its folder and is locked while its process lives. The lock ends
//! with the process, so a temporary file that can be locked was abandoned.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::hash::{BuildHasher, RandomState};
use std::io;
use std::path::{Path, PathBuf};

const BEGINNING: &str = ".leadpipe-";
const ENDING: &str = ".part";

/// How often a new name is tried.
const TRIES: usize = 16;

/// Creates a locked file under a new temporary name in `folder`, with default permissions.
pub fn create(folder: &Path) -> io::Result<(File, PathBuf)> {
    for _ in 0..TRIES {
        let number = RandomState::new().hash_one(std::process::id());
        let path = folder.join(name(number));
        let opened = OpenOptions::new()
            .read(true)
            .write(true)
            .create_new(true)
            .open(&path);
        let file = match opened {
            Err(e) if e.kind() == io::ErrorKind::AlreadyExists => continue,
            other => other?,
        };
        // This fails on a file system without locks: then no other run can remove the file either, and writing
        // continues without one.
        let locked = file.lock();
        // Another run may have removed the file between its creation and its lock, because it looked abandoned.
        if locked.is_err() {
            return Ok((file, path));
        }
        match fs::symlink_metadata(&path) {
            Ok(_) => return Ok((file, path)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            Err(error) => {
                let _ = fs::remove_file(&path);
                return Err(error);
            }
        }
    }
    Err(io::Error::other(
        "another program removes files as soon as they are made here",
    ))
}

/// The temporary name with this number.
pub(super) fn name(number: u64) -> String {
    format!("{BEGINNING}{number:016x}{ENDING}")
}

/// Removes the files that killed runs left in `folder`, and returns how many there were.
///
/// Files that cannot be inspected or removed stay: rendering does not depend on it.
pub fn clear(folder: &Path) -> usize {
    let Ok(entries) = fs::read_dir(folder) else {
        return 0;
    };
    entries
        .flatten()
        .filter(|entry| {
            let name = entry.file_name();
            let named = name
                .to_str()
                .is_some_and(|n| n.starts_with(BEGINNING) && n.ends_with(ENDING));
            named && entry.file_type().is_ok_and(|t| t.is_file()) && remove(&entry.path())
        })
        .count()
}

fn remove(path: &Path) -> bool {
    let Ok(file) = OpenOptions::new().write(true).open(path) else {
        return false;
    };
    match file.try_lock() {
        // Removed while the lock is held, so that a run that has just created the file notices.
        Ok(()) => fs::remove_file(path).is_ok(),
        Err(TryLockError::WouldBlock | TryLockError::Error(_)) => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_files_whose_lock_can_be_had_are_cleared() {
        let folder = tempfile::tempdir().unwrap();
        let (live, live_path) = create(folder.path()).unwrap();
        let (dead, dead_path) = create(folder.path()).unwrap();
        drop(dead);
        let other = folder.path().join("mine.part");
        fs::write(&other, "mine").unwrap();
        assert_eq!(clear(folder.path()), 1);
        assert!(live_path.exists() && other.exists() && !dead_path.exists());
        drop(live);
        assert_eq!(clear(folder.path()), 1);
        assert!(!live_path.exists());
    }
}
