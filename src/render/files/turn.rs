//! Runs of leadpipe that change the same file take turns.
//!
//! The turn is the lock of a file whose temporary name belongs to the file that is changed. Whoever has it removes the
//! file at the end, or the next run does if it was killed.

use super::passing;
use std::ffi::OsStr;
use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

/// A turn. It ends when it is dropped.
pub struct Turn {
    file: File,
    path: PathBuf,
}

/// Waits for the turn to change the file called `name` in `folder`.
pub(super) fn take(folder: &Path, name: &OsStr) -> io::Result<Turn> {
    let hash = blake3::hash(name.as_encoded_bytes());
    let number = u64::from_le_bytes(std::array::from_fn(|n| hash.as_bytes()[n]));
    let path = folder.join(passing::name(number));
    loop {
        let opened = OpenOptions::new()
            .write(true)
            .create(true)
            .truncate(false)
            .open(&path);
        let file = opened?;
        // Without locks nobody can wait.
        let locked = file.lock();
        // Whoever had the turn may have removed the file.
        if locked.is_err() || is_at(&file, &path)? {
            return Ok(Turn { file, path });
        }
    }
}

/// True if the path still leads to this file.
#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> io::Result<bool> {
    use std::os::unix::fs::MetadataExt;
    let own = file.metadata()?;
    match fs::symlink_metadata(path) {
        Ok(there) => Ok((own.dev(), own.ino()) == (there.dev(), there.ino())),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

#[cfg(not(unix))]
fn is_at(_: &File, path: &Path) -> io::Result<bool> {
    fs::exists(path)
}

impl Drop for Turn {
    fn drop(&mut self) {
        // Removed while the lock is held, so that whoever waits for it notices.
        let _ = fs::remove_file(&self.path);
        let _ = self.file.unlock();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::thread;

    #[test]
    fn everybody_gets_a_turn_and_nobody_two_at_once() {
        let folder = tempfile::tempdir().unwrap();
        let (folder, path) = (folder.path(), folder.path().join("count"));
        fs::write(&path, "0").unwrap();
        thread::scope(|scope| {
            for _ in 0..4 {
                scope.spawn(|| {
                    for _ in 0..50 {
                        let _turn = take(folder, OsStr::new("count")).unwrap();
                        let n: u32 = fs::read_to_string(&path).unwrap().parse().unwrap();
                        thread::yield_now();
                        fs::write(&path, (n + 1).to_string()).unwrap();
                    }
                });
            }
        });
        assert_eq!(fs::read_to_string(&path).unwrap(), "200");
        assert_eq!(fs::read_dir(folder).unwrap().count(), 1);
    }
}
