//! Size, time and hash of a file.

use blake3::Hasher;
use std::fs::{File, Metadata};
use std::io::{self, Read};
use std::path::Path;
use std::time::UNIX_EPOCH;

/// Bytes read at once.
const AT_ONCE: usize = 256 * 1024;

/// Size, time and hash of a finished file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Look {
    /// Its length in bytes.
    pub bytes: u64,
    /// When it was written, in nanoseconds since 1970; 0 if the system does not know.
    pub modified_ns: u64,
    /// The BLAKE3 hash of its bytes, in hexadecimal.
    pub blake3: String,
}

/// Length and time of a file.
pub fn size_and_time(metadata: &Metadata) -> (u64, u64) {
    let since = metadata
        .modified()
        .ok()
        .and_then(|time| time.duration_since(UNIX_EPOCH).ok());
    let modified_ns = since.and_then(|s| u64::try_from(s.as_nanos()).ok());
    (metadata.len(), modified_ns.unwrap_or(0))
}

/// The BLAKE3 hash of a whole file, in hexadecimal; `go_on` is called at intervals.
pub fn hash_of(path: &Path, go_on: &dyn Fn() -> bool) -> io::Result<String> {
    hash_from_here(&mut File::open(path)?, go_on)
}

/// The same for an open file, from its current position.
pub(super) fn hash_from_here(file: &mut File, go_on: &dyn Fn() -> bool) -> io::Result<String> {
    let mut hasher = Hasher::new();
    let mut bytes = vec![0; AT_ONCE];
    loop {
        let n = file.read(&mut bytes)?;
        if n == 0 || !go_on() {
            return Ok(hasher.finalize().to_hex().to_string());
        }
        hasher.update(&bytes[..n]);
    }
}
