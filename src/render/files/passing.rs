//! Names and locks of files being written, and clearing away those of runs that were killed.
//!
//! A file being written stands in its folder under a name of its own and is locked as long as its run
//! lives. A lock goes when its process does, so a file whose lock can be had was cut short.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::hash::{BuildHasher, RandomState};
use std::io;
use std::path::{Path, PathBuf};

const BEGINNING: &str = ".leadpipe-";
const ENDING: &str = ".part";

/// Creates a locked file under a new name in `folder`, with ordinary permissions.
pub fn create(folder: &Path) -> io::Result<(File, PathBuf)> {
    loop {
        let number = RandomState::new().hash_one(std::process::id());
        let path = folder.join(format!("{BEGINNING}{number:016x}{ENDING}"));
        let opened = OpenOptions::new()
            .read(true)
            .write(true)
            .create_new(true)
            .open(&path);
        let file = match opened {
            Err(e) if e.kind() == io::ErrorKind::AlreadyExists => continue,
            other => other?,
        };
        // Where the file system knows no locks this fails: then nobody can clear the file away
        // either, and writing goes on without one.
        let locked = file.lock();
        // Another run may have come in between making and locking, taken the file for one cut short
        // and removed it.
        if locked.is_err() || fs::symlink_metadata(&path).is_ok() {
            return Ok((file, path));
        }
    }
}

/// Removes the files in `folder` that a killed run left, and says how many there were.
///
/// What cannot be looked at or removed is left: rendering does not depend on it.
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
        // Removed while the lock is held, so that a run that is just making the file sees it gone.
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
