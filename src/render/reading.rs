//! Reads files into memory, each with a bound: nothing is read before it is known where to stop.
//!
//! Every file that a command reads whole is read here, whoever wrote it.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

/// Why nothing was read.
#[derive(Debug)]
pub enum Unread {
    /// There are more bytes than wanted.
    TooLarge,
    /// The operating system reported an error.
    System(io::Error),
}

impl From<io::Error> for Unread {
    fn from(error: io::Error) -> Self {
        Self::System(error)
    }
}

/// All of a stream, if it has at most `most` bytes. At most one more is read.
///
/// # Errors
/// If there are more, or the system reports an error.
pub fn stream(from: impl Read, most: u64) -> Result<Vec<u8>, Unread> {
    let mut bytes = Vec::new();
    from.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > most {
        return Err(Unread::TooLarge);
    }
    Ok(bytes)
}

/// A file that somebody named. It may be a pipe, and opening one waits for its writer: call this only while a signal
/// still ends the program.
///
/// # Errors
/// If it has more than `most` bytes, or the system reports an error.
pub fn named(path: &Path, most: u64) -> Result<Vec<u8>, Unread> {
    stream(File::open(path)?, most)
}

/// A file that the program finds by itself.
///
/// # Errors
/// If it has more than `most` bytes, is no plain file, or the system reports an error.
pub fn found(path: &Path, most: u64) -> Result<Vec<u8>, Unread> {
    stream(open_found(path)?, most)
}

/// Opens a file that the program finds by itself. Opening or reading a pipe or a device could block.
///
/// # Errors
/// If it is no plain file, or the system reports an error.
pub fn open_found(path: &Path) -> io::Result<File> {
    if !fs::metadata(path)?.is_file() {
        return Err(io::Error::new(
            io::ErrorKind::InvalidInput,
            "it is not a plain file",
        ));
    }
    File::open(path)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Counts the bytes that are asked of it, and never ends.
    struct Endless(u64);

    impl Read for &mut Endless {
        fn read(&mut self, bytes: &mut [u8]) -> io::Result<usize> {
            self.0 += bytes.len() as u64;
            Ok(bytes.len())
        }
    }

    #[test]
    fn no_more_is_read_than_tells_that_it_is_too_much() {
        let mut endless = Endless(0);
        assert!(matches!(stream(&mut endless, 1000), Err(Unread::TooLarge)));
        assert_eq!(endless.0, 1001);
        assert_eq!(stream(&[7; 1000][..], 1000).unwrap(), [7; 1000]);
    }

    #[test]
    fn what_is_found_is_a_plain_file() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("a");
        fs::write(&file, "text").unwrap();
        assert_eq!(found(&file, 4).unwrap(), b"text");
        assert!(matches!(found(&file, 3), Err(Unread::TooLarge)));
        for path in [folder.path(), Path::new("/dev/null")] {
            assert!(matches!(found(path, 9), Err(Unread::System(_))));
        }
    }
}
