//! Lines that several tracks of a run need. The first track that renders a line stores its frames; the last
//! track that copies it removes them.
//!
//! The frames are in temporary files, one for each track that stores any, in that track's folder. So they use
//! no memory, and no other run touches them. If such a file cannot be written, its lines are rendered again.

use crate::render::files::passing;
use crate::render::part::TrackPart;
use blake3::Hash;
use std::collections::HashMap;
use std::fs::{self, File};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard};

/// Lines that several tracks need, and those that are already stored.
pub struct Shelf(Mutex<HashMap<Hash, Line>>);

struct Line {
    /// How many tracks have still to copy it.
    needed: usize,
    there: Option<ShelvedLine>,
}

/// A line in a temporary file: its pieces in order, each with the bytes of all parts.
#[derive(Clone)]
pub struct ShelvedLine {
    file: Arc<Passing>,
    at: u64,
    parts: Vec<TrackPart>,
    /// Bytes of each part of each piece.
    pieces: Vec<Vec<usize>>,
}

struct Passing {
    file: Mutex<File>,
    path: PathBuf,
}

impl Drop for Passing {
    fn drop(&mut self) {
        // Removed while its lock is held. If that fails, the next run removes it.
        let _ = fs::remove_file(&self.path);
    }
}

impl Shelf {
    /// A shelf for lines by their hashes, each with the number of tracks that will copy it.
    pub fn new(needed: HashMap<Hash, usize>) -> Self {
        let lines = needed.into_iter().map(|(hash, needed)| {
            let there = None;
            (hash, Line { needed, there })
        });
        Self(Mutex::new(lines.collect()))
    }

    /// The line, if it is there with exactly these parts.
    pub fn find(&self, hash: &Hash, parts: &[TrackPart]) -> Option<ShelvedLine> {
        let lines = self.lines();
        let there = lines.get(hash)?.there.as_ref()?;
        (there.parts == parts).then(|| there.clone())
    }

    /// Marks these lines as no longer needed by one track.
    pub fn done_with(&self, hashes: &[Hash]) {
        let mut lines = self.lines();
        for hash in hashes {
            if let Some(line) = lines.get_mut(hash) {
                line.needed = line.needed.saturating_sub(1);
                if line.needed == 0 {
                    lines.remove(hash);
                }
            }
        }
    }

    fn wants(&self, hash: &Hash) -> bool {
        let lines = self.lines();
        lines.get(hash).is_some_and(|line| line.there.is_none())
    }

    fn lines(&self) -> MutexGuard<'_, HashMap<Hash, Line>> {
        self.0
            .lock()
            .expect("nothing in these few lines panics while it is held")
    }
}

/// Stores the lines of one track.
pub struct Laying<'s> {
    shelf: &'s Shelf,
    folder: &'s Path,
    parts: Vec<TrackPart>,
    file: Option<Arc<Passing>>,
    end: u64,
    line: Option<(Hash, ShelvedLine)>,
}

impl<'s> Laying<'s> {
    /// For a track in `folder` that writes these parts.
    pub fn new(shelf: &'s Shelf, folder: &'s Path, parts: &[TrackPart]) -> Self {
        Self {
            shelf,
            folder,
            parts: parts.to_vec(),
            file: None,
            end: 0,
            line: None,
        }
    }

    /// True if another track needs this line: then every piece of it must be stored.
    pub fn begin(&mut self, hash: &Hash) -> bool {
        self.line = None;
        if !self.shelf.wants(hash) {
            return false;
        }
        let file = match &self.file {
            Some(file) => Arc::clone(file),
            None => match passing::create(self.folder) {
                Ok((file, path)) => {
                    let file = Mutex::new(file);
                    let file = Arc::new(Passing { file, path });
                    self.file.insert(file).clone()
                }
                Err(_) => return false,
            },
        };
        let laid = ShelvedLine {
            file,
            at: self.end,
            parts: self.parts.clone(),
            pieces: vec![],
        };
        self.line = Some((*hash, laid));
        true
    }

    /// Stores the next piece of the line: the bytes of each part.
    pub fn piece<'b>(&mut self, parts: impl Iterator<Item = &'b [u8]>) {
        let Some((_, laid)) = &mut self.line else {
            return;
        };
        let mut lengths = vec![];
        for bytes in parts {
            if laid.file.write(self.end, bytes).is_err() {
                self.line = None;
                return;
            }
            self.end += bytes.len() as u64;
            lengths.push(bytes.len());
        }
        laid.pieces.push(lengths);
    }

    /// Marks the line as complete, so that others may copy it.
    pub fn end(&mut self) {
        let Some((hash, laid)) = self.line.take() else {
            return;
        };
        if let Some(line) = self.shelf.lines().get_mut(&hash) {
            line.there = Some(laid);
        }
    }
}

impl ShelvedLine {
    /// Passes on the bytes of all pieces, each with the index of its part.
    pub fn read<E: From<io::Error>>(
        &self,
        mut to: impl FnMut(usize, &[u8]) -> Result<(), E>,
    ) -> Result<(), E> {
        let mut at = self.at;
        let mut bytes = vec![];
        for piece in &self.pieces {
            for (part, length) in piece.iter().enumerate() {
                bytes.resize(*length, 0);
                self.file.read(at, &mut bytes)?;
                to(part, &bytes)?;
                at += *length as u64;
            }
        }
        Ok(())
    }
}

impl Passing {
    fn write(&self, at: u64, bytes: &[u8]) -> io::Result<()> {
        let mut file = self.file();
        file.seek(SeekFrom::Start(at))?;
        file.write_all(bytes)
    }

    fn read(&self, at: u64, bytes: &mut [u8]) -> io::Result<()> {
        let mut file = self.file();
        file.seek(SeekFrom::Start(at))?;
        file.read_exact(bytes)
    }

    fn file(&self) -> MutexGuard<'_, File> {
        self.file
            .lock()
            .expect("nothing in these few lines panics while it is held")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(laid: &ShelvedLine) -> Vec<(usize, Vec<u8>)> {
        let mut read = vec![];
        let copied = laid.read(|part, bytes| {
            read.push((part, bytes.to_vec()));
            io::Result::Ok(())
        });
        copied.unwrap();
        read
    }

    #[test]
    fn lines_are_there_until_the_last_has_copied_them() {
        let folder = tempfile::tempdir().unwrap();
        let [a, b, c] = [b"a", b"b", b"c"].map(|name| blake3::hash(name));
        let shelf = Shelf::new(HashMap::from([(a, 2), (b, 1)]));
        let parts = [TrackPart::Mix, TrackPart::Click];
        let mut laying = Laying::new(&shelf, folder.path(), &parts);
        assert!(!laying.begin(&c), "nobody needs it");
        for hash in [&a, &b] {
            assert!(laying.begin(hash));
            assert!(shelf.find(hash, &parts).is_none(), "it is not whole");
            let bytes = hash.as_bytes();
            laying.piece([&bytes[..4], &bytes[4..8]].into_iter());
            laying.piece([&bytes[8..9], &bytes[9..10]].into_iter());
            laying.end();
        }
        assert!(!laying.begin(&a), "it is there");
        drop(laying);
        for hash in [&a, &b] {
            let bytes = hash.as_bytes();
            let laid = shelf.find(hash, &parts).unwrap();
            let expected = [(0, 0..4), (1, 4..8), (0, 8..9), (1, 9..10)];
            assert_eq!(
                read(&laid),
                expected.map(|(part, at)| (part, bytes[at].to_vec()))
            );
        }
        assert!(shelf.find(&a, &[TrackPart::Mix]).is_none());
        shelf.done_with(&[a, b, c]);
        assert!(shelf.find(&a, &parts).is_some() && shelf.find(&b, &parts).is_none());
        let files = || fs::read_dir(folder.path()).unwrap().count();
        assert_eq!(files(), 1);
        shelf.done_with(&[a]);
        assert_eq!(files(), 0);
    }

    #[test]
    fn a_line_that_cannot_be_laid_down_is_rendered_again() {
        let folder = tempfile::tempdir().unwrap();
        let hash = blake3::hash(b"a");
        let shelf = Shelf::new(HashMap::from([(hash, 1)]));
        let none = folder.path().join("none");
        let mut laying = Laying::new(&shelf, &none, &[TrackPart::Mix]);
        assert!(!laying.begin(&hash));
        laying.piece([&b"x"[..]].into_iter());
        laying.end();
        assert!(shelf.find(&hash, &[TrackPart::Mix]).is_none());
    }
}
