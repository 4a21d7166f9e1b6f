//! A file being written: hashed on the way, and renamed only when it is complete.

use super::hashed::Hashed;
use super::look::{Look, size_and_time};
use super::passing;
use std::fs;
use std::io::{self, BufWriter, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// Size of the write buffer in bytes.
const GATHERED: usize = 256 * 1024;

/// Where the bytes of a file being written go.
pub type Sink = BufWriter<Hashed>;

/// A file under a temporary name. It is removed if it is dropped before it is finished.
pub struct Growing {
    sink: Option<Sink>,
    head: Vec<u8>,
    path: PathBuf,
}

impl Growing {
    /// A new file in `folder` that will begin with `head`; empty if the head is only known at the end.
    pub fn begin(folder: &Path, head: Vec<u8>) -> io::Result<Self> {
        let (file, path) = passing::create(folder)?;
        let hashed = Hashed::new(file, &head);
        Ok(Self {
            sink: Some(BufWriter::with_capacity(GATHERED, hashed)),
            head,
            path,
        })
    }

    /// The writer for its bytes.
    pub fn sink(&mut self) -> &mut Sink {
        self.sink
            .as_mut()
            .expect("only finishing takes the sink, and it takes the file with it")
    }

    /// Appends `tail` and writes the head again, because it holds the total length.
    pub fn complete(&mut self, tail: &[u8]) -> io::Result<()> {
        let head = std::mem::take(&mut self.head);
        let sink = self.sink();
        sink.seek(SeekFrom::End(0))?;
        sink.write_all(tail)?;
        sink.seek(SeekFrom::Start(0))?;
        sink.write_all(&head)?;
        sink.flush()
    }

    /// Renames the completed file, replacing any file of that name.
    pub fn finish(mut self, name: &Path) -> io::Result<Look> {
        let sink = self
            .sink
            .take()
            .expect("only finishing takes the sink, and it takes the file with it");
        let mut hashed = sink.into_inner().map_err(io::IntoInnerError::into_error)?;
        let blake3 = hashed.hash()?;
        // The lock is held until the temporary name is gone, so that nobody removes the file before.
        let given = fs::rename(&self.path, name);
        if given.is_err() {
            let _ = fs::remove_file(&self.path);
        }
        given?;
        let (bytes, modified_ns) = size_and_time(&hashed.file.metadata()?);
        Ok(Look {
            bytes,
            modified_ns,
            blake3,
        })
    }
}

impl Drop for Growing {
    fn drop(&mut self) {
        if let Some(sink) = self.sink.take() {
            // The buffered bytes belong to a file that is about to be removed.
            let (hashed, _) = sink.into_parts();
            // Removed while its lock is held. If that fails, the next run removes it.
            let _ = fs::remove_file(&self.path);
            drop(hashed);
        }
    }
}
