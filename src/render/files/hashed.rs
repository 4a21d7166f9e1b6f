//! A file that is hashed while it is written.

use super::look::hash_from_here;
use blake3::Hasher;
use std::fs::File;
use std::io::{self, Seek, SeekFrom, Write};

/// A file whose bytes are hashed when they are first written. The head is hashed in advance, because what is
/// written over it later is known. If anything else is overwritten, the file is read back at the end.
pub struct Hashed {
    pub(super) file: File,
    position: u64,
    foretold: u64,
    hashed_to: u64,
    hasher: Hasher,
    hashed_in_vain: bool,
}

impl Hashed {
    /// An empty file that will begin with `head`.
    pub(super) fn new(file: File, head: &[u8]) -> Self {
        let mut hasher = Hasher::new();
        hasher.update(head);
        Self {
            file,
            position: 0,
            foretold: head.len() as u64,
            hashed_to: head.len() as u64,
            hasher,
            hashed_in_vain: false,
        }
    }

    /// The hash of its bytes, in hexadecimal.
    pub(super) fn hash(&mut self) -> io::Result<String> {
        if !self.hashed_in_vain {
            return Ok(self.hasher.finalize().to_hex().to_string());
        }
        self.file.seek(SeekFrom::Start(0))?;
        hash_from_here(&mut self.file, &|| true)
    }
}

impl Write for Hashed {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let n = self.file.write(bytes)?;
        let end = self.position + n as u64;
        // What is written over the head is what was foretold; anything else that is overwritten was hashed in vain.
        self.hashed_in_vain |= self.position.max(self.foretold) < end.min(self.hashed_to);
        if end > self.hashed_to {
            let known = self.hashed_to.saturating_sub(self.position) as usize;
            self.hasher.update(&bytes[known..n]);
            self.hashed_to = end;
        }
        self.position = end;
        Ok(n)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

impl Seek for Hashed {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.position = self.file.seek(to)?;
        Ok(self.position)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hashed(head: &[u8], writes: &[(u64, &[u8])]) -> (bool, String, Vec<u8>) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("file");
        let file = File::options()
            .read(true)
            .write(true)
            .create_new(true)
            .open(&path)
            .unwrap();
        let mut hashed = Hashed::new(file, head);
        for (at, bytes) in writes {
            hashed.seek(SeekFrom::Start(*at)).unwrap();
            hashed.write_all(bytes).unwrap();
        }
        let hash = hashed.hash().unwrap();
        (hashed.hashed_in_vain, hash, std::fs::read(&path).unwrap())
    }

    /// A head without sizes, frames, and then the final head: what every track does. Nothing is read back.
    #[test]
    fn a_head_that_was_foretold_may_be_written_over_the_first() {
        for (writes, reads) in [
            (
                vec![(0, &b"head00"[..]), (6, b"frames"), (0, b"head12")],
                false,
            ),
            (
                vec![(0, &b"head00frames"[..]), (12, b"tail"), (0, b"head12")],
                false,
            ),
            (
                vec![(0, &b"head00"[..]), (6, b"frames"), (4, b"12fr")],
                true,
            ),
            (vec![(0, &b"head12"[..]), (6, b"frames"), (8, b"AM")], true),
        ] {
            let (in_vain, hash, bytes) = hashed(b"head12", &writes);
            assert_eq!(in_vain, reads, "{writes:?}");
            assert_eq!(
                hash,
                blake3::hash(&bytes).to_hex().to_string(),
                "{writes:?}"
            );
        }
    }
}
